"""What is wrong with a circuit that charges, where only solving shows it."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer

from builder.circuit.mixed import MixedCircuit, joined, seen_from
from builder.circuit.tree import Leaf, Tree, groups, leaves
from builder.errors import Fault, FaultyFile
from builder.problem.faults.gathering import all_of
from builder.problem.limits import MOST_TIME_CONSTANTS
from builder.problem.model import TransientProblem
from builder.problem.transient.moments import END, START, moment_of, reaching
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.show import show
from builder.solution.transient.second import resting
from builder.solution.transient.store import Store, stores_of


def refuse_shorted(problem: TransientProblem) -> None:
    """Refuse a source whose ends are joined by closed switches.

    Raises:
        FaultyFile: naming the source and the moment.
    """
    circuit = problem.circuit
    for after in (False, True):
        closed = circuit.closed(after=after)
        node = joined(circuit.junctions, [switch.between for switch in closed])
        for source in circuit.sources:
            if node[source.between[0]] == node[source.between[1]]:
                moment = "after" if after else "before"
                names = all_of([switch.name for switch in closed])
                raise _fault(
                    problem, f"{source.name}, whose two ends are joined by {names} {moment} the "
                    f"change", "a source with a resistor in every way round it",
                    "Move the switch, or put a resistor beside it.")  # fmt: skip


def refuse_charged(problem: TransientProblem, stores: tuple[Store, ...]) -> None:
    """Refuse charges of capacitors that are to be one: they would first share them at once.

    Raises:
        FaultyFile: naming a charged capacitor.
    """
    (store, *more) = stores
    if more or isinstance(store.tree, Leaf):
        return
    told = [name for name in leaves(store.tree) if name in problem.charged]
    if told:
        others = all_of([name for name in leaves(store.tree) if name != told[0]])
        raise _fault(
            problem, f"{told[0]}, which starts charged and is joined to {others} by wire alone",
            "no charge at first in capacitors that merge into one",
            "They would share their charge at once: let stages: find what each holds, and start "
            "from one capacitor here.")  # fmt: skip
    if (
        problem.circuit.flipped
        and _held_before(problem, store)
        and not _same_before(problem.circuit, store)
    ):
        raise _fault(
            problem, f"{all_of(list(leaves(store.tree)))}, which hold charge and are joined anew",
            "capacitors that are joined before the change as they are after it",
            "They would share their charge at once: let stages: find what each "
            "holds.")  # fmt: skip


def _held_before(problem: TransientProblem, store: Store) -> bool:
    """Whether any of the capacitors has been charged before the change."""
    voltages = (resting_before(problem, c.between) for c in problem.circuit.capacitors)
    return any(voltages) or resting_before(problem, store.ends) != 0


def _same_before(circuit: MixedCircuit, store: Store) -> bool:
    before = stores_of(circuit, after=False)
    return len(before) == 1 and _shape(before[0].tree) == _shape(store.tree)


def _shape(tree: Tree) -> dict[frozenset[str], str]:
    return {frozenset(leaves(group)): group.connection for group in groups(tree)}


def refuse_stuck(problem: TransientProblem, store: Store) -> None:
    """Refuse a store that sees no resistance, or nothing at all.

    Raises:
        FaultyFile: saying which.
    """
    (first, second), seen = seen_from(problem.circuit, store.ends)
    who = _called(store)
    if first == second:
        raise _fault(
            problem, f"{who} without any resistance in the way of its current",
            "a resistor between it and each battery or closed switch",
            "It would charge or discharge at once. Put a resistor in its way, or write stages: "
            "instead of change:.")  # fmt: skip
    if not seen:
        raise _fault(
            problem, f"{who} without a closed way for its current after the change",
            "a way through resistors from one plate to the other",
            "Nothing charges or discharges it. Close a switch, or check the "
            "junctions.")  # fmt: skip


def refuse_still(problem: TransientProblem, volts: dict[str, tuple[Exact, Exact]]) -> None:
    """Refuse a circuit in which nothing changes.

    Args:
        problem: what is solved.
        volts: what each store holds at first and at last.

    Raises:
        FaultyFile: if no store has two different values.
    """
    if any(first != last for first, last in volts.values()):
        return
    first = show(next(iter(volts.values()))[0], "voltage").text
    who = all_of([_called_by(id, problem) for id in volts])
    does = "start and end" if len(problem.circuit.capacitors) > 1 else "starts and ends"
    raise _fault(
        problem, f"a circuit in which nothing changes: {who} {does} at {first}",
        "a battery, a charge or a switch that makes a difference",
        "Give the capacitor a charge, or let the switch lead to other "
        "resistors.")  # fmt: skip


def refuse_several(problem: TransientProblem, stores: tuple[Store, ...]) -> None:
    """Refuse times of several stores, as there is no single time constant.

    Raises:
        FaultyFile: if anything but the first instant and the end is asked for.
    """
    if len(stores) == 1:
        return
    for name in (*problem.find, *(q.answer for q in problem.questions if q.answer is not None)):
        _, when = moment_of(name)
        if when in (START, END):
            continue
        what = {"time-constant": "the time constant", "resistance": "the resistance that is seen"}
        asked = what.get(name.quantity, "a time" if not when else f"the {name.quantity} at a time")
        line, column = problem.places.get(name, problem.at)
        names = all_of([store.id for store in stores])
        raise FaultyFile((Fault(
            problem.path, line, column, f"{asked} of {names}, which do not merge into one",
            "only what holds at the start and at the end",
            "Several capacitors that charge on their own have no single time constant. Ask for "
            "start and end, or join them in series or in parallel."),))  # fmt: skip


def refuse_unreached(problem: TransientProblem, volts: dict[str, tuple[Exact, Exact]]) -> None:
    """Refuse voltages that a capacitor never has on its way.

    Args:
        problem: what is solved.
        volts: what each capacitor holds at first and at last.

    Raises:
        FaultyFile: with every such voltage.
    """
    faults = tuple(_unreached(problem, volts))
    if faults:
        raise FaultyFile(faults)


def _unreached(problem: TransientProblem, volts: dict[str, tuple[Exact, Exact]]) -> Iterator[Fault]:
    for level, measure in problem.levels.items():
        element, _, number = level.of.partition(">")
        start, end = volts[element]
        low, high = sorted((start, end))
        if low < measure.value < high:
            continue
        first, last = show(start, "voltage").text, show(end, "voltage").text
        if measure.value == start:
            found = f"{measure.shown.text} across {element}, which it has from the start"
        elif measure.value == end:
            found = f"{measure.shown.text} across {element}, which it comes close to for ever"
        else:
            found = f"{measure.shown.text} across {element}, which it never reaches"
        line, column = problem.places.get(reaching(element, int(number)), problem.at)
        yield Fault(problem.path, line, column, found, f"a voltage between {first} and {last}",
                    f"It starts at {first} and goes towards {last}.")  # fmt: skip


def refuse_far(problem: TransientProblem, constant: Exact) -> None:
    """Refuse a time so long after the change that nothing measurable is left of it.

    Args:
        problem: what is solved.
        constant: its time constant.

    Raises:
        FaultyFile: at the first such time.
    """
    for when, measure in problem.times.items():
        if measure.value > MOST_TIME_CONSTANTS * constant:
            line, column = problem.places.get(Name("time", when), problem.at)
            raise FaultyFile((Fault(
                problem.path, line, column, f"the time {measure.shown.text}, where the time "
                f"constant is {show(constant, 'time').text}",
                f"at most {MOST_TIME_CONSTANTS} time constants after the change",
                "After ten of them all is over: check the unit, or ask for the end."),
            ))  # fmt: skip


def resting_before(problem: TransientProblem, ends: tuple[str, str]) -> Exact:
    """The voltage between two junctions long before the change, 0 if nothing decides it.

    Raises:
        FaultyFile: if the sources leave no single answer.
    """
    return _resting(problem, ends, after=False)


def resting_after(problem: TransientProblem, ends: tuple[str, str]) -> Exact:
    """The voltage between two junctions long after the change, 0 if nothing decides it.

    Raises:
        FaultyFile: if the sources leave no single answer.
    """
    return _resting(problem, ends, after=True)


def _resting(problem: TransientProblem, ends: tuple[str, str], *, after: bool) -> Exact:
    try:
        volts = resting(problem.circuit, ends, after=after)
    except ZeroDivisionError:
        raise sources_clash(problem, after=after) from None
    return Integer(0) if volts is None else volts


def sources_clash(problem: TransientProblem, *, after: bool) -> FaultyFile:
    """The fault of sources that leave no single answer."""
    names = all_of([source.name for source in problem.circuit.sources])
    moment = "after" if after else "before"
    return _fault(
        problem, f"{names} without a single answer for what flows {moment} the change",
        "a resistor between any two batteries, and a closed way for each current source",
        "Check which junctions the sources share.")  # fmt: skip


def undecided(problem: TransientProblem, stores: tuple[Store, ...]) -> FaultyFile:
    """The fault of capacitors whose voltages the circuit alone does not decide."""
    names = all_of([store.id for store in stores])
    return _fault(
        problem, f"{names}, whose voltages nothing decides one by one",
        "a way through resistors from each plate of each capacitor to the other",
        "Capacitors that share a point with nothing else, or lie straight across each other, "
        "must merge into one.")  # fmt: skip


def _called(store: Store) -> str:
    return all_of(list(leaves(store.tree)))


def _called_by(id: str, problem: TransientProblem) -> str:
    names = [capacitor.name for capacitor in problem.circuit.capacitors]
    return id if id in names else all_of(names)


def _fault(problem: TransientProblem, found: str, expected: str, advice: str) -> FaultyFile:
    line, column = problem.at
    return FaultyFile((Fault(problem.path, line, column, found, expected, advice),))
