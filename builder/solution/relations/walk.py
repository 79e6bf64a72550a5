"""From what is given to every unknown, one step after the other.

A relation with a single unknown gives it. Where none has just one, the smallest set of
relations that holds as many unknowns as there are relations in it is solved together.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from builder.problem.limits import MOST_ROOTS
from builder.problem.relations.model import EXTRA, Relation, RelationsProblem
from builder.quantity.exact import Exact, within_measure
from builder.quantity.formula import evaluate, names_in
from builder.quantity.names import Name
from builder.quantity.symbolic import same
from builder.solution.program import Statement
from builder.solution.relations.algebra import Rearranged, in_order, is_told, rearranged
from builder.solution.relations.blocks import smallest_block, solve_block
from builder.solution.relations.choosing import choose
from builder.solution.relations.sides import kind_of_sides
from builder.solution.relations.step import RelationMove, RelationStep, step_id
from builder.solution.relations.trouble import (
    beyond_measure,
    contradiction,
    no_value,
    too_many_roots,
    undetermined,
)


@dataclass
class Walk:
    """What is known so far, and what is left to use.

    Attributes:
        problem: what is solved.
        known: the values found so far.
        left: the relations that no step has used.
        steps: in the order in which they became possible.
    """

    problem: RelationsProblem
    known: dict[Name, Exact]
    left: list[Relation]
    steps: list[RelationStep] = field(default_factory=list)

    def unknowns_of(self, relation: Relation) -> tuple[Name, ...]:
        """What is not known yet in a relation, each once."""
        used = (*names_in(relation.left), *names_in(relation.right))
        return tuple(dict.fromkeys(name for name in used if name not in self.known))

    def take(self, step: RelationStep, relations: Iterable[Relation]) -> None:
        """Take a step, its values included.

        Raises:
            FaultyFile: if one of them is larger or smaller than anything that can be written, or
                has too many roots inside each other to be compared exactly.
        """
        for line in step.lines:
            self.known[line.name] = value = evaluate(line.formula, self.known)
            if not within_measure(value):
                raise beyond_measure(self.problem, step.relations[0], line.name)
            if _roots_deep(value) > MOST_ROOTS:
                raise too_many_roots(self.problem, step.relations[0], line.name)
        for relation in relations:
            self.left.remove(relation)
        self.steps.append(step)


def _roots_deep(value: Exact) -> int:
    """How many roots stand inside each other in a number."""
    inside = max(map(_roots_deep, value.args), default=0)
    return inside + int(bool(value.is_Pow and not value.exp.is_integer))


def walk(problem: RelationsProblem) -> Walk:
    """All steps to all unknowns.

    Raises:
        FaultyFile: if the relations do not determine an unknown, contradict each other, or
            leave none or several possible values.
    """
    known = {stated.name: stated.value for stated in problem.quantities if stated.known}
    at = Walk(problem, known, list(problem.relations))
    while any(name not in at.known for name in problem.unknowns):
        wave = list(_wave(at))
        for name, relation in wave:
            at.take(_single(name, relation, at), (relation,))
        if not wave:
            _together(at)
    for relation in at.left:
        _refuse_contradiction(relation, at)
    return at


def _wave(at: Walk) -> Iterator[tuple[Name, Relation]]:
    """Each unknown that is alone in a relation, with the easiest such relation."""
    ranked: dict[Name, tuple[int, int]] = {}
    for position, relation in enumerate(at.left):
        unknowns = at.unknowns_of(relation)
        if len(unknowns) == 1:
            (name,) = unknowns
            rank = (_effort(name, relation), position)
            ranked[name] = min(rank, ranked.get(name, rank))
    found = [(name, at.left[position]) for name, (_, position) in ranked.items()]
    yield from sorted(found, key=lambda pair: at.left.index(pair[1]))


def _effort(name: Name, relation: Relation) -> int:
    """0 where the unknown stands alone, 1 where it is isolated, 2 for a root, 3 for none."""
    if is_told(name, relation):
        return 0
    solved = rearranged(relation.left, relation.right, name)
    if solved is None:
        return 3
    return len(solved.formulas)


def _single(name: Name, relation: Relation, at: Walk) -> RelationStep:
    """The step from a relation with one unknown."""
    solved = rearranged(relation.left, relation.right, name)
    if solved is None:
        raise no_value(at.problem, relation, name,
                       f"{name.of} cannot be isolated by the usual rules")  # fmt: skip
    chosen = choose(name, solved, relation, at.problem, at.known)
    statements: tuple[Statement, ...] = ()
    if not is_told(name, relation):
        statements = (Statement(relation.left, relation.right, in_numbers=False),)
    if solved.quadratic is not None:
        statements += (in_order(name, solved.quadratic),)
    return RelationStep(
        id=step_id(name, at.problem),
        kind=_move(name, relation, solved),
        lines=chosen.lines,
        statements=statements,
        relations=(relation,),
        undone=solved.undone,
        choice=chosen.choice,
        solved_for=(name,),
    )


def _move(name: Name, relation: Relation, solved: Rearranged) -> RelationMove:
    if is_told(name, relation):
        return RelationMove.GIVES
    return RelationMove.QUADRATIC if solved.quadratic else RelationMove.REARRANGE


def _together(at: Walk) -> None:
    """Solve the smallest set of relations that can be solved together."""
    holding = {id(relation): at.unknowns_of(relation) for relation in at.left}
    # What follows from other relations would only seem to determine something.
    waiting = [one for one in at.left if holding[id(one)] and EXTRA not in one.about[2:]]
    block = smallest_block(waiting, at.unknowns_of)
    if block is None:
        missing = tuple(name for name in at.problem.unknowns if name not in at.known)
        concerned = tuple(r for r in waiting if set(holding[id(r)]) & set(missing))
        raise undetermined(at.problem, missing, concerned)
    at.take(solve_block(block, at.problem, at.known), block.relations)


def _refuse_contradiction(relation: Relation, at: Walk) -> None:
    left, right = evaluate(relation.left, at.known), evaluate(relation.right, at.known)
    if not same(left, right):
        kind = kind_of_sides(relation)
        raise contradiction(at.problem, relation, left, right, kind)


def needed_steps(steps: Iterable[RelationStep], asked: Iterable[Name]) -> tuple[RelationStep, ...]:
    """The steps that what is asked needs, each right before it is used, in the order asked."""
    by_name = {name: step for step in steps for name in step.found}
    taken: list[RelationStep] = []

    def add(name: Name) -> None:
        step = by_name.get(name)
        if step is None or step in taken:
            return
        inside = set(step.found)
        for line in step.lines:
            for used in names_in(line.formula):
                if used not in inside:
                    add(used)
        if step not in taken:
            taken.append(step)

    for name in asked:
        add(name)
    return tuple(taken)
