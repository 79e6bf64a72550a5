"""Circuits to ask questions of, by hand and at random."""

from __future__ import annotations

import re

from builder.lesson.generated.view import View
from builder.lesson.nest.display import NestDisplay
from builder.lesson.network.display import NetworkDisplay
from builder.problem import read_problem_text
from builder.problem.model import NestProblem, NetworkProblem
from builder.solution.nest.solve import solve_nest
from builder.solution.network.solve import solve_network


def view_of_nest(problem: NestProblem, slug: str = "a-circuit") -> View:
    """A nest as questions look at it."""
    display = NestDisplay(solve_nest(problem))
    return View(slug, display, problem.law, problem.network, problem.tree)


def view_of_table(rows: str, find: str = "current", slug: str = "a-network") -> View:
    """A network of branches, as an author types them, as questions look at it."""
    lines = "\n".join(f"    {row.strip()}" for row in rows.strip().splitlines())
    text = f"title: A network\ncircuit:\n  branches:\n{lines}\nfind: {find}\n"
    problem = read_problem_text(text, f"{slug}.yml")
    if isinstance(problem, NestProblem):
        return view_of_nest(problem, slug)
    assert isinstance(problem, NetworkProblem)
    display = NetworkDisplay(solve_network(problem))
    return View(slug, display, problem.law, problem.network, None, True)


LOWERED = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")


def named_in(text: str) -> list[str]:
    """The elements that a text names, those between the ends of “C₁ to C₆” as well."""
    found: list[str] = []
    for first, to, last in re.findall(r"([CR][₀-₉]+)( to )?((?<= to )[CR][₀-₉]+)?", text):
        one = first.translate(LOWERED)
        if not to:
            found.append(one)
            continue
        numbers = range(int(one[1:]), int(last.translate(LOWERED)[1:]) + 1)
        found += [f"{one[0]}{number}" for number in numbers]
    return found
