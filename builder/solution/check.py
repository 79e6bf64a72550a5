"""Statements that must hold of the results, or nothing is published."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from builder.errors import CheckFailed
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, evaluate
from builder.quantity.names import Name
from builder.quantity.symbolic import same, sign_of


@dataclass(frozen=True)
class Check:
    """A statement ``left relation right``.

    Attributes:
        kind: what it is about.
        about: the junction, the equivalent or the elements concerned.
        left: one side.
        relation: ``=``, ``<`` or ``>``.
        right: the other side.
    """

    kind: StrEnum
    about: tuple[str, ...]
    left: Formula
    relation: str
    right: Formula

    def holds(self, values: Mapping[Name, Exact]) -> bool:
        """Whether the statement is true of ``values``, whatever their symbols are worth.

        An inequality of symbols holds where it is proved, so that what merely cannot be decided
        does not pass.
        """
        left, right = evaluate(self.left, values), evaluate(self.right, values)
        if self.relation == "=":
            return same(left, right)
        return sign_of(right - left) == (1 if self.relation == "<" else -1)


def hold_all(checks: Iterable[Check], values: Mapping[Name, Exact], problem: str) -> None:
    """Make sure that every check holds.

    Raises:
        CheckFailed: naming the problem, the check and both sides, at the first that does not.
    """
    for check in checks:
        if not check.holds(values):
            raise CheckFailed(
                problem,
                f"{check.kind} {', '.join(check.about)}",
                str(evaluate(check.left, values)),
                str(evaluate(check.right, values)),
            )
