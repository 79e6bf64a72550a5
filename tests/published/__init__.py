"""Tests against values that others published."""
