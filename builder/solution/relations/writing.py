"""Formulas put together as a person would write them: 2U/V², not U divided by ½ times V²."""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

from builder.quantity.formula import (
    Formula,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    Root,
    Square,
    Sum,
)

ONE = Num(Fraction(1))
ZERO = Num(Fraction(0))


def times(*factors: Formula) -> Formula:
    """A product with its number in front, written as one fraction."""
    number, over, under = Fraction(1), list[Formula](), list[Formula]()
    for factor in factors:
        own, above, below = _taken_apart(factor)
        number *= own
        over += above
        under += below
    return _put_together(number, over, under)


def divided(over: Formula, under: Formula) -> Formula:
    """A fraction of two formulas, with what stands on both sides of its bar left out."""
    number, above, below = _taken_apart(over)
    other, down, up = _taken_apart(under)
    if other == 0:
        return Quotient(over, under)
    return _put_together(number / other, above + up, below + down)


def plus(*terms: Formula) -> Formula:
    """A sum with sums in it opened and zeros left out."""
    flat: list[Formula] = []
    for term in terms:
        flat.extend(term.terms if isinstance(term, Sum) else (term,))
    kept = _like_terms(flat)
    if not kept:
        return ZERO
    # A sum that starts with a minus sign reads worse than the same terms the other way round.
    first = next((at for at, term in enumerate(kept) if not is_negative(term)), 0)
    kept = [kept[first], *kept[:first], *kept[first + 1 :]]
    return kept[0] if len(kept) == 1 else Sum(tuple(kept))


def _like_terms(terms: list[Formula]) -> list[Formula]:
    """Terms that differ by their number alone as one, where the first of them stands."""
    numbers: dict[Formula, Fraction] = {}
    for term in terms:
        number, over, under = _taken_apart(term)
        alone = _put_together(Fraction(1), over, under)
        numbers[alone] = numbers.get(alone, Fraction(0)) + number
    return [times(Num(number), alone) for alone, number in numbers.items() if number]


def negative(formula: Formula) -> Formula:
    """A formula with its sign turned, the signs of a sum turned one by one."""
    match formula:
        case Negative(term):
            return term
        case Num(value):
            return Num(-value)
        case Sum(terms):
            return plus(*(negative(term) for term in terms))
        case _:
            return Negative(formula)


def minus(left: Formula, right: Formula) -> Formula:
    """A difference."""
    return plus(left, negative(right))


def raised(base: Formula, exponent: Fraction) -> Formula:
    """A power: the square and the root where it is one."""
    match base:
        case Square(inner):
            return raised(inner, 2 * exponent) if exponent != 1 else base
        case Root(inner):
            return raised(inner, exponent / 2) if exponent != 1 else base
        case Power(inner, own) if own.denominator == 1 or exponent.denominator == 1:
            return raised(inner, own * exponent)
        case Num(value):
            return _number_raised(value, exponent)
        case Product() | Quotient() if exponent.denominator == 1 and exponent != 1:
            number, over, under = _taken_apart(base)
            tops = [raised(part, exponent) for part in over]
            bottoms = [raised(part, exponent) for part in under]
            return divided(times(Num(number**exponent.numerator), *tops), times(*bottoms))
        case Negative(term) if exponent.numerator % 2 == 0:
            return raised(term, exponent)
        case _:
            return _power(base, exponent)


def _number_raised(value: Fraction, exponent: Fraction) -> Formula:
    if exponent.denominator == 1:
        return Num(value**exponent.numerator)
    top, bottom = isqrt(abs(value.numerator)), isqrt(value.denominator)
    if exponent == Fraction(1, 2) and Fraction(top, bottom) ** 2 == value:
        return Num(Fraction(top, bottom))
    return _power(Num(value), exponent)


def _power(base: Formula, exponent: Fraction) -> Formula:
    if exponent == 1:
        return base
    if exponent < 0:
        return divided(ONE, raised(base, -exponent))
    if exponent == 2:
        return Square(base)
    return Root(base) if exponent == Fraction(1, 2) else Power(base, exponent)


def tidied(formula: Formula) -> Formula:
    """A formula with its sums, products and fractions put together anew, from the inside out."""
    match formula:
        case Sum(terms):
            return plus(*map(tidied, terms))
        case Product(factors):
            return times(*map(tidied, factors))
        case Quotient(over, under):
            return divided(tidied(over), tidied(under))
        case Power(base, exponent):
            return raised(tidied(base), exponent)
        case Square(base) | Root(base):
            power = Fraction(2) if isinstance(formula, Square) else Fraction(1, 2)
            return raised(tidied(base), power)
        case Negative(term):
            return negative(tidied(term))
        case _:
            return formula


def is_negative(formula: Formula) -> bool:
    """Whether a term is written with a minus sign."""
    if isinstance(formula, Sum):
        return all(map(is_negative, formula.terms))
    return isinstance(formula, Negative) or (isinstance(formula, Num) and formula.value < 0)


def _taken_apart(formula: Formula) -> tuple[Fraction, list[Formula], list[Formula]]:
    """The number of a product, what stands over its bar and what stands under it."""
    match formula:
        case Num(value):
            return value, [], []
        case Negative(term):
            number, over, under = _taken_apart(term)
            return -number, over, under
        case Product(factors):
            number, over, under = Fraction(1), list[Formula](), list[Formula]()
            for factor in factors:
                own, above, below = _taken_apart(factor)
                number, over, under = number * own, over + above, under + below
            return number, over, under
        case Quotient(top, bottom):
            number, over, under = _taken_apart(top)
            other, down, up = _taken_apart(bottom)
            if other == 0:
                return Fraction(1), [formula], []
            return number / other, over + up, under + down
        case _:
            return Fraction(1), [formula], []


def _put_together(number: Fraction, over: list[Formula], under: list[Formula]) -> Formula:
    over, under = _cancelled(over, under)
    sign, number = number < 0, abs(number)
    if number == 0:
        return ZERO
    top = _product(number.numerator, over)
    bottom = _product(number.denominator, under)
    whole: Formula = top if bottom == ONE else Quotient(top, bottom)
    return negative(whole) if sign else whole


def _product(number: int, factors: list[Formula]) -> Formula:
    parts = _gathered(factors)
    if number != 1 or not parts:
        parts = [Num(Fraction(number)), *parts]
    return parts[0] if len(parts) == 1 else Product(tuple(parts))


def _gathered(factors: list[Formula]) -> list[Formula]:
    """Equal factors as one power."""
    counts: dict[Formula, Fraction] = {}
    for factor in factors:
        base, exponent = _base(factor)
        counts[base] = counts.get(base, Fraction(0)) + exponent
    return [raised(base, exponent) for base, exponent in counts.items()]


def _cancelled(over: list[Formula], under: list[Formula]) -> tuple[list[Formula], list[Formula]]:
    left: dict[Formula, Fraction] = {}
    right: dict[Formula, Fraction] = {}
    for factors, side in ((over, left), (under, right)):
        for factor in factors:
            base, exponent = _base(factor)
            side[base] = side.get(base, Fraction(0)) + exponent
    for base in [base for base in left if base in right]:
        common = min(left[base], right[base])
        left[base] -= common
        right[base] -= common
    return (
        [raised(base, exponent) for base, exponent in left.items() if exponent],
        [raised(base, exponent) for base, exponent in right.items() if exponent],
    )


def _base(factor: Formula) -> tuple[Formula, Fraction]:
    match factor:
        case Square(base):
            return base, Fraction(2)
        case Power(base, exponent) if exponent > 0:
            return base, exponent
        case _:
            return factor, Fraction(1)
