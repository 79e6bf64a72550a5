"""Relations that share their unknowns, solved together."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from sympy import Matrix, Rational

from builder.problem.relations.model import Relation, RelationsProblem
from builder.quantity.exact import Exact
from builder.quantity.formula import (
    Formula,
    Power,
    Product,
    Quotient,
    Ref,
    Root,
    Solved,
    Square,
    System,
    evaluate,
    names_in,
    parts_of,
)
from builder.quantity.linear import solve_exactly
from builder.quantity.names import Name
from builder.solution.program import Line, Statement
from builder.solution.relations.algebra import as_fraction_of, is_told, times_used
from builder.solution.relations.choosing import may_be
from builder.solution.relations.step import RelationMove, RelationStep, step_id
from builder.solution.relations.substituting import by_substitution
from builder.solution.relations.trouble import dependent, impossible
from builder.solution.relations.writing import ONE, ZERO, divided, minus, raised, times


@dataclass(frozen=True)
class Block:
    """As many relations as unknowns that stand in them.

    Attributes:
        relations: in the author's order.
        unknowns: in the order in which the relations name them.
    """

    relations: tuple[Relation, ...]
    unknowns: tuple[Name, ...]


def smallest_block(
    relations: list[Relation], unknowns_of: Callable[[Relation], tuple[Name, ...]]
) -> Block | None:
    """The smallest set of relations that determines its own unknowns; None without one.

    Each relation is paired with one unknown as far as that goes (a largest matching); a relation
    then waits for those that are paired with its other unknowns. What waits for itself alone is
    a block (Dulmage and Mendelsohn, Canadian Journal of Mathematics 10, 517 (1958)).
    """
    import networkx as nx

    pairs = _paired(relations, unknowns_of)
    by_unknown = {name: position for position, name in pairs.items()}
    waits: nx.DiGraph[int] = nx.DiGraph()
    waits.add_nodes_from(pairs)
    for position in pairs:
        for name in unknowns_of(relations[position]):
            if name in by_unknown:
                waits.add_edge(position, by_unknown[name])
    blocks = []
    for part in nx.strongly_connected_components(waits):
        own = {pairs[position] for position in part}
        if all(own.issuperset(unknowns_of(relations[position])) for position in part):
            blocks.append(sorted(part))
    if not blocks:
        return None
    chosen = min(blocks, key=lambda part: (len(part), part))
    members = tuple(relations[position] for position in chosen)
    names = dict.fromkeys(name for member in members for name in unknowns_of(member))
    return Block(members, tuple(names))


def _paired(
    relations: list[Relation], unknowns_of: Callable[[Relation], tuple[Name, ...]]
) -> dict[int, Name]:
    import networkx as nx

    graph: nx.Graph[int | Name] = nx.Graph()
    for position, relation in enumerate(relations):
        graph.add_edges_from((position, name) for name in unknowns_of(relation))
    matched = nx.bipartite.hopcroft_karp_matching(graph, range(len(relations)))
    return {one: other for one, other in matched.items() if isinstance(one, int)}


def solve_block(
    block: Block, problem: RelationsProblem, known: Mapping[Name, Exact]
) -> RelationStep:
    """The step that solves a block: as a linear system, by powers, or by substitution.

    Raises:
        FaultyFile: if its relations leave it open, or leave nothing possible.
    """
    told = any(is_told(name, r) for r in block.relations for name in block.unknowns)
    for way in (_powers,) if told else (_linear, _powers):
        step = way(block, problem, known)
        if step is not None:
            return step
    return by_substitution(block.relations, block.unknowns, problem, known)


def _linear(
    block: Block, problem: RelationsProblem, known: Mapping[Name, Exact]
) -> RelationStep | None:
    rows, right = [], []
    for relation in block.relations:
        row = linear_in(relation, block.unknowns)
        if row is None:
            return None
        rows.append(row[0])
        right.append(row[1])
    system = System(tuple(rows), tuple(right))
    numbers = tuple(tuple(evaluate(part, known) for part in row) for row in rows)
    try:
        solved = solve_exactly(numbers, tuple(evaluate(part, known) for part in right))
    except ZeroDivisionError:
        raise dependent(problem, block.unknowns, block.relations) from None
    for name, value in zip(block.unknowns, solved, strict=True):
        if not may_be(name, value):
            raise impossible(problem, block.relations[-1], name, (value,))
    lines = tuple(Line(name, Solved(system, at)) for at, name in enumerate(block.unknowns))
    return _step(block, RelationMove.TOGETHER, lines, problem)


def linear_in(
    relation: Relation, unknowns: tuple[Name, ...]
) -> tuple[tuple[Formula, ...], Formula] | None:
    """The coefficient of each unknown and what they add up to, if the relation is linear."""
    rest = minus(relation.left, relation.right)
    row: list[Formula] = []
    for name in unknowns:
        parts = as_fraction_of(rest, name)
        if parts is None or 0 not in parts[1] or len(parts[1]) > 1:
            return None
        over, under = parts
        if any(times_used(under[0], other) for other in unknowns) or max(over, default=0) > 1:
            return None
        coefficient = divided(over.get(1, ZERO), under[0])
        if any(times_used(coefficient, other) for other in unknowns):
            return None
        row.append(coefficient)
        rest = divided(over.get(0, ZERO), under[0])
    return tuple(row), minus(ZERO, rest)


def _powers(
    block: Block, problem: RelationsProblem, known: Mapping[Name, Exact]
) -> RelationStep | None:
    """Unknowns of relations that only multiply, divide and raise: their exponents are linear."""
    exponents: list[list[Fraction]] = []
    right: list[Formula] = []
    for relation in block.relations:
        powers = exponents_in(divided(relation.left, relation.right), block.unknowns)
        if powers is None:
            return None
        exponents.append([powers[0].get(name, Fraction(0)) for name in block.unknowns])
        right.append(divided(ONE, powers[1]))
    matrix = Matrix([[Rational(e.numerator, e.denominator) for e in row] for row in exponents])
    if matrix.det() == 0:
        raise dependent(problem, block.unknowns, block.relations)
    inverse = matrix.inv()
    if any(evaluate(part, known) <= 0 for part in right):
        return None
    lines = []
    for row, name in enumerate(block.unknowns):
        factors = [
            raised(part, Fraction(int(inverse[row, at].p), int(inverse[row, at].q)))
            for at, part in enumerate(right)
            if inverse[row, at] != 0
        ]
        lines.append(Line(name, times(*factors)))
    return _step(block, RelationMove.POWERS, tuple(lines), problem)


def exponents_in(
    formula: Formula, unknowns: tuple[Name, ...]
) -> tuple[dict[Name, Fraction], Formula] | None:
    """A formula as powers of unknowns times a known rest; None if it is no such product."""
    if not any(name in unknowns for name in names_in(formula)):
        return {}, formula
    if isinstance(formula, Ref):
        return {formula.name: Fraction(1)}, ONE
    parts = [exponents_in(part, unknowns) for part in parts_of(formula)]
    signs = {
        Product: [Fraction(1)] * len(parts), Quotient: [Fraction(1), Fraction(-1)],
        Square: [Fraction(2)], Root: [Fraction(1, 2)],
    }.get(type(formula))  # fmt: skip
    if isinstance(formula, Power):
        signs = [formula.exponent]
    if signs is None:
        return None
    total: dict[Name, Fraction] = {}
    rest: list[Formula] = []
    for part, sign in zip(parts, signs, strict=True):
        if part is None:
            return None
        for name, exponent in part[0].items():
            total[name] = total.get(name, Fraction(0)) + sign * exponent
        rest.append(raised(part[1], sign))
    return {name: power for name, power in total.items() if power}, times(*rest)


def _step(
    block: Block, kind: RelationMove, lines: tuple[Line, ...], problem: RelationsProblem
) -> RelationStep:
    return RelationStep(
        id=step_id(block.unknowns[0], problem),
        kind=kind,
        lines=lines,
        statements=tuple(_stated(block.relations)),
        relations=block.relations,
        solved_for=block.unknowns,
    )


def _stated(relations: tuple[Relation, ...]) -> Iterator[Statement]:
    for relation in relations:
        yield Statement(relation.left, relation.right, in_numbers=False)
