"""Elements and a source that each are right may still not go together."""

from __future__ import annotations

from builder.circuit.law import LAWS, Law
from builder.problem.faults.gathering import quoted
from builder.problem.letters_together import refuse_clashing_letters
from builder.problem.parts import EXAMPLES, RESERVED, Parts
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, element_index

_WHOLE_INDEXES = ("eq", "tot", TOTAL)
"""Subscripts that pages give to the quantities of the whole circuit."""


def check_together(parts: Parts) -> None:
    """Note faults of elements that do not go together, or not with the source."""
    law = parts.law
    if law is None:
        return
    _refuse_mixture(parts, law)
    _refuse_lookalikes(parts, law)
    refuse_clashing_letters(parts, law)
    source = parts.source
    if source is None:
        return
    if source.measure and source.measure.kind not in (law.drop, law.flow):
        kind = source.measure.kind
        parts.faults.add(source.at.at, f"a {KINDS[kind].noun} as the source of {law.element}s",
                         f"{EXAMPLES[law.drop]} or {EXAMPLES[law.flow]}",
                         f"{law.element.capitalize()}s are driven by a {law.drop} or a "
                         f"{law.flow}.")  # fmt: skip


def _refuse_mixture(parts: Parts, law: Law) -> None:
    for name, given in parts.elements.items():
        if given.measure and given.measure.kind != law.value:
            other = LAWS[given.measure.kind].element
            parts.faults.add(given.at.at, f"a {other}, {name}, among {law.element}s",
                             "capacitors only or resistors only",
                             "Check the unit, or write the circuit as branches, which may hold "
                             "both.")  # fmt: skip
            return


def _refuse_lookalikes(parts: Parts, law: Law) -> None:
    seen: dict[str, str] = {}
    for name, given in parts.elements.items():
        index = element_index(name, law.letter)
        if index in _WHOLE_INDEXES and name.lower() not in RESERVED:
            parts.faults.add(given.name.at, f"the name {quoted(name)}",
                             "a name that does not look like that of the whole circuit",
                             "Choose a name such as C1, R2 or V0.")  # fmt: skip
        elif index in seen:
            parts.faults.add(given.name.at, f"the names {quoted(seen[index])} and {quoted(name)}",
                             "names that look different on the page",
                             "Both would be printed alike. Give one of them another "
                             "name.")  # fmt: skip
        seen.setdefault(index, name)
    source = parts.source
    if source is None or not source.name.value:
        return
    name = source.name.value
    kind = source.measure.kind if source.measure else law.drop
    alike = seen.get(element_index(name, KINDS[kind].symbol))
    if name in parts.elements:
        parts.faults.add(source.name.at, f"the name {quoted(name)} for a source and an element",
                         "each name once", "Give one of the two another name.")  # fmt: skip
    elif alike is not None:
        parts.faults.add(source.name.at, f"the source {quoted(name)} beside the element "
                         f"{quoted(alike)}", "names that look different on the page",
                         f"The {kind} of {alike} would be printed like the source. Give one of "
                         f"them another name, such as source: {{Vs: 12 V}}.")  # fmt: skip
