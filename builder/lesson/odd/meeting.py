"""Right answers that a mistake leads to as well, so that no question can tell it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import cycle

from builder.errors import Oddity, StepwellError
from builder.lesson.display import Display
from builder.lesson.kinds import display_of, rules_of
from builder.lesson.odd.looking import Look
from builder.lesson.prose import capitalised, say
from builder.lesson.slips import slip_of
from builder.lesson.wrong_rule import Wrong, WrongRule
from builder.problem.fresh import renewed, stated_values
from builder.problem.varying.writing import unit_of
from builder.quantity.exact import as_fraction, near_fraction
from builder.quantity.names import Name
from builder.quantity.symbolic import is_symbolic
from builder.solution import solve

MET_BY_A_MISTAKE = "met-by-a-mistake"
_EQUAL_SHARES = frozenset({
    "equal-flows", "equal-voltages", "split-the-wrong-way", "divided-the-wrong-way",
    "whole-voltage", "shared-equally", "voltages-averaged",
})  # fmt: skip
"""To share out equally is no mistake where the parts are equal, which is the point of some
circuits."""
_NUDGED = (103, 127, 113, 109, 131, 107)
"""By how many hundredths given values are taken larger: no two alike, all a little."""


def met_by_mistakes(look: Look) -> Iterator[Oddity]:
    """Each misconception that leads to the right number, and to no wrong one of what is asked.

    Only where that is due to the values: with others, the mistake would show.
    """
    if any(map(is_symbolic, look.solution.values.values())):
        return
    asked = {look.display.resolve(name): name for name in reversed(look.problem.find)}
    rules = [
        rule
        for rule in rules_of(look.problem)
        if not rule.arithmetic and rule.id not in _EQUAL_SHARES
    ]
    met = {rule.id: (rule, wrong) for rule in rules if (wrong := _met(rule, look.display, asked))}
    shows = _would_show(look, [rule for rule, _ in met.values()], asked) if met else set()
    for id, (rule, wrong) in met.items():
        if id in shows:
            node = look.asked_at(asked[wrong.name])
            yield look.oddity(node.at, MET_BY_A_MISTAKE, _seen(rule, wrong, look),
                               "Change a value, or let stepwell numbers find others.")  # fmt: skip


def _met(rule: WrongRule, display: Display, asked: Iterable[Name]) -> Wrong | None:
    """What a rule finds that is right, if all that it finds of what is asked is."""
    first = None
    for wrong in rule.find(display):
        if wrong.name not in asked:
            continue
        if _shows(rule, wrong, display):
            return None
        first = first or wrong
    return first


def _shows(rule: WrongRule, wrong: Wrong, display: Display) -> bool:
    """Whether a wrong number looks other than the right one."""
    right = display.solution.values[wrong.name]
    if wrong.value == right:
        return False
    off = abs(near_fraction(wrong.value) - near_fraction(right))
    if off > abs(near_fraction(right)) * 10 ** (1 - display.digits):
        return True
    return slip_of(rule, wrong, display).shown.text != display.shown(wrong.name).text


def _would_show(look: Look, rules: Sequence[WrongRule], asked: Iterable[Name]) -> set[str]:
    """The rules that lead to a wrong number where every given value is a little larger."""
    stated = stated_values(look.problem)
    new = {
        value.name: unit_of(value, look.problem.text).typed(
            as_fraction(value.measure.value) * hundredths / 100
        )
        for value, hundredths in zip(stated, cycle(_NUDGED), strict=False)
    }
    try:
        other = solve(renewed(look.problem, new))
    except (StepwellError, ValueError, KeyError):
        return set()
    display = display_of(other)
    return {
        rule.id
        for rule in rules
        if any(wrong.name in asked and _shows(rule, wrong, display) for wrong in rule.find(display))
    }


def _seen(rule: WrongRule, wrong: Wrong, look: Look) -> str:
    return look.plain(say(
        "{happens} gives {number} for {what}, which is right, so this mistake cannot show.",
        happens=capitalised(wrong.happens), number=slip_of(rule, wrong, look.display).shown.text,
        what=look.display.asks_for(wrong.name),
    ))  # fmt: skip
