"""Measurements of speed and memory: ``python -m tests.bench``."""
