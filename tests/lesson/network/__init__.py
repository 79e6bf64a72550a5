"""Tests of how networks are taught."""
