"""Tests of networks with one source or several."""
