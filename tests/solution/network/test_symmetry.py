"""What symmetry joins, what it may say of it, and how halves are cut."""

from __future__ import annotations

from fractions import Fraction

import networkx
import pytest
from sympy import Rational

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from builder.quantity.names import Name
from builder.solution.network.reductions.route import route_by
from builder.solution.network.reductions.spread import spread_over
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.nodal import potentials
from tests.solution.network.examples import Rows, cube, network_of, of_graph
from tests.solution.network.solving import differences, found


def _join(rows: Rows, plus: str, minus: str, law: Law = RESISTORS) -> NetworkStep:
    network = network_of(rows, plus, minus, ("voltage", 1))
    way = route_by(network, law, "symmetry")
    assert way is not None
    assert differences(network, law, way) == {}
    step = next(step for step in way.steps if step.kind is NetworkMove.JOIN)
    volts = potentials(step.before or network, law)
    for together in step.joined.values():
        assert len({volts[junction] for junction in together}) == 1
    return step


def _spokes(plus: str, minus: str) -> Rows:
    """A junction that 1 Ω joins to + and 2 Ω to − for each vertex of a cubic graph in between."""
    graph = networkx.frucht_graph()
    rows = {f"R{n}": (5, str(a), str(b)) for n, (a, b) in enumerate(graph.edges)}
    rows |= {f"RA{vertex}": (1, plus, str(vertex)) for vertex in graph}
    return rows | {f"RB{vertex}": (2, str(vertex), minus) for vertex in graph}


def test_junctions_that_no_exchange_maps_are_not_said_to_be_exchangeable() -> None:
    """The Frucht graph has no symmetry, yet all its vertices meet the same things here."""
    step = _join(_spokes("p", "m"), "p", "m")
    assert step.telling == {"symmetry": "regular"}
    assert {len(together) for together in step.joined.values()} == {12}


def test_junctions_that_can_be_exchanged_are_alike() -> None:
    """Three spokes of unequal halves round a ring: any of them may take the place of another."""
    rows: Rows = {
        f"R{index}{spoke}": row
        for spoke, other in ("ab", "bc", "ca")
        for index, row in enumerate(((1, "p", spoke), (2, spoke, "m"), (7, spoke, other)))
    }
    step = _join(rows, "p", "m")
    assert dict(step.joined) == {"a": ("a", "b", "c")}
    assert step.telling["symmetry"] == "alike"


def test_values_tell_junctions_apart() -> None:
    """One unequal edge of a cube takes its corners out of the sets."""
    rows: Rows = {
        element.name: (3 if element.name == "R7" else 1, *element.between)
        for element in cube("G").elements
    }
    step = _join(rows, "A", "G")
    assert dict(step.joined) == {"B": ("B", "D"), "F": ("F", "H")}
    assert step.telling["symmetry"] == "alike"


@pytest.mark.parametrize("law", [RESISTORS, CAPACITORS], ids=lambda law: str(law.value))
def test_elements_across_the_mirror_are_cut_in_halves(law: Law) -> None:
    """In an octahedron across an edge two elements cross the mirror, beside that edge."""
    octahedron = of_graph(networkx.octahedral_graph().edges, 0, 1, law, ("voltage", 5))
    rows: Rows = {one.name: (one.value, *one.between) for one in octahedron.elements}
    step = _join(rows, "0", "1", law)
    assert step.telling["symmetry"] == "half"
    (halved,) = step.halved
    assert (halved.equivalent, halved.connection) == (f"{law.letter}12", "series")
    network = network_of(rows, "0", "1", ("voltage", 5))
    way = route_by(network, law, "symmetry")
    assert way is not None
    values = found(network, law, way.steps)
    half = Rational(1, 2) if law is RESISTORS else Rational(2)
    assert [values[Name(law.value, one)] for one in halved.members] == [half, half]
    assert way.steps[-1].network == network


def test_a_cut_may_make_the_junction_halfway() -> None:
    """Where no junction lies on the mirror, the middles of elements do."""
    rows: Rows = {
        "R1": (1, "p", "a"), "R2": (2, "p", "b"), "R3": (3, "a", "b"), "R4": (4, "a", "c"),
        "R5": (5, "b", "d"), "R6": (3, "c", "d"), "R7": (1, "c", "m"), "R8": (2, "d", "m"),
    }  # fmt: skip
    network = network_of(rows, "p", "m", ("current", 2))
    way = route_by(network, RESISTORS, "symmetry")
    assert way is not None
    step = way.steps[0]
    assert [halved.equivalent for halved in step.halved] == ["R4", "R5"]
    assert step.telling["half"] == "s"
    assert differences(network, RESISTORS, way) == {}


def test_both_sides_of_a_mirror_are_exchanged_at_once() -> None:
    """A triangle and its mirror image become stars in one move."""
    rows: Rows = {
        "R1": (1, "p", "a"), "R2": (2, "p", "b"), "R3": (3, "a", "b"), "R4": (4, "a", "h"),
        "R5": (5, "b", "h"), "R6": (1, "m", "c"), "R7": (2, "m", "d"), "R8": (3, "c", "d"),
        "R9": (4, "c", "h"), "R10": (5, "d", "h"),
    }  # fmt: skip
    network = network_of(rows, "p", "m", ("voltage", 2))
    way = route_by(network, RESISTORS, "delta-star")
    assert way is not None
    step = way.steps[0]
    assert step.star is not None
    assert step.mirrored is not None
    assert {step.star.sides, step.mirrored.sides} == {("R3", "R2", "R1"), ("R8", "R7", "R6")}
    assert step.star.point != step.mirrored.point
    assert differences(network, RESISTORS, way) == {}


def test_even_flows_need_regular_networks() -> None:
    """The cube has them, between any two corners; with one other value or edge it has none."""
    assert spread_over(cube("C")) is not None
    graph = networkx.cubical_graph()
    graph.add_edge(0, 6)
    assert spread_over(of_graph(graph.edges, 0, 1)) is None
    rows: Rows = {one.name: (2 if one.name == "R1" else 1, *one.between)
                  for one in cube("C").elements}  # fmt: skip
    assert spread_over(network_of(rows, "A", "C")) is None


def test_the_shares_of_even_flows() -> None:
    """Next to each other in a dodecahedron: 19/60 from either side, 19/30 in all."""
    spread = spread_over(of_graph(networkx.dodecahedral_graph().edges, 0, 1))
    assert spread is not None
    assert (spread.path, spread.junctions) == (("R1",), 20)
    assert [str(share) for share in (*spread.along[0], *spread.shares["R1"])] == ["19/60"] * 4
    assert sum(spread.shares["R1"]) == Fraction(19, 30)
