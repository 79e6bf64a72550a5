"""What is true of a circuit: steps, the nodal method, checks. Data only: no prose, no markup."""

from builder.solution.program import Line, Step, StepKind
from builder.solution.solve import Solution, solve

__all__ = ["Line", "Solution", "Step", "StepKind", "solve"]
