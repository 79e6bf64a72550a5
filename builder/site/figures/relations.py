"""The figures of a problem of relations: what follows from what, filled in step by step."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from builder.figure.relations import Chip, Link, describe_chain, draw_chain
from builder.lesson import Lesson
from builder.lesson.lesson import TaughtStep
from builder.lesson.relations.display import RelationsDisplay
from builder.quantity.formula import names_in
from builder.quantity.names import Name
from builder.site.figures.pen import INK, Pen
from builder.site.figures.plates import PlatesFigures
from builder.site.figures.step_figures import FigureMaker, StepFigures
from builder.site.markup import symbol_html
from builder.solution.relations.step import RelationStep


@dataclass(frozen=True)
class RelationsFigures:
    """Draws the figures of one lesson of relations.

    Attributes:
        display: of what is drawn.
        prefix: starts every id in the figures, unique on the page.
    """

    display: RelationsDisplay
    prefix: str

    @classmethod
    def of(cls, lesson: Lesson, prefix: str, _symbols: str, pen: Pen = INK) -> FigureMaker:
        """What draws the figures of a lesson: of plates where it is about plates."""
        assert isinstance(lesson.display, RelationsDisplay)
        plates = lesson.display.solution.problem.plates
        if plates is not None:
            return PlatesFigures.of(lesson, prefix, plates, pen)
        return cls(lesson.display, prefix)

    def given(self) -> Markup:
        """What is given and what is asked; the way between them is left to the solution."""
        problem = self.display.solution.problem
        given = tuple(s.name for s in problem.quantities if s.known and not s.source)
        link = Link(
            tuple(self._chip(name, (), ()) for name in given),
            tuple(self._chip(name, (), ()) for name in dict.fromkeys(problem.find)),
        )
        return self._drawn((link,), "given", "What is given and what is asked")

    def in_words(self) -> tuple[Markup, ...]:
        """A sentence for each relation: which quantities it holds."""
        told = []
        for relation in self.display.solution.problem.relations:
            names = dict.fromkeys([*names_in(relation.left), *names_in(relation.right)])
            symbols = [symbol_html(self.display.symbol(name)) for name in names]
            listed = Markup(", ").join(symbols[:-1])
            last = Markup(" and ") + symbols[-1] if len(symbols) > 1 else symbols[-1]
            told.append(Markup("One relation holds {}{}.").format(listed, last))
        return tuple(told)

    def of_step(self, number: int, taught: TaughtStep) -> StepFigures:
        """What is known after a step."""
        after = self._draw(
            taught.known, taught.step.found, f"step-{number}", f"What is known after step {number}"
        )
        return StepFigures(Markup(""), after, ())

    def _draw(self, known: tuple[Name, ...], new: tuple[Name, ...], id: str, title: str) -> Markup:
        links = tuple(self._link(step, known, new) for step in self.display.solution.steps)
        return self._drawn(links, id, title)

    def _drawn(self, links: tuple[Link, ...], id: str, title: str) -> Markup:
        return Markup(
            draw_chain(
                links,
                id_prefix=f"{self.prefix}-{id}",
                title=title,
                description=describe_chain(links),
            )
        )

    def _link(self, step: RelationStep, known: tuple[Name, ...], new: tuple[Name, ...]) -> Link:
        inside = set(step.found)
        used = dict.fromkeys(
            name for line in step.lines for name in names_in(line.formula) if name not in inside
        )
        return Link(
            tuple(self._chip(name, known, ()) for name in used),
            tuple(self._chip(name, known, new) for name in step.solved_for),
        )

    def _chip(self, name: Name, known: tuple[Name, ...], new: tuple[Name, ...]) -> Chip:
        given = name in self.display.solution.givens
        state = "given" if given else "new" if name in new else "found" if name in known else "open"
        shown = self.display.shown(name)
        return Chip(self.display.symbol(name), shown.text, shown.sign, name.key, state)
