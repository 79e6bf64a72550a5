"""Faults as they are gathered, and what makes them teach: the line, its correction, an example."""
