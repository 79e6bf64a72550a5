"""The checks of a lesson: what must hold, in words and in numbers."""

from __future__ import annotations

from dataclasses import dataclass

from builder.lesson.display import Display
from builder.lesson.prose import Prose, number_word, say
from builder.quantity.formula import Formula, evaluate
from builder.quantity.show import Shown, show
from builder.solution.check import Check

CHECKS_PROMPT: Prose = say("Does it add up? What must be true of these results?")
"""What the class is asked before the checks are shown."""


@dataclass(frozen=True)
class Shows:
    """A check as the page tells it.

    Attributes:
        says: what must hold.
        left, right: the two sides.
        relation: between them.
        left_number, right_number: the value of each side.
    """

    says: Prose
    left: Formula
    relation: str
    right: Formula
    left_number: Shown
    right_number: Shown


def shows(check: Check, says: Prose, quantity: str, display: Display) -> Shows:
    """A check with its numbers.

    Args:
        check: what holds.
        says: the same in words.
        quantity: the kind of quantity that both sides are.
        display: gives the digits and the values.
    """
    values = display.solution.values
    left, right = (
        show(evaluate(side, values), quantity, display.digits) for side in (check.left, check.right)
    )
    return Shows(says, check.left, check.relation, check.right, left, right)


def and_more(left_out: int) -> Prose:
    """A sentence on checks that hold and are not told; nothing for none."""
    if left_out == 0:
        return ()
    if left_out == 1:
        return say("One more like these holds as well.")
    return say("{count} more like these hold as well.", count=number_word(left_out).capitalize())
