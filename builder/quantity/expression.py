"""Expressions that an author types: ``2*C``, ``3*R/2``, ``1/2 C V²``, ``eps0 * k * A / d``.

A parser of our own with a short list of what is allowed. It turns a text into a ``Formula``
whose quantities are letters; nothing that was typed is ever run.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, evaluate
from builder.quantity.letters import CONSTANT_VALUES, LETTER
from builder.quantity.names import Name
from builder.quantity.parser import Parser
from builder.quantity.tokens import Lexer, UnitOf


@dataclass(frozen=True)
class Expression:
    """An expression that was understood.

    Attributes:
        formula: its quantities are ``Name(LETTER, "C")`` and ``Name(CONSTANT, "pi")``.
        columns: where each letter stands first, from 1, in the order of reading.
    """

    formula: Formula
    columns: tuple[tuple[str, int], ...]

    @property
    def letters(self) -> tuple[str, ...]:
        """The names that it uses, each once, in the order of reading."""
        return tuple(letter for letter, _ in self.columns)


@dataclass(frozen=True)
class TypedEquation:
    """Two expressions that are said to be equal."""

    left: Expression
    right: Expression


def parse_expression(
    text: str, names: Collection[str] | None = None, *, unit_of: UnitOf | None = None
) -> Expression:
    """Read an expression.

    Products need no sign: ``2 C V / 3``; where the names are known, nor do letters that stand
    together: ``2CV/3``.

    Args:
        text: what was typed.
        names: the names that it may use; None lets it use any.
        unit_of: reads the unit after a number; None if numbers have no units here.

    Raises:
        ExpressionError: if it is not understood, may mean two things, or is too large.
    """
    parser = Parser(Lexer(text, names, unit_of).tokens(), names)
    found = _expression(parser)
    parser.end()
    return found


def parse_equation(
    text: str, names: Collection[str] | None = None, *, unit_of: UnitOf | None = None
) -> TypedEquation:
    """Read ``left = right``; see ``parse_expression``.

    Raises:
        ExpressionError: if it is not understood, may mean two things, or is too large.
    """
    parser = Parser(Lexer(text, names, unit_of).tokens(), names)
    left = _expression(parser)
    parser.equals()
    right = _expression(parser)
    parser.end()
    return TypedEquation(left, right)


def to_exact(expression: Expression | Formula, symbols: Mapping[str, Exact]) -> Exact:
    """The exact value of an expression.

    Args:
        expression: what was read.
        symbols: what each letter is worth: a number or a symbol.

    Raises:
        KeyError: if a letter has no value.
        ZeroDivisionError: if something is divided by zero with these values.
        ValueError: if a root or a logarithm does not exist with these values.
    """
    formula = expression.formula if isinstance(expression, Expression) else expression
    values = {Name(LETTER, name): value for name, value in symbols.items()}
    return evaluate(formula, values | CONSTANT_VALUES)


def _expression(parser: Parser) -> Expression:
    formula, columns = parser.expression()
    return Expression(formula, tuple(columns.items()))
