"""The forms of questions about the steps of a solution: their order, and a fault among them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, Literal

from builder.lesson.prose import Prose


@dataclass(frozen=True)
class Lack:
    """What a row needs from another.

    Attributes:
        row: the position of that other row in the right order.
        what: what is needed, to go on after “needs”.
        made: whether it is a circuit that is made, not a quantity that is found.
    """

    row: int
    what: Prose
    made: bool


@dataclass(frozen=True)
class OrderRow:
    """A step that is to be put in its place.

    Attributes:
        goal: what the step is for.
        lacks: what it needs from other rows.
    """

    goal: Prose
    lacks: tuple[Lack, ...]


@dataclass(frozen=True)
class OrderQuestion:
    """A question answered by putting steps in order; any order that needs nothing too early.

    Attributes:
        ask: the question.
        rows: the steps in the order of the solution.
        shown: their positions in ``rows`` in the order in which they are shown at first.
        look_at: the id of the step that answers it, or None.
    """

    form: ClassVar[str] = "order"

    ask: Prose
    rows: tuple[OrderRow, ...]
    shown: tuple[int, ...]
    look_at: str | None = None

    def first_lack(self, order: Sequence[int]) -> tuple[int, Lack] | None:
        """The first row that comes too early, with what it lacks; None if the order is right.

        Args:
            order: the positions of all rows.
        """
        done: set[int] = set()
        for row in order:
            for lack in self.rows[row].lacks:
                if lack.row not in done:
                    return row, lack
            done.add(row)
        return None


@dataclass(frozen=True)
class WorkedLine:
    """A line of a solution in which a mistake was made.

    Attributes:
        step: the id of the step that it is.
        number: of that step, counted from 1.
        goal: what the step is for.
        results: its formulas, each with its number.
        state: ``fine`` if nothing in it differs from the right one, ``fault`` if the mistake was
            made in it, ``misled`` if it only goes on with a wrong number.
    """

    step: str
    number: int
    goal: Prose
    results: tuple[Prose, ...]
    state: Literal["fine", "fault", "misled"]


@dataclass(frozen=True)
class FaultyLineQuestion:
    """A question answered by pointing at the first line that is wrong.

    Attributes:
        ask: the question.
        lines: some at least, one of them with the fault.
        mistake: which mistake it is, and what is right.
        look_at: the id of the step in which it was made.
    """

    form: ClassVar[str] = "faulty-line"

    ask: Prose
    lines: tuple[WorkedLine, ...]
    mistake: Prose
    look_at: str | None
