"""Formulas over named quantities: one definition is evaluated, printed and shipped as data."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from sympy import Integer, Rational, exp, log

from builder.quantity.exact import Exact
from builder.quantity.linear import solve_exactly
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
class Amount:
    """A literal with its unit, such as the 24 V that a junction equation has on its right.

    Attributes:
        value: a rational in SI units.
        quantity: the name of its quantity kind.
    """

    value: Exact
    quantity: str


@dataclass(frozen=True)
class Sum:
    """Terms added up; a ``Negative`` among them is written with a minus sign."""

    terms: tuple[Formula, ...]


@dataclass(frozen=True)
class Negative:
    """A formula with its sign turned."""

    term: Formula


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
class Power:
    """A formula raised to a rational number."""

    base: Formula
    exponent: Fraction


@dataclass(frozen=True)
class Root:
    """The square root of a formula."""

    base: Formula


@dataclass(frozen=True)
class Exp:
    """e raised to a formula."""

    exponent: Formula


@dataclass(frozen=True)
class Ln:
    """The natural logarithm of a formula."""

    argument: Formula


@dataclass(frozen=True)
class ReciprocalSum:
    """The reciprocal of a sum of reciprocals: 1/(1/a + 1/b + …)."""

    terms: tuple[Formula, ...]


@dataclass(frozen=True)
class System:
    """As many linear equations as unknowns: in each row, coefficient times unknown adds up.

    Attributes:
        rows: the coefficients, one row for each equation and one column for each unknown.
        right: what the sum of each row is.
    """

    rows: tuple[tuple[Formula, ...], ...]
    right: tuple[Formula, ...]


@dataclass(frozen=True)
class Solved:
    """One unknown of a linear system; ``position`` counts from 0."""

    system: System
    position: int


Formula = (
    Ref
    | Num
    | Amount
    | Sum
    | Negative
    | Product
    | Quotient
    | Square
    | Power
    | Root
    | Exp
    | Ln
    | ReciprocalSum
    | Solved
)


def evaluate(formula: Formula, values: Mapping[Name, Exact]) -> Exact:
    """The exact value of ``formula`` with the given values, in SI units.

    Rationals stay rationals as long as roots, exponentials and logarithms let them; else the
    value is a SymPy expression, just as exact.

    Raises:
        KeyError: if a quantity has no value yet.
        ZeroDivisionError: if something is divided by zero, or a linear system has no single
            solution.
        ValueError: if a root or a logarithm of a negative number is asked for.
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
        case _:
            return _evaluate_rarer(formula, values)


def _evaluate_rarer(
    formula: Negative | Amount | Power | Root | Exp | Ln | Solved, values: Mapping[Name, Exact]
) -> Exact:
    match formula:
        case Negative(term):
            return -evaluate(term, values)
        case Amount(value):
            return value
        case Power(base, exponent):
            return _power(evaluate(base, values), exponent)
        case Root(base):
            return _power(evaluate(base, values), Fraction(1, 2))
        case Exp(argument):
            return exp(evaluate(argument, values))
        case Ln(argument):
            return _logarithm(evaluate(argument, values))
        case Solved(system, position):
            return solve_system(system, values)[position]


def solve_system(system: System, values: Mapping[Name, Exact]) -> tuple[Exact, ...]:
    """All unknowns of a linear system with the given values, in SI units.

    Raises:
        KeyError: if a quantity has no value yet.
        ZeroDivisionError: if there is no single solution.
    """
    rows = tuple(tuple(evaluate(part, values) for part in row) for row in system.rows)
    return solve_exactly(rows, tuple(evaluate(part, values) for part in system.right))


def names_in(formula: Formula) -> Iterator[Name]:
    """The quantities that ``formula`` uses, in reading order, repeats included."""
    if isinstance(formula, Ref):
        yield formula.name
    else:
        for part in parts_of(formula):
            yield from names_in(part)


def parts_of(formula: Formula) -> tuple[Formula, ...]:
    """The formulas that ``formula`` is made of, in reading order."""
    match formula:
        case Ref() | Num() | Amount():
            return ()
        case Sum(parts) | Product(parts) | ReciprocalSum(parts):
            return parts
        case Quotient(over, under):
            return over, under
        case Negative(part) | Square(part) | Power(part) | Root(part) | Exp(part) | Ln(part):
            return (part,)
        case Solved(system):
            rows = zip(system.rows, system.right, strict=True)
            return tuple(part for row, right in rows for part in (*row, right))


def every_part(formula: Formula) -> Iterator[Formula]:
    """``formula`` and all that it is made of, outermost first."""
    yield formula
    for part in parts_of(formula):
        yield from every_part(part)


def with_parts(formula: Formula, known: Mapping[Name, Formula]) -> Formula:
    """``formula`` of sums, products and quotients with other formulas put in for quantities."""

    def put_in(part: Formula) -> Formula:
        return with_parts(part, known)

    match formula:
        case Ref(name):
            return known.get(name, formula)
        case Sum(terms):
            return Sum(tuple(map(put_in, terms)))
        case Product(factors):
            return Product(tuple(map(put_in, factors)))
        case Quotient(over, under):
            return Quotient(put_in(over), put_in(under))
        case Negative(term):
            return Negative(put_in(term))
        case Square(base):
            return Square(put_in(base))
        case _:
            return formula


def _not_zero(value: Exact) -> Exact:
    if value == 0:
        raise ZeroDivisionError("a quantity that is divided by is zero")
    return value


def _power(base: Exact, exponent: Fraction) -> Exact:
    if exponent < 0:
        _not_zero(base)
    if base.is_negative and exponent.denominator != 1:
        raise ValueError("a negative quantity has no such root")
    return base ** Rational(exponent.numerator, exponent.denominator)


def _logarithm(argument: Exact) -> Exact:
    if argument.is_nonpositive:
        raise ValueError("only a positive quantity has a logarithm")
    return log(argument)
