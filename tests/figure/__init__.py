"""Tests of the figures."""
