"""How problems of equations are read."""
