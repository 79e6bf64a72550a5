"""What an author may write of a general network, and what becomes of it."""

from __future__ import annotations

from fractions import Fraction

import pytest
import yaml
from jsonschema import Draft202012Validator
from sympy import Rational

from builder.problem import problem_schema, read_problem_text
from builder.problem.model import NestProblem, NetworkProblem
from builder.quantity.names import Name
from tests.problem.network.test_network_faults import ACROSS, BASE, CAPS, ONE, SERIES
from tests.problem.samples import BRANCHES, changed, faults_of

EVERYTHING = """\
title: Everything that a network may hold
circuit:
  method: junctions
  reference: g
  place: {a: [0, 1.5], g: [1, 0], c: [2, 1]}
  branches:
    E1: {emf: 9 V, inner: 0.5 ohm, between: [a, g]}
    J1: {current: 2 A, between: [c, g]}
    R1: {resistance: 2 ohm, between: [a, c]}
    R3: {resistance: 4 ohm, between: [c, g]}
find:
  - current: all
  - current: [E1, r_E1]
  - voltage: [R1, J1, between a and c]
  - power: total
  - power: E1
  - potential: [a, c]
"""
SEEN = """\
title: What a load sees
circuit:
  method: equivalent-source
  load: R3
  branches:
    E1: {emf: 9 V, between: [a, g]}
    R1: {resistance: 2 ohm, between: [a, c]}
    R2: {resistance: 2 ohm, between: [c, g]}
    R3: {resistance: 4 ohm, between: [c, g]}
find: [open-voltage, inner-resistance, matching-resistance, greatest-power, current: R3]
"""


def read(text: str) -> NetworkProblem:
    """The problem of a text, which must be a network."""
    problem = read_problem_text(text, "network.yml")
    assert isinstance(problem, NetworkProblem)
    return problem


@pytest.mark.parametrize("text", [EVERYTHING, SEEN, BASE, CAPS, ONE, SERIES, ACROSS])
def test_networks_hold_to_the_schema(text: str) -> None:
    """An editor underlines nothing in what the reader takes."""
    assert faults_of(text) == []
    errors = Draft202012Validator(problem_schema()).iter_errors(yaml.safe_load(text))
    assert [error.message for error in errors] == []


def test_an_internal_resistance_is_an_element_of_its_own() -> None:
    """It lies between the source and the + terminal that the author named."""
    problem = read(EVERYTHING)
    assert problem.inner == {"E1": "r_E1"}
    inner = problem.network.element("r_E1")
    assert inner.value == Rational(1, 2)
    assert inner.between == ("E1+", "a")
    assert problem.network.sources[0].between == ("E1+", "g")
    assert problem.network.terminals == ("E1+", "g")


def test_everything_that_can_be_asked_has_a_name() -> None:
    """``all`` means what the author named as an element; potentials and sources have names too."""
    assert read(EVERYTHING).find == (
        Name("current", "R1"), Name("current", "R3"), Name("current", "E1"),
        Name("current", "r_E1"), Name("voltage", "R1"), Name("voltage", "J1"),
        Name("voltage", "a/c"), Name("power", "total"), Name("power", "E1"),
        Name("potential", "a"), Name("potential", "c"),
    )  # fmt: skip


def test_method_reference_and_places_are_kept() -> None:
    """A method that does not fit can be refused at its line later on."""
    problem = read(EVERYTHING)
    assert (problem.method, problem.method_at, problem.reference) == ("junctions", (3, 11), "g")
    assert problem.place == {
        "a": (Fraction(0), Fraction(3, 2)), "g": (Fraction(1), Fraction(0)),
        "c": (Fraction(2), Fraction(1)),
    }  # fmt: skip


def test_a_load_tells_the_two_points() -> None:
    """They are its junctions, and the quantities of the equivalent source have names."""
    problem = read(SEEN)
    assert problem.points == ("c", "g")
    assert problem.load == "R3"
    assert problem.find[:4] == (
        Name("voltage", "open"), Name("resistance", "inner"), Name("resistance", "matched"),
        Name("power", "greatest"),
    )  # fmt: skip


def test_total_is_that_of_the_only_source() -> None:
    """What a single source delivers may be asked for as the total."""
    assert read(changed(SERIES, "current", "[current: total]")).find == (Name("current", "E1"),)


def test_a_source_beside_the_branches_stands_across() -> None:
    """It drives between the two points."""
    (source,) = read(SERIES).network.sources
    assert (source.name, source.quantity, source.between) == ("E1", "voltage", ("a", "g"))


def test_a_nest_stays_a_nest() -> None:
    """One source and a nest of groups are solved as before, with or without method: merge."""
    assert isinstance(read_problem_text(BRANCHES, "nest.yml"), NestProblem)
    merged = changed(BRANCHES, "  branches", "  method: merge\n  branches")
    assert isinstance(read_problem_text(merged, "nest.yml"), NestProblem)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("  branches", "  method: junctions\n  branches"),
        ("  branches", "  reference: left\n  branches"),
        ("  branches", "  place: {left: [0, 0]}\n  branches"),
        ("9 V", "9 V, inner: 1 ohm"),
        ("find", "    V2: {emf: 3 V, between: [top, left]}\nfind"),
        ("find", "    R5: {resistance: 5 ohm, between: [top, a]}\n    R6: {resistance: 5 ohm, "
         "between: [a, bottom]}\n    R7: {resistance: 5 ohm, between: [a, left]}\nfind"),
    ],
)  # fmt: skip
def test_more_than_a_nest_is_a_network(old: str, new: str) -> None:
    """A method, a place, a second source, internal resistance or a bridge makes it one."""
    text = changed(BRANCHES, old, new).replace("find: equivalent", "find: [current: R1]")
    assert isinstance(read_problem_text(text, "network.yml"), NetworkProblem)


def test_a_table_is_read_alike_whatever_follows() -> None:
    """The same rows in another order give the same network but for its order."""
    lines = BASE.splitlines(keepends=True)
    turned = "".join([*lines[:3], *reversed(lines[3:8]), lines[8]])
    one, other = read(BASE).network, read(turned).network
    assert set(one.elements) == set(other.elements)
    assert set(one.sources) == set(other.sources)


def test_a_switch_without_anything_switched_is_refused() -> None:
    """A switch among resistors alone says nothing that a wire or a gap does not say."""
    text = changed(BASE, "find", "    S1: {switch: open, between: [a, b]}\nfind")
    assert faults_of(text) == [
        "problem.yml:9:5: found a switch, S1, in a circuit where nothing is switched; expected "
        "elements and sources. Leave an open switch out, and give the ends of a closed one the "
        "same name."
    ]
