"""Finished pages, kept for the next build."""
