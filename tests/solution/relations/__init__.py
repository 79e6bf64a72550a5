"""How problems of equations are solved."""
