"""What is asked of a circuit that charges, in words."""

from __future__ import annotations

from builder.lesson.prose import Prose, say
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.vocabulary import PREPOSITIONS
from builder.problem.transient.moments import moment_of
from builder.quantity.kinds import KINDS

_PLURALS = {"energy": "energies"}


def find_list(display: TransientDisplay) -> tuple[Prose, ...]:
    """What is asked; the same quantity of several elements at one moment in one line."""
    sets: dict[tuple[str, str, bool], list[str]] = {}
    found: list[Prose] = []
    for name in display.solution.problem.find:
        of, when = moment_of(name)
        if not when:
            found.append(display.asks_for(name))
        else:
            sets.setdefault((name.quantity, when, of in display.capacitors), []).append(of)
    for (quantity, when, _), names in sets.items():
        noun, word = KINDS[quantity].noun, PREPOSITIONS[quantity]
        nouns = noun if len(names) == 1 else _PLURALS.get(noun, f"{noun}s")
        found.append(say("the {nouns} {word} {whom} {when}", nouns=nouns, word=word,
                         whom=display.elements(tuple(names)), when=display.at(when)))  # fmt: skip
    return tuple(found)
