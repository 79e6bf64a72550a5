"""A circuit that charges in a few words, for lists and for reference pages."""

from __future__ import annotations

from builder.lesson.prose import number_word
from builder.problem.model import TransientProblem

TRANSIENT = "transient"
"""Told of problems in which a capacitor charges or discharges through resistors."""


def about(problem: TransientProblem) -> str:
    """``two resistors, one capacitor, one switch``."""
    circuit = problem.circuit
    parts = [(len(circuit.resistors), "resistor", "s"), (len(circuit.capacitors), "capacitor", "s")]
    if circuit.switches:
        parts.append((len(circuit.switches), "switch", "es"))
    return ", ".join(
        f"{number_word(count)} {noun}{'' if count == 1 else plural}"
        for count, noun, plural in parts
    )


def topic(_problem: TransientProblem) -> str:
    """What a list of problems can be narrowed down to."""
    return "charging and discharging"


def uses(problem: TransientProblem) -> frozenset[str]:
    """Words for all that occurs in a problem: ``transient`` and what a nest tells."""
    found = {"capacitor", "resistor", "capacitance", "resistance", "voltage", "current", "time"}
    found |= {TRANSIENT, "time-constant"}
    found |= {"switch"} if problem.circuit.switches else set()
    for source in problem.circuit.sources:
        found |= {"source", f"{source.quantity}-source"}
    asked = {name.quantity for name in problem.find}
    found |= asked & {"charge", "energy", "power"}
    return frozenset(found | {f"asked-{quantity}" for quantity in asked})
