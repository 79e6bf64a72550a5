"""How large the quantities of circuits usually are, by which a slipped prefix shows.

All of it is common practice, no source, and wide: what lies outside is hardly met with in a
workshop or in a book of exercises.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from builder.problem.model import Problem
from builder.problem.relations.model import RelationsProblem
from builder.quantity.kinds import KINDS
from builder.quantity.measure import read_measure
from builder.quantity.numerals import PREFIXES


@dataclass(frozen=True)
class Usual:
    """What is usual for one kind of quantity.

    Attributes:
        kind: the quantity kind.
        least, most: as people write them, with units.
        common: a value that nobody wonders at, for advice.
    """

    kind: str
    least: str
    most: str
    common: str

    @property
    def reach(self) -> tuple[Fraction, Fraction]:
        """The least and the most, in SI units."""
        return _size(self.least), _size(self.most)

    def holds(self, value: Fraction) -> bool:
        """Whether a size in SI units is usual; nothing is said of zero."""
        least, most = self.reach
        return value == 0 or least <= abs(value) <= most

    @property
    def words(self) -> str:
        """``0.1 pF to 10 F``."""
        return f"{self.least} to {self.most}"


@cache
def _size(typed: str) -> Fraction:
    value = read_measure(typed).value
    return Fraction(int(value.p), int(value.q))


_IN_CIRCUITS = (
    # Two small plates; the larger of the supercapacitors that people solder.
    Usual("capacitance", "0.1 pF", "10 F", "10 µF"),
    # A bar of a switchboard; what insulates.
    Usual("resistance", "10 µΩ", "100 GΩ", "1 kΩ"),
    # What a thermocouple gives; the longest lines.
    Usual("voltage", "1 µV", "1 MV", "10 V"),
    # What leaks through a good capacitor; a short circuit in a substation.
    Usual("current", "1 pA", "100 kA", "100 mA"),
    # What a sensor's plates hold; a small supercapacitor. A battery moves more.
    Usual("charge", "0.1 pC", "1 C", "100 µC"),
    Usual("energy", "1 pJ", "1 MJ", "1 mJ"),
    Usual("power", "1 nW", "100 MW", "1 W"),
    # Layers in a chip; a thick pile of insulation.
    Usual("length", "1 nm", "1 m", "1 mm"),
    # One cell of a chip; the foil of a wound capacitor.
    Usual("area", "0.01 µm²", "10 m²", "100 cm²"),
    # What the weakest and the strongest of insulators stand.
    Usual("field", "100 kV/m", "2 GV/m", "10 MV/m"),
    Usual("time", "1 ps", "1000000 s", "1 s"),
)
_IN_EQUATIONS = (
    # One electron's; a whole set of batteries'.
    Usual("charge", "0.1 aC", "10 MC", "1 mC"),
    # One photon's; a power station's in a month.
    Usual("energy", "0.01 aJ", "10 PJ", "1 J"),
    Usual("power", "1 pW", "10 GW", "1 W"),
    # An atom; once round the Earth.
    Usual("length", "0.1 nm", "100 Mm", "1 m"),
    Usual("area", "0.01 nm²", "1000 km²", "1 m²"),
    Usual("field", "1 µV/m", "10 GV/m", "1 kV/m"),
    Usual("time", "1 fs", "10 Gs", "1 s"),
    # Of empty space, and ten thousand times that.
    Usual("permittivity", "8.8 pF/m", "100 nF/m", "100 pF/m"),
)


def usual_of(kind: str, problem: Problem) -> Usual | None:
    """What is usual for a kind of quantity in a problem of that sort; None if anything is."""
    plain = isinstance(problem, RelationsProblem) and problem.plates is None
    table = (*_IN_EQUATIONS, *_IN_CIRCUITS) if plain else _IN_CIRCUITS
    return next((usual for usual in table if usual.kind == kind), None)


def sizes_of(kind: str) -> dict[str, Fraction]:
    """The units of a kind with all prefixes, and their sizes in SI units."""
    one = KINDS[kind]
    sizes = {
        f"{prefix}{one.unit}": Fraction(10) ** (power * one.prefix_power)
        for power, prefix in PREFIXES.items()
    }
    return sizes | ({"cm²": Fraction(1, 10**4)} if kind == "area" else {})
