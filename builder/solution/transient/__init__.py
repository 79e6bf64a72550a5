"""Resistors with one store of charge: the first instant, long after, and the curve between."""
