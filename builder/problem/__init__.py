"""What the teacher wrote: the model of a problem and of a unit, and the reader of their files."""

from builder.problem.reader import read_problem, read_problem_text, read_unit
from builder.problem.schema import problem_schema, unit_schema

__all__ = ["problem_schema", "read_problem", "read_problem_text", "read_unit", "unit_schema"]
