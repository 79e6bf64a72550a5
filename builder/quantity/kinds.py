"""The kinds of quantity that a circuit has, with their symbols and SI units."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class QuantityKind:
    """One kind of quantity.

    Attributes:
        name: the word used in YAML, in the JSON contract and in the code.
        symbol: the letter that stands for it in formulas (ISO 80000-6).
        unit: the SI unit symbol in which values are kept.
        noun: how a sentence calls it, without an article.
        typed: whether a typed value of that unit is read as this kind; one kind for each unit.
        prefix_power: the power to which a prefix before the unit is raised: 1 for most, 2 for
            cm²; 0 if the unit takes none.
    """

    name: str
    symbol: str
    unit: str
    noun: str
    typed: bool = True
    prefix_power: int = 1

    @property
    def a_noun(self) -> str:
        """The noun with its article: ``a charge``, ``an energy``."""
        return f"{'an' if self.noun[0] in 'aeiou' else 'a'} {self.noun}"


KINDS: dict[str, QuantityKind] = {
    kind.name: kind
    for kind in (
        QuantityKind("capacitance", "C", "F", "capacitance"),
        QuantityKind("charge", "Q", "C", "charge"),
        QuantityKind("voltage", "V", "V", "voltage"),
        QuantityKind("potential", "φ", "V", "potential", typed=False),
        QuantityKind("energy", "U", "J", "energy"),
        QuantityKind("resistance", "R", "Ω", "resistance"),
        QuantityKind("current", "I", "A", "current"),
        QuantityKind("power", "P", "W", "power"),
        QuantityKind("time", "t", "s", "time"),
        QuantityKind("time-constant", "τ", "s", "time constant", typed=False),
        QuantityKind("length", "d", "m", "length"),
        QuantityKind("area", "A", "m²", "area", prefix_power=2),
        QuantityKind("field", "E", "V/m", "field strength"),
        QuantityKind("permittivity", "ε", "F/m", "permittivity"),
        QuantityKind("ratio", "k", "", "pure number", prefix_power=0),
    )
}
