"""Names of quantities, and the symbols that stand for them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from builder.quantity.kinds import KINDS

TOTAL = "total"


class Name(NamedTuple):
    """What a quantity is and what it belongs to: the charge of C2.

    Attributes:
        quantity: the name of the quantity kind.
        of: an element, an equivalent, the source, or ``total`` for the whole circuit.
    """

    quantity: str
    of: str

    @property
    def key(self) -> str:
        """One word for it, as pages and data carry it: ``charge:C2``."""
        return f"{self.quantity}:{self.of}"


@dataclass(frozen=True)
class Symbol:
    """A symbol such as Q₂₃.

    Attributes:
        letter: the italic letter.
        index: the subscript, upright; empty if there is none.
        mark: what follows both: a prime for a value after a change; mostly empty.
    """

    letter: str
    index: str = ""
    mark: str = ""

    @property
    def text(self) -> str:
        """The symbol in one line of plain text: ``Q₂₃``, ``C_eq``."""
        if self.index.isdigit():
            lowered = self.index.translate(str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉"))
            return self.letter + lowered + self.mark
        return f"{self.letter}_{self.index}{self.mark}" if self.index else self.letter + self.mark


def element_index(name: str, letter: str) -> str:
    """The subscript that an element's quantities carry.

    ``C2`` among capacitors (``letter`` C) gives ``2``; ``R_load`` gives ``load``; a name that
    does not start with the letter of its kind is its own subscript.
    """
    rest = name.removeprefix(letter) if name != letter else ""
    return rest.lstrip("_") if rest != name or name == letter else name.lstrip("_")


def kind_letter(quantity: str) -> str:
    """The letter of a quantity kind: ``charge`` gives ``Q``."""
    return KINDS[quantity].symbol
