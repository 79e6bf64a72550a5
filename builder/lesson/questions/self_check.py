"""The self-check of a lesson: typed answers, and choices made of wrong rules."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from builder.lesson.display import Display
from builder.lesson.prose import NumberOf, Written, WrongNumber, say, sentences
from builder.lesson.questions.asked import asked_names
from builder.lesson.questions.forms import ChoiceQuestion, Option, Question, TypedQuestion
from builder.lesson.slips import Slip
from builder.lesson.wrong_rule import step_finding
from builder.problem.model import OwnQuestion
from builder.quantity.exact import near_fraction
from builder.quantity.names import Name
from builder.quantity.symbolic import is_symbolic

MOST_TYPED = 4
MOST_CHOICES = 2
MOST_OPTIONS = 4


def self_check(display: Display, slips: tuple[Slip, ...]) -> tuple[Question, ...]:
    """The self-check of a lesson: choices, typed answers, then the author's own questions."""
    asked = list(asked_names(display))
    typed = [name for name in asked if not (_given(name, display) or display.names_itself(name))]
    choices = list(_choices(asked, display, slips))[:MOST_CHOICES]
    chosen = {name for name, _ in choices}
    fresh = [name for name in typed if name not in chosen]
    # What takes the place of a generated question is asked there.
    own = [own_question(question, display) for question in display.solution.problem.questions
           if question.instead_of is None]  # fmt: skip
    # A choice gives its answer away, so what is asked again in typing is asked before it.
    again = [] if fresh else [_typed(name, display) for name in typed[-MOST_TYPED:]]
    rest = [_typed(name, display) for name in fresh[-MOST_TYPED:]]
    return (*again, *(question for _, question in choices), *rest, *own)


def _typed(name: Name, display: Display) -> TypedQuestion:
    ask = say("What is {what}?", what=display.asks_for(name))
    return TypedQuestion(ask, name, _step_id(name, display))


def _given(name: Name, display: Display) -> bool:
    return name in display.solution.givens


def _step_id(name: Name, display: Display) -> str | None:
    step = step_finding(name, display.solution)
    return step.id if step else None


def _choices(
    asked: list[Name], display: Display, slips: tuple[Slip, ...]
) -> Iterator[tuple[Name, ChoiceQuestion]]:
    """A choice for each quantity that at least two mistakes get wrong, richest first."""
    of_each: dict[Name, list[Slip]] = {}
    for slip in slips:
        of_each.setdefault(slip.wrong.name, []).append(slip)
    by_name = {name: _of_different_rules(found) for name, found in of_each.items()}
    ranked = sorted(
        (name for name in by_name if len(by_name[name]) >= 2 and not _given(name, display)),
        key=lambda name: (name not in asked, -_how_many(of_each[name])),
    )
    kinds: set[str] = set()
    for name in ranked:
        if name.quantity in kinds:
            continue
        kinds.add(name.quantity)
        yield name, _choice(name, by_name[name][: MOST_OPTIONS - 1], display)


def _how_many(slips: list[Slip]) -> int:
    """How many misconceptions get a quantity wrong, whether or not some meet in one number."""
    every = (one for slip in slips for one in (slip, *slip.also))
    return len({one.rule.id for one in every if not one.rule.arithmetic})


def _of_different_rules(slips: list[Slip]) -> list[Slip]:
    """The first slip of each rule; of all slips of the pen one only, at the end."""
    first = {slip.rule.id: slip for slip in reversed(slips)}
    kept = [slip for slip in slips if first[slip.rule.id] is slip]
    of_the_pen = [slip for slip in kept if slip.rule.arithmetic]
    return [*(slip for slip in kept if not slip.rule.arithmetic), *of_the_pen[:1]]


def _choice(name: Name, slips: list[Slip], display: Display) -> ChoiceQuestion:
    right = Option(
        (NumberOf(name),), True, say("Yes: {what} is {number}.",
                                     what=display.asks_for(name), number=NumberOf(name))
    )  # fmt: skip
    wrong = [
        Option(
            (WrongNumber(slip.rule.id, name, slip.shown),), False,
            sentences(slip.leading_to(say("this")), slip.tempting),
        )
        for slip in slips
    ]  # fmt: skip
    values = {id(option): slip.wrong.value for option, slip in zip(wrong, slips, strict=True)}
    values[id(right)] = display.solution.values[name]
    # Sorted by size, so that the place of the right one gives nothing away; expressions, which
    # have none, by their letters.
    written = {id(option): slip.shown.text for option, slip in zip(wrong, slips, strict=True)}
    written[id(right)] = display.shown(name).text
    by: Mapping[int, Fraction | str] = written
    if not any(map(is_symbolic, values.values())):
        by = {option: near_fraction(value) for option, value in values.items()}
    options = tuple(sorted([right, *wrong], key=lambda option: by[id(option)]))
    ask = say("Which of these is {what}?", what=display.asks_for(name))
    return ChoiceQuestion(ask, options, _step_id(name, display))


def own_question(question: OwnQuestion, display: Display) -> Question:
    """A question in its author's own words."""
    if question.answer is not None:
        name = display.resolve(question.answer)
        return TypedQuestion((Written(question.ask),), name, _step_id(name, display))
    options = tuple(
        Option(
            (Written(choice.text),),
            choice.right,
            (Written(choice.reply),)
            if choice.reply
            else say("Yes." if choice.right else "No. Look at the circuit again."),
        )
        for choice in question.choices
    )
    return ChoiceQuestion((Written(question.ask),), options, None)
