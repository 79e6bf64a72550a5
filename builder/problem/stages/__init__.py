"""Charged capacitors and switches: what is read of them."""
