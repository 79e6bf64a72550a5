"""Statements that must hold of the results in stages, built from the wiring of each stage."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from fractions import Fraction

from sympy import Integer

from builder.circuit.network import Element
from builder.circuit.switching import Heights, Wiring, blocks, moment
from builder.problem.model import StagesProblem
from builder.quantity.exact import Exact
from builder.quantity.formula import (
    Amount,
    Formula,
    Negative,
    Num,
    Product,
    Quotient,
    Ref,
    Square,
    Sum,
)
from builder.quantity.names import Name
from builder.solution.check import Check
from builder.solution.stages.history import History
from builder.solution.stages.moves import added, emf_terms, signed
from builder.solution.stages.story import Story


class StagesCheck(StrEnum):
    """What a check is about; ``about`` starts with the number of the stage."""

    ISLAND = "charge of the island"
    """The charge of an island that no battery joins to others, after against before."""
    LOOP = "voltages round a loop"
    """Voltages of two capacitors side by side, or of one and the batteries across it."""
    HEAT = "lost energy"
    """What is lost against what the changes of voltage alone would store: ½CΔV² each."""
    LOSS = "sign of the loss"
    """Nothing is ever won: more than nothing turns into heat."""


def checks_of(problem: StagesProblem, story: Story) -> tuple[Check, ...]:
    """All checks of the stages in which charges move."""
    writer = _Checks(problem, story)
    return tuple(check for stage in story.history.active for check in writer.of_stage(stage))


class _Checks:
    """Writes the checks of one problem."""

    def __init__(self, problem: StagesProblem, story: Story) -> None:
        self.problem = problem
        self.history: History = story.history
        self.wirings: tuple[Wiring, ...] = story.wirings
        self.charges: tuple[dict[str, Exact], ...] = story.charges

    def of_stage(self, stage: int) -> Iterator[Check]:
        wiring = self.wirings[stage]
        for block in blocks(wiring, self.problem.network.elements):
            if any(self.history.changed[stage][e.name] == stage for e in block):
                yield from self._islands(block, stage, wiring)
                yield from self._loops(block, stage, wiring)
        yield from self._heat(stage)

    def _now(self, quantity: str, element: Element, stage: int) -> Ref:
        label = self.history.changed[stage][element.name]
        return Ref(Name(quantity, moment(element.name, label)))

    def _old(self, quantity: str, element: Element, stage: int) -> Formula | None:
        """Before a stage, as it was put back; None if that is nothing."""
        if self.charges[stage - 1][element.name] == 0:
            return None
        turned = element.name in self.problem.stages[stage - 1].turn
        return signed(self._now(quantity, element, stage - 1), -1 if turned else 1)

    def _islands(self, block: tuple[Element, ...], stage: int, wiring: Wiring) -> Iterator[Check]:
        islands = list(dict.fromkeys(i for e in block for i in wiring.islands_of(e)))
        # What holds on all islands but one holds on the last: every capacitor is neutral.
        for island in islands[:-1]:
            plates = [(e, sign) for e in block
                      for end, sign in zip(wiring.islands_of(e), (1, -1), strict=True)
                      if end == island]  # fmt: skip
            before = [signed(old, sign) for e, sign in plates
                      if (old := self._old("charge", e, stage)) is not None]  # fmt: skip
            after = [signed(self._now("charge", e, stage), sign) for e, sign in plates]
            about = (str(stage), *(e.name for e, _ in plates))
            yield Check(StagesCheck.ISLAND, about, added(before, "charge"), "=",
                        added(after, "charge"))  # fmt: skip

    def _loops(self, block: tuple[Element, ...], stage: int, wiring: Wiring) -> Iterator[Check]:
        """Along a path of capacitors from one to the next until an island is met again."""
        levels: dict[str, list[Formula]] = {}
        paths: dict[str, tuple[str, ...]] = {}
        waiting = list(block)
        while waiting:
            element = next(e for e in waiting
                            if not levels or set(wiring.islands_of(e)) & set(levels))  # fmt: skip
            waiting.remove(element)
            first, second = wiring.islands_of(element)
            if not levels:
                levels[first], paths[first] = [], ()
            across = self._levelled(element, stage, wiring)
            here, there = (first, second) if first in levels else (second, first)
            way = across if here == first else [signed(term, -1) for term in across]
            reached = [*levels[here], *(signed(term, -1) for term in way)]
            path = (*paths[here], element.name)
            if there in levels:
                about = (str(stage), *dict.fromkeys((*path, *paths[there])))
                yield self._loop(reached, levels[there], about)
            else:
                levels[there], paths[there] = reached, path

    def _levelled(self, element: Element, stage: int, wiring: Wiring) -> list[Formula]:
        """A capacitor's voltage between the first nodes of its two islands."""
        first, second = wiring.ends(element)
        lift = _difference(wiring.height[first], wiring.height[second])
        return [self._now("voltage", element, stage),
                *(signed(term, -1) for term in emf_terms(lift))]  # fmt: skip

    @staticmethod
    def _loop(reached: list[Formula], known: list[Formula], about: tuple[str, ...]) -> Check:
        """Drops on one side, batteries and what was known on the other."""
        terms = [*reached, *(signed(term, -1) for term in known)]
        terms = _without_pairs(terms)
        drops = [term for term in terms if not _is_battery(term)]
        rises = [signed(term, -1) for term in terms if _is_battery(term)]
        if drops and isinstance(drops[0], Negative):
            drops, rises = [signed(t, -1) for t in drops], [signed(t, -1) for t in rises]
        if not rises and len(drops) > 1:
            first, *others = sorted(drops, key=_order_of)
            drops, rises = [first], [signed(term, -1) for term in others]
            if isinstance(first, Negative):
                drops, rises = [signed(first, -1)], [signed(term, -1) for term in rises]
        return Check(StagesCheck.LOOP, about, added(drops, "voltage"), "=",
                     added(rises, "voltage"))  # fmt: skip

    def _heat(self, stage: int) -> Iterator[Check]:
        lost = Ref(Name("energy", moment("lost", stage)))
        changed = [e for e in self.problem.network.elements
                   if self.charges[stage][e.name] != self._put_back(e, stage)]  # fmt: skip
        if not changed:
            return
        half = Num(Fraction(1, 2))
        about = (str(stage), *(e.name for e in changed))
        yield Check(StagesCheck.HEAT, about, lost, "=", self._by_changes(changed, stage, half))
        yield Check(StagesCheck.LOSS, about, lost, ">", Amount(Integer(0), "energy"))

    def _put_back(self, element: Element, stage: int) -> Exact:
        turned = element.name in self.problem.stages[stage - 1].turn
        return self.charges[stage - 1][element.name] * (-1 if turned else 1)

    def _by_changes(self, changed: list[Element], stage: int, half: Num) -> Formula:
        two = self._two_joined(changed, stage)
        if two is not None:
            first, second = (Ref(Name("capacitance", e.name)) for e in changed)
            together = Quotient(Product((first, second)), Sum((first, second)))
            return Product((half, together, Square(two)))
        terms: list[Formula] = []
        for element in changed:
            now, old = self._now("voltage", element, stage), self._old("voltage", element, stage)
            change: Formula = Sum((now, signed(old, -1))) if old is not None else now
            terms.append(Product((half, Ref(Name("capacitance", element.name)), Square(change))))
        return added(terms, "energy")

    def _two_joined(self, changed: list[Element], stage: int) -> Formula | None:
        """Where just two capacitors are joined side by side, how far apart they were."""
        wiring = self.wirings[stage]
        if len(changed) != 2 or len({frozenset(wiring.ends(e)) for e in changed}) != 1:
            return None
        first, second = changed
        if len(set(wiring.islands_of(first))) == 1:
            return None
        alike = wiring.ends(first) == wiring.ends(second)
        apart = [old for old in (self._old("voltage", first, stage),) if old is not None]
        other = self._old("voltage", second, stage)
        if other is not None:
            apart.append(signed(other, -1 if alike else 1))
        return added(apart, "voltage")


def _is_battery(term: Formula) -> bool:
    inner = term.term if isinstance(term, Negative) else term
    return isinstance(inner, Ref) and "@" not in inner.name.of


def _order_of(term: Formula) -> str:
    inner = term.term if isinstance(term, Negative) else term
    return inner.name.of if isinstance(inner, Ref) else ""


def _without_pairs(terms: list[Formula]) -> list[Formula]:
    """Terms without those that cancel."""
    left: list[Formula] = []
    for term in terms:
        opposite = signed(term, -1)
        if opposite in left:
            left.remove(opposite)
        else:
            left.append(term)
    return left


def _difference(first: Heights, second: Heights) -> dict[str, int]:
    signs = {name: first.get(name, 0) - second.get(name, 0) for name in (*first, *second)}
    return {name: sign for name, sign in signs.items() if sign}
