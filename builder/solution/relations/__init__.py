"""Unknowns found by equations: ordered, rearranged, solved, and solved again as one system."""
