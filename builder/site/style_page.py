"""The style page: every part of the pages side by side, for whoever works on their look."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from builder.lesson import Lesson
from builder.problem.model import LEVELS, Unit
from builder.site.listing import card
from builder.site.page import PARTS, ProblemPage, render
from builder.site.palette import Palette, palettes

STYLE_PAGE = "style.md"
_OPEN_STEPS = 2
_SIZES = ("1.9em", "1.5em", "1.1em", "1em", "0.9em", "0.82em")
_SHOWN = ("opening", "caution", "predict", "solution", "checks", "results", "watch", "self-check")


@dataclass(frozen=True)
class StylePage:
    """The style page of a unit, made of the real parts of one of its problems.

    Attributes:
        unit: what ``unit.yml`` says.
        lessons: by slug; the first with a caution is shown, else the first.
    """

    unit: Unit
    lessons: Mapping[str, Lesson]

    def pages(self) -> dict[str, str]:
        """The Markdown of the page, by its source path."""
        blocks = [
            "---\nsearch:\n  exclude: true\n---",
            "# Style page",
            "For contributors: all parts of the pages side by side, by day and by night. It is "
            "built with the site and never published with it.",
            "## Colours and their contrast",
            '<div data-stepwell-made="style/palette"></div>',
            "## Sizes of type",
            '<div data-stepwell-made="style/type"></div>',
            "## Parts",
            '<div data-stepwell-made="style/parts"></div>',
        ]
        return {STYLE_PAGE: "\n\n".join(blocks) + "\n"}

    def part(self, id: str) -> Markup:
        """``palette``, ``type`` or ``parts``, as HTML."""
        if id == "palette":
            return render("style/palette.html", palettes=palettes())
        if id == "type":
            return render("style/type.html", sizes=_SIZES)
        panels = [self._panel(palette, at) for at, palette in enumerate(palettes()[:2])]
        return render("style/parts.html", panels=panels, unit=self.unit)

    def _panel(self, palette: Palette, at: int) -> dict[str, object]:
        """All parts in one palette."""
        return {
            "palette": palette,
            "scheme": ("light", "dark")[at],
            "levels": LEVELS,
            "cards": [card(one.solution.problem, "#parts") for one in self._examples()],
            "parts": [
                part for lesson in self._examples()[:1] for part in self._parts(lesson, f"sw-{at}")
            ],
        }

    def _parts(self, lesson: Lesson, prefix: str) -> list[tuple[str, Markup]]:
        page = ProblemPage(lesson, self.unit, prefix)
        shown = []
        for part in PARTS:
            if part.id in _SHOWN and (html := str(page.part(part))):
                opened = html.replace('<details class="sw-step"', '<details open class="sw-step"',
                                      _OPEN_STEPS)  # fmt: skip
                shown.append((part.heading or part.id.capitalize(), Markup(opened)))
        return shown

    def _examples(self) -> list[Lesson]:
        """One lesson of each level; first the one whose parts are shown."""
        lessons = list(self.lessons.values())
        lessons.sort(key=lambda lesson: lesson.caution is None)
        by_level: dict[str, Lesson] = {}
        for lesson in lessons:
            by_level.setdefault(lesson.solution.problem.level, lesson)
        return list(by_level.values())
