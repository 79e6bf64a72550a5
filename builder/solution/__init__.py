"""What is true of a circuit: steps, a second method, checks. Data only: no prose, no markup."""

from builder.solution.program import Line, Statement, Step
from builder.solution.solution import Solution
from builder.solution.solve import solve

__all__ = ["Line", "Solution", "Statement", "Step", "solve"]
