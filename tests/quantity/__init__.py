"""Tests of reading, computing and showing exact values."""
