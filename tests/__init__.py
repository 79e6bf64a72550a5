"""Tests, in the same folders as the code."""
