"""The slips in one solution: each wrong rule with the wrong number that it leads to."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import islice

from sympy import Rational

from builder.lesson.display import Display
from builder.lesson.prose import (
    Prose,
    SymbolOf,
    WrongNumber,
    capitalised,
    listed,
    say,
    sentences,
)
from builder.lesson.wrong_rule import MOST_OF_THE_PEN, SIGNED, Wrong, WrongRule
from builder.quantity.exact import Exact, near_fraction, within_measure
from builder.quantity.formula import Amount, every_part
from builder.quantity.names import Name
from builder.quantity.personal import as_formula
from builder.quantity.show import Shown, ShownExpression, show, show_expression, show_in
from builder.quantity.symbolic import is_symbolic, sign_of

MOST_WARNINGS = 5
FEW_WARNINGS = 3
MOST_TOGETHER = 3
"""How many ways to one wrong number are told; more would bury what is right."""


@dataclass(frozen=True)
class Slip:
    """A wrong rule with the wrong number that it leads to in one solution.

    Attributes:
        rule: the rule.
        wrong: what it finds.
        shown: the wrong number as shown.
        display: of the solution.
        stands: whether the number can be told from the right one, and has a sign that such a
            quantity can have.
        also: other rules that lead to the same number here.
    """

    rule: WrongRule
    wrong: Wrong
    shown: Shown
    display: Display
    stands: bool
    also: tuple[Slip, ...] = ()

    @cached_property
    def why(self) -> Prose:
        """Why one falls for this rule; put into words only where a page tells it."""
        return self.rule.tempting(self.wrong, self.display)

    @property
    def sentence(self) -> Prose:
        """What was done and the number it gives: “Adding C₁ and C₂ gives C_eq = 40.0 µF.”"""
        number = WrongNumber(self.rule.id, self.wrong.name, self.shown)
        return self.leading_to(say("{symbol} {sign} {number}", symbol=SymbolOf(self.wrong.name),
                                   sign=self.shown.sign, number=number))  # fmt: skip

    def leading_to(self, what: Prose) -> Prose:
        """What was done, as a sentence that ends in what it gives.

        Other ways to the same number follow: “…, and so does taking the average of C₁ and C₂.”
        """
        others = [other.wrong.happens for other in self._told]
        told = say(", and so {do} {others}", do="does" if len(others) == 1 else "do",
                   others=listed(others)) if others else ()  # fmt: skip
        return say("{happens} gives {what}{told}.", happens=capitalised(self.wrong.happens),
                   what=what, told=told)  # fmt: skip

    @property
    def tempting(self) -> Prose:
        """Why one falls for it, and for each other way to the same number."""
        return sentences(*dict.fromkeys(slip.why for slip in (self, *self._told)))

    @property
    def _told(self) -> tuple[Slip, ...]:
        return self.also[: MOST_TOGETHER - 1]

    @property
    def rules(self) -> tuple[str, ...]:
        """The ids of all rules that lead to this number, the likeliest first."""
        return (self.rule.id, *(other.rule.id for other in self.also))


MOST_IN_LETTERS = 120
"""So many mistakes are looked at where values are letters, which take their time to be written."""


def every_slip(
    display: Display, rules: Iterable[WrongRule], of_the_pen: int = MOST_OF_THE_PEN
) -> tuple[Slip, ...]:
    """What each rule leads to in a solution, by itself, in the order of the rules.

    With other values of the same problem these are the same mistakes with other numbers, though
    one or another may then lead to the right number and not stand.

    Args:
        display: of the solution.
        rules: in order, the likeliest first.
        of_the_pen: how often a slip of the pen may lead to one quantity, as it can happen anywhere.
    """
    found = (
        slip_of(rule, wrong, display)
        for rule in rules
        for wrong in _few(
            _found(rule, display, of_the_pen), of_the_pen if rule.arithmetic else None
        )
        if is_symbolic(wrong.value) or within_measure(wrong.value)
    )
    letters = any(map(is_symbolic, display.solution.values.values()))
    return tuple(islice(found, MOST_IN_LETTERS if letters else None))


def _found(rule: WrongRule, display: Display, of_the_pen: int) -> Iterable[Wrong]:
    """What a rule leads to, as far as it is wanted."""
    if rule.arithmetic:
        return ((rule.first if of_the_pen <= MOST_OF_THE_PEN else None) or rule.find)(display)
    return all_found(rule, display)


def all_found(rule: WrongRule, display: Display) -> tuple[Wrong, ...]:
    """All that a rule leads to in a solution, looked for once; questions are made of it too."""
    found: dict[object, tuple[Wrong, ...]] = display.found_wrong
    if rule.find not in found:
        found[rule.find] = tuple(rule.find(display))
    return found[rule.find]


def _few(found: Iterable[Wrong], most: int | None) -> Iterator[Wrong]:
    """At most so many for each quantity."""
    often: Counter[Name] = Counter()
    for wrong in found:
        often[wrong.name] += 1
        if most is None or often[wrong.name] <= most:
            yield wrong


def slip_of(rule: WrongRule, wrong: Wrong, display: Display) -> Slip:
    """One thing that a rule finds, as a slip; it may not stand."""
    wrong = _as_number(wrong)
    right = display.solution.values[wrong.name]
    rounded = show(right, wrong.name.quantity, display.digits)
    shown = _shown_like(rounded, wrong, display.digits)
    told_apart = shown.text not in (display.shown(wrong.name).text, rounded.text)
    stands = told_apart and _may_be(wrong, right, display)
    return Slip(rule, wrong, shown, display, stands)


def told_together(slips: Iterable[Slip]) -> tuple[Slip, ...]:
    """The slips that stand: several rules that lead to one wrong number are one slip.

    It is a slip of the first of them, with the others in ``also``.
    """
    found: dict[tuple[Name, str], list[Slip]] = {}
    for slip in slips:
        if slip.stands:
            alike = found.setdefault((slip.wrong.name, slip.shown.text), [])
            if all(slip.rule.id != other.rule.id for other in alike):
                alike.append(slip)
    return tuple(replace(first, also=tuple(others)) for first, *others in found.values())


def slips_of(display: Display, rules: Iterable[WrongRule]) -> tuple[Slip, ...]:
    """All slips that fit a solution, in the order of the rules, one for each wrong number."""
    return told_together(every_slip(display, rules, sys.maxsize))


def _as_number(wrong: Wrong) -> Wrong:
    """With a root or an exponential as a number right to sixty digits, far more than is shown."""
    if isinstance(wrong.value, Rational) or is_symbolic(wrong.value):
        return wrong
    number = near_fraction(wrong.value)
    return replace(wrong, value=Rational(number.numerator, number.denominator))


def _may_be(wrong: Wrong, right: Exact, display: Display) -> bool:
    """Whether the sign of a wrong value is one that such a quantity can have."""
    sign = sign_of(wrong.value)
    if sign is not None and sign >= 0:
        return True
    counted = display.directed and wrong.name.quantity in SIGNED
    return counted or sign_of(right) not in (1, 0)


def worth_a_warning(turns: Iterable[Slip]) -> tuple[Slip, ...]:
    """A few slips of different rules, about quantities as different as can be.

    The first rule comes first; then always the one that bites where least has been warned of, so
    that five ways to get one value wrong do not push everything else aside. A slip of the pen
    only helps out where there is little else. Each is told alone, even where two lead to one
    number: with other values of the givens they would part, and the same should be warned of.

    Args:
        turns: what each rule leads to by itself, in the order of the rules.
    """
    first: dict[str, Slip] = {}
    standing: dict[str, Slip] = {}
    for slip in turns:
        first.setdefault(slip.rule.id, slip)
        if slip.stands:
            standing.setdefault(slip.rule.id, slip)
    waiting = [slip for id, slip in first.items() if id in standing and not slip.rule.arithmetic]
    chosen: list[Slip] = []
    while waiting and len(chosen) < MOST_WARNINGS:
        often = Counter(slip.wrong.name.quantity for slip in chosen)
        chosen.append(min(waiting, key=lambda slip: often[slip.wrong.name.quantity]))
        waiting.remove(chosen[-1])
    of_the_pen = [slip for slip in standing.values() if slip.rule.arithmetic]
    few = of_the_pen[: int(len(chosen) < FEW_WARNINGS)]
    return (*(standing[slip.rule.id] for slip in chosen), *few)


def _shown_like(right: Shown, wrong: Wrong, digits: int) -> Shown:
    """A wrong value in the right one's unit, so that the unit alone tells nothing.

    From a thousand of that unit on it takes the prefix that anyone would write. An expression
    that has not even the right unit is shown without any, as it would be written.
    """
    if isinstance(right, ShownExpression) and not _has_amounts(right):
        found = show(wrong.value, wrong.name.quantity)
        strange = isinstance(found, ShownExpression) and _has_amounts(found)
        return show_expression(as_formula(wrong.value)) if strange else found
    kept = show_in(wrong.value, wrong.name.quantity, right.unit, digits)
    if len(kept.number.partition(".")[0]) > 3:
        return show(wrong.value, wrong.name.quantity, digits)
    return kept


def _has_amounts(shown: ShownExpression) -> bool:
    return any(isinstance(part, Amount) for part in every_part(shown.expression))
