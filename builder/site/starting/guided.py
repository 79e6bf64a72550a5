"""Questions that lead to a new problem: its title, kind and level, then its values."""

from __future__ import annotations

from collections.abc import Callable
from textwrap import indent

from builder.errors import FaultyFile
from builder.problem.faults.gathering import meant, one_of, quoted
from builder.problem.model import LEVELS
from builder.problem.varying.stated import StatedValue
from builder.site.starting.draft import Draft, NotThat, draft, sentence
from builder.site.starting.kinds import KINDS, Kind, kind_list
from builder.site.starting.new_problem import Place

Ask = Callable[[str, str, Callable[[str], object]], str]
"""Asks a question until its answer is taken: the question, what Enter stands for, and what raises
``NotThat`` if an answer cannot be taken. Returns the answer."""

Say = Callable[[str], None]


def guided(place: Place, ask: Ask, say: Say, *, title: str = "", level: str = "") -> Draft:
    """Ask for all that a new problem needs.

    Args:
        place: where it goes.
        ask: how a question is asked.
        say: how something is told.
        title: what is known already is not asked for.
        level: likewise.
    """
    say(f"What is it about?\n{indent(kind_list(), '  ')}")
    kind = KINDS[ask("Kind", "groups", _one_of(tuple(KINDS)))]
    title = title or ask("Title", kind.title, lambda typed: _titled(kind, place, typed))
    level = level or ask(f"Level ({one_of(LEVELS)})", "core", _one_of(LEVELS))
    made = draft(kind, place.slug, place.unit, title=title, level=level)
    if made.values:
        say("Its values; Enter keeps what stands in brackets.")
    while True:
        for number in range(len(made.values)):
            made = _with_value(made, number, ask)
        try:
            made.solved()
        except NotThat as trouble:
            say(f"With these values there is no solution: {trouble}\nOnce more, please.")
        else:
            return made


def _with_value(made: Draft, number: int, ask: Ask) -> Draft:
    value = made.values[number]
    typed = ask(called(value), made.typed(value), lambda one: made.with_value(number, one))
    return made.with_value(number, typed)


def called(value: StatedValue) -> str:
    """How a value is asked for: ``C1``, ``C2, charged to``, ``measured: current, total``."""
    of, dot, quantity = value.called.partition(".")
    if not dot:
        return "measured: equivalent" if of == "equivalent" else of
    return f"{of}, charged to" if quantity == "charged" else f"measured: {quantity}, {of}"


def _one_of(words: tuple[str, ...]) -> Callable[[str], None]:
    def check(typed: str) -> None:
        if typed not in words:
            raise NotThat(f"found {quoted(typed)}; expected one of {one_of(words)}. "
                          f"{meant(typed, words, '')}".strip())  # fmt: skip

    return check


def _titled(kind: Kind, place: Place, typed: str) -> None:
    try:
        draft(kind, place.slug, place.unit, title=typed)
    except FaultyFile as error:
        raise NotThat(sentence(error)) from None
