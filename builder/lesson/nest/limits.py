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
    return tuple(_sentence(each, display) for each in _worth_telling(display)[:MOST_TOLD])


def _worth_telling(display: NestDisplay) -> list[Limit]:
    """Both extremes of one element for what is asked first, then those of another, and so on.

    Elements that only trade places with one told before are left out.
    """
    limits = display.solution.limits
    elements = list(dict.fromkeys(each.element for each in limits))[::-1]
    told: list[Limit] = []
    for name in dict.fromkeys(each.name for each in _found_first(display)):
        for element in elements:
            pair = [each for each in limits if each.element == element and each.name == name]
            if len(pair) == 2 and not any(_alike(pair, told, other) for other in elements):
                told += pair
                break
    return told or list(limits[:1])


def _found_first(display: NestDisplay) -> list[Limit]:
    """The limits of quantities that the steps find, in the order of the steps."""
    order = list(display.solution.values)
    shown = {name for step in display.solution.steps for name in step.found}
    limits = [each for each in display.solution.limits if each.name in shown]
    return sorted(limits, key=lambda each: order.index(each.name))


def _alike(pair: list[Limit], told: list[Limit], other: str) -> bool:
    """Whether the same two sentences were told of that element already."""
    before = [each for each in told if each.element == other]
    return [(each.large, each.name.quantity, each.name.of) for each in before] == [
        (each.large, each.name.quantity, each.name.of) for each in pair
    ]


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
        return say("To nothing: it grows beyond all bounds")
    return say("Zero") if value == 0 else (Told(show(value, name.quantity)),)
