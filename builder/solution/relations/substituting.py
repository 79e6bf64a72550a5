"""One relation put into another until a single unknown is left."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.problem.relations.model import Relation, RelationsProblem
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Ref, evaluate, names_in
from builder.quantity.names import Name
from builder.quantity.putting import put_in
from builder.solution.program import Line, Statement
from builder.solution.relations.algebra import Rearranged, in_order, is_told, rearranged, times_used
from builder.solution.relations.choosing import choose, may_be
from builder.solution.relations.step import RelationMove, RelationStep, step_id
from builder.solution.relations.trouble import dependent, impossible, no_value
from builder.solution.relations.writing import tidied

_Put = tuple[Name, Formula]


def by_substitution(
    relations: tuple[Relation, ...],
    unknowns: tuple[Name, ...],
    problem: RelationsProblem,
    known: Mapping[Name, Exact],
) -> RelationStep:
    """The step that solves a block by putting one relation into the next.

    Raises:
        FaultyFile: if that leads nowhere, or to nothing possible.
    """
    left, put = list(relations), list[_Put]()
    waiting = list(unknowns)
    while len(waiting) > 1:
        found = next(_isolated(left, waiting), None)
        if found is None:
            raise no_value(problem, relations[-1], unknowns[0],
                           "the relations cannot be solved together by the usual "
                           "rules")  # fmt: skip
        relation, name, formula = found
        left = [_with(other, name, formula) for other in left if other is not relation]
        put.append((name, formula))
        waiting.remove(name)
    (last,), (only,) = waiting, left
    if times_used(only.left, last) + times_used(only.right, last) == 0:
        raise dependent(problem, unknowns, relations)
    solved = rearranged(only.left, only.right, last)
    if solved is None:
        raise no_value(problem, relations[-1], last,
                       f"{last.of} cannot be isolated by the usual rules")  # fmt: skip
    chosen = choose(last, solved, relations[-1], problem, known)
    lines = [*chosen.lines, *(Line(name, formula) for name, formula in reversed(put))]
    _refuse_impossible(lines, unknowns, problem, relations[-1], known)
    statements = _statements(relations, put, only, last, solved)
    return RelationStep(
        id=step_id(unknowns[0], problem),
        kind=RelationMove.SUBSTITUTE,
        lines=tuple(lines),
        statements=statements,
        relations=relations,
        undone=solved.undone,
        choice=chosen.choice,
        solved_for=unknowns,
    )


def _statements(
    relations: tuple[Relation, ...],
    put: list[_Put],
    only: Relation,
    last: Name,
    solved: Rearranged,
) -> tuple[Statement, ...]:
    """What is written down: the relations, what is put in, and what is left for the last."""
    told: list[tuple[Formula, Formula]] = [(one.left, one.right) for one in relations]
    told += [(Ref(name), formula) for name, formula in put]
    told.append((only.left, only.right))
    written = [Statement(left, right, in_numbers=False) for left, right in dict.fromkeys(told)]
    if solved.quadratic is not None:
        written.append(in_order(last, solved.quadratic))
    return tuple(written)


def _isolated(
    relations: list[Relation], waiting: list[Name]
) -> Iterator[tuple[Relation, Name, Formula]]:
    """Relations with one of their unknowns isolated, without roots, shortest first."""
    found: list[tuple[tuple[bool, int, int], Relation, Name, Formula]] = []
    for relation in relations:
        for name in waiting:
            used = times_used(relation.left, name) + times_used(relation.right, name)
            solved = rearranged(relation.left, relation.right, name) if used else None
            if solved is not None and len(solved.formulas) == 1 and "square" not in solved.undone:
                formula = solved.formulas[0]
                others = sum(1 for one in names_in(formula) if one in waiting)
                rank = (not is_told(name, relation), others, len(found))
                found.append((rank, relation, name, formula))
    for _, relation, name, formula in sorted(found, key=lambda item: item[0]):
        yield relation, name, formula


def _refuse_impossible(
    lines: list[Line],
    unknowns: tuple[Name, ...],
    problem: RelationsProblem,
    relation: Relation,
    known: Mapping[Name, Exact],
) -> None:
    values = dict(known)
    for line in lines:
        try:
            values[line.name] = evaluate(line.formula, values)
        except ZeroDivisionError:
            raise no_value(problem, relation, line.name,
                           "something would be divided by zero") from None  # fmt: skip
        if line.name in unknowns and not may_be(line.name, values[line.name]):
            raise impossible(problem, relation, line.name, (values[line.name],))


def _with(relation: Relation, name: Name, formula: Formula) -> Relation:
    return Relation(
        tidied(put_in(relation.left, name, formula)),
        tidied(put_in(relation.right, name, formula)),
        relation.written,
    )  # fmt: skip
