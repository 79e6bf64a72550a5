"""What stands beside a step, and what makes it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from markupsafe import Markup

from builder.lesson.lesson import TaughtStep
from builder.lesson.prose import Prose


@dataclass(frozen=True)
class StepFigures:
    """What stands beside a step.

    Attributes:
        before: the circuit before a merge, with what its members share traced; may be empty.
        after: the circuit after the step.
        legend: what each way of tracing stands for.
    """

    before: Markup
    after: Markup
    legend: tuple[tuple[str, Prose], ...]


class FigureMaker(Protocol):
    """Draws the figures of one lesson."""

    def given(self) -> Markup:
        """The circuit as the problem gives it."""

    def in_words(self) -> tuple[Markup, ...]:
        """The circuit as the problem gives it, in sentences."""

    def of_step(self, number: int, taught: TaughtStep) -> StepFigures:
        """The figures of a step; ``number`` counts from 1."""
