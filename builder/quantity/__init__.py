"""Exact values with units: reading them, computing with them, showing them."""
