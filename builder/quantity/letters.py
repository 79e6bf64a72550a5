"""Letters and constants of typed expressions as quantities of formulas."""

from __future__ import annotations

from sympy import Rational, Symbol, pi

from builder.quantity.exact import Exact
from builder.quantity.formula import Ref
from builder.quantity.names import Name
from builder.quantity.names import Symbol as Written

LETTER = "letter"
CONSTANT = "constant"
CONSTANTS: dict[str, Exact] = {
    "pi": pi,
    # Electric constant, in F/m: CODATA 2022.
    "eps0": Rational(88541878188, 10**22),
}
CONSTANT_VALUES: dict[Name, Exact] = {
    Name(CONSTANT, name): value for name, value in CONSTANTS.items()
}


def letter(name: str) -> Ref:
    """The quantity that a letter stands for."""
    return Ref(Name(LETTER, name))


def symbol_of(name: str, kind: str = "") -> Symbol:
    """The positive symbol that a letter becomes in computation.

    Args:
        name: the letter.
        kind: the quantity kind that it is told to have; it belongs to the symbol, so that a
            value alone tells the units of its parts.
    """
    return Symbol(f"{kind}:{name}" if kind else name, positive=True)


def letter_of(symbol: Symbol) -> str:
    """The letter of a symbol."""
    return str(symbol.name).rpartition(":")[2]


def kind_of(symbol: Symbol) -> str:
    """The quantity kind of a symbol; empty if it was not told."""
    return str(symbol.name).rpartition(":")[0]


def letter_symbol(name: str) -> Written:
    """How a letter is written: ``C1`` as C₁, ``R_load`` with its index, a word as it is."""
    index = name[1:].lstrip("_")
    return Written(name[:1], index)
