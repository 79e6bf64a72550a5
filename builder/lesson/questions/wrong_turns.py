"""What a wrong answer to a typed question may come from: a known mistake, or another quantity."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import islice

from builder.lesson.display import Display
from builder.lesson.prose import Prose, WrongNumber, say, sentences
from builder.lesson.slips import Slip
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name

MOST_ELSEWHERE = 12
MOST_TURNS = 8
MOST_OF_THE_PEN = 3


@dataclass(frozen=True)
class WrongTurn:
    """A mistake that leads to a wrong value of what is asked.

    Attributes:
        slip: the mistake, with the wrong value.
        words: what was done and why it is tempting, without the number.
    """

    slip: Slip
    words: Prose

    @property
    def number(self) -> Prose:
        """The wrong value, as shown."""
        return (WrongNumber(self.slip.rule.id, self.slip.wrong.name, self.slip.shown),)


def wrong_turns(name: Name, turns: Iterable[Slip], display: Display) -> tuple[WrongTurn, ...]:
    """The mistakes that get one quantity wrong, in the order of the rules.

    The choice hangs on the rules alone: with other numbers it is the same. Of many, the first of
    each rule come first; there are ``MOST_TURNS`` at most, few of them slips of the pen.
    """
    own = [slip for slip in turns if display.resolve(slip.wrong.name) == name]
    first = {slip.rule.id: slip for slip in reversed(own)}
    ranked = sorted(own, key=lambda slip: first[slip.rule.id] is not slip)
    kept = [slip for slip in ranked if not slip.rule.arithmetic][:MOST_TURNS]
    of_the_pen = [slip for slip in ranked if slip.rule.arithmetic][:MOST_OF_THE_PEN]
    chosen = {id(slip) for slip in (*kept, *of_the_pen[: MOST_TURNS - len(kept)])}
    return tuple(
        WrongTurn(slip, sentences(slip.leading_to(say("this")), slip.tempting))
        for slip in own
        if id(slip) in chosen
    )


def elsewhere(name: Name, among: Iterable[Name], display: Display) -> tuple[Name, ...]:
    """Other quantities in the unit of one, whose values are easily given in place of it.

    Args:
        name: what is asked.
        among: quantities that the lesson tells.
        display: of the lesson.

    Returns:
        At most ``MOST_ELSEWHERE``, whatever their values are.
    """
    values, unit = display.solution.values, KINDS[name.quantity].unit
    others = (
        other
        for other in dict.fromkeys(map(display.resolve, among))
        if other != name and other in values and KINDS[other.quantity].unit == unit
    )
    return tuple(islice(others, MOST_ELSEWHERE))
