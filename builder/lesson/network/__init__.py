"""How general networks are taught."""
