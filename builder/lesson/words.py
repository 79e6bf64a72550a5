"""The words of one step."""

from __future__ import annotations

from dataclasses import dataclass

from builder.lesson.prose import Prose


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
