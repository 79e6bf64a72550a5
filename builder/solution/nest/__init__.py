"""Nests of series and parallel groups: merge to one equivalent, then walk back."""
