"""Why a set of relations has no single solution, each told as a fault at its line."""

from __future__ import annotations

from collections.abc import Iterable

from builder.errors import Fault, FaultyFile
from builder.problem.faults.gathering import Mark, all_of, one_of, quoted
from builder.problem.limits import MOST_ROOTS
from builder.problem.relations.model import Relation, RelationsProblem
from builder.problem.relations.quantities import KIND_WORDS
from builder.quantity.exact import MOST_ORDERS, Exact
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name
from builder.quantity.show import show


def fault(
    problem: RelationsProblem, at: Mark, found: str, expected: str, advice: str
) -> FaultyFile:
    """A fault of a problem's file."""
    return FaultyFile((Fault(problem.path, at.line, at.column, found, expected, advice),))


def beyond_measure(problem: RelationsProblem, relation: Relation, name: Name) -> FaultyFile:
    """The fault of a relation that makes a quantity beyond all measure."""
    return fault(problem, relation.at, f"a relation by which {name.of} has more than {MOST_ORDERS} "
                 "digits, or as many zeros after the point", "quantities of this world",
                 "Check the exponents, and the units of what goes into it.")  # fmt: skip


def too_many_roots(problem: RelationsProblem, relation: Relation, name: Name) -> FaultyFile:
    """The fault of a relation that puts one more root round a quantity that holds several."""
    return fault(problem, relation.at, f"a relation by which {name.of} has more than {MOST_ROOTS} "
                 "roots inside each other", f"at most {MOST_ROOTS}",
                 "Give one of the quantities before it a value.")  # fmt: skip


def undetermined(
    problem: RelationsProblem, unknowns: tuple[Name, ...], relations: tuple[Relation, ...]
) -> FaultyFile:
    """The fault of unknowns that the relations do not determine.

    Args:
        problem: what was to be solved.
        unknowns: what is not found, in the author's order.
        relations: those with any of these in them.
    """
    first = _asked_first(problem, unknowns)
    stated = problem.quantity(first)
    if not relations:
        return fault(problem, stated.at, f"{quoted(first.of)}, which is in no relation",
                     "a relation for every quantity that is to be found",
                     f"Add a relation with {first.of} in it, or give it a value.")  # fmt: skip
    left = _count(len(relations), "relation")
    names = all_of(name.of for name in unknowns)
    return fault(
        problem, stated.at,
        f"{left} for {_count(len(unknowns), 'unknown')}: {names} cannot be found",
        "as many independent relations as quantities that are to be found",
        f"Give one of them a value, or add a relation with {_one(unknowns)} in it.",
    )  # fmt: skip


def dependent(
    problem: RelationsProblem, unknowns: tuple[Name, ...], relations: tuple[Relation, ...]
) -> FaultyFile:
    """The fault of relations that leave their unknowns open, or contradict each other."""
    last = relations[-1]
    unknowns = tuple({name.of: name for name in unknowns}.values())
    return fault(
        problem, last.at,
        f"{quoted(last.written)}, which says of {all_of(name.of for name in unknowns)} what the "
        "other relations say already, or the opposite",
        "relations that are independent of each other",
        f"Give one of {all_of(name.of for name in unknowns)} a value instead, or correct the "
        "relation.",
    )  # fmt: skip


def contradiction(
    problem: RelationsProblem, relation: Relation, left: Exact, right: Exact, kind: str
) -> FaultyFile:
    """The fault of a relation that what is found without it contradicts."""
    return fault(
        problem, relation.at,
        f"{_said(relation)}, whose left side comes to {value_text(left, kind)} and whose "
        f"right side to {value_text(right, kind)}",
        "relations and values that agree",
        "Everything in it is known without it. Correct one of the given values, or delete one "
        "so that it can be found.",
    )  # fmt: skip


def impossible(
    problem: RelationsProblem, relation: Relation, name: Name, values: Iterable[Exact]
) -> FaultyFile:
    """The fault of an unknown for which only impossible values are left."""
    kind = KINDS[name.quantity]
    told = [value_text(value, name.quantity) for value in values]
    return fault(
        problem, relation.at,
        f"{_said(relation)}, which gives {name.of} = {one_of(told)}",
        f"{kind.a_noun} above zero",
        "With these values there is no such thing. Check the values that are given.",
    )  # fmt: skip


def no_value(problem: RelationsProblem, relation: Relation, name: Name, why: str) -> FaultyFile:
    """The fault of an unknown for which there is no number at all."""
    return fault(
        problem, relation.at,
        f"{_said(relation)}, for which no {name.of} can be found: {why}",
        "values for which the relation can hold",
        "Check the values that are given.",
    )  # fmt: skip


def several(problem: RelationsProblem, name: Name, values: tuple[Exact, ...]) -> FaultyFile:
    """The fault of an unknown for which two values are possible."""
    told = all_of(value_text(value, name.quantity) for value in values)
    if any(relation.about for relation in problem.relations):
        noun = KINDS[name.quantity].noun
        return fault(problem, problem.relations[0].at,
                     f"facts that leave two possible values for the {noun} of {name.of}: {told}",
                     "facts that leave one",
                     "Measure something else, or give another value.")  # fmt: skip
    word = next(word for word, kind in KIND_WORDS.items() if kind == name.quantity)
    return fault(
        problem, problem.quantity(name).at,
        f"two possible values for {name.of}: {told}",
        "one that is meant",
        f"Write {name.of}: {{kind: {word}, choose: larger}}, or smaller, or add a "
        "relation that decides.",
    )  # fmt: skip


def _said(relation: Relation) -> str:
    """A relation as its author typed it, or what it is about if nobody typed it."""
    in_words = "=" not in relation.written
    return relation.written if in_words else quoted(relation.written)


def value_text(value: Exact, kind: str) -> str:
    """A value in a fault."""
    return show(value, kind).text


def _asked_first(problem: RelationsProblem, unknowns: tuple[Name, ...]) -> Name:
    return next((name for name in problem.find if name in unknowns), unknowns[0])


def _count(number: int, noun: str) -> str:
    words = ("no", "one", "two", "three", "four", "five", "six")
    word = words[number] if number < len(words) else str(number)
    return f"{word} {noun}{'' if number == 1 else 's'}"


def _one(unknowns: tuple[Name, ...]) -> str:
    return "it" if len(unknowns) == 1 else "one of them alone"
