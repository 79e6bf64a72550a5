"""Letters and constants of typed expressions as quantities of formulas."""

from __future__ import annotations

from sympy import Rational, Symbol, pi

from builder.quantity.exact import Exact
from builder.quantity.formula import Ref
from builder.quantity.names import Name

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


def symbol_of(name: str) -> Symbol:
    """The positive symbol that a letter becomes in computation."""
    return Symbol(name, positive=True)
