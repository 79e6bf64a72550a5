"""Tests of the figures of general networks."""
