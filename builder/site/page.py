"""The page of one problem: its parts, in order, and how they are filled."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from builder.lesson import Lesson
from builder.problem.model import Problem, Unit
from builder.site.author_text import block
from builder.site.expected import ExpectedAnswers
from builder.site.figures import figure_maker
from builder.site.figures.pen import INK, Pen
from builder.site.figures.picking import to_pick_in
from builder.site.markup import Writer
from builder.site.mathml import MathWriter

TEMPLATES = Path(__file__).parent / "templates"


@dataclass(frozen=True)
class Part:
    """One part of a problem's page.

    Attributes:
        id: the name of its template and of its anchor.
        heading: its heading; empty for none.
        applies: whether a lesson has anything for it.
    """

    id: str
    heading: str = ""
    applies: Callable[[Lesson], bool] = lambda lesson: True


@dataclass(frozen=True)
class Link:
    """A link to another page.

    Attributes:
        role: what it leads to: ``Previous problem``.
        title: the page's title.
        address: relative to the page it stands on.
    """

    role: str
    title: str
    address: str


def _course(lesson: Lesson) -> object:
    """The course of a voltage, where a kind of lesson has one."""
    return getattr(lesson, "course", None)


FRESH = "fresh"
"""The part that only a page with other numbers has; ``site.fresh`` makes it."""

PARTS: tuple[Part, ...] = (
    Part("opening"),
    Part(FRESH),
    Part("caution", applies=lambda lesson: lesson.caution is not None),
    Part("predict", "Predict first", applies=lambda lesson: bool(lesson.predict or lesson.before)),
    Part("solution", "Solution"),
    Part("course", "From start to end", applies=lambda lesson: _course(lesson) is not None),
    Part("checks", "Does it add up?", applies=lambda lesson: bool(lesson.checks)),
    Part("limits", "At the extremes", applies=lambda lesson: bool(lesson.limits)),
    Part("results", "All results"),
    Part("watch", "Watch for", applies=lambda lesson: bool(lesson.warnings)),
    Part("self-check", "Check yourself"),
    Part("onward"),
)
"""Every part of a problem's page, in reading order."""


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        # Templates belong to the program and change with it alone.
        auto_reload=False,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["start_small"] = _start_small
    return environment


def _start_small(sentence: str) -> str:
    """A sentence as the continuation of another: its first letter small."""
    return sentence[:1].lower() + sentence[1:]


def render(template: str, **values: Any) -> Markup:
    """A template filled with values."""
    return Markup(_environment().get_template(template).render(**values))


@dataclass(frozen=True)
class ProblemPage:
    """A lesson on its way to a page.

    Attributes:
        lesson: what the page tells.
        unit: the unit it belongs to.
        prefix: starts every id on the page.
        links: where the page leads on to: what each link is called, and its address.
        pen: what draws its figures.
    """

    lesson: Lesson
    unit: Unit
    prefix: str
    links: tuple[Link, ...] = ()
    pen: Pen = INK

    def part(self, part: Part) -> Markup:
        """One part as HTML, or nothing if the lesson has nothing for it."""
        if part.id == FRESH or not part.applies(self.lesson):
            return Markup("")
        return self.filled(f"parts/{part.id}.html")

    def filled(self, template: str, **more: Any) -> Markup:
        """A template filled with all that the page tells, and with ``more``."""
        return render(template, **self._values, **more)

    @cached_property
    def _values(self) -> Mapping[str, Any]:
        writer = Writer(self.lesson.display)
        return {
            "lesson": self.lesson,
            "problem": self.lesson.solution.problem,
            "unit": self.unit,
            "display": self.lesson.display,
            "prefix": self.prefix,
            "writer": writer,
            "maths": MathWriter(writer),
            "figures": figure_maker(self.lesson, self.prefix, self.unit.symbols, self.pen),
            "to_pick_in": to_pick_in,
            "scenario": block(self.lesson.solution.problem.scenario, writer.placeholder),
            "givens": self.lesson.solution.givens,
            "expected": ExpectedAnswers(self.lesson).of,
            "step_link": self._step_link,
            "asked": self.lesson.asked,
            "links": self.links,
        }

    def _step_link(self, id: str | None) -> str:
        """The anchor of a step on this page, or nothing if it is none of the lesson's steps."""
        known = any(taught.step.id == id for taught in self.lesson.steps)
        return f"{self.prefix}-{id}" if known else ""


def skeleton(problem: Problem, lesson: Lesson) -> str:
    """The Markdown of a problem's page: headings, and a placeholder for each part.

    The parts themselves enter after the Markdown conversion, which would take longer than
    everything else.
    """
    blocks = [f"# {heading_text(problem.title)}"]
    for part in PARTS:
        if part.applies(lesson):
            if part.heading:
                blocks.append(f"## {part.heading} {{#{part.id}}}")
            blocks.append(placeholder(problem.slug, part.id))
    return "\n\n".join(blocks) + "\n"


def placeholder(slug: str, part: str) -> str:
    """What stands in the Markdown where a part will be."""
    return f'<div data-stepwell-part="{slug}/{part}"></div>'


def heading_text(title: str) -> str:
    """A title as Markdown that means just these characters."""
    special = "\\`*_{}[]()#+-.!$"
    return "".join(f"\\{c}" if c in special else str(escape(c)) for c in title)
