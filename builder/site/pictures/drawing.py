"""A circuit's figure as a picture that stands alone: black on white, in any program."""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import escape, unescape
from pathlib import Path

from builder.errors import Fault, FaultyFile
from builder.figure.ink import ink_box
from builder.figure.scene import Box
from builder.lesson import Lesson
from builder.pointing import obeyed
from builder.problem.relations.model import RelationsProblem
from builder.site.figures import figure_maker
from builder.site.figures.pen import Ink

MADE_BY = "Made by Stepwell"
MARGIN = 6.0
GAP = 24.0
_INK, _PAPER = "#000000", "#ffffff"

_FIGURE = re.compile(r"<svg\b([^>]*)>(.*?)</svg>", re.DOTALL)
_TITLE = re.compile(r"<title\b[^>]*>(.*?)</title>", re.DOTALL)
_TOLD = re.compile(r"<desc\b[^>]*>(.*?)</desc>", re.DOTALL)
_TARGET = re.compile(r'<rect class="sw-hit"[^>]*/>')
_OF_PAGES = re.compile(r' (?:class|data-[a-z]+)="[^"]*"')


class _BareInk(Ink):
    """Draws without what a page explains beside the figure: traced wires, broken lines."""

    def touched(self, svg: str, how: object, by: object) -> str:
        """The figure as it was."""
        return svg


@dataclass(frozen=True)
class _Figure:
    """One figure, taken out of its page.

    Attributes:
        box: round all that it shows.
        look: the attributes that all in it take over: font and stroke.
        title: what it is called, as markup.
        told: what it shows, as markup.
        inside: the rest of it.
    """

    box: Box
    look: str
    title: str
    told: str
    inside: str


def draw_alone(lesson: Lesson, symbols: str, path: Path, step: int | None = None) -> str:
    """The picture of a lesson's circuit as a whole SVG file.

    Args:
        lesson: what is drawn.
        symbols: ``iec`` or ``ieee``.
        path: the file of the problem, as faults name it.
        step: draw the circuit after that step, from 1; None for the circuit as it is given.

    Raises:
        FaultyFile: if the problem has no circuit, or no such step.
    """
    problem = lesson.solution.problem
    if isinstance(problem, RelationsProblem) and problem.plates is None:
        raise FaultyFile((Fault(
            str(path), 0, 0, "a problem of plain equations", "a problem with a circuit or plates",
            "There is nothing to draw; stepwell solve prints its solution.",
        ),))  # fmt: skip
    maker = figure_maker(lesson, "figure", symbols, _BareInk())
    if step is None:
        return _alone(str(maker.given()), problem.title)
    if not 1 <= step <= len(lesson.steps):
        raise FaultyFile((Fault(
            str(path), 0, 0, f"--step {step}", f"a step from 1 to {len(lesson.steps)}",
            "stepwell solve prints them with their numbers.",
        ),))  # fmt: skip
    return _alone(str(maker.of_step(step, lesson.steps[step - 1]).after), problem.title)


def _alone(markup: str, title: str) -> str:
    """Figures as one picture, side by side."""
    figures = [_taken_out(match) for match in _FIGURE.finditer(markup)]
    assert figures, "a figure maker draws at least one figure"
    pieces, left = [], MARGIN
    top = min(figure.box.top for figure in figures)
    height = max(figure.box.bottom for figure in figures) - top + 2 * MARGIN
    for figure in figures:
        x, y = left - figure.box.left, MARGIN - top
        pieces.append(f'<g transform="translate({_n(x)} {_n(y)})">{figure.inside}</g>')
        left += figure.box.right - figure.box.left + GAP
    width = left - GAP + MARGIN
    told = " ".join(dict.fromkeys(figure.told for figure in figures))
    return _plain(
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f"<!-- {MADE_BY} -->\n"
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="title about" '
        f'width="{_n(width)}" height="{_n(height)}" viewBox="0 0 {_n(width)} {_n(height)}" '
        f"{figures[0].look}>\n"
        f'<title id="title">{escape(title)}: {figures[0].title}</title>'
        f'<desc id="about">{told}</desc>\n'
        f'<rect width="{_n(width)}" height="{_n(height)}" fill="{_PAPER}"/>'
        f"{''.join(pieces)}</svg>\n"
    )


def _plain(picture: str) -> str:
    """The same picture without signs that a terminal would obey, should it be printed there."""
    return "".join(f"&#{ord(sign)};" if sign != "\n" and obeyed(sign) else sign for sign in picture)


def _taken_out(match: re.Match[str]) -> _Figure:
    given = dict(re.findall(r'([\w:-]+)="([^"]*)"', match[1]))
    box = ink_box(match[0])
    kept = ("font-family", "font-size", "fill", "stroke-width")
    look = " ".join(f'{name}="{given[name]}"' for name in kept if name in given)
    title, told = (found[1] if (found := part.search(match[2])) else ""
                   for part in (_TITLE, _TOLD))  # fmt: skip
    inside = _TOLD.sub("", _TITLE.sub("", match[2], count=1), count=1)
    inside = _OF_PAGES.sub("", _TARGET.sub("", inside)).replace("currentColor", _INK)
    return _Figure(box, look, title, told, inside)


def size_of(picture: str) -> tuple[float, float]:
    """The width and the height of a picture that stands alone, in pixels."""
    found = re.search(r'width="([\d.]+)" height="([\d.]+)"', picture)
    assert found is not None
    return float(found[1]), float(found[2])


def about(picture: str) -> str:
    """What a picture shows, in a line of text."""
    found = _TOLD.search(picture)
    return unescape(found[1]) if found else ""


def _n(number: float) -> str:
    return f"{number:.2f}".rstrip("0").rstrip(".")
