"""Mistakes with factors, squares and prefixes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from builder.lesson.prose import Prose, SymbolOf, say
from builder.lesson.relations.altered import values_by, values_with
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.problem.relations.model import Relation
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Num, Product, Quotient, Root
from builder.quantity.names import Name

HALF = Num(Fraction(1, 2))


def _altered(
    values: dict[Name, Exact], happens: Prose, display: RelationsDisplay
) -> Iterator[Wrong]:
    """What an alteration makes of everything that is found."""
    for name, step in found_names(display):
        if name in values and name.of.isidentifier():
            yield Wrong(name, values[name], step.id, happens)


def _half_dropped(display: RelationsDisplay) -> Iterator[Wrong]:
    values = values_by(display, _without_half)
    if values and values != dict(display.solution.values):
        yield from _altered(values, say("leaving out the ½"), display)


def _without_half(relation: Relation) -> Relation:
    return replace(relation, left=_whole(relation.left), right=_whole(relation.right))


def _whole(formula: Formula) -> Formula:
    """A product without its ½, a fraction without its 2 below."""
    match formula:
        case Product(factors) if HALF in factors:
            rest = tuple(factor for factor in factors if factor != HALF)
            return rest[0] if len(rest) == 1 else Product(rest)
        case Product(factors):
            return Product(tuple(map(_whole, factors)))
        case Quotient(over, Num(value)) if value == 2:
            return over
        case Quotient(over, Product(factors)) if Num(Fraction(2)) in factors:
            rest = tuple(factor for factor in factors if factor != Num(Fraction(2)))
            return Quotient(over, rest[0] if len(rest) == 1 else Product(rest))
        case Quotient(over, under):
            return Quotient(_whole(over), under)
        case _:
            return formula


def _half_dropped_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    return say("The factor stands in front and is easily overlooked. While a capacitor charges, "
               "its voltage climbs from zero, so on average the charge crosses only half of "
               "it.")  # fmt: skip


def _root_forgotten(display: RelationsDisplay) -> Iterator[Wrong]:
    for step in display.solution.steps:
        for line in step.lines:
            if isinstance(line.formula, Root):
                value = display.solution.values[line.name] ** 2
                yield Wrong(line.name, value, step.id,
                            say("stopping before the root"))  # fmt: skip


def _root_forgotten_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    return say("Once the square stands alone, the work looks done. But what stands there is the "
               "square of {what}, as its unit would tell.", what=SymbolOf(wrong.name))  # fmt: skip


def _area_prefix(display: RelationsDisplay) -> Iterator[Wrong]:
    """cm² taken as a hundredth of a square metre, mm² as a thousandth."""
    for stated in display.solution.problem.quantities:
        unit = stated.shown.unit if stated.shown else ""
        slip = {"cm²": 100, "mm²": 1000}.get(unit)
        if slip is None or stated.value is None:
            continue
        values = values_with(display, {stated.name: stated.value * slip})
        happens = say("turning {unit} into m² with the factor for {plain}",
                      unit=unit, plain=unit.rstrip("²"))  # fmt: skip
        yield from _altered(values, happens, display)


def _area_prefix_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    return say("The prefix stands there once, so it is tempting to use it once. But the square "
               "goes over the prefix as well: 1 cm² is 0.01 m times 0.01 m, and 1 mm² is 0.001 m "
               "times 0.001 m.")  # fmt: skip


FACTOR_RULES: tuple[WrongRule, ...] = (
    WrongRule("half-dropped", "University Physics Volume 2 (OpenStax), chapter 10, a printed "
              "answer shows the formula without the ½", "Leaving out the ½",
              _half_dropped_why, _half_dropped),
    WrongRule("root-forgotten", "common practice, no source", "Stopping before the root",
              _root_forgotten_why, _root_forgotten),
    WrongRule("area-prefix", "common practice, no source", "Squaring the unit but not its prefix",
              _area_prefix_why, _area_prefix),
)  # fmt: skip
