"""Networks of equal elements against published closed forms, exactly, and in few moves.

Sources, as named beside each table: IBM = IBM Research, Ponder This, October 2007; vS = J. van
Steenwijk, Am. J. Phys. 66, 90 (1998), from memory; KR = Klein and Randić, J. Math. Chem. 12, 81
(1993), from memory; Foster = R. M. Foster, 1949, from memory.
"""

from __future__ import annotations

import time
from collections.abc import Iterable
from itertools import combinations

import networkx
import pytest
from sympy import Integer, Rational, fibonacci

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from builder.circuit.network import Network
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.solution.network.reductions.route import route
from tests.solution.network.examples import complete, cube, cycle, ladder, network_of, of_graph
from tests.solution.network.solving import differences, found, the_route

LAWS = pytest.mark.parametrize("law", [RESISTORS, CAPACITORS], ids=lambda law: str(law.value))


def _equivalent(network: Network, law: Law = RESISTORS) -> Exact:
    return found(network, law, the_route(network, law).steps)[Name(law.value, TOTAL)]


def _at_distance(name: str, far: int, law: Law, *, driven: bool = True) -> Network:
    graph = GRAPHS[name]
    distances = networkx.single_source_shortest_path_length(graph, 0)
    minus = min(vertex for vertex, distance in distances.items() if distance == far)
    return of_graph(graph.edges, 0, minus, law, ("voltage", 12) if driven else None)


GRAPHS = {
    "tetrahedron": networkx.tetrahedral_graph(),
    "octahedron": networkx.octahedral_graph(),
    "cube": networkx.cubical_graph(),
    "icosahedron": networkx.icosahedral_graph(),
    "dodecahedron": networkx.dodecahedral_graph(),
    "Q4": networkx.convert_node_labels_to_integers(networkx.hypercube_graph(4), ordering="sorted"),
    "Petersen": networkx.petersen_graph(),
}
DISTANCES = [
    # solid, distance, resistance in R, moves at most
    ("tetrahedron", 1, "1/2", 3),  # IBM
    ("octahedron", 1, "5/12", 6),  # IBM
    ("octahedron", 2, "1/2", 3),  # vS
    ("cube", 1, "7/12", 6),  # IBM
    ("cube", 2, "3/4", 5),  # from memory; all three cases are on analyticphysics.com
    ("cube", 3, "5/6", 3),  # Física Exe, resistors1_hs2, gives the same 3, 6, 3 in parallel
    ("icosahedron", 1, "11/30", 1),  # IBM
    ("icosahedron", 2, "7/15", 1),  # vS
    ("icosahedron", 3, "1/2", 3),  # vS
    ("dodecahedron", 1, "19/30", 1),  # IBM
    ("dodecahedron", 2, "9/10", 1),  # vS
    ("dodecahedron", 3, "16/15", 1),  # vS
    ("dodecahedron", 4, "17/15", 1),  # vS
    ("dodecahedron", 5, "7/6", 3),  # vS
    ("Q4", 1, "15/32", 1),  # no source: recomputed from the Laplacian
    ("Q4", 2, "7/12", 7),  # the same
    ("Q4", 3, "61/96", 1),  # the same
    ("Q4", 4, "2/3", 3),  # the same
    ("Petersen", 1, "3/5", 4),  # the same
    ("Petersen", 2, "4/5", 5),  # the same
]


@LAWS
@pytest.mark.parametrize(("name", "far", "value", "moves"), DISTANCES)
def test_regular_solids_and_graphs(name: str, far: int, value: str, moves: int, law: Law) -> None:
    """Every distance has its published value, by few moves; for capacitors its reciprocal.

    Drops and flows of all elements agree with the nodal method.
    """
    network = _at_distance(name, far, law)
    way = the_route(network, law)
    equivalent = found(network, law, way.steps)[Name(law.value, TOTAL)]
    assert equivalent == (Rational(value) if law is RESISTORS else 1 / Rational(value))
    assert way.moves <= moves
    assert differences(network, law, way) == {}


@pytest.mark.parametrize("name", GRAPHS)
def test_across_an_edge_of_an_edge_transitive_graph(name: str) -> None:
    """(V − 1)·R/E, whichever way is taken (IBM; Foster)."""
    graph = GRAPHS[name]
    value = _equivalent(_at_distance(name, 1, RESISTORS, driven=False))
    assert value == Rational(graph.number_of_nodes() - 1, graph.number_of_edges())


@pytest.mark.parametrize("junctions", range(3, 9))
def test_complete_graphs(junctions: int) -> None:
    """K_n has 2R/n between any two junctions (KR), in at most four moves."""
    network = complete(junctions, ("voltage", 2))
    way = the_route(network, RESISTORS)
    assert _equivalent(network) == Rational(2, junctions)
    assert way.moves <= 4
    assert differences(network, RESISTORS, way) == {}


@pytest.mark.parametrize(
    ("junctions", "apart"), [(n, k) for n in range(3, 9) for k in range(1, n // 2 + 1)]
)
def test_cycles(junctions: int, apart: int) -> None:
    """C_n has k(n − k)R/n between junctions that are k apart (elementary)."""
    network = cycle(junctions, apart)
    assert _equivalent(network) == Rational(apart * (junctions - apart), junctions)
    assert the_route(network, RESISTORS).moves <= 3


@pytest.mark.parametrize(("one", "other"), [(2, 3), (3, 2), (3, 3), (3, 4), (4, 5), (5, 6)])
def test_complete_bipartite_graphs(one: int, other: int) -> None:
    """(m + n − 1)R/(mn) across, 2R/n within the side of m (from memory)."""
    edges = list(networkx.complete_bipartite_graph(one, other).edges)
    across = _equivalent(of_graph(edges, 0, one))
    assert across == Rational(one + other - 1, one * other)
    assert _equivalent(of_graph(edges, 0, 1)) == Rational(2, other)
    assert the_route(of_graph(edges, 0, one), RESISTORS).moves <= 4
    assert the_route(of_graph(edges, 0, 1), RESISTORS).moves <= 3


@pytest.mark.parametrize("sections", range(1, 41))
def test_ladders(sections: int) -> None:
    """F(2n + 1)/F(2n) of R for n sections (standard): only merges, one for each further element."""
    network = ladder(sections)
    way = the_route(network, RESISTORS)
    value = Rational(int(fibonacci(2 * sections + 1)), int(fibonacci(2 * sections)))
    assert _equivalent(network) == value
    assert way.moves == 2 * sections - 1
    assert way.methods == {"merge"}


def test_a_large_grid_is_left_to_equations_at_once() -> None:
    """400 junctions of unequal resistors: corners are merged, and no long search follows."""
    graph = networkx.convert_node_labels_to_integers(networkx.grid_2d_graph(20, 20))
    rows = {f"R{n}": (n % 97 + 1, str(a), str(b)) for n, (a, b) in enumerate(graph.edges)}
    network = network_of(rows, "0", "399", ("voltage", 1))
    start = time.process_time()
    assert route(network, RESISTORS) is None
    assert time.process_time() - start < 2


def test_the_published_cube() -> None:
    """Twelve edges of 1 Ω and 10 V from corner to corner: 5/6 Ω and 12 A.

    NCERT Physics for Class XII, part I, chapter 3, solved example, from memory.
    """
    network = cube("G", source=("voltage", 10))
    values = found(network, RESISTORS, the_route(network, RESISTORS).steps)
    assert values[Name("resistance", TOTAL)] == Rational(5, 6)
    assert values[Name("current", TOTAL)] == 12
    assert {abs(values[Name("current", f"R{number}")]) for number in range(1, 13)} == {2, 4}


@pytest.mark.parametrize("closed", [False, True])
def test_the_published_balanced_bridge(closed: bool) -> None:
    """Arms 8-8 and 8-8 Ω, 4 Ω in series, 12 V: 12 Ω and 1 A with the switch open or closed.

    University Physics Volume 2 (OpenStax), chapter 10, fs-id1172102147484. The closed switch is a
    resistor of any value here: nothing flows through it.
    """
    rows = {"R1": (8, "a", "x"), "R2": (8, "x", "b"), "R3": (8, "a", "y"), "R4": (8, "y", "b"),
            "R5": (4, "b", "n")} | ({"R6": (3, "x", "y")} if closed else {})  # fmt: skip
    network = network_of(rows, "a", "n", ("voltage", 12))
    way = the_route(network, RESISTORS)
    values = found(network, RESISTORS, way.steps)
    assert values[Name("resistance", TOTAL)] == 12
    assert values[Name("current", TOTAL)] == 1
    assert way.methods == ({"merge", "balance"} if closed else {"merge"})


@pytest.mark.parametrize(
    ("first", "second", "third", "unknown"),
    [
        ("1000", "625", "2500", "3125/2"),  # College Physics 2e, 21.5, fs-id1422615: 1.56 kΩ
        ("1", "2", "5", "10"),  # the same, fs-id3335517: R3 = 5.00 Ω for 10 Ω, R2/R1 = 2.000
    ],
)
def test_published_null_bridges(first: str, second: str, third: str, unknown: str) -> None:
    """With Rx = R3·R2/R1 the meter's element carries nothing; a hundredth beside it does."""
    for value, still in (
        (Rational(unknown), True),
        (Rational(unknown) * Rational(101, 100), False),
    ):
        rows = {"R1": (first, "a", "x"), "R2": (second, "x", "b"), "R3": (third, "a", "y"),
                "R4": (value, "y", "b"), "R5": (50, "x", "y")}  # fmt: skip
        network = network_of(rows, "a", "b", ("voltage", 6))
        way = the_route(network, RESISTORS)
        assert ("balance" in way.methods) == still
        assert (found(network, RESISTORS, way.steps)[Name("current", "R5")] == 0) == still


DELTAS = [
    # law, sides opposite corners 1, 2, 3, and legs at them
    (RESISTORS, ("5", "15", "10"), ("5", "5/3", "5/2"),
     "Introduction to Electric Circuits, p. 73: Δ 10, 15, 5 Ω gives 5/3, 5, 5/2 Ω"),
    (CAPACITORS, ("2", "1", "2"), ("4", "8", "4"), "Física Exe, capacitors3_hs2: 4C, 8C, 4C"),
    (RESISTORS, ("50", "18", "12"), ("27/10", "15/2", "45/4"),
     "Ra = RabRac/(Rab + Rbc + Rca), T. R. Kuphaldt, Lessons In Electric Circuits, vol. I"),
]  # fmt: skip


@pytest.mark.parametrize(("law", "sides", "legs", "source"), DELTAS)
def test_published_triangles_and_stars(
    law: Law, sides: tuple[str, ...], legs: tuple[str, ...], source: str
) -> None:
    """Triangle to star in a bridge that has to use it, and back from that star to the triangle."""
    one, two, three = sides
    rows = {"1": (three, "a", "x"), "2": (two, "a", "y"), "3": (one, "x", "y"),
            "4": ("97", "x", "b"), "5": ("101", "y", "b")}  # fmt: skip
    network = network_of({law.letter + name: row for name, row in rows.items()}, "a", "b")
    way = the_route(network, law)
    star = way.steps[0].star
    assert star is not None, source
    assert star.sides == tuple(f"{law.letter}{number}" for number in (3, 2, 1)), source
    values = found(network, law, way.steps)
    assert [values[Name(law.value, leg)] for leg in star.legs] == [Rational(leg) for leg in legs]


@pytest.mark.parametrize("letter", ["C", "R"])
def test_the_antisymmetric_bridge(letter: str) -> None:
    """Arms 2, 1 over 1, 2 and middle 2: 10/7, by one form for C and R (Irodov, from memory)."""
    law = CAPACITORS if letter == "C" else RESISTORS
    rows = {"1": (2, "A", "X"), "2": (1, "A", "Y"), "3": (2, "X", "Y"), "4": (1, "X", "B"),
            "5": (2, "Y", "B")}  # fmt: skip
    network = network_of({letter + name: row for name, row in rows.items()}, "A", "B")
    one, two, middle = Integer(2), Integer(1), Integer(2)
    closed = (2 * one * two + middle * (one + two)) / (one + two + 2 * middle)
    assert _equivalent(network, law) == closed == Rational(10, 7)


@pytest.mark.parametrize("name", ["unequal bridge", "K4", "wheel"])
def test_sum_over_all_edges(name: str) -> None:
    """R_eff/R_edge adds up to V − 1 over all elements of any network (Foster)."""
    rows = FOSTER[name]
    total = Integer(0)
    for value, first, second in rows.values():
        total += _equivalent(network_of(rows, first, second)) / value
    junctions = {junction for _, *ends in rows.values() for junction in ends}
    assert total == len(junctions) - 1


def _numbered(edges: Iterable[tuple[str, str]]) -> dict[str, tuple[int, str, str]]:
    return {f"R{n}": (n * n + 1, *edge) for n, edge in enumerate(edges, start=1)}


FOSTER = {
    "unequal bridge": _numbered([("a", "x"), ("a", "y"), ("x", "b"), ("y", "b"), ("x", "y")]),
    "K4": _numbered([(a, b) for a, b in combinations("abcd", 2)]),
    "wheel": _numbered(
        [("h", rim) for rim in "abcde"] + [(a, b) for a, b in zip("abcde", "bcdea", strict=True)]
    ),
}


@pytest.mark.parametrize("name", ["octahedron", "cube"])
def test_resistors_and_capacitors_are_one_problem(name: str) -> None:
    """With C = 1/R potentials are the same and C_eq = 1/R_eq (nodal algebra)."""
    graph = GRAPHS[name]
    pairs = []
    for law in (RESISTORS, CAPACITORS):
        rows = {
            f"{law.letter}{n}": (Integer(n + 1) if law is RESISTORS else Rational(1, n + 1),
                                 str(a), str(b))
            for n, (a, b) in enumerate(graph.edges)
        }  # fmt: skip
        network = network_of(rows, "0", "3", ("voltage", 1))
        way = route(network, law, most=None)
        assert way is not None
        values = found(network, law, way.steps)
        drops = [values[Name("voltage", one)] for one in rows]
        pairs.append((drops, law.weight(values[Name(law.value, TOTAL)])))
    assert pairs[0] == pairs[1]
