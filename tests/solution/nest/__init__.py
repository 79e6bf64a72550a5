"""Tests of how nests of series and parallel groups are solved."""
