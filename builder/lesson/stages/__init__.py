"""How charged capacitors and switches are taught."""
