"""A problem in stages in a few words, for lists and for reference pages."""

from __future__ import annotations

from builder.lesson.prose import number_word
from builder.problem.model import StagesProblem

SWITCHES = "switch"
ISLANDS = "island"
SHARING = "sharing"
ASKED = "asked-"


def about(problem: StagesProblem) -> str:
    """``two capacitors, one switch``, ``three capacitors, three stages``."""
    number = len(problem.network.elements)
    capacitors = f"{number_word(number)} capacitor{'' if number == 1 else 's'}"
    stages = len(problem.stages)
    if stages > 1:
        return f"{capacitors}, {number_word(stages)} stages"
    switches = len(problem.switches)
    return f"{capacitors}, {number_word(switches)} switch{'' if switches == 1 else 'es'}"


def topic(_problem: StagesProblem) -> str:
    """What a list of problems can be narrowed down to."""
    return "capacitors"


def uses(problem: StagesProblem) -> frozenset[str]:
    """Words for all that occurs in a problem.

    Besides what a nest tells: ``switch`` and ``island``, and ``parallel`` where capacitors come to
    lie side by side.
    """
    found = {"capacitor", "capacitance", "charge", "voltage", "energy", ISLANDS}
    found |= {SWITCHES} if problem.switches else set()
    found |= {"source", "voltage-source"} if problem.network.sources else set()
    found |= {SHARING, "parallel"} if len(problem.network.elements) > 1 else set()
    return frozenset(found | {f"{ASKED}{name.quantity}" for name in problem.find})
