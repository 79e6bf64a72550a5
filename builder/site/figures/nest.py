"""The figures of a lesson: the circuit as given, and as it is after each step."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from builder.circuit.tree import Leaf, Tree, leaves
from builder.figure import Drawing, Label, ValueText, describe, describe_by_junction
from builder.lesson import Lesson
from builder.lesson.lesson import TaughtStep
from builder.lesson.nest.display import NestDisplay
from builder.quantity.names import TOTAL, Name, Symbol
from builder.quantity.show import Shown, ShownExpression
from builder.site.figures.pen import INK, Pen
from builder.site.figures.step_figures import StepFigures
from builder.site.figures.tracing import circuit_before, traced, traces
from builder.site.markup import symbol_html
from builder.solution.nest.step import NestStep, StepKind


@dataclass(frozen=True)
class NestFigures:
    """Draws the figures of one nest's lesson.

    Attributes:
        display: of what is drawn.
        prefix: starts every id in the figures, unique on the page.
        symbols: ``iec`` or ``ieee``.
        pen: what draws them.
    """

    display: NestDisplay
    prefix: str
    symbols: str = "iec"
    pen: Pen = INK

    @classmethod
    def of(cls, lesson: Lesson, prefix: str, symbols: str, pen: Pen = INK) -> NestFigures:
        """What draws the figures of a nest's lesson."""
        assert isinstance(lesson.display, NestDisplay)
        return cls(lesson.display, prefix, symbols, pen)

    def given(self) -> Markup:
        """The circuit as the problem gives it."""
        tree = self.display.solution.problem.tree
        return self._draw(tree, (), frozenset(), "given", "The circuit")

    def in_words(self) -> tuple[Markup, ...]:
        """The circuit as the problem gives it, a sentence for each junction."""
        problem = self.display.solution.problem
        labels = {leaf: self._label(leaf, ()) for leaf in leaves(problem.tree)}
        quantity = problem.network.source.quantity if problem.network.source else None
        told = describe_by_junction(problem.tree, labels, quantity)
        return tuple(
            Markup("").join(symbol_html(p) if isinstance(p, Symbol) else escape(p) for p in words)
            for words in told
        )

    def of_step(self, number: int, taught: TaughtStep) -> StepFigures:
        """The figures of a step, with the junctions that it speaks of traced."""
        traced_here = traces(_move(taught), self.display)
        before = Markup("")
        if traced_here.before:
            before = self._draw(
                circuit_before(_move(taught)), taught.known_before, frozenset(),
                f"step-{number}-before", f"The circuit before step {number}",
            )  # fmt: skip
        return StepFigures(
            self._traced(before, traced_here.before),
            self._traced(self.after(number, taught), traced_here.after),
            traced_here.legend,
        )

    def _traced(self, svg: str, looks: Mapping[str, str]) -> Markup:
        return Markup(self.pen.touched(str(svg), lambda drawn: traced(drawn, looks), looks))

    def after(self, number: int, taught: TaughtStep) -> Markup:
        """The circuit after a step, with what is known by then."""
        step = _move(taught)
        marked = frozenset(step.marked) & frozenset(leaves(step.circuit))
        if step.kind is StepKind.WORK:
            marked = frozenset(name.of for name in step.found)
        return self._draw(
            step.circuit, taught.known, marked, f"step-{number}", f"The circuit after step {number}"
        )

    def _draw(
        self, tree: Tree, known: Iterable[Name], marked: frozenset[str], id: str, title: str
    ) -> Markup:
        solution = self.display.solution
        law, network = solution.problem.law, solution.problem.network
        by_id: dict[str, list[Name]] = {leaf: [] for leaf in leaves(tree)}
        for name in known:
            of = TOTAL if isinstance(tree, Leaf) and name in self._of_whole() else name.of
            if of in by_id and name.quantity != law.value:
                by_id[of].append(name)
        labels = {leaf: self._label(leaf, by_id[leaf]) for leaf in by_id}
        source = self._source_label()
        quantity = network.source.quantity if network.source else None
        drawing = Drawing(tree, law.element, labels, source, quantity, marked, self.symbols)
        described = describe(tree, law.element, labels, source, quantity)
        svg = self.pen.circuit(
            drawing, id=f"{self.prefix}-{id}", title=title, description=described
        )
        if network.source:
            # The source is no element of the tree; its symbols in the text find it by its name.
            mark = f'<g class="sw-source" data-source="{escape(network.source.name)}"'
            svg = svg.replace('<g class="sw-source"', mark, 1)
        return Markup(svg)

    def _of_whole(self) -> set[Name]:
        naming = self.display.naming
        return {naming.flow(naming.root), naming.drop(naming.root)}

    def _label(self, id: str, found: Iterable[Name]) -> Label:
        display = self.display
        value = display.naming.value(id)
        shown = display.shown(value)
        own = () if display.names_itself(value) else (value_text(shown, None, value.key),)
        return Label(display.symbol(value), (*own, *(self._found(name) for name in found)))

    def _found(self, name: Name) -> ValueText:
        return value_text(self.display.shown(name), self.display.symbol(name), name.key)

    def _source_label(self) -> Label | None:
        source = self.display.solution.problem.network.source
        if source is None:
            return None
        name = Name(source.quantity, source.name)
        own = () if self.display.names_itself(name) else (value_text(source.shown, None, name.key),)
        return Label(self.display.symbol(name), own)


def value_text(shown: Shown, symbol: Symbol | None, key: str) -> ValueText:
    """A number, or an expression, beside an element."""
    expression = shown.expression if isinstance(shown, ShownExpression) else None
    return ValueText(shown.text, symbol, shown.sign, key, expression)


def _move(taught: TaughtStep) -> NestStep:
    assert isinstance(taught.step, NestStep)
    return taught.step
