"""The circuit drawn once more for a question that is answered by picking elements in it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from markupsafe import Markup

from builder.lesson.questions.forms import PickQuestion
from builder.site.figures.step_figures import FigureMaker
from builder.site.figures.tracing import LOOKS, traced


def to_pick_in(figures: FigureMaker, question: PickQuestion, id: str) -> Markup:
    """The circuit as given, with what can be traced in it.

    Args:
        figures: of the page; the same pen draws.
        question: whose junctions are traced. The style sheet hides the traces until the page's
            script shows them.
        id: starts every id in the figure, unique on the page.
    """
    # Each maker of figures is a frozen dataclass with these two fields.
    maker: Any = figures
    svg = str(replace(maker, prefix=id).given())
    looks = dict(zip(question.traced, LOOKS, strict=False))
    return Markup(maker.pen.touched(svg, lambda drawn: traced(drawn, looks), looks))
