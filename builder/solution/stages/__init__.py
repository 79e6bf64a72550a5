"""Charged capacitors and switches: how their charges settle, stage by stage."""
