"""What is made of one problem, all as texts: a head for the whole site, and parts for pages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.lesson import Lesson
from builder.problem.model import Problem, Unit
from builder.site.figures import figure_maker
from builder.site.fresh import FreshPage
from builder.site.online import description
from builder.site.page import PARTS, ProblemPage, skeleton
from builder.site.pictures.preview_image import preview_image
from builder.site.plain_text import search_words

LEADS_ON = "onward"
"""The part that hangs on other pages and is made anew in each build."""

_WORDS = "words of "


@dataclass(frozen=True)
class Making:
    """How the pages of a unit are made.

    Attributes:
        unit: that the problems belong to.
        fresh: whether problems' own pages offer other numbers.
        images: whether each page has a preview image.
        hurried: whether pages go without other numbers where none are kept for them.
    """

    unit: Unit
    fresh: bool = False
    images: bool = False
    hurried: bool = False

    def hangs_on(self, problem: Problem) -> tuple[str, ...]:
        """What a problem's page tells besides its own file and what is asked of this class."""
        unit = self.unit
        objectives = {id: unit.objectives.get(id, "") for id in problem.objectives}
        return (unit.title, str(unit.digits), unit.symbols, repr(unit.leave_out), repr(objectives))


@dataclass(frozen=True)
class Head:
    """What a site must know of a problem before any of its pages is written.

    Attributes:
        skeleton: the Markdown of its page: headings, and a placeholder for each part.
        about: what it is about, in a sentence.
        words: what the search is to find, by the id of the part.
        image: its preview image, as SVG; empty for none.
    """

    skeleton: str
    about: str
    words: Mapping[str, str]
    image: str = ""

    def as_texts(self) -> dict[str, str]:
        """The same as texts with names."""
        words = {_WORDS + part: text for part, text in self.words.items()}
        return {"skeleton": self.skeleton, "about": self.about, "image": self.image, **words}

    @classmethod
    def of_texts(cls, texts: Mapping[str, str]) -> Head:
        """A head from what ``as_texts`` made of it."""
        words = {
            name.removeprefix(_WORDS): text
            for name, text in texts.items()
            if name.startswith(_WORDS)
        }
        return cls(texts["skeleton"], texts["about"], words, texts["image"])


def head_of(lesson: Lesson, making: Making) -> Head:
    """The head of a lesson."""
    words = {part.id: search_words(lesson, part.id) for part in PARTS}
    image = ""
    if making.images:
        image = preview_image(str(figure_maker(lesson, "preview", making.unit.symbols).given()))
    return Head(
        skeleton(lesson.solution.problem, lesson),
        description(lesson),
        {part: told for part, told in words.items() if told},
        image,
    )


def parts_of(lesson: Lesson, unit: Unit, *, fresh: bool) -> dict[str, str]:
    """The parts of a problem's page by their ids, but for the one that leads on.

    Args:
        lesson: what they tell.
        unit: that it belongs to.
        fresh: whether the page offers other numbers.
    """
    page = ProblemPage(lesson, unit, lesson.solution.problem.slug)
    made = FreshPage.of(page).part if fresh else page.part
    return {part.id: str(made(part)) for part in PARTS if part.id != LEADS_ON}
