"""Tests of what a lesson says."""
