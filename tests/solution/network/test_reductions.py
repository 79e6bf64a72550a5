"""Routes by reductions through small networks: their moves, and values by the nodal method."""

from __future__ import annotations

import pytest
from sympy import Rational

from builder.circuit.law import RESISTORS
from builder.circuit.network import Network
from builder.quantity.formula import evaluate
from builder.quantity.names import TOTAL, Name
from builder.solution.network.finishing import asked_steps
from builder.solution.network.reductions.moves import METHODS
from builder.solution.network.reductions.route import route, route_by
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.nodal import by_nodes
from tests.solution.network.examples import (
    BALANCED,
    EXAMPLES,
    LOOSE,
    UNBALANCED,
    cube,
    ladder,
    network_of,
)
from tests.solution.network.solving import differences, found, the_route

DRIVEN = [name for name, (network, _) in EXAMPLES.items() if network.sources]


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_route_and_the_nodal_method_agree(name: str) -> None:
    """Equivalent, flows and drops are the same rationals by both methods."""
    network, law = EXAMPLES[name]
    assert differences(network, law, the_route(network, law)) == {}


@pytest.mark.parametrize("name", DRIVEN)
def test_every_element_gets_a_drop_and_a_flow(name: str) -> None:
    """With a source the walk back reaches each element of the problem."""
    network, law = EXAMPLES[name]
    values = found(network, law, the_route(network, law).steps)
    wanted = {Name(q, e.name) for q in (law.flow, law.drop) for e in network.elements}
    assert wanted <= values.keys()


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_network_on_the_way_is_worth_the_first(name: str) -> None:
    """The network after each step has the same equivalent, and its elements the found values."""
    network, law = EXAMPLES[name]
    steps = the_route(network, law).steps
    values = found(network, law, steps)
    whole = Name(law.value, TOTAL)
    for step in steps:
        assert by_nodes(step.network, law)[whole] == values[whole], step.id
        for element in step.network.elements:
            assert element.value == values[Name(law.value, element.name)], (step.id, element)


@pytest.mark.parametrize("name", DRIVEN)
def test_the_networks_on_the_way_have_the_found_drops_and_flows(name: str) -> None:
    """What is found for an element is what the network drawn with it says by the nodal method."""
    network, law = EXAMPLES[name]
    way = the_route(network, law)
    values = found(network, law, way.steps)
    for step in way.steps:
        nodal = by_nodes(step.network, law)
        for element in step.network.elements:
            for quantity in (law.drop, law.flow):
                name_of = Name(quantity, element.name)
                assert values[way.naming.resolve(name_of)] == nodal[name_of], (step.id, name_of)


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_condition_that_is_written_down_holds(name: str) -> None:
    """Both sides of a balance condition are equal."""
    network, law = EXAMPLES[name]
    steps = the_route(network, law).steps
    values = found(network, law, steps)
    for step in steps:
        for one in step.statements:
            assert evaluate(one.left, values) == evaluate(one.right, values), step.id


@pytest.mark.parametrize("name", DRIVEN)
def test_new_elements_are_counted_in_the_direction_of_their_flow(name: str) -> None:
    """No equivalent, leg or side carries a negative flow; only what an author named may."""
    network, law = EXAMPLES[name]
    named = {element.name for element in network.elements}
    values = found(network, law, the_route(network, law).steps)
    new = [of for quantity, of in values if quantity == law.flow and of not in named]
    assert all(values[Name(law.flow, of)] >= 0 for of in new)


@pytest.mark.parametrize("name", DRIVEN)
def test_the_walk_back_ends_at_the_network_of_the_problem(name: str) -> None:
    """The last figure is the first one again."""
    network, law = EXAMPLES[name]
    assert the_route(network, law).steps[-1].network == network


@pytest.mark.parametrize("name", EXAMPLES)
def test_ids_of_steps_are_words_and_each_is_used_once(name: str) -> None:
    """An author can name every step to give it other words."""
    network, law = EXAMPLES[name]
    ids = [step.id for step in the_route(network, law).steps]
    assert len(set(ids)) == len(ids)
    assert all(id.replace("-", "").replace("_", "").replace(",", "").isalnum() for id in ids)


def _told(steps: tuple[NetworkStep, ...]) -> list[str]:
    return [
        f"{step.kind} {step.telling.get('connection', '')} {len(step.merged) or ''}".strip()
        for step in steps
    ]


MOVES = {
    "balanced": ["balance", "merge series 2", "merge parallel 1"],
    "unbalanced": ["star", "merge series 2", "merge parallel 1", "merge series 1"],
    "capacitor-bridge": ["star", "merge series 2", "merge parallel 1", "merge series 1"],
    "balanced-capacitors": ["balance", "merge series 2", "merge parallel 1"],
    "nest": ["merge parallel 1", "merge series 1"],
    "loose": ["drop", "merge series 1"],
    "cube-body": ["join", "merge parallel 3", "merge series 1"],
    "cube-body-capacitors": ["join", "merge parallel 3", "merge series 1"],
    "cube-face": ["join", "merge parallel 4", "merge series 2", "merge parallel 2",
                  "merge series 1"],
    "cube-edge": ["join", "merge parallel 5", "merge series 1", "merge parallel 1",
                  "merge series 1", "merge parallel 1"],
    "K4": ["balance", "merge series 2", "merge parallel 1"],
    "K5": ["join", "merge parallel 2", "merge series 1", "merge parallel 1"],
    "ladder-3": ["merge series 1", "merge parallel 1"] * 2 + ["merge series 1"],
}  # fmt: skip


@pytest.mark.parametrize("name", MOVES)
def test_the_moves_are_those_of_a_teacher(name: str) -> None:
    """The way to the equivalent, move by move."""
    network, law = EXAMPLES[name]
    way = the_route(network, law)
    assert _told(way.steps[: way.moves]) == MOVES[name]


def test_loose_elements_are_told_and_carry_nothing() -> None:
    """A chain that comes back to its own junction and a dead end have no flow."""
    way = the_route(LOOSE, RESISTORS)
    step = way.steps[0]
    assert (step.kind, step.dropped) == (NetworkMove.DROP, ("R3", "R4", "R5"))
    assert step.telling == {"because": "loose"}
    assert {found(LOOSE, RESISTORS, [step])[Name("voltage", one)] for one in step.dropped} == {0}


def test_an_element_with_both_ends_at_one_junction_is_told_as_a_loop() -> None:
    """It is dropped whatever its value."""
    rows = {"R1": (4, "p", "n"), "R2": (5, "p", "p")}
    step = the_route(network_of(rows, "p", "n"), RESISTORS).steps[0]
    assert (step.dropped, step.telling["because"]) == (("R2",), "loop")


@pytest.mark.parametrize("ends", [("p", "n"), ("n", "p")])
@pytest.mark.parametrize("source", [("voltage", 12), ("current", 3)])
def test_a_single_element_needs_no_move(ends: tuple[str, str], source: tuple[str, int]) -> None:
    """It meets the source at once; counted against the source its flow is negative."""
    network = network_of({"R1": (4, *ends)}, "p", "n", source)
    way = the_route(network, RESISTORS)
    assert [step.kind for step in way.steps] == [NetworkMove.DRIVE]
    assert differences(network, RESISTORS, way) == {}


def test_a_lone_element_without_a_source_is_the_equivalent() -> None:
    """What hangs loose is dropped, and what is left gives its value to the whole."""
    network = network_of({"R1": (4, "p", "n"), "R2": (3, "n", "x")}, "p", "n")
    assert [step.id for step in the_route(network, RESISTORS).steps] == [
        "drop-R2",
        "resistance-total",
    ]
    assert differences(network, RESISTORS, the_route(network, RESISTORS)) == {}


def test_terminals_that_nothing_joins_have_no_route() -> None:
    """There is no single element to be reached."""
    assert (
        route(network_of({"R1": (1, "p", "x"), "R2": (1, "n", "y")}, "p", "n"), RESISTORS) is None
    )


@pytest.mark.parametrize("minus", ["B", "C", "G"])
def test_a_cube_takes_a_handful_of_moves(minus: str) -> None:
    """At most six moves for an edge, five for the diagonals."""
    assert the_route(cube(minus), RESISTORS).moves <= {"B": 6, "C": 5, "G": 3}[minus]


def test_the_joined_corners_of_a_cube_are_told() -> None:
    """For the diagonal of the body the corners at one distance; for that of a face the half."""
    body = the_route(cube("G"), RESISTORS).steps[0]
    assert body.joined == {"B": ("B", "D", "E"), "C": ("C", "F", "H")}
    assert body.telling == {"symmetry": "same-distance"}
    face = the_route(cube("C"), RESISTORS).steps[0]
    assert face.joined == {"B": ("B", "D", "F", "H")}
    assert face.dropped == ("R6", "R8")
    assert face.telling == {"symmetry": "half", "half": "B"}


def test_equivalents_are_named_after_their_members_and_legs_by_letters() -> None:
    """R12 for R1 with R2; R_a, R_b, R_c for a star, at its corners in their order."""
    assert [line.name.of for line in the_route(BALANCED, RESISTORS).steps[1].lines] == [
        "R12",
        "R34",
    ]
    star = the_route(UNBALANCED, RESISTORS).steps[0].star
    assert star is not None
    assert (star.point, star.corners) == ("s", ("a", "x", "y"))
    assert star.legs == ("R_a", "R_b", "R_c")
    assert star.sides == ("R5", "R2", "R1")


def test_names_that_are_taken_are_left_alone() -> None:
    """An author's R12, R_a and junction s are not used again."""
    rows = {"R12": (15, "a", "s"), "R_a": (10, "a", "y"), "R1": (10, "s", "b"),
            "R2": (15, "y", "b"), "R3": (5, "s", "y")}  # fmt: skip
    network = network_of(rows, "a", "b", ("voltage", 5))
    way = the_route(network, RESISTORS)
    star = way.steps[0].star
    assert star is not None
    assert (star.point, star.legs) == ("t", ("R_b", "R_c", "R_d"))
    assert differences(network, RESISTORS, way) == {}


@pytest.mark.parametrize("method", METHODS[1:])
def test_an_author_can_choose_the_method(method: str) -> None:
    """A symmetric balanced bridge goes by balance, by symmetry, and by a star."""
    rows = {"R1": (6, "a", "x"), "R2": (6, "a", "y"), "R3": (3, "x", "b"), "R4": (3, "y", "b"),
            "R5": (2, "x", "y")}  # fmt: skip
    network = network_of(rows, "a", "b", ("voltage", 9))
    way = route_by(network, RESISTORS, method)
    assert way is not None
    assert way.methods - {"merge"} == {method}
    assert differences(network, RESISTORS, way) == {}


def test_a_method_that_does_not_fit_has_no_route() -> None:
    """An unbalanced bridge is no nest, is not balanced and has no symmetry."""
    for method in ("merge", "balance", "symmetry"):
        assert route_by(UNBALANCED, RESISTORS, method) is None


def test_a_star_may_become_a_triangle() -> None:
    """Where that leads to plainer values: legs of 2, 5 and 5 Ω make sides of 9, 9 and 45/2 Ω."""
    rows = {"R1": (1, "a", "x"), "R2": (2, "a", "y"), "R3": (3, "x", "b"), "R4": (5, "y", "b"),
            "R5": (5, "x", "y")}  # fmt: skip
    network = network_of(rows, "a", "b", ("current", 2))
    way = the_route(network, RESISTORS)
    step = way.steps[0]
    assert (step.kind, step.star and step.star.point) == (NetworkMove.TRIANGLE, "y")
    values = found(network, RESISTORS, way.steps)
    sides = sorted(values[Name("resistance", side)] for side in step.marked)
    assert sides == [9, 9, Rational(45, 2)]
    assert differences(network, RESISTORS, way) == {}


def test_a_route_longer_than_wanted_is_none() -> None:
    """A star costs four, and less effort does not do."""
    assert route(UNBALANCED, RESISTORS, most=3) is None
    assert route(UNBALANCED, RESISTORS, most=4) is not None


def test_only_balance_and_symmetry_lean_on_values() -> None:
    """Other numbers keep a star or a merge right, but not a balance."""
    assert the_route(BALANCED, RESISTORS).leans_on_values
    assert the_route(cube("G"), RESISTORS).leans_on_values
    assert not the_route(UNBALANCED, RESISTORS).leans_on_values
    assert not the_route(ladder(5), RESISTORS).leans_on_values


def _asked(network: Network, *names: Name) -> list[str]:
    steps = asked_steps(names, the_route(network, RESISTORS).steps)
    values = found(network, RESISTORS, steps)
    nodal = by_nodes(network, RESISTORS)
    assert all(values[name] == nodal[name] for name in names)
    return [f"{step.id}: {len(step.lines)}" for step in steps]


def test_only_the_steps_that_what_is_asked_needs_are_kept() -> None:
    """The current in the middle of a balanced bridge takes one step, that of an arm some more.

    A move that finds nothing, such as joining, is kept where what comes after it is.
    """
    assert _asked(BALANCED, Name("current", "R5")) == ["balance-R5: 2"]
    assert _asked(BALANCED, Name("voltage", "R1")) == [
        "balance-R5: 2", "merge-R12: 2", "open-total: 2", "open-R12: 2"
    ]  # fmt: skip
    assert _asked(BALANCED, Name("resistance", TOTAL)) == [
        "balance-R5: 2", "merge-R12: 2", "merge-total: 1"
    ]  # fmt: skip
    middle = asked_steps([Name("current", "R3")], the_route(BALANCED, RESISTORS).steps)
    assert middle[-1].marked == ("R3",)
    assert _asked(cube("G", source=("voltage", 10)), Name("current", "R1")) == [
        "join-1: 0", "merge-R145: 3", "merge-total: 1", "current: 1", "open-total: 2",
        "open-R145: 2"
    ]  # fmt: skip
