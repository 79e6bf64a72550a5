"""Rearranging one equation for one unknown: whatever is done, is done on both sides."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from builder.problem.relations.model import Relation
from builder.quantity.formula import (
    Amount,
    Exp,
    Formula,
    Ln,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Root,
    Square,
    Sum,
    names_in,
    parts_of,
)
from builder.quantity.names import Name
from builder.solution.program import Statement
from builder.solution.relations.writing import (
    ONE,
    ZERO,
    divided,
    is_negative,
    minus,
    negative,
    plus,
    raised,
    times,
)

HIGHEST_POWER = 2


@dataclass(frozen=True)
class Rearranged:
    """An equation solved for one unknown.

    Attributes:
        formulas: every formula that satisfies it: one, or two with opposite signs of a root.
        quadratic: the coefficients of square, unknown and number where it is a quadratic
            equation, else None.
        undone: how the unknown came to stand alone: ``divide``, ``multiply``, ``subtract``,
            ``add``, ``root``, ``square``, ``power``, ``turn``, ``logarithm``, ``exponential``,
            ``collect``, in this order.
    """

    formulas: tuple[Formula, ...]
    quadratic: tuple[Formula, Formula, Formula] | None = None
    undone: tuple[str, ...] = ()


def times_used(formula: Formula, name: Name) -> int:
    """How often a quantity occurs in a formula."""
    return sum(1 for used in names_in(formula) if used == name)


def is_told(name: Name, relation: Relation) -> bool:
    """Whether an unknown stands alone on one side of a relation, and nowhere else."""
    alone = Ref(name) in (relation.left, relation.right)
    return alone and times_used(relation.left, name) + times_used(relation.right, name) == 1


@lru_cache(maxsize=4096)
def rearranged(left: Formula, right: Formula, name: Name) -> Rearranged | None:
    """``left = right`` solved for ``name``, which must occur; None if that cannot be done."""
    on_left, on_right = times_used(left, name), times_used(right, name)
    if on_left + on_right == 1:
        side, other = (left, right) if on_left else (right, left)
        return _peeled(side, other, name)
    return _collected(left, right, name)


def _peeled(side: Formula, other: Formula, name: Name) -> Rearranged | None:
    """Undo, from the outside in, what is done to an unknown that occurs once.

    Where a root of either sign has to be taken, both go on from there.
    """
    undone: list[str] = []
    others = [other]
    while not isinstance(side, Ref):
        layers = [_one_layer(side, one, name) for one in others]
        word, inner, _, both = layers[0]
        others = [one for _, _, one, _ in layers]
        if both:
            others += [negative(one) for one in others]
        if len(others) > 2:
            return None
        side = inner
        if word and word not in undone:
            undone.append(word)
    return Rearranged(tuple(others), undone=tuple(undone))


def _one_layer(side: Formula, other: Formula, name: Name) -> tuple[str, Formula, Formula, bool]:
    """What was undone, what is left on both sides, and whether a sign was lost."""
    match side:
        case Negative(term):
            return "", term, negative(other), False
        case Sum(terms):
            inside, rest = _parted(terms, name)
            word = "add" if all(isinstance(term, Negative) for term in rest) else "subtract"
            return word, inside, minus(other, plus(*rest)), False
        case Product(factors):
            inside, rest = _parted(factors, name)
            return "divide", inside, divided(other, times(*rest)), False
        case Quotient(over, under) if times_used(over, name):
            return "multiply", over, times(other, under), False
        case Quotient(over, under):
            return "turn", under, divided(over, other), False
        case _:
            return _one_rarer_layer(side, other, name)


def _one_rarer_layer(
    side: Formula, other: Formula, name: Name
) -> tuple[str, Formula, Formula, bool]:
    match side:
        case Square(base):
            return "root", base, raised(other, Fraction(1, 2)), True
        case Root(base):
            return "square", base, raised(other, Fraction(2)), False
        case Power(base, power):
            both = power.numerator % 2 == 0
            return "power", base, raised(other, 1 / power), both
        case Exp(exponent):
            return "logarithm", exponent, Ln(other), False
        case Ln(argument):
            return "exponential", argument, Exp(other), False
        case ReciprocalSum(terms):
            inside, rest = _parted(terms, name)
            left_over = minus(divided(ONE, other), plus(*(divided(ONE, term) for term in rest)))
            return "subtract", inside, divided(ONE, left_over), False
        case _:
            raise TypeError(f"{type(side).__name__} is not undone")


def _parted(parts: tuple[Formula, ...], name: Name) -> tuple[Formula, list[Formula]]:
    """The one part that holds the unknown, and all others."""
    inside = next(part for part in parts if times_used(part, name))
    rest = list(parts)
    rest.remove(inside)
    return inside, rest


Polynomial = dict[int, Formula]
"""The coefficient of each power of an unknown; what is zero is left out."""


def _collected(left: Formula, right: Formula, name: Name) -> Rearranged | None:
    """Bring all to one side and order it by powers of the unknown, up to the square."""
    one, two = as_fraction_of(left, name), as_fraction_of(right, name)
    if one is None or two is None:
        return None
    (a, b), (c, d) = one, two
    ordered = _subtracted(_multiplied(a, d), _multiplied(c, b))
    while ordered and 0 not in ordered:  # the unknown is not zero: divide by it
        ordered = {power - 1: part for power, part in ordered.items()}
    if not ordered or max(ordered) not in (1, 2):
        return None
    if max(ordered) == 1:
        over, under = negative(ordered[0]), ordered[1]
        if is_negative(over):
            over, under = negative(over), negative(under)
        return Rearranged((divided(over, under),), undone=("collect",))
    square, single, number = (ordered.get(power, ZERO) for power in (2, 1, 0))
    if single == ZERO:
        root = raised(divided(negative(number), square), Fraction(1, 2))
        return Rearranged((root, negative(root)), undone=("collect", "root"))
    four = times(Num(Fraction(4)), square, number)
    root = raised(minus(raised(single, Fraction(2)), four), Fraction(1, 2))
    under = times(Num(Fraction(2)), square)
    both = tuple(
        divided(plus(negative(single), signed), under) for signed in (root, negative(root))
    )
    return Rearranged(both, (square, single, number), ("collect",))


def as_fraction_of(formula: Formula, name: Name) -> tuple[Polynomial, Polynomial] | None:
    """A formula as one fraction of two polynomials in a quantity; None if it is none."""
    if not times_used(formula, name):
        return {0: formula}, {0: ONE}
    match formula:
        case Ref():
            return {1: ONE}, {0: ONE}
        case Num() | Amount():
            return {0: formula}, {0: ONE}
        case Quotient(over, under):
            top, bottom = as_fraction_of(over, name), as_fraction_of(under, name)
            if top is None or bottom is None:
                return None
            return _multiplied(top[0], bottom[1]), _multiplied(top[1], bottom[0])
        case Negative() | Sum() | Product() | Square() | ReciprocalSum():
            return _composed(formula, name)
        case Power(base, exponent) if exponent.denominator == 1 and 0 < exponent <= HIGHEST_POWER:
            return as_fraction_of(Product((base,) * exponent.numerator), name)
        case _:
            return None


def _composed(
    formula: Negative | Sum | Product | Square | ReciprocalSum, name: Name
) -> tuple[Polynomial, Polynomial] | None:
    parts = [as_fraction_of(part, name) for part in parts_of(formula)]
    known = [part for part in parts if part is not None]
    if len(known) < len(parts):
        return None
    match formula:
        case Negative():
            over, under = known[0]
            return {power: negative(part) for power, part in over.items()}, under
        case Sum():
            return _summed(known)
        case ReciprocalSum():
            total = _summed([(under, over) for over, under in known])
            return total[1], total[0]
        case _:
            factors = known * 2 if isinstance(formula, Square) else known
            over, under = {0: ONE}, {0: ONE}
            for top, bottom in factors:
                over, under = _multiplied(over, top), _multiplied(under, bottom)
            return over, under


def _summed(parts: list[tuple[Polynomial, Polynomial]]) -> tuple[Polynomial, Polynomial]:
    over, under = parts[0]
    for top, bottom in parts[1:]:
        if bottom == under:
            over = _added(over, top)
        else:
            over = _added(_multiplied(over, bottom), _multiplied(top, under))
            under = _multiplied(under, bottom)
    return over, under


def _added(one: Polynomial, other: Polynomial) -> Polynomial:
    powers = sorted({*one, *other}, reverse=True)
    summed = {power: plus(one.get(power, ZERO), other.get(power, ZERO)) for power in powers}
    return {power: part for power, part in summed.items() if part != ZERO}


def _subtracted(one: Polynomial, other: Polynomial) -> Polynomial:
    turned = {power: negative(part) for power, part in other.items()}
    powers = {*one, *turned}
    # Terms that stand on both sides cancel.
    kept = {p: (one.get(p, ZERO), turned.get(p, ZERO)) for p in powers}
    return {
        power: plus(mine, yours)
        for power, (mine, yours) in kept.items()
        if negative(mine) != yours and plus(mine, yours) != ZERO
    }


def _multiplied(one: Polynomial, other: Polynomial) -> Polynomial:
    product: Polynomial = {}
    for power, part in one.items():
        for more, factor in other.items():
            term = times(part, factor)
            product = _added(product, {power + more: term})
    return product


def in_order(name: Name, quadratic: tuple[Formula, Formula, Formula]) -> Statement:
    """A quadratic equation ordered by powers of its unknown: ``a·x² + b·x + c = 0``."""
    square, single, number = quadratic
    x = Ref(name)
    terms = plus(times(square, Square(x)), times(single, x), number)
    return Statement(terms, ZERO)
