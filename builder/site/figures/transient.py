"""The figures of a circuit that charges: as it stands, and as it looks at each instant.

Long after a change a capacitor is drawn as a gap; at the first instant as a wire or a battery of
the voltage that it holds; seen from the capacitor a battery is a wire.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from html import escape as escaped

from markupsafe import Markup

from builder.circuit.network import Element, Source
from builder.circuit.switching import Switch
from builder.figure import Label, ValueText
from builder.figure.network import (
    Arrow,
    Branch,
    NetworkDrawing,
)
from builder.figure.network.request import CURRENT_SOURCE, VOLTAGE_SOURCE
from builder.figure.plot import draw_plot
from builder.lesson import Lesson
from builder.lesson.lesson import TaughtStep
from builder.lesson.prose import Prose, say
from builder.lesson.transient.course import Course
from builder.lesson.transient.display import SWITCH, TransientDisplay
from builder.problem.transient.moments import BEFORE, END, SEEN_RESISTANCE, START, at
from builder.quantity.names import Name, Symbol
from builder.site.figures.curve import described, plot_of
from builder.site.figures.network_drawn import drawn, in_sentences
from builder.site.figures.pen import INK, Pen
from builder.site.figures.step_figures import StepFigures
from builder.solution.transient.step import TransientMove, TransientStep

_INSTANTS = frozenset({TransientMove.BEFORE, TransientMove.START, TransientMove.END})
"""The moves that look at one instant, so that capacitors are drawn as what they are like then."""
_IDLE_LOOK = "idle"


@dataclass(frozen=True)
class TransientFigures:
    """Draws the figures of one lesson on charging or discharging.

    Attributes:
        display: of what is drawn.
        prefix: starts every id in the figures, unique on the page.
        symbols: ``iec`` or ``ieee``.
        pen: what draws them.
    """

    display: TransientDisplay
    prefix: str
    symbols: str = "iec"
    pen: Pen = INK

    @classmethod
    def of(cls, lesson: Lesson, prefix: str, symbols: str, pen: Pen = INK) -> TransientFigures:
        """What draws the figures of a lesson on charging or discharging."""
        assert isinstance(lesson.display, TransientDisplay)
        return cls(lesson.display, prefix, symbols, pen)

    def given(self) -> Markup:
        """The circuit as it stands before the change."""
        return self._svg(self._given, "given", "The circuit before the change")

    def in_words(self) -> tuple[Markup, ...]:
        """The circuit as it stands before the change, a sentence for each junction."""
        return in_sentences(self._given)

    def of_step(self, number: int, taught: TaughtStep) -> StepFigures:
        """The figure of a step: the circuit at the instant that it looks at."""
        step = taught.step
        assert isinstance(step, TransientStep)
        drawing = self._of(step, {*taught.known, *self.display.solution.givens})
        svg = self._svg(drawing, f"step-{number}", f"{_title(step)}, after step {number}")
        idle = self._idle(step)
        legend = self._legend(step, idle)
        svg = Markup(self.pen.touched(str(svg), lambda drawn: _faded(drawn, idle), idle))
        return StepFigures(Markup(""), svg, legend)

    def curve(self, course: Course) -> Markup:
        """The curve of the whole course."""
        return Markup(
            draw_plot(plot_of(course, self.display), id_prefix=f"{self.prefix}-curve",
                      title="The voltage against time",
                      description=described(course, self.display), padded=self.pen.padded)
        )  # fmt: skip

    @cached_property
    def _given(self) -> NetworkDrawing:
        own = {name for name in self.display.solution.givens if name.quantity == "voltage"}
        circuit = self.display.solution.problem.circuit
        branches = (
            *(self._source(one) for one in circuit.sources),
            *(self._resistor(one, own, "") for one in circuit.resistors),
            *(self._capacitor(one, own, START) for one in circuit.capacitors),
            *(self._switch(one, after=False) for one in circuit.switches),
        )
        return self._drawing(branches, {})

    @cached_property
    def _places(self) -> Mapping[str, tuple[float, float]]:
        """Where the first figure has its junctions; the later ones keep to it."""
        return self.pen.places(self._given)

    def _of(self, step: TransientStep, known: Collection[Name]) -> NetworkDrawing:
        circuit = self.display.solution.problem.circuit
        after = step.when != BEFORE or step.instant is None
        seen = step.kind is TransientMove.SEEN
        marked = frozenset(step.about if seen or step.kind is TransientMove.STORE else ())
        if step.kind is TransientMove.STORE:
            marked = frozenset(self.display.capacitors)
        branches = (
            *(self._off(one) if seen else self._source(one) for one in circuit.sources),
            *(self._resistor(one, known, step.when, marked=one.name in marked)
              for one in circuit.resistors),
            *(self._looked_at(one, step, known, marked=one.name in marked)
              for one in circuit.capacitors),
            *(self._switch(one, after=after) for one in circuit.switches),
        )  # fmt: skip
        return self._drawing(branches, self._places)

    def _drawing(
        self, branches: tuple[Branch, ...], hint: Mapping[str, tuple[float, float]]
    ) -> NetworkDrawing:
        problem = self.display.solution.problem
        return NetworkDrawing(branches=branches, place=problem.place, hint=hint,
                              symbols=self.symbols)  # fmt: skip

    def _source(self, source: Source) -> Branch:
        name = Name(source.quantity, source.name)
        kind = VOLTAGE_SOURCE if source.quantity == "voltage" else CURRENT_SOURCE
        own = ValueText(source.shown.text, None, "=", name.key)
        return Branch(source.name, kind, source.between, Label(self.display.symbol(name), (own,)))

    @staticmethod
    def _off(source: Source) -> Branch:
        """A source replaced: of voltage by a wire, of current by a gap."""
        return Branch(source.name, "wire" if source.quantity == "voltage" else "gap",
                      source.between, None)  # fmt: skip

    def _switch(self, switch: Switch, *, after: bool) -> Branch:
        closed = switch in self.display.solution.problem.circuit.closed(after=after)
        symbol = self.display.symbol(Name(SWITCH, switch.name))
        return Branch(switch.name, "switch-closed" if closed else "switch-open", switch.between,
                      Label(symbol))  # fmt: skip

    def _resistor(
        self, element: Element, known: Collection[Name], when: str, *, marked: bool = False
    ) -> Branch:
        value = Name("resistance", element.name)
        own = ValueText(element.shown.text, None, "=", value.key)
        now = [at(quantity, element.name, when) for quantity in ("voltage", "power")]
        texts = (own, *(self._found(name) for name in now if name in known))
        flow = at("current", element.name, when)
        arrow = None
        if flow in known and self.display.solution.values[flow] != 0:
            arrow = Arrow(forward=True, text=self._found(flow))
        return Branch(element.name, "resistor", element.between,
                      Label(self.display.symbol(value), texts), marked=marked,
                      arrow=arrow)  # fmt: skip

    def _looked_at(
        self, element: Element, step: TransientStep, known: Collection[Name], *, marked: bool
    ) -> Branch:
        """A capacitor as the step sees it: as itself, a gap, a wire or a battery."""
        store = self.display.solution.store
        if step.kind is TransientMove.SEEN:
            texts = (self._found(SEEN_RESISTANCE),) if element.name == store.id else ()
            label = Label(self._symbol_of(element), texts)
            return Branch(element.name, "gap", element.between, label, polarity=False)
        if step.kind not in _INSTANTS or (step.when == BEFORE and step.instant is None):
            return self._capacitor(element, known, step.when or START, marked=marked)
        volts = at("voltage", element.name, step.when)
        texts = (self._found(volts),) if volts in known else ()
        label = Label(self._symbol_of(element), texts)
        if step.when != START:
            return Branch(element.name, "gap", element.between, label, polarity=bool(texts))
        held = self.display.solution.values.get(volts, 0)
        if held == 0:
            return Branch(element.name, "wire", element.between, label)
        ends = element.between if held > 0 else element.between[::-1]
        return Branch(element.name, VOLTAGE_SOURCE, ends, label)

    def _symbol_of(self, element: Element) -> Symbol:
        return self.display.symbol(Name("capacitance", element.name))

    def _capacitor(
        self, element: Element, known: Collection[Name], when: str, *, marked: bool = False
    ) -> Branch:
        value = Name("capacitance", element.name)
        own = ValueText(element.shown.text, None, "=", value.key)
        kinds = ("voltage", "charge", "energy")
        now = [at(quantity, element.name, when) for quantity in kinds]
        there = [name for name in now if name in known]
        polar = any(self.display.solution.values[name] > 0 for name in there)
        return Branch(element.name, "capacitor", element.between,
                      Label(self._symbol_of(element), (own, *map(self._found, there))),
                      marked=marked, polarity=polar)  # fmt: skip

    def _found(self, name: Name) -> ValueText:
        shown = self.display.shown(name)
        return ValueText(shown.text, self.display.symbol(name), shown.sign, name.key)

    def _idle(self, step: TransientStep) -> tuple[str, ...]:
        """The resistors that carry nothing at the instant, or that the capacitor does not see."""
        if step.kind is TransientMove.SEEN:
            return tuple(one for one in self.display.resistors if one not in step.about)
        return step.idle if step.kind in _INSTANTS else ()

    def _legend(self, step: TransientStep, idle: tuple[str, ...]) -> tuple[tuple[str, Prose], ...]:
        if not idle:
            return ()
        all_of = self.display.elements(idle)
        if step.kind is TransientMove.SEEN:
            return ((_IDLE_LOOK, say("not seen from {store}: {all}", store=self.display.store,
                                     all=all_of)),)  # fmt: skip
        return ((_IDLE_LOOK, say("no current: {all}", all=all_of)),)

    def _svg(self, drawing: NetworkDrawing, id: str, title: str) -> Markup:
        return drawn(self.pen, drawing, f"{self.prefix}-{id}", title)


def _title(step: TransientStep) -> str:
    """What a figure shows."""
    if step.kind is TransientMove.SEEN:
        return "The circuit as the capacitor sees it"
    if step.kind is TransientMove.BEFORE:
        return "The circuit just before the change"
    told = {START: "The circuit at the first instant", END: "The circuit long after the change"}
    return told.get(step.when, "The circuit after the change")


def _faded(svg: str, idle: Iterable[str]) -> str:
    """A figure whose idle resistors are drawn in broken lines."""
    for name in idle:
        opening = f'data-element="{escaped(name)}"'
        svg = re.sub(rf'class="sw-element( sw-marked)?" {re.escape(opening)}',
                     rf'class="sw-element\1 sw-idle" stroke-dasharray="2.5 4" {opening}',
                     svg)  # fmt: skip
    return svg
