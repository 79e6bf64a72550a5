"""The figures of a lesson in stages: before and after each switching, charges at the plates."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup

from builder.circuit.network import Element, Source
from builder.circuit.switching import Switch, moment
from builder.figure import Label, ValueText
from builder.figure.network import (
    Branch,
    NetworkDrawing,
)
from builder.figure.network.request import VOLTAGE_SOURCE
from builder.lesson import Lesson
from builder.lesson.lesson import TaughtStep
from builder.lesson.prose import Prose, say
from builder.lesson.stages.display import SWITCH, StagesDisplay
from builder.quantity.names import Name
from builder.quantity.show import show
from builder.site.figures.network_drawn import drawn, in_sentences
from builder.site.figures.pen import INK, Pen
from builder.site.figures.step_figures import StepFigures
from builder.site.figures.tracing import traced
from builder.solution.stages.step import StagesMove, StagesStep

_TRACED = frozenset({StagesMove.ISLAND, StagesMove.SHARE, StagesMove.BATTERY, StagesMove.SHORT})
"""The moves that speak of what is joined."""


@dataclass(frozen=True)
class StagesFigures:
    """Draws the figures of one lesson in stages.

    Attributes:
        display: of what is drawn.
        prefix: starts every id in the figures, unique on the page.
        symbols: ``iec`` or ``ieee``.
        pen: what draws them.
    """

    display: StagesDisplay
    prefix: str
    symbols: str = "iec"
    pen: Pen = INK

    @classmethod
    def of(cls, lesson: Lesson, prefix: str, symbols: str, pen: Pen = INK) -> StagesFigures:
        """What draws the figures of a lesson in stages."""
        assert isinstance(lesson.display, StagesDisplay)
        return cls(lesson.display, prefix, symbols, pen)

    def given(self) -> Markup:
        """The circuit as the problem gives it."""
        return self._svg(self._given, "given", "The circuit at the start")

    def in_words(self) -> tuple[Markup, ...]:
        """The circuit as the problem gives it, a sentence for each junction."""
        return in_sentences(self._given)

    def of_step(self, number: int, taught: TaughtStep) -> StepFigures:
        """The figures of a step; before and after where it opens a stage."""
        step = _move(taught)
        looks = _looks(step)
        before = Markup("")
        if self._opens_stage(step):
            drawing = self._drawing(step.stage - 1, taught.known_before, frozenset(), step.kind)
            before = self._svg(
                drawing, f"step-{number}-before", f"The circuit before step {number}"
            )
        drawing = self._drawing(step.stage, taught.known, frozenset(step.members), step.kind)
        after = self._svg(drawing, f"step-{number}", f"The circuit after step {number}")
        legend = _legend(step, self.display) if looks else ()
        after = Markup(self.pen.touched(str(after), lambda drawn: traced(drawn, looks), looks))
        return StepFigures(before, after, legend)

    def _opens_stage(self, step: StagesStep) -> bool:
        first = next(s for s in self.display.solution.steps if s.stage == step.stage)
        account = (StagesMove.STORED, StagesMove.DELIVERED, StagesMove.LOST)
        return step.stage > 0 and first.id == step.id and step.kind not in account

    @cached_property
    def _given(self) -> NetworkDrawing:
        return self._drawing(0, (), frozenset(), StagesMove.START, hinted=False)

    @cached_property
    def _places(self) -> Mapping[str, tuple[float, float]]:
        """Where the first figure has its junctions; the later ones keep to it."""
        return self.pen.places(self._given)

    def _drawing(
        self,
        stage: int,
        known: Iterable[Name],
        marked: frozenset[str],
        kind: object,
        *,
        hinted: bool = True,
    ) -> NetworkDrawing:
        problem = self.display.solution.problem
        found = {*known, *self.display.solution.givens}
        closed = self.display.solution.story.closed[stage]
        branches = (
            *(self._battery(one) for one in problem.network.sources),
            *(self._capacitor(one, stage, found, one.name in marked, kind)
              for one in problem.network.elements),
            *(self._switch(one, one.name in closed) for one in problem.switches),
        )  # fmt: skip
        return NetworkDrawing(
            branches=branches,
            place=problem.place,
            hint=self._places if hinted else {},
            symbols=self.symbols,
        )

    def _battery(self, battery: Source) -> Branch:
        name = Name("voltage", battery.name)
        own = ValueText(battery.shown.text, None, "=", name.key)
        return Branch(battery.name, VOLTAGE_SOURCE, battery.between,
                      Label(self.display.symbol(name), (own,)))  # fmt: skip

    def _switch(self, switch: Switch, closed: bool) -> Branch:
        symbol = self.display.symbol(Name(SWITCH, switch.name))
        kind = "switch-closed" if closed else "switch-open"
        return Branch(switch.name, kind, switch.between, Label(symbol))

    def _capacitor(
        self, element: Element, stage: int, known: set[Name], marked: bool, kind: object
    ) -> Branch:
        display = self.display
        value = Name("capacitance", element.name)
        own = ValueText(element.shown.text, None, "=", value.key)
        of = moment(element.name, display.history.changed[stage][element.name])
        volts, charge, energy = (Name(q, of) for q in ("voltage", "charge", "energy"))
        stored = energy in known and kind is StagesMove.STORED
        told = [name for name in ((energy,) if stored else (volts,)) if name in known]
        label = Label(display.symbol(value), (own, *map(self._found, told)))
        holds = charge in known and display.solution.values[charge] != 0
        counted = kind is StagesMove.EQUATIONS and marked
        holds = holds and not counted
        polar = counted or (volts in known and display.solution.values[volts] > 0 and not holds)
        return Branch(element.name, "capacitor", element.between, label, marked=marked,
                      polarity=polar, plates=self._plates(charge) if holds else None)  # fmt: skip

    def _plates(self, charge: Name) -> tuple[ValueText, ValueText]:
        size = show(abs(self.display.solution.values[charge]), "charge", self.display.digits)
        shown = self.display.shown(charge)
        text = shown.text.removeprefix("−") if charge in self.display.solution.givens else size.text
        both = (ValueText(f"+{text}"), ValueText(f"−{text}"))
        return both if self.display.solution.values[charge] > 0 else both[::-1]

    def _found(self, name: Name) -> ValueText:
        shown = self.display.shown(name)
        return ValueText(shown.text, self.display.symbol(name), shown.sign, name.key)

    def _svg(self, drawing: NetworkDrawing, id: str, title: str) -> Markup:
        return drawn(self.pen, drawing, f"{self.prefix}-{id}", title)


def _move(taught: TaughtStep) -> StagesStep:
    assert isinstance(taught.step, StagesStep)
    return taught.step


def _looks(step: StagesStep) -> dict[str, str]:
    """The look of each junction of the islands that a step speaks of."""
    if step.kind not in _TRACED:
        return {}
    return {junction: look for look, island in zip("ab", step.islands, strict=False)
            for junction in island}  # fmt: skip


def _legend(step: StagesStep, display: StagesDisplay) -> tuple[tuple[str, Prose], ...]:
    named = display.elements(step.members)
    if step.kind is StagesMove.SHORT:
        return (("a", say("one junction, with both plates of {named}", named=named)),)
    if step.kind is StagesMove.BATTERY:
        with_battery = display.elements((*step.members, *step.batteries))
        return (("a", say("one junction that {named} share", named=with_battery)),
                ("b", say("the other")))  # fmt: skip
    return (("a", say("one island: no charge can leave it")), ("b", say("the other island")))
