"""Formulas in the three ways in which they are written."""
