"""The figures of a network's lesson: the network as given, and as it is after each step."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from markupsafe import Markup

from builder.circuit.network import Element, Network, Source
from builder.figure import Label, ValueText
from builder.figure.network import (
    Arrow,
    Branch,
    LoopArrow,
    NetworkDrawing,
)
from builder.figure.network.request import CURRENT_SOURCE, VOLTAGE_SOURCE
from builder.lesson import Lesson
from builder.lesson.lesson import TaughtStep
from builder.lesson.network.display import POTENTIAL, NetworkDisplay
from builder.problem.network.asking import GREATEST, INNER, MATCHED, OPEN
from builder.problem.network.read_so_far import INSIDE
from builder.quantity.names import TOTAL, Name, Symbol, kind_letter
from builder.site.figures.network_drawn import drawn, in_sentences
from builder.site.figures.network_tracing import network_traces
from builder.site.figures.pen import INK, Pen
from builder.site.figures.step_figures import StepFigures
from builder.site.figures.tracing import traced
from builder.solution.network.renaming import part_of, share
from builder.solution.network.step import Loop, NetworkMove, NetworkStep

_SHOWS_BEFORE = frozenset(
    {NetworkMove.MERGE, NetworkMove.STAR, NetworkMove.TRIANGLE, NetworkMove.JOIN,
     NetworkMove.BALANCE, NetworkMove.DROP, NetworkMove.ALONE}
)  # fmt: skip
"""The moves whose figure stands beside one of the network before."""
_LAST_OF_PART = {OPEN: NetworkMove.OPEN_VOLTAGE, INNER: NetworkMove.INNER}


@dataclass(frozen=True)
class NetworkFigures:
    """Draws the figures of one network's lesson.

    Attributes:
        display: of what is drawn.
        prefix: starts every id in the figures, unique on the page.
        symbols: ``iec`` or ``ieee``.
        pen: what draws them.
    """

    display: NetworkDisplay
    prefix: str
    symbols: str = "iec"
    pen: Pen = INK

    @classmethod
    def of(cls, lesson: Lesson, prefix: str, symbols: str, pen: Pen = INK) -> NetworkFigures:
        """What draws the figures of a network's lesson."""
        assert isinstance(lesson.display, NetworkDisplay)
        return cls(lesson.display, prefix, symbols, pen)

    def given(self) -> Markup:
        """The network as the problem gives it."""
        return self._svg(self._given, "given", "The circuit")

    def in_words(self) -> tuple[Markup, ...]:
        """The network as the problem gives it, a sentence for each junction."""
        return in_sentences(self._given)

    def of_step(self, number: int, taught: TaughtStep) -> StepFigures:
        """The figures of a step, with the junctions that it speaks of traced."""
        step = _move(taught)
        after = self._svg(self._after(taught), f"step-{number}", f"The circuit after step {number}")
        if step.kind not in _SHOWS_BEFORE:
            return StepFigures(Markup(""), after, ())
        network = self._before(number, step)
        marked = frozenset(_acted_on(step))
        # What a source does alone begins after this move: before it the whole network is there.
        part = "" if step.kind is NetworkMove.ALONE else self.display.part_of(step)
        drawing = self._drawing(network, taught.known_before, marked, part,
                                arrows=self.display.signed, hinted=True)  # fmt: skip
        before = self._svg(drawing, f"step-{number}-before", f"The circuit before step {number}")
        looks, legend = network_traces(step, network, self.display)
        staying = {one: look for one, look in looks.items() if one in step.network.junctions}
        return StepFigures(self._traced(before, looks), self._traced(after, staying), legend)

    def _before(self, number: int, step: NetworkStep) -> Network:
        """The network before a step: its own word for it, else that after the step before."""
        if step.before is not None:
            return step.before
        part, steps = self.display.part_of(step), self.display.solution.steps
        former = steps[number - 2] if number > 1 else None
        if former is not None and self.display.part_of(former) == part:
            return former.network
        # The step that names what a part has found shows the network that the part began with.
        last = _LAST_OF_PART.get(part)
        naming = next((other for other in steps if other.kind is last), None)
        return naming.network if naming else self.display.network

    @cached_property
    def _given(self) -> NetworkDrawing:
        arrows = self.display.signed and self.display.law.flow == "current"
        return self._drawing(self.display.network, (), frozenset(), arrows=arrows)

    @cached_property
    def _places(self) -> Mapping[str, tuple[float, float]]:
        """Where the first figure has its junctions; the later ones keep to it."""
        return self.pen.places(self._given)

    def _after(self, taught: TaughtStep) -> NetworkDrawing:
        step = _move(taught)
        known = taught.known if step.known is None else step.known
        marked = frozenset(step.marked)
        if step.kind in (NetworkMove.WORK, NetworkMove.OPEN):
            marked = frozenset(part_of(name)[0].of for name in step.found)
        network = self._network_after(step)
        drawing = self._drawing(
            network, known, marked, self.display.part_of(step),
            arrows=self.display.signed and step.kind is not NetworkMove.LOOPS, hinted=True,
        )  # fmt: skip
        return replace(
            drawing,
            grounded=self._ground(step, network),
            levels=self._levels(known, network),
            loops=tuple(_loop_arrow(loop, network) for loop in step.loops),
        )

    def _network_after(self, step: NetworkStep) -> Network:
        """The network that a step is about; for a load the equivalent source with it."""
        if step.kind is NetworkMove.LOAD:
            return self._equivalent_source(step.members[0])
        if step.kind is NetworkMove.MATCH:
            return self._equivalent_source(MATCHED)
        return step.network

    def _equivalent_source(self, load: str) -> Network:
        """One source, the inner element, and a load."""
        display, values = self.display, self.display.solution.values
        first, second = display.solution.problem.points or display.network.terminals
        law, inside = display.law, OPEN + INSIDE
        volts = Name(law.drop, OPEN)
        source = Source(OPEN, law.drop, values[volts], display.shown(volts), (inside, second))
        between = {INNER: (inside, first), load: (first, second)}
        elements = tuple(
            Element(one, values[name], display.shown(name), ends)
            for one, ends in between.items()
            for name in (Name(law.value, one),)
        )
        return Network(elements, source.between, (source,))

    def _drawing(
        self,
        network: Network,
        known: Iterable[Name],
        marked: frozenset[str],
        part: str = "",
        *,
        arrows: bool = False,
        hinted: bool = False,
    ) -> NetworkDrawing:
        found = self._by_owner(network, known, part)
        flows = arrows and self.display.law.flow == "current"
        branches = [
            *(self._source(one, found, marked) for one in network.sources
              if one.quantity != "charge"),
            *(self._element(one, found, marked, part, arrow=flows) for one in network.elements),
        ]  # fmt: skip
        told = {one.name for one in network.sources if one.quantity != "charge"}
        return NetworkDrawing(
            branches=tuple(branches),
            terminals=self._terminals(network, told=bool(told)),
            junction_names=self._junction_names(network),
            place=self.display.solution.problem.place,
            hint=self._places if hinted else {},
            symbols=self.symbols,
        )

    def _ground(self, step: NetworkStep, network: Network) -> str | None:
        """The junction that counts as zero, from the step on that chooses it."""
        chosen = [one.reference for one in (*self.display.before(step), step) if one.reference]
        return chosen[-1] if chosen and chosen[-1] in network.junctions else None

    def _levels(self, known: Iterable[Name], network: Network) -> dict[str, ValueText]:
        """The potentials that are known by then, by their junctions."""
        levels: dict[str, ValueText] = {}
        for name in known:
            if name.quantity == POTENTIAL and name.of in network.junctions:
                shown = self.display.shown(name)
                levels[name.of] = ValueText(shown.text, None, shown.sign, name.key)
        return levels

    def _terminals(self, network: Network, *, told: bool) -> tuple[str, str] | None:
        """Open ends: of a network without a source, or where a load has been taken off."""
        problem = self.display.solution.problem
        if not told:
            return network.terminals
        points, load = problem.points, problem.load
        taken_off = load is not None and load not in {one.name for one in network.elements}
        there = points is not None and set(points) <= set(network.junctions)
        return points if taken_off and there and len(network.elements) > 1 else None

    def _junction_names(self, network: Network) -> dict[str, str]:
        return {one: one for one in network.junctions if INSIDE not in one}

    def _by_owner(
        self, network: Network, known: Iterable[Name], part: str
    ) -> dict[str, list[Name]]:
        """The quantities to be written at each element or source; the whole's at what is left.

        Only those of one part of the solution are told.
        """
        law, only = self.display.law, len(network.elements) == 1
        found: dict[str, list[Name]] = {}
        for name in dict.fromkeys(map(self.display.resolve, known)):
            own, of_part = part_of(name)
            if own.quantity in (law.value, POTENTIAL) or of_part != part:
                continue
            of = network.elements[0].name if only and own.of == TOTAL else own.of
            of = MATCHED if of == GREATEST else of
            found.setdefault(of, []).append(name)
        return found

    def _element(
        self, element: Element, found: Mapping[str, list[Name]], marked: frozenset[str],
        part: str, *, arrow: bool,
    ) -> Branch:  # fmt: skip
        display = self.display
        value = Name(display.law.value, element.name)
        if part and share(value, part) in display.solution.values:
            value = share(value, part)
        shown = display.shown(value)
        own = ValueText(shown.text, None, shown.sign, value.key)
        texts = (own, *(self._found(name) for name in found.get(element.name, ())))
        flow = Name(display.law.flow, element.name)
        symbol = display.symbol(share(flow, part) if part else flow)
        return Branch(
            element.name, display.law.element, element.between,
            Label(display.symbol(value), texts), marked=element.name in marked,
            arrow=Arrow(forward=True, symbol=symbol) if arrow else None,
        )  # fmt: skip

    def _source(
        self, source: Source, found: Mapping[str, list[Name]], marked: frozenset[str]
    ) -> Branch:
        display = self.display
        name = Name(source.quantity, source.name)
        own = ValueText(source.shown.text, None, "=", name.key)
        more = (one for one in found.get(source.name, ()) if one != name)
        texts = (own, *(self._found(one) for one in more))
        kind = VOLTAGE_SOURCE if source.quantity == display.law.drop else CURRENT_SOURCE
        return Branch(source.name, kind, source.between, Label(display.symbol(name), texts),
                      marked=source.name in marked)  # fmt: skip

    def _found(self, name: Name) -> ValueText:
        shown = self.display.shown(name)
        return ValueText(shown.text, self.display.symbol(name), shown.sign, name.key)

    def _svg(self, drawing: NetworkDrawing, id: str, title: str) -> Markup:
        return drawn(self.pen, drawing, f"{self.prefix}-{id}", title)

    def _traced(self, svg: str, looks: Mapping[str, str]) -> Markup:
        return Markup(self.pen.touched(str(svg), lambda drawn: traced(drawn, looks), looks))


def _move(taught: TaughtStep) -> NetworkStep:
    assert isinstance(taught.step, NetworkStep)
    return taught.step


def _acted_on(step: NetworkStep) -> tuple[str, ...]:
    """What is marked in the figure before a move."""
    if step.balance is not None and step.balance.middle:
        return (step.balance.middle,)
    return step.members or step.dropped


def _loop_arrow(loop: Loop, network: Network) -> LoopArrow:
    """A loop by its junctions, with the branch between each two of them."""
    ends = {one.name: one.between for one in network.elements}
    ends |= {one.name: one.between for one in network.sources}
    passed: list[str] = []
    for name, along in loop.path:
        first, second = ends[name]
        passed += [first if along else second, name]
    return LoopArrow(Symbol(kind_letter("current"), loop.name), tuple(passed))
