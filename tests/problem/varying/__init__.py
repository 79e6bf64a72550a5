"""Tests of what an author says of other numbers."""
