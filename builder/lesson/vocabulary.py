"""The words that differ between capacitors and resistors."""

from __future__ import annotations

from dataclasses import dataclass

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from builder.lesson.prose import Relation, number_word


@dataclass(frozen=True)
class Vocabulary:
    """How one kind of circuit is talked about.

    Attributes:
        one: the noun for an element.
        value: the noun for an element's value.
        flow: the noun for its flow.
        flow_verb: what an element does with its flow.
        flow_law: how the flow follows.
        drop_law: how the voltage follows.
        shared_in_series: why the members of a series chain share their flow.
        work: the noun for its work.
    """

    one: str
    value: str
    flow: str
    flow_verb: str
    flow_law: Relation
    drop_law: Relation
    shared_in_series: str
    work: str

    def many(self, number: int) -> str:
        """``the capacitor``, ``two capacitors``, ``twelve`` as 12."""
        return f"{number_word(number)} {self.one}" + ("" if number == 1 else "s")


_CAPACITORS = Vocabulary(
    one="capacitor",
    value="capacitance",
    flow="charge",
    flow_verb="carries",
    flow_law=Relation("Q = CV"),
    drop_law=Relation("V = Q/C"),
    shared_in_series="the wire between them starts neutral, and what leaves one plate must "
    "arrive on the next",
    work="energy",
)
_RESISTORS = Vocabulary(
    one="resistor",
    value="resistance",
    flow="current",
    flow_verb="carries",
    flow_law=Relation("I = V/R"),
    drop_law=Relation("V = RI"),
    shared_in_series="there is no branch where current could leave or join",
    work="power",
)

_BY_LAW = {CAPACITORS.value: _CAPACITORS, RESISTORS.value: _RESISTORS}


def vocabulary(law: Law) -> Vocabulary:
    """The words for circuits of that law."""
    return _BY_LAW[law.value]
