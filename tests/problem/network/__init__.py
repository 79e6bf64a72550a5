"""How general networks are read."""
