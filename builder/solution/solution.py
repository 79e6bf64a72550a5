"""A problem with its verified results: what solutions of all kinds have in common."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.errors import Disagreement
from builder.problem.model import Problem
from builder.quantity.exact import Exact
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name
from builder.quantity.show import Shown
from builder.quantity.symbolic import same
from builder.solution.check import Check
from builder.solution.program import Step


@dataclass(frozen=True)
class Solution:
    """A problem with its verified results.

    Attributes:
        problem: what was solved.
        steps: the steps that what is asked needs.
        every_step: all steps that the problem allows; with the givens they define every name
            in ``values``.
        givens: the quantities that the problem states, each as its author wrote it.
        values: every quantity, in SI units.
        second: what the independent second method found; its names pass ``resolve``.
        checks: all hold.
    """

    problem: Problem
    steps: tuple[Step, ...]
    every_step: tuple[Step, ...]
    givens: Mapping[Name, Shown]
    values: Mapping[Name, Exact]
    second: Mapping[Name, Exact]
    checks: tuple[Check, ...]

    @property
    def agree(self) -> bool:
        """Whether both methods give the same values, all of them exactly."""
        return all(same(self.value(name), value) for name, value in self.second.items())

    def resolve(self, name: Name) -> Name:
        """The name under which a quantity that an author asks for is kept in ``values``."""
        return name

    def value(self, name: Name) -> Exact:
        """The value of a quantity that an author may ask for, in SI units."""
        return self.values[self.resolve(name)]


def refuse_difference(
    problem: str, name: str, quantity: str, first: Exact | None, second: Exact
) -> Disagreement:
    """The error for a quantity in which the two methods differ.

    Args:
        problem: its slug.
        name: what the quantity belongs to, in words.
        quantity: its kind.
        first: what the steps found, or None if they did not find it.
        second: what the independent method found.
    """
    kind = KINDS[quantity]
    return Disagreement(
        problem,
        f"{kind.noun} of {name}",
        "missing" if first is None else f"{first} {kind.unit}",
        f"{second} {kind.unit}",
    )
