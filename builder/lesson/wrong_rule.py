"""What a wrong rule is, and how the slips that fit a solution are gathered."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from builder.lesson.display import Display
from builder.lesson.prose import Prose, SymbolOf, WrongNumber, capitalised, say
from builder.quantity.exact import Exact
from builder.quantity.formula import Amount, every_part
from builder.quantity.names import Name
from builder.quantity.personal import as_formula
from builder.quantity.show import Shown, ShownExpression, show, show_expression, show_in
from builder.quantity.symbolic import sign_of
from builder.solution import Solution, Step


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
    """

    id: str
    source: str
    called: str
    tempting: Callable[[Wrong, Any], Prose]
    find: Callable[[Any], Iterable[Wrong]]


@dataclass(frozen=True)
class Slip:
    """A wrong rule with the wrong number that it leads to in one solution.

    Attributes:
        rule: the rule.
        wrong: what it finds.
        shown: the wrong number as shown.
        tempting: why one falls for it.
    """

    rule: WrongRule
    wrong: Wrong
    shown: Shown
    tempting: Prose

    @property
    def sentence(self) -> Prose:
        """What was done and the number it gives: “Adding C₁ and C₂ gives C_eq = 40.0 µF.”"""
        return say("{happens} gives {symbol} {sign} {number}.",
                   happens=capitalised(self.wrong.happens), symbol=SymbolOf(self.wrong.name),
                   sign=self.shown.sign,
                   number=WrongNumber(self.rule.id, self.wrong.name, self.shown))  # fmt: skip


def slips_of(display: Display, rules: Iterable[WrongRule]) -> tuple[Slip, ...]:
    """All slips that fit a solution.

    Left out are wrong values that equal the right one at the shown digits, that are not
    positive, and that another rule gave already for the same quantity.
    """
    found: list[Slip] = []
    taken: set[tuple[Name, str]] = set()
    for rule in rules:
        for wrong in rule.find(display):
            right = display.shown(wrong.name)
            rounded = show(display.solution.values[wrong.name], wrong.name.quantity, display.digits)
            shown = _shown_like(rounded, wrong, display.digits)
            if sign_of(wrong.value) != 1 or shown.text in (right.text, rounded.text):
                continue
            if (wrong.name, shown.text) in taken:
                continue
            taken.add((wrong.name, shown.text))
            found.append(Slip(rule, wrong, shown, rule.tempting(wrong, display)))
    return tuple(found)


def _shown_like(right: Shown, wrong: Wrong, digits: int) -> Shown:
    """A wrong value in the right one's unit, so that the unit alone tells nothing.

    From a thousand of that unit on it takes the prefix that anyone would write. An expression
    that has not even the right unit is shown without any, as it would be written.
    """
    if isinstance(right, ShownExpression) and not _has_amounts(right):
        found = show(wrong.value, wrong.name.quantity)
        strange = isinstance(found, ShownExpression) and _has_amounts(found)
        return show_expression(as_formula(wrong.value)) if strange else found
    size = show(wrong.value, wrong.name.quantity, digits)
    kept = show_in(wrong.value, wrong.name.quantity, right.unit, digits)
    return size if len(kept.number.partition(".")[0]) > 3 else kept


def _has_amounts(shown: ShownExpression) -> bool:
    return any(isinstance(part, Amount) for part in every_part(shown.expression))


def step_finding(name: Name, solution: Solution) -> Step | None:
    """The step of a solution that finds a quantity, if it is found at all."""
    return next((step for step in solution.steps if name in step.found), None)


def found_names(display: Display) -> Iterator[tuple[Name, Step]]:
    """Every quantity that the steps find, with its step."""
    for step in display.solution.steps:
        for name in step.found:
            yield name, step
