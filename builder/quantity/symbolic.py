"""Values that hold positive symbols: brought to one form, compared, and taken to their limits.

All of it is algebra of rational functions: a difference is zero if it cancels, a sign is known if
all coefficients share it, and a limit compares degrees. Nothing is guessed or tried with numbers.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache, reduce
from operator import mul
from typing import Any

from sympy import ZZ, Integer, Rational, Symbol, oo
from sympy.polys.fields import FracField

from builder.quantity.comparing import is_nothing, same_numbers
from builder.quantity.exact import Exact, near_fraction, within_measure
from builder.quantity.letters import kind_of, letter_of

_SURELY_SOMETHING = Fraction(1, 10**30)
"""What cancels out to nothing is smaller than that when it is worked out to sixty digits."""
_CLOSELY, _MOST_CLOSELY = 15, 1000


def is_symbolic(value: Exact) -> bool:
    """Whether a value holds a symbol."""
    return not isinstance(value, Rational) and bool(value.free_symbols)


def tidied(value: Exact) -> Exact:
    """A value in its one form: a fraction of polynomials without a common factor.

    Two values that are equal for all symbols have the same form. Numbers stay as they are.

    Raises:
        ZeroDivisionError: if it divides by what is zero for all symbols.
        TypeError: if it is no fraction of polynomials.
    """
    if not is_symbolic(value):
        return value
    over, under = fraction_of(value)
    return over / under


def fraction_of(value: Exact) -> tuple[Exact, Exact]:
    """What stands above and below the line of a value in its one form, both without fractions."""
    element = _element(value)
    return element.numer.as_expr(), element.denom.as_expr()


@lru_cache(maxsize=256)
def _field(symbols: tuple[Symbol, ...]) -> FracField:
    return FracField(symbols, ZZ)


@lru_cache(maxsize=4096)
def _element(value: Exact) -> Any:
    """A value as an element of the field of fractions of polynomials of its symbols.

    All is multiplied out into one fraction, which is cancelled once, at the end. SymPy's own way
    through expressions takes hundreds of times as long for half a dozen symbols.
    """
    symbols = tuple(sorted(value.free_symbols, key=lambda symbol: symbol.name))
    field = _field(symbols)
    over, under = _multiplied_out(value, dict(zip(symbols, field.ring.gens, strict=True)), field)
    if not under:
        raise ZeroDivisionError(f"{value} divides by zero")
    return field.new(over, under)


def _multiplied_out(part: Exact, known: dict[Symbol, Any], field: FracField) -> tuple[Any, Any]:
    """A part of an expression as one polynomial over another, not cancelled."""
    if part.is_Symbol:
        return known[part], field.ring.one
    if part.is_Rational:
        return field.ring(int(part.p)), field.ring(int(part.q))
    if part.is_Add or part.is_Mul:
        parts = [_multiplied_out(each, known, field) for each in part.args]
        if part.is_Add:
            return reduce(_added, parts)
        return reduce(mul, [over for over, _ in parts]), reduce(mul, [under for _, under in parts])
    if part.is_Pow and part.exp.is_Integer:
        over, under = _multiplied_out(part.base, known, field)
        power = int(part.exp)
        return (over**power, under**power) if power > 0 else (under**-power, over**-power)
    raise TypeError(f"{part} is no fraction of polynomials")


def _added(one: tuple[Any, Any], other: tuple[Any, Any]) -> tuple[Any, Any]:
    if one[1] == other[1]:
        return one[0] + other[0], one[1]
    _, rest, more = one[1].cofactors(other[1])
    return one[0] * more + other[0] * rest, one[1] * more


def same(one: Exact, other: Exact) -> bool:
    """Whether two values are equal, whatever their symbols are worth; a limit may be infinite."""
    if one == other or one.is_infinite or other.is_infinite:
        return bool(one == other)
    if is_symbolic(one) or is_symbolic(other):
        return not _element(one - other)
    return same_numbers(one, other)


def sign_of(value: Exact) -> int | None:
    """1, 0 or −1 if a value has that sign for all positive symbols; None if none is proved.

    Proved is what has coefficients of one sign above and below its fraction line.
    """
    if isinstance(value, Rational):
        return int(value.p > 0) - int(value.p < 0)
    return _sign_of(value)


@lru_cache(maxsize=4096)
def _sign_of(value: Exact) -> int | None:
    if not is_symbolic(value):
        return _sign_of_number(value)
    element = _element(value)
    over, under = ({number > 0 for number in part.values()} for part in _parts(element))
    if not over:
        return 0
    if len(over) > 1 or len(under) > 1:
        return None
    return 1 if over == under else -1


def _sign_of_number(value: Exact) -> int:
    """The sign of a root, a logarithm or the like.

    What is shown needs its first sixty digits anyway. They tell the sign unless nearly nothing is
    left: then algebra tells whether that is nothing, and more digits tell the sign of what is not.
    """
    if value.is_real and within_measure(value):
        near = near_fraction(value)
        if abs(near) > _SURELY_SOMETHING:
            return 1 if near > 0 else -1
    if is_nothing(value):
        return 0
    return 1 if value.evalf(_CLOSELY, maxn=_MOST_CLOSELY) > 0 else -1


def _parts(element: Any) -> tuple[dict[tuple[int, ...], Any], dict[tuple[int, ...], Any]]:
    """The coefficients above and below the line by the powers of the symbols."""
    return dict(element.numer), dict(element.denom)


def ratios(values: Iterable[Exact]) -> list[Exact] | None:
    """Values as numbers that can be compared: over the first one, where symbols then cancel.

    Returns:
        Rational values as they are; None if symbols remain.
    """
    given = list(values)
    if all(isinstance(value, Rational) for value in given):
        return given
    found = [tidied(value / given[0]) for value in given]
    return found if all(isinstance(value, Rational) for value in found) else None


def limit(value: Exact, symbol: Symbol, *, large: bool) -> Exact:
    """What a rational function comes close to when one symbol grows, or shrinks to nothing.

    Args:
        value: a rational function with coefficients of one sign above and below.
        symbol: that grows beyond all bounds if ``large``, else shrinks to zero.
        large: which of the two.

    Returns:
        A value without the symbol; infinity if it grows beyond all bounds.

    Source: the quotient of the leading, or the last, coefficients; any calculus text.
    """
    if symbol not in value.free_symbols:
        return value
    element = _element(value)
    if not element:
        return Integer(0)
    place = element.field.symbols.index(symbol)
    (up, above), (down, below) = (
        _outermost(part, place, large=large) for part in (element.numer, element.denom)
    )
    order = up - down if large else down - up
    if order:
        return oo if order > 0 else Integer(0)
    decided = element.field(above) / element.field(below)
    return decided.numer.as_expr() / decided.denom.as_expr()


def _outermost(polynomial: Any, place: int, *, large: bool) -> tuple[int, Any]:
    """The power that decides for a large or a small symbol, and what it is multiplied by."""
    power = (max if large else min)(powers[place] for powers in polynomial)
    kept = {
        (*powers[:place], 0, *powers[place + 1 :]): number
        for powers, number in polynomial.items()
        if powers[place] == power
    }
    return power, polynomial.ring.from_dict(kept)


def plain(value: Exact) -> Exact:
    """A value with its symbols named by their letters alone, as data carries it."""
    names = {symbol: Symbol(letter_of(symbol), positive=True) for symbol in value.free_symbols}
    return value.xreplace(names) if names else value


def letters_in(value: Exact) -> tuple[Symbol, ...]:
    """The symbols of a value, in the order in which a person would write them."""
    return tuple(sorted(value.free_symbols, key=reading_order))


_KIND_ORDER = ("capacitance", "resistance", "current", "charge", "voltage")


def reading_order(symbol: Symbol) -> tuple[int, str, int, str]:
    """Values of elements first, then flows, then voltages; then by letter and index."""
    kind, name = kind_of(symbol), letter_of(symbol)
    rank = _KIND_ORDER.index(kind) if kind in _KIND_ORDER else len(_KIND_ORDER)
    index = name[1:].lstrip("_")
    number = int(index) if index.isdigit() and index.isascii() else -1
    return rank, name[:1].swapcase(), number, index
