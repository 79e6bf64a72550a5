"""Builds that are killed at random moments, and what the next build makes of it."""
