"""What a teacher asks the class before a step is shown."""

from __future__ import annotations

from enum import StrEnum

from builder.lesson.prose import Prose, say
from builder.lesson.transient.display import TransientDisplay
from builder.solution.transient.step import TransientMove, TransientStep


def prompt(step: TransientStep, display: TransientDisplay) -> Prose:
    """A question that leads to the step and does not give it away."""
    return say(_ASKED.get(step.kind, "Which formula uses only what is known by now?"),
               store=display.store, when=display.at(step.when) if step.when else "")  # fmt: skip


_ASKED: dict[StrEnum, str] = {
    TransientMove.STORE: "How do the capacitors look from the rest of the circuit?",
    TransientMove.BEFORE: "What voltage does the change find across {store}? Can it jump?",
    TransientMove.START: "What may stand in for {store} at the first instant?",
    TransientMove.END: "Long after, does any current still flow into {store}?",
    TransientMove.SEEN: "Which resistors does the current of {store} meet?",
    TransientMove.CONSTANT: "What makes it slower: more resistance, more capacitance, or both?",
    TransientMove.AT: "How much of the way is still to go {when}?",
    TransientMove.REACH: "How do we get the time down from the exponent?",
}
