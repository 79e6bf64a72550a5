"""Problems of relations as an author would write them."""

from __future__ import annotations

from builder.problem import read_problem_text
from builder.problem.model import Unit
from builder.problem.relations.model import RelationsProblem


def text_of(quantities: str, relations: tuple[str, ...], find: str) -> str:
    """The file of a problem; ``quantities`` as ``A: 8 cm^2; d: 1 mm``."""
    lines = ["title: Written for a test", "quantities:"]
    lines += [f"  {one.strip()}" for one in quantities.split(";")]
    lines += ["relations:", *(f"  - {relation}" for relation in relations), f"find: {find}", ""]
    return "\n".join(lines)


def relations_problem(quantities: str, relations: tuple[str, ...], find: str) -> RelationsProblem:
    """A problem of relations, read from its file."""
    text = text_of(quantities, relations, find)
    problem = read_problem_text(text, "written.yml", Unit(title="Tests"))
    assert isinstance(problem, RelationsProblem)
    return problem
