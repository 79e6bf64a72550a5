"""Which of the values that satisfy a relation is the physical one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.problem.relations.model import Relation, RelationsProblem
from builder.problem.relations.quantities import NEVER_NEGATIVE
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Ref, evaluate
from builder.quantity.names import Name
from builder.quantity.symbolic import same, sign_of
from builder.solution.program import Line
from builder.solution.relations.algebra import Rearranged
from builder.solution.relations.step import Choice
from builder.solution.relations.trouble import impossible, no_value, several


@dataclass(frozen=True)
class Chosen:
    """The lines that find an unknown, and how it was chosen if there were two values."""

    lines: tuple[Line, ...]
    choice: Choice | None = None


def candidate_names(name: Name) -> tuple[Name, Name]:
    """What the two solutions of a quadratic equation are called before one is chosen."""
    return Name(name.quantity, f"{name.of}'1"), Name(name.quantity, f"{name.of}'2")


def choose(
    name: Name,
    solved: Rearranged,
    relation: Relation,
    problem: RelationsProblem,
    known: Mapping[Name, Exact],
) -> Chosen:
    """The lines for an unknown from all formulas that satisfy its relation.

    Raises:
        FaultyFile: if no value is possible, or if two are and the author did not choose.
    """
    values = _values(name, solved, relation, problem, known)
    possible = [value for value in values if may_be(name, value)]
    if not possible:
        raise impossible(problem, relation, name, values)
    if len(values) == 1:
        return Chosen((Line(name, solved.formulas[0]),))
    if same(values[0], -values[1]) and solved.quadratic is None:
        only = name.quantity in NEVER_NEGATIVE
        return Chosen(
            (Line(name, solved.formulas[0]),),
            Choice(name, (), "only-positive" if only else "sign"),
        )
    value, why = _of_two(name, possible, problem)
    return _told(name, solved.formulas, values.index(value), why)


def may_be(name: Name, value: Exact) -> bool:
    """Whether a quantity of that kind can have that value."""
    return name.quantity not in NEVER_NEGATIVE or sign_of(value) == 1


def _of_two(name: Name, possible: list[Exact], problem: RelationsProblem) -> tuple[Exact, str]:
    if len(possible) == 1:
        return possible[0], "only-positive"
    wish = problem.quantity(name).choose
    if same(possible[0], possible[1]):
        return possible[0], "double"
    if not wish:
        smaller, larger = sorted(possible)
        raise several(problem, name, (smaller, larger))
    return (max(possible) if wish == "larger" else min(possible)), wish


def _told(name: Name, formulas: tuple[Formula, ...], position: int, why: str) -> Chosen:
    both = candidate_names(name)
    lines = [Line(one, formula) for one, formula in zip(both, formulas, strict=True)]
    lines.append(Line(name, Ref(both[position])))
    return Chosen(tuple(lines), Choice(name, both, why))


def _values(
    name: Name,
    solved: Rearranged,
    relation: Relation,
    problem: RelationsProblem,
    known: Mapping[Name, Exact],
) -> list[Exact]:
    try:
        return [evaluate(formula, known) for formula in solved.formulas]
    except ZeroDivisionError:
        raise no_value(problem, relation, name, "something would be divided by zero") from None
    except ValueError:
        raise no_value(problem, relation, name,
                       "the root of a negative number would be needed") from None  # fmt: skip
