"""A caution where what a page describes could hurt someone, computed from its results.

Thresholds: Electrical Safety Manual of Lawrence Berkeley National Laboratory (DOE
classification), tables 2.2.13 (shock) and 2.3.5 (thermal): capacitors at 100 V or more
with 10 J or more, or below 100 V with more than 100 J; direct current at 100 V or more
that can drive 40 mA or more. The touch voltage of 60 V direct current for children is from
IEC TS 60479 as listed at emf-portal.org.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sympy import Integer, Rational

from builder.lesson.prose import NumberOf, Prose, say, sentences
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.symbolic import sign_of

SHOCK_VOLTAGE = Integer(100)
SHOCK_ENERGY = Integer(10)
THERMAL_ENERGY = Integer(100)
SHOCK_CURRENT = Rational(40, 1000)
TOUCH_VOLTAGE = Integer(60)

_LBNL = "Electrical Safety Manual of Lawrence Berkeley National Laboratory (DOE classification)"
_IEC = "IEC TS 60479, as listed at emf-portal.org"


@dataclass(frozen=True)
class Caution:
    """A warning.

    Attributes:
        says: what is dangerous and what to do about it.
        source: where the threshold comes from.
    """

    says: Prose
    source: str


def reaches(value: Exact, threshold: Exact) -> bool:
    """Whether a value, which holds no symbol, is as large as a threshold or larger."""
    return sign_of(value - threshold) != -1


_DEFER = say("Work on such a circuit only under local rules and together with someone licensed or "
             "trained for it.")  # fmt: skip


def caution_of_charged(
    drop: Name, energy: Name, values: Mapping[Name, Exact], they: str
) -> Caution | None:
    """The caution that capacitors call for, or None where no threshold is reached.

    Args:
        drop: the largest voltage.
        energy: all that is stored.
        values: in SI units.
        they: who holds it: ``these capacitors hold``.
    """
    volts, joules = values[drop], values[energy]
    holds = say("Charged to {volts}, {they} {energy}.", volts=NumberOf(drop),
                they=they,
                energy=NumberOf(energy))  # fmt: skip
    discharge = say(
        "A capacitor stays charged after the source is gone: discharge it through a resistor made "
        "for that, and measure before touching."
    )
    if reaches(volts, SHOCK_VOLTAGE) and reaches(joules, SHOCK_ENERGY):
        says = sentences(holds, say("That can kill."), discharge, _DEFER)
        return Caution(says, f"{_LBNL}, table 2.2.13: from 100 V and 10 J a shock hazard")
    if not reaches(volts, SHOCK_VOLTAGE) and not reaches(THERMAL_ENERGY, joules):
        burns = say("A short circuit can then burn skin and throw molten metal.")
        says = sentences(holds, burns, discharge, _DEFER)
        return Caution(says, f"{_LBNL}, table 2.3.5: under 100 V and over 100 J a thermal hazard")
    if reaches(volts, TOUCH_VOLTAGE):
        return _touch(NumberOf(drop), discharge)
    return None


def caution_of_live(drop: Name, flow: Name, values: Mapping[Name, Exact]) -> Caution | None:
    """The caution that a source calls for, or None where no threshold is reached.

    Args:
        drop: its voltage.
        flow: the largest current that it delivers.
        values: in SI units.
    """
    if reaches(values[drop], SHOCK_VOLTAGE) and reaches(values[flow], SHOCK_CURRENT):
        says = sentences(
            say("At {volts} this circuit can drive a deadly current through a person.",
                volts=NumberOf(drop)),
            say("Switch it off, lock it off and measure before touching."),
            _DEFER,
        )  # fmt: skip
        return Caution(says, f"{_LBNL}, table 2.2.13: direct current from 100 V and 40 mA")
    if reaches(values[drop], TOUCH_VOLTAGE):
        return _touch(NumberOf(drop), say("Switch it off before touching."))
    return None


def caution_of_voltage(drop: Name) -> Caution:
    """The caution that a voltage calls for that can be felt, whatever drives it."""
    return _touch(NumberOf(drop), say("Switch it off and discharge it before touching."))


def _touch(volts: NumberOf, rule: Prose) -> Caution:
    says = sentences(say("{volts} is more than can be touched safely.", volts=volts), rule, _DEFER)
    return Caution(says, f"{_IEC}: 60 V direct current for children, 120 V for healthy adults")
