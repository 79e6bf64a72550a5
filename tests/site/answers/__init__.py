"""Typed answers: what may be typed, and what is replied."""
