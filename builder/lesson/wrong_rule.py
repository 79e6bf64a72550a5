"""What a wrong rule is, and what it finds in a solution."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from builder.lesson.display import Display
from builder.lesson.prose import Prose
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula
from builder.quantity.names import Name
from builder.solution import Solution, Step
from builder.solution.altered import rerun_and_touched

MOST_OF_THE_PEN = 2
SIGNED = frozenset({"charge", "current", "voltage", "potential", "field"})
"""What is counted one way, so that a wrong value can run the other way."""


@dataclass(frozen=True)
class Wrong:
    """What a wrong rule finds in one solution.

    Attributes:
        name: the quantity it gets wrong.
        value: the number it leads to, in SI units.
        step: the id of the step to look at again.
        happens: what was done, as a clause that names what was meant: “adding C₁ and C₂ …”.
    """

    name: Name
    value: Exact
    step: str
    happens: Prose


@dataclass(frozen=True)
class WrongRule:
    """One misconception.

    Attributes:
        id: one word for it.
        source: who describes it.
        called: what a teacher calls it, as a heading.
        tempting: why it is tempting and what is right, in a sentence or two.
        find: computes what it leads to in a solution; nothing where it does not fit.
        arithmetic: whether it is no misconception but a slip of the pen, which an answer is
            recognised by but which is hardly worth a warning.
        first: the same as ``find`` as far as ``MOST_OF_THE_PEN`` for each quantity, where that is
            found with less work; None where it is not.
    """

    id: str
    source: str
    called: str
    tempting: Callable[[Wrong, Any], Prose]
    find: Callable[[Any], Iterable[Wrong]]
    arithmetic: bool = False
    first: Callable[[Any], Iterable[Wrong]] | None = None


def step_finding(name: Name, solution: Solution) -> Step | None:
    """The step of a solution that finds a quantity, if it is found at all."""
    return next((step for step in solution.steps if name in step.found), None)


def found_names(display: Display) -> Iterator[tuple[Name, Step]]:
    """Every quantity that the steps find, with its step."""
    for step in display.solution.steps:
        for name in step.found:
            yield name, step


def carried_on(
    display: Display, step: Step, altered: Mapping[Name, Exact | Formula], happens: Prose
) -> Iterator[Wrong]:
    """A mistake in one step, and what all later steps then make of what is asked.

    Args:
        display: of the solution.
        step: where the mistake is made; the step to look at again for all that follows from it.
        altered: the wrong values, in SI units, or formulas that stand for the right ones; of
            what the step finds or of givens.
        happens: what was done, as a clause.
    """
    values, touched = rerun_and_touched(display.solution, altered)
    found = display.found_and_asked
    told = [*(name for name in altered if name in found),
            *(name for name, asked in found.items() if asked and name in touched)]  # fmt: skip
    for name in dict.fromkeys(told):
        if name in values:
            yield Wrong(name, values[name], step.id, happens)
