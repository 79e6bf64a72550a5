"""How the quantities of relations are written."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from builder.lesson.display import Display, Mention
from builder.lesson.prose import Prose, SymbolOf, say
from builder.problem.relations.model import Stated
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name, Symbol
from builder.solution.relations.solve import RelationsSolution

_GREEK = {
    "alpha": "α", "beta": "β", "eps": "ε", "epsilon": "ε", "eta": "η", "kappa": "κ",
    "lambda": "λ", "mu": "μ", "phi": "φ", "pi": "π", "rho": "ρ", "sigma": "σ", "tau": "τ",
}  # fmt: skip


@lru_cache(maxsize=1024)
def symbol_for(of: str) -> Symbol:
    """The symbol of a quantity that an author named: ``C_air``, ``V1``, ``eps0``, ``kappa``."""
    name, _, number = of.partition("'")
    if name.startswith("Delta") and name[5:]:
        inner = symbol_for(name[5:])
        return Symbol(f"Δ{inner.letter}", inner.index)
    greek = max((word for word in _GREEK if name.startswith(word)), key=len, default="")
    rest = name[len(greek) :] if greek else ""
    if greek and (not rest or rest[0] in "_0123456789"):
        letter = _GREEK[greek]
    else:
        letter, rest = name[0], name[1:]
    index = re.sub(r"(?<=[A-Za-z])(?=[0-9]+$)", ",", rest.lstrip("_"))
    return Symbol(letter, ",".join(part for part in (index, number) if part))


@dataclass(frozen=True)
class RelationsDisplay(Display):
    """The writing of one problem's quantities.

    Attributes:
        solution: whose quantities they are.
    """

    solution: RelationsSolution

    @property
    def members(self) -> tuple[str, ...]:
        """No element is drawn: a relation has quantities only."""
        return ()

    @property
    def one(self) -> str:
        """What a quantity is called."""
        return "quantity"

    @property
    def scene(self) -> str:
        """What the problem shows: no circuit, but quantities and how they hang together."""
        return "problem"

    @property
    def directed(self) -> bool:
        """Quantities without a drawing are sizes, but for what is called a change or a work."""
        return False

    def stated(self, name: Name) -> Stated | None:
        """What the problem states of a quantity; None for one of two solutions."""
        by_name = {stated.name: stated for stated in self.solution.problem.quantities}
        return by_name.get(name)

    def symbol(self, name: Name) -> Symbol:
        """The symbol of a quantity: C, V₀, ε₀."""
        return symbol_for(name.of)

    def element(self, id: str) -> SymbolOf:
        """A quantity by its name."""
        return SymbolOf(self.named(id))

    def named(self, of: str) -> Name:
        """The quantity that an author calls so.

        Raises:
            KeyError: if there is none.
        """
        return {stated.name.of: stated.name for stated in self.solution.problem.quantities}[of]

    def asks_for(self, name: Name) -> Prose:
        """``the capacitance C``, or the author's words: ``the gap between the plates (d)``."""
        stated = self.stated(name)
        if stated is not None and len(stated.means.split()) == 2:
            return say("{means} {symbol}", means=stated.means, symbol=SymbolOf(name))
        if stated is not None and stated.means:
            return say("{means} ({symbol})", means=stated.means, symbol=SymbolOf(name))
        return say("the {noun} {symbol}", noun=KINDS[name.quantity].noun, symbol=SymbolOf(name))

    def mention(self, of: str) -> Mention | None:
        """A quantity is told by its symbol and value."""
        try:
            name = self.named(of)
        except KeyError:
            return None
        return Mention(name, name)

    def found_before(self, name: Name) -> bool:
        """Whether a quantity is found by a step, not given."""
        return name not in self.solution.givens
