"""The sets of other values that a problem's page can be given: those that change nothing else.

A set is solved and taught anew in full, and its page is written as the problem's own page is. It
fits if both have the same forms, steps and figures, so that texts, attributes and pieces of text
alone differ.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import compress, count, islice
from operator import ne

from markupsafe import Markup

from builder.lesson import Lesson, write_lesson
from builder.lesson.apart import telling_apart
from builder.quantity.names import Name
from builder.site.fresh.aligning import Aligner, Change, DoesNotFitError
from builder.site.fresh.merging import Merged
from builder.site.fresh.pens import Lister, too_wide
from builder.site.fresh.tokens import Node, Tokens, key_of, roots_of, tokens_of
from builder.site.markup import quantity_text
from builder.site.page import FRESH, PARTS, ProblemPage
from builder.solution import Solution
from builder.solution.fresh import fresh_solutions

MOST_SETS = 24
_MOST_TRIED = 72
_MOST_TOLD = 6

COMPARED = tuple(part for part in PARTS if part.id != "onward")
"""The parts of a page that are about its numbers."""


@dataclass(frozen=True)
class FreshLesson:
    """A problem with other values, solved and taught anew.

    Attributes:
        number: of the set, from 1 on; 0 is the problem as it is written.
        lesson: the lesson with these values.
    """

    number: int
    lesson: Lesson


@dataclass
class Listed:
    """A page whose figures are listed instead of drawn.

    Attributes:
        parts: the tokens of each part, by its id.
        lister: what listed its figures.
    """

    parts: Mapping[str, list[str]]
    lister: Lister
    _roots: dict[str, tuple[Node, ...]] = field(default_factory=dict)

    @cached_property
    def offering(self) -> tuple[str, ...]:
        """The parts whose questions have options."""
        return tuple(id for id, tokens in self.parts.items() if _OPTION in tokens)

    def roots(self, id: str) -> tuple[Node, ...]:
        """The elements of a part that lie in no other."""
        if id not in self._roots:
            self._roots[id] = roots_of(self.parts[id])
        return self._roots[id]


@dataclass(frozen=True)
class Sets:
    """A page, and the sets that fit it.

    Attributes:
        first: the page as it is written.
        lessons: the sets, in order.
        changes: what each set changes, by the part.
        listers: what listed the figures of each set.
    """

    first: Listed
    lessons: tuple[FreshLesson, ...]
    changes: tuple[Mapping[str, Change], ...]
    listers: tuple[Lister, ...]

    def merged(self, id: str) -> Merged:
        """What all sets together change in a part; both their weight and the page hang on it."""
        found = self._merged.get(id)
        if found is None:
            changes = [change[id] for change in self.changes]
            found = Merged(self.first.parts[id], self.first.roots(id), changes)
            self._merged[id] = found
        return found

    @cached_property
    def _merged(self) -> dict[str, Merged]:
        """What was merged already."""
        return {}


def solutions_for(lesson: Lesson) -> Iterable[Solution]:
    """The problem with other values, as its author wants them.

    Args:
        lesson: the problem as it is written.

    Raises:
        FaultyFile: if the author wants a wrong rule told apart that leads to no wrong number.
    """
    tells = telling_apart(lesson)
    return fresh_solutions(lesson.solution, most=_MOST_TRIED, tells=tells)


def sets_of(page: ProblemPage, solutions: Iterable[Solution]) -> Sets:
    """Those of other solutions that fit a page, each with what it changes.

    Args:
        page: as it is written.
        solutions: the same problem with other values.
    """
    first: Listed | None = None
    lessons: list[FreshLesson] = []
    changes: list[Mapping[str, Change]] = []
    listers: list[Lister] = []
    for solution in islice(solutions, _MOST_TRIED):
        # Where there are no other values, nothing is listed at all.
        first = first or listed(page, page.lesson)
        lesson = write_lesson(solution)
        other = listed(page, lesson)
        try:
            change = _change(first, other)
        except DoesNotFitError:
            continue
        if change in changes or not any(part.texts for part in change.values()):
            continue
        lessons.append(FreshLesson(len(lessons) + 1, lesson))
        changes.append(change)
        listers.append(other.lister)
        if len(lessons) == MOST_SETS:
            break
    return Sets(first or Listed({}, Lister()), tuple(lessons), tuple(changes), tuple(listers))


def listed(page: ProblemPage, lesson: Lesson) -> Listed:
    """The page with a lesson's numbers, its figures listed."""
    lister = Lister()
    whole = ProblemPage(lesson, page.unit, page.prefix, pen=lister)
    parts = {part.id: tokens_of(str(part_of(whole, part.id))) for part in COMPARED}
    return Listed(parts, lister)


def part_of(page: ProblemPage, id: str) -> Markup:
    """A part of a page, the bar of fresh numbers among them."""
    if id == FRESH:
        return page.filled("parts/fresh.html", says=givens_told(page.lesson))
    return page.part(next(part for part in PARTS if part.id == id))


def givens_told(lesson: Lesson) -> str:
    """The values of a lesson in a line: ``C₁ = 4.7 µF, V₀ = 9 V``.

    Constants of nature, and times and voltages that are only asked about, are the same in all sets.
    """
    display, problem = lesson.display, lesson.solution.problem
    same = {Name("permittivity", "eps0"), *getattr(problem, "levels", ()),
            *(Name("time", time) for time in getattr(problem, "times", ()))}  # fmt: skip
    names = [n for n in lesson.solution.givens if n not in same and not display.names_itself(n)]
    told = [
        f"{display.symbol(name).text} {shown.sign} {quantity_text(shown)}"
        for name in names[:_MOST_TOLD]
        for shown in (display.shown(name),)
    ]
    return ", ".join([*told, "…"] if len(names) > _MOST_TOLD else told)


def _change(first: Listed, other: Listed) -> Mapping[str, Change]:
    """What another set changes in each part.

    Raises:
        DoesNotFitError: if it does not fit.
    """
    if first.lister.shapes != other.lister.shapes or too_wide(first.lister, other.lister):
        raise DoesNotFitError
    if any(_options_alike(other.parts[id]) for id in first.offering):
        raise DoesNotFitError
    return {id: _change_of(id, first, other) for id in first.parts}


def _change_of(id: str, first: Listed, other: Listed) -> Change:
    own, its = first.parts[id], other.parts[id]
    if len(own) == len(its):
        # Compared without a step of Python for each token, as most are equal.
        texts = {at: its[at] for at in compress(count(), map(ne, own, its))}
        if all(at % 2 == 0 or _same_tag(own[at], token) for at, token in texts.items()):
            return Change(texts)
    return Aligner(own, first.roots(id)).change(its, other.roots(id))


def _same_tag(own: str, other: str) -> bool:
    return not own.startswith("</") and not other.startswith("</") and key_of(own) == key_of(other)


_OPTION = '<label class="sw-option">'
_WHAT_IT_SAYS = re.compile(_OPTION + r"(.*?)</label>", re.DOTALL)


def _options_alike(tokens: Tokens) -> bool:
    """Whether two options of a question say the same."""
    forms = (form for form in "".join(tokens).split("<form")[1:] if _OPTION in form)
    every = ([*_said(form.partition("</form>")[0])] for form in forms)
    return any(len(said) > len(set(said)) for said in every)


def _said(form: str) -> Iterator[str]:
    """What the options of a form say."""
    for option in _WHAT_IT_SAYS.findall(form):
        yield " ".join(Markup(option).striptags().split())
