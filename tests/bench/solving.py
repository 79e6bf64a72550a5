"""How fast problems are read, solved and cross-checked, and how much memory that takes."""

from __future__ import annotations

import resource
import time
from collections.abc import Iterator
from random import Random

from builder.circuit.law import CAPACITORS, PARALLEL, RESISTORS, SERIES, Law
from builder.circuit.tree import Group, Leaf, Tree, leaves
from builder.problem import read_problem_text
from builder.problem.model import NestProblem, Problem, Unit
from builder.solution import solve

PROBLEMS = 1000
LEAST, MOST = 2, 12
UNIT = Unit(title="Measurements")


def measure_solving() -> Iterator[str]:
    """Time reading with solving, and solving alone, of a thousand different problems."""
    texts = [problem_text(number) for number in range(PROBLEMS)]
    assert len(set(texts)) == PROBLEMS
    solve(read_problem_text(texts[0], "warm-up.yml", UNIT))

    start = time.perf_counter()
    problems = [
        _nest(read_problem_text(text, f"problem-{number}.yml", UNIT))
        for number, text in enumerate(texts)
    ]
    read = time.perf_counter()
    agreed = sum(solve(problem).agree for problem in problems)
    solved = time.perf_counter()

    elements = sum(len(problem.network.elements) for problem in problems)
    yield (
        f"{PROBLEMS} different problems of {LEAST} to {MOST} elements ({elements} in all), "
        f"{agreed} solved twice with equal results"
    )
    yield f"read, solved and cross-checked: {_rate(solved - start)} problems per second"
    yield f"solved and cross-checked, already read: {_rate(solved - read)} problems per second"
    yield f"read only: {_rate(read - start)} problems per second"
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    yield f"peak memory: {peak / 1024:.0f} MiB"


def _nest(problem: Problem) -> NestProblem:
    assert isinstance(problem, NestProblem)
    return problem


def _rate(seconds: float) -> str:
    return f"{PROBLEMS / seconds:.0f}"


def problem_text(number: int) -> str:
    """The YAML text of a random series-parallel problem, the same for the same number."""
    chance = Random(number)
    law = chance.choice((CAPACITORS, RESISTORS))
    tree = _grown(chance, chance.randint(LEAST, MOST), law, [0])
    lines = [
        f"title: Circuit number {number}",
        "level: core",
        "scenario: A test bench in the workshop checks one board after the other.",
        "circuit:",
        f"  source: {chance.randint(10, 240) / 10} V",
        *_written(tree, chance, "uF" if law is CAPACITORS else "ohm", "  "),
        "find:",
        "  - equivalent",
        f"  - {law.flow}: all",
        f"  - {law.drop}: [{leaves(tree)[0]}, {leaves(tree)[-1]}]",
        f"  - {law.work}: total",
    ]
    return "\n".join(lines) + "\n"


def _grown(
    chance: Random, size: int, law: Law, named: list[int], connection: str | None = None
) -> Tree:
    if size == 1:
        named[0] += 1
        return Leaf(f"{law.letter}{named[0]}")
    connection = connection or chance.choice((SERIES, PARALLEL))
    other = SERIES if connection == PARALLEL else PARALLEL
    cuts = sorted(chance.sample(range(1, size), chance.randint(1, min(3, size - 1))))
    shares = [end - start for start, end in zip([0, *cuts], [*cuts, size], strict=True)]
    return Group(
        "", connection, tuple(_grown(chance, share, law, named, other) for share in shares)
    )


def _written(tree: Tree, chance: Random, unit: str, indent: str) -> Iterator[str]:
    """A tree as nested YAML, each element with a value of its own."""
    if isinstance(tree, Leaf):
        yield f"{indent}{tree.id}: {chance.randint(10, 999) / 10} {unit}"
        return
    yield f"{indent}{tree.connection}:"
    for part in tree.parts:
        first, *rest = _written(part, chance, unit, indent + "    ")
        yield f"{indent}  - {first.strip()}"
        yield from rest
