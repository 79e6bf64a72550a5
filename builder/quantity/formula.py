"""Formulas over named quantities: one definition is evaluated, printed and shipped as data."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from sympy import Integer, Rational

from builder.quantity.exact import Exact
from builder.quantity.names import Name


@dataclass(frozen=True)
class Ref:
    """The value of a named quantity."""

    name: Name


@dataclass(frozen=True)
class Num:
    """A pure number, such as the ½ of ½CV²."""

    value: Fraction


@dataclass(frozen=True)
class Sum:
    """Terms added up."""

    terms: tuple[Formula, ...]


@dataclass(frozen=True)
class Product:
    """Factors multiplied."""

    factors: tuple[Formula, ...]


@dataclass(frozen=True)
class Quotient:
    """One formula over another."""

    over: Formula
    under: Formula


@dataclass(frozen=True)
class Square:
    """A formula times itself."""

    base: Formula


@dataclass(frozen=True)
class ReciprocalSum:
    """The reciprocal of a sum of reciprocals: 1/(1/a + 1/b + …)."""

    terms: tuple[Formula, ...]


Formula = Ref | Num | Sum | Product | Quotient | Square | ReciprocalSum


def evaluate(formula: Formula, values: Mapping[Name, Exact]) -> Exact:
    """The exact value of ``formula`` with the given values, in SI units.

    Raises:
        KeyError: if a quantity has no value yet.
        ZeroDivisionError: if something is divided by zero.
    """
    match formula:
        case Ref(name):
            return values[name]
        case Num(value):
            return Rational(value.numerator, value.denominator)
        case Sum(terms):
            return sum((evaluate(term, values) for term in terms), Integer(0))
        case Product(factors):
            product: Exact = Integer(1)
            for factor in factors:
                product = product * evaluate(factor, values)
            return product
        case Quotient(over, under):
            return evaluate(over, values) / _not_zero(evaluate(under, values))
        case Square(base):
            value = evaluate(base, values)
            return value * value  # far faster than a power in SymPy
        case ReciprocalSum(terms):
            total = sum((1 / _not_zero(evaluate(term, values)) for term in terms), Integer(0))
            return 1 / _not_zero(total)


def names_in(formula: Formula) -> Iterator[Name]:
    """The quantities that ``formula`` uses, in reading order, repeats included."""
    match formula:
        case Ref(name):
            yield name
        case Num():
            return
        case Sum(parts) | Product(parts) | ReciprocalSum(parts):
            for part in parts:
                yield from names_in(part)
        case Quotient(over, under):
            yield from names_in(over)
            yield from names_in(under)
        case Square(base):
            yield from names_in(base)


def as_data(formula: Formula) -> Any:
    """``formula`` as nested lists of plain data, for the browser to evaluate again."""
    match formula:
        case Ref(name):
            return name.key
        case Num(value):
            return [value.numerator, value.denominator]
        case Sum(parts):
            return ["sum", *map(as_data, parts)]
        case Product(parts):
            return ["product", *map(as_data, parts)]
        case ReciprocalSum(parts):
            return ["reciprocal-sum", *map(as_data, parts)]
        case Quotient(over, under):
            return ["quotient", as_data(over), as_data(under)]
        case Square(base):
            return ["square", as_data(base)]


def _not_zero(value: Exact) -> Exact:
    if value == 0:
        raise ZeroDivisionError("a quantity that is divided by is zero")
    return value
