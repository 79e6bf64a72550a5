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

    Besides what a nest tells: ``switch``, ``stages`` where there are several, ``island``,
    ``sharing`` where capacitors may come to share charge, and ``unlike`` where one is stated with
    its + plate where another has its − plate.
    """
    found = {"capacitor", "capacitance", "charge", "voltage", "energy", ISLANDS}
    found |= {SWITCHES} if problem.switches else set()
    found |= {"source", "voltage-source"} if problem.network.sources else set()
    found |= {SHARING, "parallel"} if len(problem.network.elements) > 1 else set()
    found |= {"stages"} if len(problem.stages) > 1 else set()
    found |= {"unlike"} if _unlike(problem) else set()
    return frozenset(found | {f"{ASKED}{name.quantity}" for name in problem.find})


def _unlike(problem: StagesProblem) -> bool:
    ends = [one.between for one in problem.network.elements if one.name in problem.charged]
    plus, minus = {end[0] for end in ends}, {end[1] for end in ends}
    turned = any(stage.turn for stage in problem.stages)
    return bool(plus & minus) or turned
