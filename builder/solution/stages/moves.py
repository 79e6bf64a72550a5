"""The moves that settle capacitors which share a loop: each way is told as a teacher would.

Every function returns steps whose lines find the voltage and the charge of each member.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from sympy import Integer

from builder.circuit.law import CAPACITORS
from builder.circuit.network import Element
from builder.circuit.switching import Heights, Wiring, moment
from builder.quantity.exact import Exact
from builder.quantity.formula import Amount, Formula, Negative, Quotient, ReciprocalSum, Ref, Sum
from builder.quantity.names import Name
from builder.solution.program import Line
from builder.solution.stages.step import StagesMove, StagesStep

ISLAND, CHAIN, ROUND = "island", "chain", "round"
"""What the quantities of several capacitors belong to: their joined plates, their chain, and what
goes round their loop. A letter follows where several sets settle in one stage."""


@dataclass(frozen=True)
class Moment:
    """What the moves of one stage start from.

    Attributes:
        stage: its number.
        wiring: what is joined in it.
        kept: of each capacitor, the name of what it holds before: ``C1@0``.
        charges: what that is, in coulombs, with the sign that it has when it is put back.
        after: the charges that they settle at.
        turned: the capacitors that are put back the other way round.
        suffix: tells apart several sets of capacitors that settle in one stage.
    """

    stage: int
    wiring: Wiring
    kept: Mapping[str, str]
    charges: Mapping[str, Exact]
    after: Mapping[str, Exact]
    turned: tuple[str, ...] = ()
    suffix: str = ""

    def charge(self, element: Element) -> Name:
        """Of a capacitor after the stage."""
        return Name("charge", moment(element.name, self.stage))

    def voltage(self, element: Element) -> Name:
        """Of a capacitor after the stage."""
        return Name("voltage", moment(element.name, self.stage))

    def before(self, element: Element, quantity: str, sign: int = 1) -> Formula:
        """What a capacitor had, with the sign that it counts with."""
        ref = Ref(Name(quantity, self.kept[element.name]))
        return signed(ref, -sign if element.name in self.turned else sign)

    def holds(self, element: Element) -> bool:
        """Whether it is charged before."""
        return bool(self.charges[element.name] != 0)

    def own(self, quantity: str, word: str) -> Name:
        """A quantity that belongs to the whole set: the charge of its island, say."""
        return Name(quantity, moment(f"{word}{self.suffix}", self.stage))

    def id(self, word: str) -> str:
        """The id of a step."""
        part = f"-{self.suffix}" if self.suffix else ""
        return f"stage-{self.stage}{part}-{word}"


def signed(formula: Formula, sign: int) -> Formula:
    """A formula that counts plus or minus."""
    if sign > 0:
        return formula
    return formula.term if isinstance(formula, Negative) else Negative(formula)


def added(terms: list[Formula], quantity: str) -> Formula:
    """Terms added up; a lone one stands by itself, and none are a zero."""
    if not terms:
        return Amount(Integer(0), quantity)
    return terms[0] if len(terms) == 1 else Sum(tuple(terms))


def emf_terms(rise: Heights) -> list[Formula]:
    """A voltage between two nodes of an island, as batteries."""
    return [signed(Ref(Name("voltage", name)), sign) for name, sign in rise.items()]


def _value(element: Element) -> Ref:
    return Ref(Name("capacitance", element.name))


def _charge_line(element: Element, now: Moment) -> Line:
    return Line(now.charge(element),
                CAPACITORS.flow_from(_value(element), Ref(now.voltage(element))))  # fmt: skip


def across_batteries(members: tuple[Element, ...], now: Moment) -> Iterator[StagesStep]:
    """Capacitors with both plates on one island: batteries or a bare wire fix their voltage."""
    rises = {e.name: now.wiring.rise(*now.wiring.ends(e)) for e in members}
    short = tuple(e for e in members if not rises[e.name])
    driven = tuple(e for e in members if rises[e.name])
    for move, word, these in (
        (StagesMove.SHORT, "short", short),
        (StagesMove.BATTERY, "battery", driven),
    ):
        if not these:
            continue
        volts = [Line(now.voltage(e), added(emf_terms(rises[e.name]), "voltage")) for e in these]
        nodes = dict.fromkeys(node for e in these for node in now.wiring.ends(e))
        islands = tuple(now.wiring.junctions_at((node,)) for node in nodes)
        yield StagesStep(
            now.id(word), move, (*volts, *(_charge_line(e, now) for e in these)), now.stage,
            members=tuple(e.name for e in these), turned=_of(these, now),
            islands=islands if len(islands) <= 2 else (),
            batteries=tuple(dict.fromkeys(name for e in these for name in rises[e.name])),
        )  # fmt: skip


def side_by_side(members: tuple[Element, ...], now: Moment) -> Iterator[StagesStep]:
    """Capacitors between the same two nodes, no battery: their charge is counted and shared."""
    upper = now.wiring.ends(members[0])[0]
    plates = {e.name: 1 if now.wiring.ends(e)[0] == upper else -1 for e in members}
    if sum(plates[e.name] * now.charges[e.name] for e in members) < 0:
        plates = {name: -sign for name, sign in plates.items()}
    first = next((e for e in members if plates[e.name] > 0), members[0])
    top, bottom = now.wiring.ends(first) if plates[first.name] > 0 else now.wiring.ends(first)[::-1]
    told: dict[str, Any] = {
        "members": tuple(e.name for e in members),
        "islands": (now.wiring.junctions_at((top,)), now.wiring.junctions_at((bottom,))),
        "plates": plates,
        "turned": _of(members, now),
    }
    charge, volts = now.own("charge", ISLAND), now.own("voltage", ISLAND)
    counted = Sum(tuple(now.before(e, "charge", plates[e.name]) for e in members))
    yield StagesStep(now.id("island"), StagesMove.ISLAND, (Line(charge, counted),), now.stage,
                     **told)  # fmt: skip
    together = Sum(tuple(_value(e) for e in members))
    shared = [Line(now.voltage(e), signed(Ref(volts), plates[e.name])) for e in members]
    yield StagesStep(now.id("voltage"), StagesMove.SHARE,
                     (Line(volts, Quotient(Ref(charge), together)), *shared), now.stage,
                     **told)  # fmt: skip
    lines = tuple(_charge_line(e, now) for e in members)
    yield StagesStep(now.id("charges"), StagesMove.CHARGES, lines, now.stage, **told)


def round_one_loop(members: tuple[Element, ...], now: Moment) -> Iterator[StagesStep]:
    """A single loop: one charge goes round it, the same through every capacitor."""
    path, rise = _path(members, now)
    short_of = [*emf_terms(rise), *(now.before(e, "voltage", -sign)
                                    for e, sign in path if now.holds(e))]  # fmt: skip
    chain, moved = now.own("capacitance", CHAIN), now.own("charge", ROUND)
    told: dict[str, Any] = {
        "members": tuple(e.name for e in members),
        "direction": {e.name: sign for e, sign in path},
        "turned": _of(members, now),
        "batteries": tuple(rise),
    }
    merged = ReciprocalSum(tuple(_value(e) for e, _ in path))
    yield StagesStep(now.id("chain"), StagesMove.CHAIN, (Line(chain, merged),), now.stage,
                     **told)  # fmt: skip
    goes = CAPACITORS.flow_from(Ref(chain), added(short_of, "voltage"))
    yield StagesStep(now.id("round"), StagesMove.ROUND, (Line(moved, goes),), now.stage, **told)
    lines: list[Line] = []
    for element, sign in path:
        terms = [signed(Ref(moved), sign)]
        if now.holds(element):
            terms.insert(0, now.before(element, "charge"))
        lines.append(Line(now.charge(element), added(terms, "charge")))
    lines += [Line(now.voltage(e), CAPACITORS.drop_from(_value(e), Ref(now.charge(e))))
              for e, _ in path]  # fmt: skip
    yield StagesStep(now.id("charges"), StagesMove.CHARGES, tuple(lines), now.stage, **told)


def _path(members: tuple[Element, ...], now: Moment) -> tuple[list[tuple[Element, int]], Heights]:
    """The loop, the way that lets positive charge go round, and the batteries along it."""
    waiting = list(members)
    path: list[tuple[Element, int]] = []
    rise: dict[str, int] = {}
    start, end = now.wiring.ends(waiting[0])
    path.append((waiting.pop(0), 1))
    while True:
        here = now.wiring.island[end]
        onward = next((e for e in waiting if here in now.wiring.islands_of(e)), None)
        left = start if onward is None else _entry(onward, here, now)
        for name, sign in now.wiring.rise(left, end).items():
            rise[name] = rise.get(name, 0) + sign
        if onward is None:
            break
        first, second = now.wiring.ends(onward)
        sign = 1 if left == first else -1
        end = second if sign > 0 else first
        path.append((onward, sign))
        waiting.remove(onward)
    leader, _ = path[0]
    if now.after[leader.name] < now.charges[leader.name]:
        path = [(element, -sign) for element, sign in reversed(path)]
        rise = {name: -sign for name, sign in rise.items()}
    return path, {name: sign for name, sign in rise.items() if sign}


def _entry(element: Element, island: str, now: Moment) -> str:
    first, second = now.wiring.ends(element)
    return first if now.wiring.island[first] == island else second


def turned_alone(element: Element, now: Moment) -> StagesStep:
    """A capacitor that is put back the other way round where nothing can flow."""
    lines = tuple(Line(Name(quantity, moment(element.name, now.stage)),
                       now.before(element, quantity))
                  for quantity in ("charge", "voltage"))  # fmt: skip
    return StagesStep(now.id(f"turn-{element.name}"), StagesMove.TURN, lines, now.stage,
                      members=(element.name,), turned=(element.name,))  # fmt: skip


def _of(members: tuple[Element, ...], now: Moment) -> tuple[str, ...]:
    return tuple(e.name for e in members if e.name in now.turned)
