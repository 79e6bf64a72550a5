"""Slips that can happen in any calculation: a prefix lost, rounding too early, values swapped."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from builder.lesson.display import Display
from builder.lesson.prose import Prose, SymbolOf, number_word, say
from builder.lesson.wrong_rule import SIGNED, Wrong, WrongRule
from builder.lesson.wrong_rule import found_names as every_found_name
from builder.quantity.formula import Exp, Ln, Ref, every_part, names_in
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name
from builder.quantity.symbolic import is_symbolic
from builder.solution import Step
from builder.solution.altered import rerun, rerun_rounded

KEPT_DIGITS = 2
"""What somebody keeps who rounds too early: as many digits as most givens are told with."""
_CONSTANTS = frozenset({"permittivity", "ratio", "area"})
"""Kinds of quantity whose numbers have no prefix to lose; areas have a rule of their own."""


def found_names(display: Display) -> Iterator[tuple[Name, Step]]:
    """Every quantity that the steps find and that has a name of its own.

    One of two solutions, or what an author's equation is turned into on the way, has none.
    """
    return ((name, step) for name, step in every_found_name(display) if "'" not in name.of)


def _asked(display: Display) -> Iterator[Name]:
    """What is asked and found by a step."""
    asked = set(map(display.resolve, display.solution.problem.find))
    return (name for name, _ in found_names(display) if name in asked)


def _has_prefix(name: Name, display: Display) -> bool:
    kind = KINDS.get(name.quantity)
    return (kind is not None and kind.name not in _CONSTANTS and kind.prefix_power == 1
            and not is_symbolic(display.solution.values[name]))  # fmt: skip


def _exponential(display: Display) -> set[Name]:
    """What lies along an exponential, where a thousand times the time is just the end."""
    found: set[Name] = set()
    for step in display.solution.steps:
        for line in step.lines:
            parts = every_part(line.formula)
            if any(isinstance(p, Exp | Ln) or (isinstance(p, Ref) and p.name in found)
                   for p in parts):  # fmt: skip
                found.add(line.name)
    return found


def _first_use(name: Name, display: Display) -> Step | None:
    """The step in which a given is first put in."""
    return next((step for step in display.solution.steps
                 if any(name in line.uses for line in step.lines)), None)  # fmt: skip


def _prefix_slipped(display: Display) -> Iterator[Wrong]:
    """A thousand times too much or too little: of what is found, then of each given."""
    yield from _prefix_of_results(display)
    values, exponential = display.solution.values, _exponential(display)
    for given in display.solution.givens:
        use = _first_use(given, display)
        if use is None or not _has_prefix(given, display):
            continue
        happens = say("slipping by one prefix in {given}", given=SymbolOf(given))
        for other in (values[given] * 1000, values[given] / 1000):
            wrong = rerun(display.solution, {given: other})
            for name in _asked(display):
                if name in wrong and name not in exponential and _has_prefix(name, display):
                    yield Wrong(name, wrong[name], use.id, happens)


def _prefix_of_results(display: Display) -> Iterator[Wrong]:
    """The same of what is found, both ways: a page tells no more of each."""
    values = display.solution.values
    for name, step in found_names(display):
        if _has_prefix(name, display):
            happens = say("slipping by one prefix")
            yield Wrong(name, values[name] * 1000, step.id, happens)
            yield Wrong(name, values[name] / 1000, step.id, happens)


def _prefix_slipped_why(_wrong: Wrong, _display: Display) -> Prose:
    return say("Each prefix is a factor of a thousand, and one is lost easily when several meet "
               "in a product. Write the powers of ten out once and count.")  # fmt: skip


def _swapped(display: Display) -> Iterator[Wrong]:
    """Two givens of one kind that stand in one formula, each taken for the other."""
    solution = display.solution
    seen: set[tuple[Name, Name]] = set()
    for step in solution.steps:
        for line in step.lines:
            used = [n for n in dict.fromkeys(names_in(line.formula)) if n in solution.givens]
            for kind in dict.fromkeys(name.quantity for name in used):
                alike = [name for name in used if name.quantity == kind]
                for pair in pairwise(alike):
                    if pair not in seen:
                        seen.add(pair)
                        yield from _with_swapped(*pair, step, display)


def _with_swapped(one: Name, other: Name, step: Step, display: Display) -> Iterator[Wrong]:
    values = display.solution.values
    wrong = rerun(display.solution, {one: values[other], other: values[one]})
    happens = say("swapping the values of {one} and {other}",
                  one=SymbolOf(one), other=SymbolOf(other))  # fmt: skip
    for name in _asked(display):
        if name in wrong:
            yield Wrong(name, wrong[name], step.id, happens)


def _swapped_why(_wrong: Wrong, _display: Display) -> Prose:
    return say("Two of a kind stand in one formula and look alike. Write each symbol with its own "
               "number beside it before you put the numbers in.")  # fmt: skip


def _rounded_early(display: Display) -> Iterator[Wrong]:
    wrong = rerun_rounded(display.solution, KEPT_DIGITS)
    happens = say("rounding every result to {digits} digits before going on with it",
                  digits=number_word(KEPT_DIGITS))  # fmt: skip
    for name, step in found_names(display):
        if name in wrong:
            yield Wrong(name, wrong[name], step.id, happens)


def _rounded_early_why(_wrong: Wrong, display: Display) -> Prose:
    return say("Short numbers are handy, and each of them is nearly right. But what is cut off is "
               "carried on and grows. Keep {digits} digits or more on the way, and round at the "
               "end.", digits=number_word(display.digits + 2))  # fmt: skip


def _sign_turned(display: Display) -> Iterator[Wrong]:
    """The other sign, of what is counted one way or comes out negative."""
    values = display.solution.values
    for name, step in found_names(display):
        counted = display.directed and name.quantity in SIGNED
        if not is_symbolic(values[name]) and (counted or values[name] < 0):
            yield Wrong(name, -values[name], step.id, say("taking the other sign"))


def _sign_turned_why(_wrong: Wrong, _display: Display) -> Prose:
    return say("The size looks like the whole answer, and a sign is quickly lost or put in. But "
               "it tells which way round: compare with the way in which it is counted "
               "here.")  # fmt: skip


GENERAL_RULES: tuple[WrongRule, ...] = (
    WrongRule("prefix-slipped", "common practice, no source", "Slipping by a prefix",
              _prefix_slipped_why, _prefix_slipped, arithmetic=True, first=_prefix_of_results),
    WrongRule("sign-turned", "common practice, no source", "Taking the other sign",
              _sign_turned_why, _sign_turned, arithmetic=True),
    WrongRule("values-swapped", "common practice, no source", "Swapping two values",
              _swapped_why, _swapped, arithmetic=True),
    WrongRule("rounded-early", "University Physics Volume 2 (OpenStax), examples of chapter 10: "
              "printed answers are up to 2\u00a0% off by rounding on the way",
              "Rounding on the way", _rounded_early_why, _rounded_early, arithmetic=True),
)  # fmt: skip
"""Slips of the pen; they belong after the rules of a kind."""
