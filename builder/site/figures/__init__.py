"""The figures of a lesson, for each kind of problem."""

from __future__ import annotations

from collections.abc import Callable

from builder.lesson import Lesson
from builder.problem.model import (
    NestProblem,
    NetworkProblem,
    Problem,
    StagesProblem,
    TransientProblem,
)
from builder.problem.relations.model import RelationsProblem
from builder.problem.relations.unknowns import UnknownProblem
from builder.site.figures.nest import NestFigures
from builder.site.figures.network import NetworkFigures
from builder.site.figures.pen import INK, Pen
from builder.site.figures.relations import RelationsFigures
from builder.site.figures.stages import StagesFigures
from builder.site.figures.step_figures import FigureMaker
from builder.site.figures.transient import TransientFigures
from builder.site.figures.unknown import UnknownFigures

MAKERS: dict[type[Problem], Callable[[Lesson, str, str, Pen], FigureMaker]] = {
    NestProblem: NestFigures.of,
    NetworkProblem: NetworkFigures.of,
    StagesProblem: StagesFigures.of,
    RelationsProblem: RelationsFigures.of,
    UnknownProblem: UnknownFigures.of,
    TransientProblem: TransientFigures.of,
}
"""What draws the figures of each kind of problem."""


def figure_maker(lesson: Lesson, prefix: str, symbols: str, pen: Pen = INK) -> FigureMaker:
    """What draws a lesson's figures.

    Args:
        lesson: what is drawn.
        prefix: starts every id in the figures, unique on the page.
        symbols: ``iec`` or ``ieee``.
        pen: what draws them.
    """
    return MAKERS[type(lesson.solution.problem)](lesson, prefix, symbols, pen)
