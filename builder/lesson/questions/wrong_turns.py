"""What a wrong answer to a typed question may come from: a known mistake, or another quantity."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder.lesson.display import Display
from builder.lesson.prose import Prose, WrongNumber, say, sentences
from builder.lesson.wrong_rule import Slip
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name

MOST_ELSEWHERE = 12


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


def wrong_turns(name: Name, slips: Iterable[Slip], display: Display) -> tuple[WrongTurn, ...]:
    """The mistakes that get one quantity wrong, in the order of the rules."""
    return tuple(
        WrongTurn(slip, sentences(slip.leading_to(say("this")), slip.tempting))
        for slip in slips
        if display.resolve(slip.wrong.name) == name
    )


def elsewhere(name: Name, among: Iterable[Name], display: Display) -> tuple[Name, ...]:
    """Other quantities in the unit of one, whose values are easily given in place of it.

    Args:
        name: what is asked.
        among: quantities that the lesson tells.
        display: of the lesson.

    Returns:
        At most ``MOST_ELSEWHERE``, none with the asked value, and two of one value at most.
    """
    found = list(_of_other_value(name, among, display))
    by_value: dict[str, list[Name]] = {}
    for other in found:
        by_value.setdefault(display.shown(other).text, []).append(other)
    kept = {other for alike in by_value.values() for other in alike[:2]}
    return tuple(other for other in found if other in kept)[:MOST_ELSEWHERE]


def _of_other_value(name: Name, among: Iterable[Name], display: Display) -> Iterator[Name]:
    values, unit = display.solution.values, KINDS[name.quantity].unit
    for other in dict.fromkeys(map(display.resolve, among)):
        if other == name or other not in values or KINDS[other.quantity].unit != unit:
            continue
        if display.shown(other).text != display.shown(name).text and values[other] != 0:
            yield other
