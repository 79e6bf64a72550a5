"""What a problem in stages asks for, in words."""

from __future__ import annotations

from builder.circuit.switching import split_moment
from builder.lesson.prose import Prose, say
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.vocabulary import PREPOSITIONS
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name

_PLURALS = {"energy": "energies"}


def find_list(display: StagesDisplay) -> tuple[Prose, ...]:
    """What is asked; the same quantity of several capacitors at one moment in one line."""
    sets: dict[tuple[str, str, str], list[str]] = {}
    for name in display.solution.problem.find:
        base, when = split_moment(name.of)
        own = "" if base in display.members else base
        sets.setdefault((name.quantity, own, when), []).append(base)
    found: list[Prose] = []
    for (quantity, own, when), names in sets.items():
        if own or len(names) == 1:
            found.append(display.asks_for(Name(quantity, f"{names[0]}@{when}" if when
                                               else names[0])))  # fmt: skip
            continue
        noun, word = KINDS[quantity].noun, PREPOSITIONS[quantity]
        if len(names) == len(display.members):
            whose = say("the {noun} {word} each {one}", noun=noun, word=word, one=display.one)
        else:
            whose = say("the {nouns} {word} {whom}", nouns=_PLURALS.get(noun, f"{noun}s"),
                        word=word, whom=display.elements(tuple(names)))  # fmt: skip
        found.append(say("{whose} {when}", whose=whose, when=display.at(when)))
    return tuple(found)
