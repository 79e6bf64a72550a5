"""The words of one step."""

from __future__ import annotations

from dataclasses import dataclass

from builder.errors import Fault, FaultyFile
from builder.lesson.prose import Prose, Written
from builder.problem.faults.gathering import meant, one_of, quoted
from builder.problem.model import Problem, StepWords

_FEW = 8


@dataclass(frozen=True)
class Words:
    """What a teacher says at one step.

    Attributes:
        goal: what the step is for; its heading.
        reason: why the move is allowed.
        remark: what to notice in the result; may be empty.
    """

    goal: Prose
    reason: Prose
    remark: Prose = ()


def with_own(words: Words, own: StepWords | None) -> Words:
    """Generated words, or an author's own in their place."""
    if own is None:
        return words
    return Words(
        goal=(Written(own.goal),) if own.goal else words.goal,
        reason=(Written(own.reason),) if own.reason else words.reason,
        remark=() if own.reason else words.remark,
    )


def refuse_strange_ids(problem: Problem, ids: tuple[str, ...]) -> None:
    """Make sure that an author's own words are for steps that the solution has.

    The steps of a nest are known when its file is read; those of other kinds only once the
    problem is solved.

    Args:
        problem: with the author's words.
        ids: of all steps that the solution can show.

    Raises:
        FaultyFile: with a fault for each other id.
    """
    faults = []
    for id, own in problem.words.items():
        if id not in ids:
            few = ids if len(ids) <= _FEW else (*ids[: _FEW - 1], "another step's id")
            advice = meant(id, ids, "Run stepwell solve without these words to see all ids.")
            faults.append(
                Fault(problem.path, *own.at, f"the step {quoted(id)}", one_of(few), advice)
            )
    if faults:
        raise FaultyFile(tuple(faults))
