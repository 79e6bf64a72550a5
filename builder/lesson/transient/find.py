"""What is asked of a circuit that charges, in words."""

from __future__ import annotations

from builder.lesson.prose import Prose, say
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.vocabulary import PREPOSITIONS
from builder.problem.transient.moments import moment_of
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name

_PLURALS = {"energy": "energies"}


def find_list(display: TransientDisplay) -> tuple[Prose, ...]:
    """What is asked, in the author's order.

    The same quantity of several elements at one moment stands in one line.
    """
    sets: dict[tuple[str, str, bool] | Name, list[str]] = {}
    for name in display.solution.problem.find:
        of, when = moment_of(name)
        key = (name.quantity, when, of in display.capacitors) if when else name
        sets.setdefault(key, []).append(of)
    return tuple(_told(key, names, display) for key, names in sets.items())


def _told(key: tuple[str, str, bool] | Name, names: list[str], display: TransientDisplay) -> Prose:
    if isinstance(key, Name):
        return display.asks_for(key)
    quantity, when, _ = key
    noun, word = KINDS[quantity].noun, PREPOSITIONS[quantity]
    nouns = noun if len(names) == 1 else _PLURALS.get(noun, f"{noun}s")
    return say("the {nouns} {word} {whom} {when}", nouns=nouns, word=word,
               whom=display.elements(tuple(names)), when=display.at(when))  # fmt: skip
