"""The words that differ between capacitors and resistors."""

from __future__ import annotations

from dataclasses import dataclass

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from builder.lesson.prose import Relation

PREPOSITIONS = {
    "charge": "on",
    "voltage": "across",
    "energy": "stored in",
    "current": "through",
    "power": "in",
}
"""What stands between a quantity and its element: the charge on C₂."""


@dataclass(frozen=True)
class Vocabulary:
    """How one kind of circuit is talked about.

    Attributes:
        one: the noun for an element.
        value: the noun for an element's value.
        flow: the noun for its flow.
        flow_law: how the flow follows.
        drop_law: how the voltage follows.
        flow_word: the preposition between a flow and its element.
        shared_by_two: why the two members of a series chain share their flow.
        shared_by_more: the same for three or more.
        work: the noun for its work.
    """

    one: str
    value: str
    flow: str
    flow_law: Relation
    drop_law: Relation
    flow_word: str
    shared_by_two: str
    shared_by_more: str
    work: str


_CAPACITORS = Vocabulary(
    one="capacitor",
    value="capacitance",
    flow="charge",
    flow_law=Relation("Q = CV"),
    drop_law=Relation("V = Q/C"),
    flow_word="on",
    shared_by_two="the wire between them starts neutral, and what leaves one plate must arrive on "
    "the next",
    shared_by_more="the wires between them start neutral, and what leaves one plate must arrive "
    "on the next",
    work="energy",
)
_RESISTORS = Vocabulary(
    one="resistor",
    value="resistance",
    flow="current",
    flow_law=Relation("I = V/R"),
    drop_law=Relation("V = RI"),
    flow_word="through",
    shared_by_two="there is no branch where current could leave or join",
    shared_by_more="there is no branch where current could leave or join",
    work="power",
)

_BY_LAW = {CAPACITORS.value: _CAPACITORS, RESISTORS.value: _RESISTORS}


def vocabulary(law: Law) -> Vocabulary:
    """The words for circuits of that law."""
    return _BY_LAW[law.value]
