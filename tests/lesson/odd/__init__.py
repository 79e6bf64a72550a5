"""Oddities of single problems."""
