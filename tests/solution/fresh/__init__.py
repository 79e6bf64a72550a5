"""Tests of the search for other numbers."""
