"""Mistakes with factors, squares and prefixes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from builder.lesson.mistake_sources import PRACTICE
from builder.lesson.prose import Prose, SymbolOf, say
from builder.lesson.relations.altered import values_by, values_with
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on, found_names
from builder.problem.relations.model import Relation
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Num, Product, Quotient, Root, Square
from builder.quantity.names import Name

HALF = Num(Fraction(1, 2))


def differing(
    values: Mapping[Name, Exact], happens: Prose, display: RelationsDisplay
) -> Iterator[Wrong]:
    """What an alteration makes of everything that is found; it bites first where that differs."""
    right = display.solution.values
    changed = [(name, step) for name, step in found_names(display)
               if values.get(name, right[name]) != right[name]
               and "'" not in name.of]  # fmt: skip
    for name, _ in changed:
        yield Wrong(name, values[name], changed[0][1].id, happens)


def _half_dropped(display: RelationsDisplay) -> Iterator[Wrong]:
    yield from differing(values_by(display, _without_half), say("leaving out the ½"), display)


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
                square = display.solution.values[line.name] ** 2
                happens = say("stopping before the root")
                yield from carried_on(display, step, {line.name: square}, happens)


def _root_forgotten_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    return say("Once the square stands alone, the work looks done. But what stands there is the "
               "square of {what}, as its unit would tell.",
               what=SymbolOf(_rooted(wrong, display)))  # fmt: skip


def _rooted(wrong: Wrong, display: RelationsDisplay) -> Name:
    """What the root of a step gives."""
    step = next(step for step in display.solution.steps if step.id == wrong.step)
    return next(line.name for line in step.lines if isinstance(line.formula, Root))


def _square_forgotten(display: RelationsDisplay) -> Iterator[Wrong]:
    """A square taken for the quantity itself; where a root undoes it, that is another mistake."""
    lines = [line for step in display.solution.steps for line in step.lines]
    if any(isinstance(line.formula, Root) for line in lines):
        return

    def unsquared(relation: Relation) -> Relation:
        return replace(relation, left=_plain(relation.left), right=_plain(relation.right))

    yield from differing(values_by(display, unsquared), say("forgetting to square"), display)


def _plain(formula: Formula) -> Formula:
    """A formula without its squares."""
    match formula:
        case Square(base):
            return base
        case Product(factors):
            return Product(tuple(map(_plain, factors)))
        case Quotient(over, under):
            return Quotient(_plain(over), _plain(under))
        case _:
            return formula


def _square_forgotten_why(_wrong: Wrong, _display: RelationsDisplay) -> Prose:
    return say("A small raised 2 is easily lost on the way. The unit tells: without the square it "
               "does not come out right.")  # fmt: skip


def _other_solution(display: RelationsDisplay) -> Iterator[Wrong]:
    """The value that the problem's author has not chosen."""
    values = display.solution.values
    for step in display.solution.steps:
        choice = step.choice
        if choice is None or choice.why not in ("larger", "smaller"):
            continue
        for one in choice.both:
            if values[one] != values[choice.name]:
                happens = say("taking the other one of the two solutions")
                yield from carried_on(display, step, {choice.name: values[one]}, happens)


def _other_solution_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    step = next(step for step in display.solution.steps if step.id == wrong.step)
    assert step.choice is not None
    return say("Both solve the equation, and the first one found looks like the answer. But "
               "{name} is said to be the {why} one.",
               name=SymbolOf(step.choice.name), why=step.choice.why)  # fmt: skip


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
        yield from differing(values, happens, display)


def _area_prefix_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    return say("The prefix stands there once, so it is tempting to use it once. But the square "
               "goes over the prefix as well: 1 cm² is 0.01 m times 0.01 m, and 1 mm² is 0.001 m "
               "times 0.001 m.")  # fmt: skip


FACTOR_RULES: tuple[WrongRule, ...] = (
    WrongRule("other-solution", PRACTICE, "Taking the other solution", _other_solution_why,
              _other_solution),
    WrongRule("half-dropped", "University Physics Volume 2 (OpenStax), chapter 10, a printed "
              "answer shows the formula without the ½", "Leaving out the ½",
              _half_dropped_why, _half_dropped),
    WrongRule("square-forgotten", PRACTICE, "Forgetting the square", _square_forgotten_why,
              _square_forgotten),
    WrongRule("root-forgotten", PRACTICE, "Stopping before the root", _root_forgotten_why,
              _root_forgotten),
    WrongRule("area-prefix", PRACTICE, "Squaring the unit but not its prefix",
              _area_prefix_why, _area_prefix),
)  # fmt: skip
