"""Figures of problems of equations."""
