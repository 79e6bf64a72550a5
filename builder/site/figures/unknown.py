"""The figures of a nest with an unknown element: a question mark until it is found."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup, escape

from builder.circuit.tree import leaves
from builder.figure import Drawing, Label, ValueText, describe, describe_by_junction
from builder.lesson import Lesson
from builder.lesson.lesson import TaughtStep
from builder.lesson.relations.unknown import UnknownDisplay
from builder.quantity.names import Name, Symbol
from builder.site.figures.pen import INK, Pen
from builder.site.figures.step_figures import StepFigures
from builder.site.markup import symbol_html


@dataclass(frozen=True)
class UnknownFigures:
    """Draws the figures of one lesson.

    Attributes:
        display: of what is drawn.
        prefix: starts every id in the figures, unique on the page.
        symbols: ``iec`` or ``ieee``.
        pen: what draws them.
    """

    display: UnknownDisplay
    prefix: str
    symbols: str
    pen: Pen = INK

    @classmethod
    def of(cls, lesson: Lesson, prefix: str, symbols: str, pen: Pen = INK) -> UnknownFigures:
        """What draws the figures of a lesson."""
        assert isinstance(lesson.display, UnknownDisplay)
        return cls(lesson.display, prefix, symbols, pen)

    def given(self) -> Markup:
        """The circuit with what is given and what was measured."""
        return self._draw((), (), "given", "The circuit")

    def in_words(self) -> tuple[Markup, ...]:
        """A sentence for each junction, with what was measured at the end."""
        problem = self.display.solution.problem
        labels = {leaf: self._label(leaf, ()) for leaf in leaves(problem.tree)}
        quantity = problem.network.source.quantity if problem.network.source else None
        told = describe_by_junction(problem.tree, labels, quantity)
        return tuple(
            Markup("").join(symbol_html(p) if isinstance(p, Symbol) else escape(p) for p in words)
            for words in told
        )

    def of_step(self, number: int, taught: TaughtStep) -> StepFigures:
        """The circuit with what is known after a step."""
        after = self._draw(taught.known, taught.step.found, f"step-{number}",
                           f"The circuit after step {number}")  # fmt: skip
        return StepFigures(Markup(""), after, ())

    def _draw(self, known: tuple[Name, ...], new: tuple[Name, ...], id: str, title: str) -> Markup:
        problem = self.display.solution.problem
        tree, law, source = problem.tree, problem.law, problem.network.source
        labels = {leaf: self._label(leaf, known) for leaf in leaves(tree)}
        quantity = source.quantity if source else None
        marked = frozenset(name.of for name in new) & frozenset(leaves(tree))
        label = self._source_label(known)
        drawing = Drawing(tree, law.element, labels, label, quantity, marked, self.symbols)
        described = describe(tree, law.element, labels, label, quantity)
        svg = self.pen.circuit(
            drawing, id=f"{self.prefix}-{id}", title=title, description=described
        )
        if source:
            mark = f'<g class="sw-source" data-source="{escape(source.name)}"'
            svg = svg.replace('<g class="sw-source"', mark, 1)
        return Markup(svg)

    def _label(self, id: str, known: tuple[Name, ...]) -> Label:
        problem = self.display.solution.problem
        value = Name(problem.law.value, id)
        own = ValueText("= ?", None, "=", "")
        if id not in problem.unknown or value in known:
            shown = self.display.shown(value)
            own = ValueText(shown.text, None, shown.sign, value.key)
        measured = tuple(fact.name for fact in problem.facts)
        found = [name for name in dict.fromkeys((*measured, *known)) if name.of == id]
        others = tuple(self._found(name) for name in found if name != value)
        return Label(self.display.symbol(value), (own, *others))

    def _found(self, name: Name) -> ValueText:
        shown = self.display.shown(name)
        return ValueText(shown.text, self.display.symbol(name), shown.sign, name.key)

    def _source_label(self, known: tuple[Name, ...]) -> Label | None:
        source = self.display.solution.problem.network.source
        if source is None:
            return None
        name = Name(source.quantity, source.name)
        own = ValueText(source.shown.text, None, "=", name.key)
        return Label(self.display.symbol(name), (own,))
