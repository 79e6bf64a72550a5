"""Mistakes with numbers: a factor lost, a prefix slipped."""

from __future__ import annotations

from collections.abc import Iterator

from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import Prose, say
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.quantity.symbolic import is_symbolic


def _half_dropped(display: NestDisplay) -> Iterator[Wrong]:
    if display.naming.law.work != "energy":
        return
    for name, step in found_names(display):
        if name.quantity == "energy":
            value = display.solution.values[name] * 2
            yield Wrong(name, value, step.id, say("taking charge times voltage without the ½"))


def _half_dropped_why(wrong: Wrong, display: NestDisplay) -> Prose:
    return say("The source does hand over charge times voltage. But the first bit of charge moves "
               "across no voltage at all and only the last across the whole, so the capacitor "
               "keeps half.")  # fmt: skip


def _prefix_slipped(display: NestDisplay) -> Iterator[Wrong]:
    for name, step in found_names(display):
        value = display.solution.values[name]
        has_prefix = not is_symbolic(value)
        if has_prefix and name.quantity in ("charge", "energy", "current", "power"):
            yield Wrong(name, value * 1000, step.id, say("slipping by one prefix"))


def _prefix_slipped_why(wrong: Wrong, display: NestDisplay) -> Prose:
    return say("Each prefix is a factor of a thousand, and one is lost easily when several meet "
               "in a product. Write the powers of ten out once and count.")  # fmt: skip


FACTOR_RULES: tuple[WrongRule, ...] = (
    WrongRule("half-dropped", "University Physics Volume 2 (OpenStax), chapter 10, a printed "
              "answer shows the formula without the ½", "Leaving out the ½",
              _half_dropped_why, _half_dropped),
)  # fmt: skip
PREFIX_RULES: tuple[WrongRule, ...] = (
    WrongRule("prefix-slipped", "common practice, no source", "Slipping by a prefix",
              _prefix_slipped_why, _prefix_slipped),
)  # fmt: skip
