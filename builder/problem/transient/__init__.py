"""Resistors with capacitors after a change: reading it."""
