"""Values that hold positive symbols: brought to one form, compared, and taken to their limits.

All of it is algebra of rational functions: a difference is zero if it cancels, a sign is known if
all coefficients share it, and a limit compares degrees. Nothing is guessed or tried with numbers.
"""

from __future__ import annotations

from collections.abc import Iterable

from sympy import Integer, Poly, Rational, Symbol, cancel, fraction, oo

from builder.quantity.exact import Exact
from builder.quantity.letters import kind_of, letter_of


def is_symbolic(value: Exact) -> bool:
    """Whether a value holds a symbol."""
    return not isinstance(value, Rational) and bool(value.free_symbols)


def tidied(value: Exact) -> Exact:
    """A value in its one form: a fraction of polynomials without a common factor.

    Two values that are equal for all symbols have the same form. Numbers stay as they are.
    """
    return cancel(value) if is_symbolic(value) else value


def same(one: Exact, other: Exact) -> bool:
    """Whether two values are equal, whatever their symbols are worth."""
    if one == other:
        return True
    return (is_symbolic(one) or is_symbolic(other)) and cancel(one - other) == 0


def sign_of(value: Exact) -> int | None:
    """1, 0 or −1 if a value has that sign for all positive symbols; None if none is proved.

    Proved is what has coefficients of one sign above and below its fraction line.
    """
    if not is_symbolic(value):
        return bool(value > 0) - bool(value < 0)
    over, under = (_sign_of_polynomial(part) for part in fraction(cancel(value)))
    return None if over is None or under is None else over * under


def _sign_of_polynomial(polynomial: Exact) -> int | None:
    if polynomial.is_Rational:
        return bool(polynomial > 0) - bool(polynomial < 0)
    signs = {1 if number > 0 else -1 for number in Poly(polynomial).coeffs()}
    return signs.pop() if len(signs) == 1 else None


def ratios(values: Iterable[Exact]) -> list[Exact] | None:
    """Values as numbers that can be compared: over the first one, where symbols then cancel.

    Returns:
        Rational values as they are; None if symbols remain.
    """
    given = list(values)
    if all(isinstance(value, Rational) for value in given):
        return given
    found = [cancel(value / given[0]) for value in given]
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
    over, under = (Poly(part, symbol) for part in fraction(cancel(value)))
    if over.is_zero:
        return Integer(0)
    (up, above), (down, below) = (_outermost(part, large=large) for part in (over, under))
    order = up - down if large else down - up
    if order:
        return oo if order > 0 else Integer(0)
    return cancel(above / below)


def _outermost(polynomial: Poly, *, large: bool) -> tuple[int, Exact]:
    """The power that decides for a large or a small symbol, and its coefficient."""
    terms = polynomial.terms()
    (power,), coefficient = terms[0] if large else terms[-1]
    return power, coefficient


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
