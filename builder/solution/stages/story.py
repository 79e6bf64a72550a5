"""The steps of a problem in stages: settle, stage by stage, and account for the energy."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from sympy import Integer

from builder.circuit.law import CAPACITORS
from builder.circuit.network import Element
from builder.circuit.settling import settled, unsettled
from builder.circuit.switching import Wiring, blocks, moment, wire_up
from builder.problem.model import StagesProblem
from builder.quantity.exact import Exact
from builder.quantity.formula import Ref
from builder.quantity.names import Name
from builder.solution.program import Line
from builder.solution.stages.energy import ALL, Account, beyond_plus
from builder.solution.stages.equations import together
from builder.solution.stages.history import History
from builder.solution.stages.moves import (
    Moment,
    across_batteries,
    round_one_loop,
    side_by_side,
    turned_alone,
)
from builder.solution.stages.step import StagesMove, StagesStep

_LETTERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True)
class Story:
    """Every step that a problem allows.

    Attributes:
        steps: in the order in which they are told; with the givens they define every quantity.
        history: what changed when.
        closed: the switches that are closed at the start and after each stage.
        wirings: what is joined then.
        charges: what each capacitor holds then, in coulombs.
    """

    steps: tuple[StagesStep, ...]
    history: History
    closed: tuple[frozenset[str], ...]
    wirings: tuple[Wiring, ...]
    charges: tuple[dict[str, Exact], ...]


def givens_at_first(problem: StagesProblem) -> dict[str, Exact]:
    """The charge of each capacitor before anything settles, in coulombs."""
    charges: dict[str, Exact] = {}
    for element in problem.network.elements:
        stated = problem.charged.get(element.name)
        size = element.value if stated and stated.quantity == "voltage" else Integer(1)
        charges[element.name] = stated.value * size if stated else Integer(0)
    return charges


def closed_switches(problem: StagesProblem) -> tuple[frozenset[str], ...]:
    """The switches that are closed at the start and after each stage."""
    found = [frozenset(switch.name for switch in problem.switches if switch.closed)]
    for stage in problem.stages:
        found.append((found[-1] | frozenset(stage.close)) - frozenset(stage.open))
    return tuple(found)


def tell(problem: StagesProblem) -> Story:
    """Every step of a problem, with what changes when.

    Raises:
        BatteryLoop: if batteries and wires alone close a loop in any stage.
    """
    network, closed = problem.network, closed_switches(problem)
    wirings = tuple(wire_up(network, problem.switches, those) for those in closed)
    steps = list(_stated(problem))
    charges = [givens_at_first(problem)]
    changed = [dict.fromkeys(charges[0], 0)]
    for stage, wiring in enumerate(wirings):
        turn = problem.stages[stage - 1].turn if stage else ()
        before = {name: -q if name in turn else q for name, q in charges[-1].items()}
        after = settled(network, wiring, before)
        kept = {name: moment(name, last) for name, last in changed[-1].items()}
        now = Moment(stage, wiring, kept, before, after, tuple(n for n in turn if before[n] != 0))
        found = tuple(_settling(network.elements, now))
        steps += found
        fresh = {line.name.of.partition("@")[0] for step in found for line in step.lines}
        changed.append({n: stage if n in fresh else last for n, last in changed[-1].items()})
        charges.append(after)
    history = _history(problem, wirings, tuple(charges[1:]), tuple(changed[1:]))
    held = tuple(frozenset(n for n, q in those.items() if q != 0) for those in charges[1:])
    account = tuple(Account(problem, history, wirings, held).steps())
    return Story(
        _in_order(steps, account, history.active), history, closed, wirings, tuple(charges[1:])
    )


def _stated(problem: StagesProblem) -> Iterator[StagesStep]:
    """What is stated of charged capacitors, told as charges and as voltages."""
    lines: list[Line] = []
    for element in problem.network.elements:
        stated = problem.charged.get(element.name)
        if stated is None:
            continue
        of = moment(element.name, 0)
        value = Ref(Name("capacitance", element.name))
        charge, volts = Name("charge", of), Name("voltage", of)
        if stated.quantity == "voltage":
            lines.append(Line(charge, CAPACITORS.flow_from(value, Ref(volts))))
        else:
            lines.append(Line(volts, CAPACITORS.drop_from(value, Ref(charge))))
    if lines:
        names = tuple(line.name.of.partition("@")[0] for line in lines)
        yield StagesStep("start", StagesMove.START, tuple(lines), 0, members=names)


def _settling(elements: tuple[Element, ...], now: Moment) -> Iterator[StagesStep]:
    """The moves of one stage; none where nothing flows."""
    restless = [block for block in blocks(now.wiring, elements)
                if unsettled(block, now.charges, now.after)]  # fmt: skip
    moved = {element.name for block in restless for element in block}
    for element in elements:
        if element.name in now.turned and element.name not in moved:
            yield turned_alone(element, now)
    straight = tuple(e for block in restless if _on_one_island(block, now) for e in block)
    ordered = tuple(e for e in elements if e in straight)
    if ordered:
        yield from across_batteries(ordered, now)
    others = [block for block in restless if not _on_one_island(block, now)]
    others.sort(key=lambda block: elements.index(block[0]))
    for number, block in enumerate(others):
        own = replace(now, suffix=_LETTERS[number % 26] if len(others) > 1 else "")
        yield from _moves(block, own)


def _on_one_island(block: tuple[Element, ...], now: Moment) -> bool:
    return len({island for e in block for island in now.wiring.islands_of(e)}) == 1


def _moves(block: tuple[Element, ...], now: Moment) -> Iterator[StagesStep]:
    nodes = {node for element in block for node in now.wiring.ends(element)}
    islands = [island for element in block for island in now.wiring.islands_of(element)]
    if len(nodes) == 2:
        return side_by_side(block, now)
    if all(islands.count(island) == 2 for island in islands):
        return round_one_loop(block, now)
    return together(block, now)


def _history(
    problem: StagesProblem,
    wirings: tuple[Wiring, ...],
    charges: tuple[dict[str, Exact], ...],
    changed: tuple[dict[str, int], ...],
) -> History:
    active = tuple(s for s in range(1, len(wirings)) if s in changed[s].values())
    delivering: dict[str, tuple[int, ...]] = {}
    for battery in problem.network.sources:
        stages = []
        for stage in active:
            beyond = beyond_plus(battery, problem, wirings[stage])
            turn = problem.stages[stage - 1].turn
            moved: Exact = Integer(0)
            for element in problem.network.elements:
                first, second = wirings[stage].ends(element)
                old = charges[stage - 1][element.name] * (-1 if element.name in turn else 1)
                gained = charges[stage][element.name] - old
                moved += ((first in beyond) - (second in beyond)) * gained
            if moved != 0:
                stages.append(stage)
        delivering[battery.name] = tuple(stages)
    return History(changed, active, delivering)


def _in_order(
    steps: list[StagesStep], account: tuple[StagesStep, ...], active: tuple[int, ...]
) -> tuple[StagesStep, ...]:
    """The account of each stage after its moves; what is stored at first opens the first one."""
    first = min(active, default=0)
    placed = [
        *((step.stage, 0, step) for step in steps),
        *((step.stage or first, 1, step) for step in account if step.id != ALL),
        *((len(account), 2, step) for step in account if step.id == ALL),
    ]
    return tuple(step for _, _, step in sorted(placed, key=lambda each: each[:2]))
