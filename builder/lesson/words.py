"""The words of one step."""

from __future__ import annotations

from dataclasses import dataclass

from builder.lesson.prose import Prose, Written
from builder.problem.model import StepWords


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
