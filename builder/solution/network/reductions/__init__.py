"""Reductions: a network becomes one element, move by move, and every move is walked back."""
