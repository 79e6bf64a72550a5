"""How problems of equations are taught."""
