"""Worksheets and their keys: which problems they hold, how they read, how they are written."""
