"""Other numbers for the same problem: searched in floating point, confirmed exactly."""

from builder.solution.fresh.stream import MOST_SETS, fresh_solutions

__all__ = ["MOST_SETS", "fresh_solutions"]
