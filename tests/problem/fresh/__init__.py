"""Tests of what a problem may be with other values."""
