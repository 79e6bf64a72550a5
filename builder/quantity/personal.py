"""A value with symbols as a person would write it: one fraction, its number first.

``2CV/3``, ``C₁C₂/(C₁ + C₂)``, ``12 V · R/(R + 100 Ω)``. A number that stands among symbols gets
the unit that makes all terms of a sum alike, which the kinds of the symbols tell.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import lcm

from sympy import Poly, Rational, Symbol, factor_list, sqrt

from builder.quantity.exact import Exact, as_fraction
from builder.quantity.formula import (
    Amount,
    Formula,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    Square,
    Sum,
)
from builder.quantity.letters import kind_of, letter, letter_of
from builder.quantity.symbolic import fraction_of, letters_in, reading_order

Size = tuple[int, int]
"""A unit as powers of farad or ohm, and of volt."""
_NONE: Size = (0, 0)
_CAPACITORS: dict[str, Size] = {
    "capacitance": (1, 0), "charge": (1, 1), "voltage": (0, 1), "energy": (1, 2)
}  # fmt: skip
_RESISTORS: dict[str, Size] = {
    "resistance": (1, 0), "current": (-1, 1), "voltage": (0, 1), "power": (-1, 2)
}  # fmt: skip
_SUPERSCRIPTS = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


@lru_cache(maxsize=2048)
def as_formula(value: Exact, kind: str = "") -> Formula:
    """A rational function of positive symbols as a formula of letters.

    Args:
        value: what is written.
        kind: the quantity kind of the value; empty if nobody cares about units.
    """
    over, under = fraction_of(value)
    factors = [*_factors(over, 1), *_factors(under, -1)]
    number = Fraction(1)
    scaled = []
    for part, power in factors:
        if part.is_Rational:
            number *= as_fraction(part) ** power
        else:
            monic = _Factor.of(part, power, _units(value, kind))
            number *= monic.taken_out**power
            scaled.append(monic)
    scaled.sort(key=lambda each: each.order)
    size = _units(value, kind).get(kind, _NONE)
    for each in scaled:
        size = (size[0] - each.size[0] * each.power, size[1] - each.size[1] * each.power)
    return _fraction(number, size, scaled, _base(value, kind))


def _factors(polynomial: Exact, power: int) -> Iterable[tuple[Exact, int]]:
    number, parts = factor_list(polynomial)
    yield Rational(number), power
    for part, times in parts:
        yield part, times * power


def _units(value: Exact, kind: str) -> Mapping[str, Size]:
    if not kind:
        return {}
    kinds = {kind, *map(kind_of, value.free_symbols)}
    return _CAPACITORS if kinds & {"capacitance", "charge", "energy"} else _RESISTORS


def _base(value: Exact, kind: str) -> str:
    return "F" if _units(value, kind) is _CAPACITORS else "Ω"


@dataclass(frozen=True)
class _Factor:
    """A polynomial of a product, scaled so that its first coefficient is a handy number.

    Attributes:
        formula: how it is written.
        power: how often it is a factor; negative below the line.
        size: its unit.
        taken_out: the number by which it was divided for that.
        order: where it stands among others.
    """

    formula: Formula
    power: int
    size: Size
    taken_out: Fraction
    order: tuple[object, ...]

    @classmethod
    def of(cls, polynomial: Exact, power: int, units: Mapping[str, Size]) -> _Factor:
        symbols = letters_in(polynomial)
        terms = sorted(Poly(polynomial, *symbols).terms(), key=_term_order)
        sizes = [_size(exponents, symbols, units) for exponents, _ in terms]
        numbers = [as_fraction(Rational(number)) for _, number in terms]
        size = sizes[0]
        scale = numbers[0] if any(each != size for each in sizes) else Fraction(1)
        numbers = [number / scale for number in numbers]
        whole = lcm(*(_endless(number) for number in numbers)) if scale != 1 else 1
        written = [
            _term(number * whole, _less(size, each), exponents, symbols, units)
            for number, each, (exponents, _) in zip(numbers, sizes, terms, strict=True)
        ]
        formula = written[0] if len(written) == 1 else Sum(tuple(written))
        place = (len(terms) > 1, len(terms), [reading_order(symbol) for symbol in symbols])
        return cls(formula, power, size, scale / whole, place)


def _term_order(term: tuple[tuple[int, ...], object]) -> tuple[object, ...]:
    """Terms of the highest degree first, then in the order of their letters."""
    exponents, _ = term
    return (-sum(exponents), [-power for power in exponents])


def _size(
    exponents: tuple[int, ...], symbols: tuple[Symbol, ...], units: Mapping[str, Size]
) -> Size:
    sizes = [units.get(kind_of(symbol), _NONE) for symbol in symbols]
    pairs = list(zip(exponents, sizes, strict=True))
    return (sum(p * size[0] for p, size in pairs), sum(p * size[1] for p, size in pairs))


def _less(one: Size, other: Size) -> Size:
    return one[0] - other[0], one[1] - other[1]


def _endless(number: Fraction) -> int:
    """What a number has to be multiplied by so that its decimals end."""
    rest = number.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    return rest


def _term(
    number: Fraction,
    size: Size,
    exponents: tuple[int, ...],
    symbols: tuple[Symbol, ...],
    units: Mapping[str, Size],
) -> Formula:
    raised = [
        _raised(letter(letter_of(symbol)), power)
        for symbol, power in zip(symbols, exponents, strict=True)
        if power
    ]
    base = "F" if units is _CAPACITORS else "Ω"
    formula = _product(_number(abs(number), size, base), raised)
    return Negative(formula) if number < 0 else formula


def _fraction(number: Fraction, size: Size, factors: list[_Factor], base: str) -> Formula:
    over = [_raised(each.formula, each.power) for each in factors if each.power > 0]
    under = [_raised(each.formula, -each.power) for each in factors if each.power < 0]
    below = abs(number).denominator if size == _NONE else _endless(abs(number))
    top = _product(_number(abs(number) * below, size, base), over)
    formula = top
    if below != 1 or under:
        formula = Quotient(top, _product(Num(Fraction(below)), under))
    return Negative(formula) if number < 0 else formula


def _product(number: Formula, factors: list[Formula]) -> Formula:
    if factors and number == Num(Fraction(1)):
        return factors[0] if len(factors) == 1 else Product(tuple(factors))
    return Product((number, *factors)) if factors else number


def _raised(formula: Formula, power: int) -> Formula:
    if power == 1:
        return formula
    return Square(formula) if power == 2 else Power(formula, Fraction(power))


def _number(number: Fraction, size: Size, base: str) -> Formula:
    """A number with the unit of that size; a square where that is what a person would see."""
    if size == _NONE:
        return Num(number)
    named = {each: kind for kind, each in (_CAPACITORS if base == "F" else _RESISTORS).items()}
    value = Rational(number.numerator, number.denominator)
    if size in named:
        return Amount(value, named[size])
    half = (size[0] // 2, size[1] // 2)
    root = sqrt(value)
    if not any(power % 2 for power in size) and half in named and root.is_Rational:
        return Square(Amount(root, named[half]))
    return Amount(value, _unit(size, base))


def _unit(size: Size, base: str) -> str:
    """A unit that has no name of its own: ``V·Ω``, ``V²``, ``1/F``."""
    powers = {"V": size[1], base: size[0]}
    over = [_powered(unit, power) for unit, power in powers.items() if power > 0]
    under = [_powered(unit, -power) for unit, power in powers.items() if power < 0]
    text = "·".join(over) or "1"
    return f"{text}/{'·'.join(under)}" if under else text


def _powered(unit: str, power: int) -> str:
    return unit if power == 1 else unit + str(power).translate(_SUPERSCRIPTS)
