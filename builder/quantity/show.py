"""How any value is shown: a number with its digits and unit, or an expression of symbols."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from builder.quantity.brackets import Atoms, Binding, binding
from builder.quantity.compact import compact
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula
from builder.quantity.names import Name
from builder.quantity.numerals import (
    PREFIXES,
    Shown,
    as_typed,
    last_digit,
    show_number,
    show_number_in,
    show_whole,
    unit_power,
)
from builder.quantity.personal import as_formula
from builder.quantity.symbolic import is_symbolic

__all__ = [
    "PREFIXES", "Shown", "ShownExpression", "as_typed", "last_digit", "numbers_of", "show",
    "show_expression", "show_in", "show_whole", "unit_power",
]  # fmt: skip


@dataclass(frozen=True)
class ShownExpression(Shown):
    """A value with symbols, ready to be read; it has no unit and is exact.

    Attributes:
        number: the expression in one line: ``2CV/3``.
        expression: the same as a formula of letters.
    """

    expression: Formula

    @property
    def binding(self) -> Binding:
        """How it binds in a formula."""
        return binding(self.expression)


@lru_cache(maxsize=4096)
def show(value: Exact, kind: str, digits: int = 3) -> Shown:
    """Show ``value`` to ``digits`` significant digits in the unit of its kind.

    Args:
        value: a rational number in SI units, or a rational function of symbols.
        kind: the name of the quantity kind.
        digits: significant digits, at least 1; trailing zeros are kept.

    Returns:
        A ``ShownExpression`` if the value holds symbols.

    Raises:
        TypeError: if ``value`` is neither.
    """
    if is_symbolic(value):
        return show_expression(as_formula(value, kind))
    return show_number(value, kind, digits)


def show_in(value: Exact, kind: str, unit: str, digits: int = 3) -> Shown:
    """Show ``value`` in a given prefixed unit, where the number stays readable there.

    Args:
        value: as ``show`` takes it; what holds symbols has no unit to keep.
        kind: the name of the quantity kind.
        unit: the unit symbol to keep, such as ``µF``.
        digits: significant digits.
    """
    if is_symbolic(value):
        return show(value, kind, digits)
    return show_number_in(value, kind, unit, digits)


def show_expression(formula: Formula) -> ShownExpression:
    """Show a formula of letters."""
    return ShownExpression(compact(formula), "", exact=True, expression=formula)


def numbers_of(shown: Callable[[Name], Shown]) -> Atoms:
    """Every quantity is what is shown of it."""
    return lambda name: shown(name).binding
