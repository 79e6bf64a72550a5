"""The formula that a mistake writes in the place of a line's own.

A wrong rule says which number it leads to. The formulas that such a mistake is known to write are
tried until one gives exactly that number, so that what a worked mistake shows is what the rule
does; a mistake that is not known here, or does something else, is not shown worked out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from builder.lesson.display import Display
from builder.quantity.exact import Exact
from builder.quantity.formula import (
    Formula,
    Negative,
    Num,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Square,
    Sum,
    evaluate,
)
from builder.quantity.names import Name
from builder.quantity.symbolic import same
from builder.solution import Line

MOST_SHARES = 8


@dataclass(frozen=True)
class _At:
    """Where a mistake is made.

    Attributes:
        formula: the right one.
        groups: quantities of the line's kind that are known before it and are no single element's,
            those of equivalents, sources and moments; what was found last comes first.
    """

    formula: Formula
    groups: tuple[Name, ...]


_Family = Callable[[_At], Iterator[Formula]]


def wrong_formula(
    rule: str, line: Line, value: Exact, known: Sequence[Name], display: Display
) -> Formula | None:
    """What a rule writes in the place of a line's formula, or None if that is not known.

    Args:
        rule: its id.
        line: of the solution.
        value: what the mistake leads to, in SI units.
        known: the quantities whose values are known before the line.
        display: of the solution.
    """
    groups = tuple(name for name in reversed(known) if name.quantity == line.name.quantity
                   and name.of not in display.members)  # fmt: skip
    at = _At(line.formula, groups)
    for family in _FAMILIES.get(rule, ()):
        for formula in family(at):
            if same(evaluate(formula, display.solution.values), value):
                return formula
    return None


def _added(at: _At) -> Iterator[Formula]:
    if isinstance(at.formula, ReciprocalSum):
        yield Sum(at.formula.terms)


def _reciprocals_added(at: _At) -> Iterator[Formula]:
    if isinstance(at.formula, Sum):
        yield ReciprocalSum(at.formula.terms)


def _averaged(at: _At) -> Iterator[Formula]:
    if isinstance(at.formula, Sum | ReciprocalSum):
        terms = at.formula.terms
        yield Quotient(Sum(terms), Num(Fraction(len(terms))))


def _half_lost(at: _At) -> Iterator[Formula]:
    match at.formula:
        case Product(factors):
            rest = tuple(factor for factor in factors if not isinstance(factor, Num))
            if 1 < len(rest) < len(factors):
                yield Product(rest)
        case Quotient(over, Num()):
            yield over


def _square_lost(at: _At) -> Iterator[Formula]:
    match at.formula:
        case Quotient(Square(base), under):
            yield Quotient(base, under)
        case Product(factors):
            bases = (factor.base if isinstance(factor, Square) else factor for factor in factors)
            yield Product(tuple(bases))


def _sign_turned(at: _At) -> Iterator[Formula]:
    match at.formula:
        case Sum(terms) | ReciprocalSum(terms):
            for place, term in enumerate(terms):
                turned = term.term if isinstance(term, Negative) else Negative(term)
                yield type(at.formula)((*terms[:place], turned, *terms[place + 1 :]))
        case Negative(term):
            yield term


def _term_left_out(at: _At) -> Iterator[Formula]:
    match at.formula:
        case Sum(terms) | ReciprocalSum(terms) if len(terms) > 2:
            for place in range(len(terms)):
                yield type(at.formula)((*terms[:place], *terms[place + 1 :]))


def _taken_whole(at: _At) -> Iterator[Formula]:
    return (Ref(name) for name in at.groups)


def _shared_equally(at: _At) -> Iterator[Formula]:
    for shares in range(2, MOST_SHARES + 1):
        for name in at.groups:
            yield Quotient(Ref(name), Num(Fraction(shares)))


def _former_averaged(at: _At) -> Iterator[Formula]:
    for count in range(2, len(at.groups) + 1):
        terms = tuple(Ref(name) for name in at.groups[:count])
        yield Quotient(Sum(terms), Num(Fraction(count)))


_FAMILIES: dict[str, tuple[_Family, ...]] = {
    "added-instead": (_added,),
    "layers-added": (_added,),
    "reciprocals-instead": (_reciprocals_added,),
    "averaged": (_averaged,),
    "half-dropped": (_half_lost,),
    "square-forgotten": (_square_lost,),
    "polarity-ignored": (_sign_turned,),
    "added-on": (_sign_turned,),
    "third-left-out": (_term_left_out,),
    "equal-voltages": (_shared_equally,),
    "equal-flows": (_shared_equally,),
    "shared-equally": (_shared_equally,),
    "whole-voltage": (_taken_whole,),
    "group-for-one": (_taken_whole,),
    "equivalent-for-one": (_taken_whole,),
    "open-voltage-kept": (_taken_whole,),
    "voltages-averaged": (_former_averaged,),
}
"""What the mistakes are known to write, by the ids of their rules."""
