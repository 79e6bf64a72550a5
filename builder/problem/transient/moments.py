"""How the quantities of a circuit that charges or discharges are named.

A quantity of an element at a moment is called ``C1@start``, ``C1@end`` or ``C1@t1``; the moments
``t1``, ``t2``, … are times that the author asks about, and ``before`` is just before the change.
"""

from __future__ import annotations

from builder.quantity.names import TOTAL, Name

BEFORE, START, END = "before", "start", "end"
SEEN = "seen"
STORE = "store"
"""What several capacitors are together."""
CONSTANT = Name("time-constant", TOTAL)
SEEN_RESISTANCE = Name("resistance", SEEN)


def at(quantity: str, of: str, when: str) -> Name:
    """A quantity of an element at a moment."""
    return Name(quantity, f"{of}@{when}")


def in_part(of: str, part: int) -> str:
    """An equivalent of the n-th part of a circuit that falls into several."""
    return f"{of}|{part}"


def moment_of(name: Name) -> tuple[str, str]:
    """What a quantity belongs to, and when; an empty moment means that it does not change."""
    of, _, when = name.of.partition("@")
    return of, when


def reaching(element: str, level: int) -> Name:
    """The time at which an element's voltage reaches the n-th level that is asked about."""
    return Name("time", f"{element}>{level}")


def level_of(element: str, level: int) -> Name:
    """The n-th level that is asked about."""
    return Name("voltage", f"{element}>{level}")
