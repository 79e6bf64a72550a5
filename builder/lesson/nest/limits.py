"""What answers with symbols come to when one element is very large or very small, in words."""

from __future__ import annotations

from sympy import oo

from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import Prose, Told, capitalised, say, sentences
from builder.lesson.questions import ChoiceQuestion, Option
from builder.lesson.wrong_rule import step_finding
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.show import show
from builder.quantity.symbolic import same
from builder.solution.nest.limits import Limit

MOST_TOLD = 4


def limiting_cases(display: NestDisplay) -> tuple[Prose, ...]:
    """A sentence for each of a few limits; none where no element can change alone."""
    return tuple(_sentence(each, display) for each in _worth_telling(display))


def _worth_telling(display: NestDisplay) -> list[Limit]:
    """Both extremes of the last element for the first answer, then others that are not plain.

    Of each further quantity one limit is told, and voltages go first.
    """
    limits = _of_what_is_found(display)
    if not limits:
        return []
    first, last = limits[0].name, limits[-1].element
    told = [each for each in limits if each.name == first and each.element == last]
    told = told or [each for each in limits if each.name == first][:2]
    drop = display.naming.law.drop
    seen = {first}
    for each in sorted(limits, key=lambda each: each.name.quantity != drop):
        if each.name not in seen and each.becomes not in (0, oo) and len(told) < MOST_TOLD:
            seen.add(each.name)
            told.append(each)
    return told


def _of_what_is_found(display: NestDisplay) -> list[Limit]:
    """The limits of quantities that the steps find, in the order of the steps."""
    found = [name for step in display.solution.steps for name in step.found]
    limits = [each for each in display.solution.limits if each.name in found]
    return sorted(limits, key=lambda each: found.index(each.name))


def _sentence(limit: Limit, display: NestDisplay) -> Prose:
    acts = "a piece of wire" if limit.wire else "a gap"
    return say("When {one} is very {size}, it is no more than {acts}, and {becomes}.",
               one=display.element(limit.element), size="large" if limit.large else "small",
               acts=acts, becomes=_becomes(limit.name, limit.becomes, display))  # fmt: skip


def _becomes(name: Name, value: Exact, display: NestDisplay) -> Prose:
    what = display.asks_for(name)
    if value == oo:
        return say("{what} grows beyond all bounds", what=what)
    if value == 0:
        return say("{what} shrinks towards zero", what=what)
    return say("{what} comes close to {value}", what=what, value=Told(show(value, name.quantity)))


def limit_question(display: NestDisplay) -> ChoiceQuestion | None:
    """What a quantity comes close to at one extreme, to be told without any algebra."""
    told = _worth_telling(display)
    limit = next((each for each in told if each.becomes not in (0, oo)), None)
    if limit is None:
        return None
    opposite = [
        each.becomes
        for each in display.solution.limits
        if each.name == limit.name and not same(each.becomes, limit.becomes)
    ]
    values: list[Exact] = [limit.becomes, *opposite, 0, oo]
    distinct: list[Exact] = []
    for value in values:
        if not any(value == other for other in distinct):
            distinct.append(value)
    acts = "a piece of wire" if limit.wire else "a gap"
    right = say("{one} is then no more than {acts}, and {becomes}.",
                one=display.element(limit.element), acts=acts,
                becomes=_becomes(limit.name, limit.becomes, display))  # fmt: skip
    options = [
        Option(_option(value, limit.name), index == 0,
               sentences(say("Yes." if index == 0 else "No."), capitalised(right)))
        for index, value in enumerate(distinct[:4])
    ]  # fmt: skip
    order = sorted(options, key=lambda option: str(option.text))
    ask = say("Suppose {one} is made larger and larger. What does {what} come close to?"
              if limit.large
              else "Suppose {one} is made smaller and smaller. What does {what} come close to?",
              one=display.element(limit.element), what=display.asks_for(limit.name))  # fmt: skip
    step = step_finding(limit.name, display.solution)
    return ChoiceQuestion(ask, tuple(order), step.id if step else None)


def _option(value: Exact, name: Name) -> Prose:
    if value == oo:
        return say("No value: it grows beyond all bounds")
    return say("Zero") if value == 0 else (Told(show(value, name.quantity)),)
