"""Values far from what is usual, mostly by a slip in the prefix of their units."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import log10

from builder.errors import Oddity
from builder.lesson.odd.looking import Look
from builder.lesson.odd.usual import Usual, sizes_of, usual_of
from builder.problem.network.read_so_far import INNER_PREFIX
from builder.problem.varying.stated import CHARGED, StatedValue, stated_values
from builder.quantity.exact import as_fraction
from builder.quantity.kinds import KINDS

FAR_FROM_USUAL = "far-from-usual"
FAR_APART = "far-apart"
MOST_APART = 10**7
"""How many times larger than another one an element may be before one wonders: a meter of 10 MΩ
across a cell of 1 Ω is still an exercise."""
_CASES = {"m": "M", "M": "m"}
_LONG = 10**4
"""A number of more digits was meant for no prefix."""
_EVERYDAY = ("p", "n", "µ", "m", "c", "", "k", "M", "G")
_ELEMENTS = ("capacitance", "resistance")


def far_from_usual(look: Look) -> Iterator[Oddity]:
    """Each value that is larger or smaller than such values are."""
    for stated in stated_values(look.problem):
        kind, value = stated.measure.kind, as_fraction(stated.measure.value)
        usual = usual_of(kind, look.problem)
        if usual is None or usual.holds(value):
            continue
        more = "more" if abs(value) > usual.reach[1] else "less"
        seen = (f"{_told(stated)} {stated.measure.shown.text}, {more} than is usual for "
                f"{KINDS[kind].a_noun} ({usual.words}).")  # fmt: skip
        yield look.oddity(stated.at, FAR_FROM_USUAL, seen, _advice(stated, usual))


def _told(stated: StatedValue) -> str:
    """What a value is of, to go on with its number."""
    of, _, quantity = stated.called.partition(".")
    if quantity == CHARGED:
        return f"{of} starts with"
    if quantity:
        return f"The {KINDS[quantity].noun} of {of} is"
    if of.startswith(INNER_PREFIX):
        return f"The internal resistance of {of.removeprefix(INNER_PREFIX)} is"
    return f"{of} is" if of != "equivalent" else "The equivalent is"


def _advice(stated: StatedValue, usual: Usual) -> str:
    """The value with the prefix that was probably meant."""
    kind, value = stated.measure.kind, as_fraction(stated.measure.value)
    number, unit = stated.measure.shown.number, stated.measure.shown.unit
    base = KINDS[kind].unit
    sizes = sizes_of(kind)
    prefix = unit.removesuffix(base)
    swapped = f"{_CASES[prefix]}{base}" if prefix in _CASES else ""
    if unit not in sizes or abs(value) >= _LONG * sizes[unit]:
        return f"Check the number and the unit: {usual.common} would be usual."
    if swapped and usual.holds(value / sizes[unit] * sizes[swapped]):
        return f"m stands for milli, M for mega: was {number} {swapped} meant?"
    common = _common(usual)
    fitting = [
        (abs(log10(abs(near) / common)), other)
        for other, size in sizes.items()
        if other.removesuffix(base) in _EVERYDAY and usual.holds(near := value / sizes[unit] * size)
    ]
    if not fitting:
        return f"Check the number and the unit: {usual.common} would be usual."
    return f"Check the unit: {number} {min(fitting)[1]} would be usual."


def _common(usual: Usual) -> Fraction:
    number, _, unit = usual.common.partition(" ")
    return Fraction(number) * sizes_of(usual.kind).get(unit, Fraction(1))


def far_apart(look: Look) -> Iterator[Oddity]:
    """Elements of a circuit that differ so much that one of the two hardly matters."""
    stated = stated_values(look.problem)
    if any(value.called in look.display.members for value in stated):
        for kind in _ELEMENTS:
            yield from _apart(look, [one for one in stated if _is_element(one, kind)])


def _is_element(stated: StatedValue, kind: str) -> bool:
    return stated.measure.kind == kind and "." not in stated.called and stated.measure.value > 0


def _apart(look: Look, elements: list[StatedValue]) -> Iterator[Oddity]:
    if len(elements) < 2 or not all(_is_usual(one, look) for one in elements):
        return
    by_size = sorted(elements, key=lambda one: as_fraction(one.measure.value))
    small, large = by_size[0], by_size[-1]
    if large.measure.value <= MOST_APART * small.measure.value:
        return
    millions = as_fraction(large.measure.value) / as_fraction(small.measure.value) / 10**6
    seen = f"{large.called} is about {round(millions)} million times as large as {small.called}."
    odd = _one_off(by_size)
    advice = "Check the prefixes: m stands for milli, M for mega."
    yield look.oddity(odd.at, FAR_APART, seen, advice)


def _is_usual(stated: StatedValue, look: Look) -> bool:
    usual = usual_of(stated.measure.kind, look.problem)
    return usual is None or usual.holds(as_fraction(stated.measure.value))


def _one_off(by_size: list[StatedValue]) -> StatedValue:
    """The smallest or the largest, whichever is farther from the others; the largest of two."""
    small, large = by_size[0], by_size[-1]
    below = by_size[1].measure.value / small.measure.value
    above = large.measure.value / by_size[-2].measure.value
    return small if below > above else large
