"""Tests of how charged capacitors and switches are solved."""
