"""Tests of the figures of lessons."""
