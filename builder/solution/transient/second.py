"""The independent second method: the capacitor as a source of whatever voltage it holds.

With the store of charge replaced by a source of v volts, the rest is linear: every quantity is
a + b·v. Both numbers come from two solutions of the equations of all junctions and all sources
at once (modified nodal analysis), exactly. The current into the store, a + b·v, is zero long
after, and −1/b is the resistance that the store sees; nothing is merged, and no step is used.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sympy import Integer

from builder.circuit.mixed import MixedCircuit, joined
from builder.quantity.exact import Exact
from builder.quantity.linear import solve_exactly


@dataclass(frozen=True)
class Linear:
    """A quantity that depends on the store's voltage as ``a + b·v``."""

    a: Exact
    b: Exact

    def at(self, v: Exact) -> Exact:
        """Its value while the store holds ``v`` volts."""
        return self.a + self.b * v


@dataclass(frozen=True)
class Response:
    """How a circuit answers to the voltage of its store.

    Attributes:
        into: the current into the store's + plate, in amperes.
        currents: through each resistor, from its first to its second junction, in amperes.
        delivered: out of the + terminal of each source, in amperes.
    """

    into: Linear
    currents: Mapping[str, Linear]
    delivered: Mapping[str, Linear]

    @property
    def final(self) -> Exact:
        """The store's voltage long after, in volts.

        Raises:
            ZeroDivisionError: if no current can reach the store.
        """
        return -self.into.a / self._slope

    @property
    def seen(self) -> Exact:
        """The resistance that the store sees, in ohms.

        Raises:
            ZeroDivisionError: if no current can reach the store.
        """
        return -1 / self._slope

    @property
    def _slope(self) -> Exact:
        if self.into.b == 0:
            raise ZeroDivisionError("no current can reach the store")
        return self.into.b


@dataclass(frozen=True)
class _Drive:
    """A source of voltage or current between two points."""

    name: str
    quantity: str
    value: Exact
    ends: tuple[str, str]


def response(circuit: MixedCircuit, ends: tuple[str, str], *, after: bool = True) -> Response:
    """Solve a circuit for every voltage of its store.

    Args:
        circuit: its capacitors are gaps here, but for the store.
        ends: the junctions of the store, + plate first.
        after: whether the switches stand as after the change.

    Raises:
        ZeroDivisionError: if the circuit has no single solution.
    """
    node = joined(circuit.junctions, [s.between for s in circuit.closed(after=after)])
    drives = [
        _Drive(s.name, s.quantity, s.value, (node[s.between[0]], node[s.between[1]]))
        for s in circuit.sources
    ]
    store = _Drive("", "voltage", Integer(0), (node[ends[0]], node[ends[1]]))
    off = [_Drive(d.name, d.quantity, Integer(0), d.ends) for d in drives]
    one = _Drive("", "voltage", Integer(1), store.ends)
    with_sources = _solve(circuit, node, [*drives, store])
    with_store = _solve(circuit, node, [*off, one])

    def linear(key: tuple[str, str]) -> Linear:
        return Linear(with_sources[key], with_store[key])

    out = linear(("source", ""))
    return Response(
        Linear(-out.a, -out.b),
        {r.name: linear(("resistor", r.name)) for r in circuit.resistors},
        {d.name: linear(("source", d.name)) for d in drives},
    )


def resting(circuit: MixedCircuit, ends: tuple[str, str], *, after: bool = True) -> Exact | None:
    """The voltage between two junctions while every capacitor is a gap, in volts.

    Args:
        circuit: its capacitors are gaps.
        ends: the junctions, + first.
        after: whether the switches stand as after the change.

    Returns:
        The voltage, or None if nothing joins the two junctions, so that nothing decides it.

    Raises:
        ZeroDivisionError: if the circuit has no single solution.
    """
    node = joined(circuit.junctions, [s.between for s in circuit.closed(after=after)])
    drives = [
        _Drive(s.name, s.quantity, s.value, (node[s.between[0]], node[s.between[1]]))
        for s in circuit.sources
    ]
    first, second = node[ends[0]], node[ends[1]]
    ground = _grounded(circuit, node, drives)
    if ground[first] != ground[second]:
        return None
    height = _heights(circuit, node, drives)[0]
    return height[first] - height[second]


def currents_while(
    circuit: MixedCircuit, held: Mapping[tuple[str, str], Exact], *, after: bool = True
) -> dict[str, Exact]:
    """The current through each resistor while capacitors hold given voltages, in amperes.

    Args:
        circuit: what is connected.
        held: the voltage between the ends of each capacitor, + plate first, in volts.
        after: whether the switches stand as after the change.

    Raises:
        ZeroDivisionError: if the circuit has no single solution.
    """
    node = joined(circuit.junctions, [s.between for s in circuit.closed(after=after)])
    drives = [
        _Drive(s.name, s.quantity, s.value, (node[s.between[0]], node[s.between[1]]))
        for s in circuit.sources
    ]
    stores = [
        _Drive("", "voltage", volts, (node[ends[0]], node[ends[1]])) for ends, volts in held.items()
    ]
    found = _solve(circuit, node, [*drives, *stores])
    return {r.name: found["resistor", r.name] for r in circuit.resistors}


def _solve(
    circuit: MixedCircuit, node: Mapping[str, str], drives: Sequence[_Drive]
) -> dict[tuple[str, str], Exact]:
    """Currents of all resistors and sources."""
    height, through = _heights(circuit, node, drives)
    found: dict[tuple[str, str], Exact] = {}
    for resistor in circuit.resistors:
        first, second = (node[end] for end in resistor.between)
        found["resistor", resistor.name] = (height[first] - height[second]) / resistor.value
    for name, current in through:
        found["source", name] = current
    for drive in drives:
        if drive.quantity == "current":
            found["source", drive.name] = drive.value
    return found


def _heights(
    circuit: MixedCircuit, node: Mapping[str, str], drives: Sequence[_Drive]
) -> tuple[dict[str, Exact], list[tuple[str, Exact]]]:
    """The potential of each point, and the current out of each source of voltage."""
    points = _grounded(circuit, node, drives)
    free = [point for point, ground in points.items() if point != ground]
    row_of = {point: row for row, point in enumerate(free)}
    volts = [drive for drive in drives if drive.quantity == "voltage"]
    rows, right = _equations(circuit, node, drives, row_of)
    solved = solve_exactly(tuple(map(tuple, rows)), tuple(right)) if right else ()
    height = {point: solved[row_of[point]] if point in row_of else Integer(0) for point in points}
    through = [(drive.name, solved[n]) for n, drive in enumerate(volts, start=len(row_of))]
    return height, through


def _equations(
    circuit: MixedCircuit,
    node: Mapping[str, str],
    drives: Sequence[_Drive],
    row_of: Mapping[str, int],
) -> tuple[list[list[Exact]], list[Exact]]:
    """A row for each point that is no ground, and one for each source of voltage."""
    volts = [drive for drive in drives if drive.quantity == "voltage"]
    size = len(row_of) + len(volts)
    rows: list[list[Exact]] = [[Integer(0)] * size for _ in range(size)]
    right: list[Exact] = [Integer(0)] * size
    for resistor in circuit.resistors:
        first, second = (node[end] for end in resistor.between)
        for here, there in ((first, second), (second, first)):
            if here in row_of and first != second:
                rows[row_of[here]][row_of[here]] += 1 / resistor.value
                if there in row_of:
                    rows[row_of[here]][row_of[there]] -= 1 / resistor.value
    for column, drive in enumerate(volts, start=len(row_of)):
        right[column] = drive.value
        for row, sign in _ends_in(drive, row_of):
            rows[row][column] -= sign
            rows[column][row] += sign
    for drive in drives:
        if drive.quantity == "current":
            for row, sign in _ends_in(drive, row_of):
                right[row] += sign * drive.value
    return rows, right


def _ends_in(drive: _Drive, row_of: Mapping[str, int]) -> list[tuple[int, int]]:
    """The rows of a drive's ends that are no ground, each with its sign."""
    ends = zip(drive.ends, (1, -1), strict=True)
    return [(row_of[end], sign) for end, sign in ends if end in row_of]


def _grounded(
    circuit: MixedCircuit, node: Mapping[str, str], drives: Sequence[_Drive]
) -> dict[str, str]:
    """Each point with the point that is taken as 0 V in its connected part."""
    pairs = [(node[r.between[0]], node[r.between[1]]) for r in circuit.resistors]
    pairs += [drive.ends for drive in drives]
    return joined(dict.fromkeys(node.values()), pairs)
