"""The plan of a solution in a line or two."""

from __future__ import annotations

from builder.lesson.display import Display
from builder.lesson.prose import Prose, Written, capitalised, number_word, say
from builder.lesson.vocabulary import vocabulary
from builder.quantity.names import TOTAL
from builder.solution import StepKind


def plan(display: Display) -> Prose:
    """What will be done, in order, before any detail; the author's own plan if there is one."""
    problem = display.solution.problem
    if problem.plan:
        return (Written(problem.plan),)
    kinds = [step.kind for step in display.solution.steps]
    merges = kinds.count(StepKind.MERGE)
    if not kinds:
        return say("What is asked is given already.")
    if not merges:
        return _without_merging(display)
    parts = [_merging(merges, display)]
    opened = [step for step in display.solution.steps if step.kind is StepKind.OPEN]
    if StepKind.DRIVE in kinds:
        parts.append("let the source meet it")
    if opened:
        back = "walk back to the single elements" if merges > 1 else "walk back"
        parts.append(back if StepKind.DRIVE in kinds else "then work outward from the source")
    works = [k for k in kinds if k in (StepKind.WORK, StepKind.TOTAL)]
    if works and not opened and StepKind.DRIVE not in kinds:
        parts.append(f"find the {vocabulary(problem.law).work} from there")
    text = parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])}, and {parts[-1]}"
    text = text.replace(", and then", ", then")
    return capitalised(say(f"{text}."))


def _merging(merges: int, display: Display) -> str:
    one = vocabulary(display.solution.problem.law).one
    whole = any(s.id == f"merge-{TOTAL}" for s in display.solution.steps)
    if not whole:
        moves = "one group" if merges == 1 else f"{number_word(merges)} groups"
        return f"merge only the {moves} that we need" if merges > 1 else "merge the one group that is needed"
    if merges == 1:
        return f"merge everything into one {one} in a single move"
    return f"merge from the inside out until one {one} is left, in {number_word(merges)} moves"


def _without_merging(display: Display) -> Prose:
    law = display.solution.problem.law
    source = display.solution.problem.network.source
    assert source is not None
    shared = "voltage" if source.quantity == law.drop else vocabulary(law).flow
    return say("Nothing has to be merged: the source sets the {shared} of every element "
               "that is asked about.", shared=shared)  # fmt: skip
