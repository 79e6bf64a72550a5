"""What a problem asks for, in words."""

from __future__ import annotations

from builder.lesson.display import Display
from builder.lesson.prose import Prose, say
from builder.lesson.vocabulary import PREPOSITIONS
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name

_PLURALS = {"capacitance": "capacitances", "energy": "energies"}


def asked_names(display: Display) -> tuple[Name, ...]:
    """The quantities that are asked for, each once: the whole of one element is the element."""
    asked = (display.resolve(name) for name in display.solution.problem.find)
    return tuple(dict.fromkeys(asked))


def find_list(display: Display) -> tuple[Prose, ...]:
    """What is asked, in words; the same quantity of several elements in one line."""
    elements = display.members
    by_kind: dict[tuple[str, bool], list[Name]] = {}
    for name in asked_names(display):
        by_kind.setdefault((name.quantity, name.of in elements), []).append(name)
    found: list[Prose] = []
    for (quantity, of_element), names in by_kind.items():
        if not of_element or len(names) == 1:
            found.extend(display.asks_for(name) for name in names)
            continue
        noun, word = KINDS[quantity].noun, PREPOSITIONS.get(quantity, "of")
        of = tuple(name.of for name in names)
        if len(of) == len(elements):
            found.append(say("the {noun} {word} each {one}", noun=noun, word=word, one=display.one))
            continue
        found.append(say("the {nouns} {word} {whom}", nouns=_PLURALS.get(noun, f"{noun}s"),
                         word=word, whom=display.elements(of)))  # fmt: skip
    return tuple(found)
