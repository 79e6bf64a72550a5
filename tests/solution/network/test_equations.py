"""Junction and loop equations: what a teacher would write, and which method is taken."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sympy import Integer, Rational, Symbol

from builder.errors import CheckFailed, Disagreement, FaultyFile
from builder.problem.model import NetworkProblem
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.symbolic import same
from builder.solution.check import hold_all
from builder.solution.network.checks import NetworkCheck
from builder.solution.network.second_values import second_values
from builder.solution.network.solve import solve_network
from tests.solution.network.lines import (
    TWO_BATTERIES,
    lines_of,
    problem_of,
    solved,
    statements_of,
    step_of,
    value,
)

TIED = """
R1: {resistance: 2 ohm, between: [a, g]}
E1: {emf: 6 V, between: [a, b]}
R2: {resistance: 4 ohm, between: [b, g]}
R3: {resistance: 4 ohm, between: [b, g]}
R4: {resistance: 2 ohm, between: [a, g]}
J1: {current: 3 A, between: [a, g]}
"""
CAPACITORS = """
E1: {emf: 12 V, between: [a, g]}
E2: {emf: 6 V, between: [b, g]}
C1: {capacitance: 4 uF, between: [a, c]}
C2: {capacitance: 6 uF, between: [b, c]}
C3: {capacitance: 2 uF, between: [c, d]}
C4: {capacitance: 2 uF, between: [d, g]}
"""
BRIDGE = """
E0: {emf: 12 V, between: [a, g]}
R1: {resistance: 1 ohm, between: [a, x]}
R2: {resistance: 2 ohm, between: [a, y]}
R3: {resistance: 3 ohm, between: [x, g]}
R4: {resistance: 4 ohm, between: [y, g]}
R5: {resistance: 5 ohm, between: [x, y]}
"""
RING = """
E1: {emf: 24 V, between: [a, d]}
R1: {resistance: 10 ohm, between: [a, b]}
E2: {emf: 12 V, between: [b, c]}
R2: {resistance: 30 ohm, between: [c, d]}
"""
BENCH_OF_THREE = """
E1: {emf: 9 V, between: [a, b]}
E2: {emf: 6 V, between: [c, b]}
R1: {resistance: 3 ohm, between: [a, c]}
R2: {resistance: 3 ohm, between: [a, b]}
R3: {resistance: 3 ohm, between: [c, b]}
"""


def test_one_junction_has_one_equation() -> None:
    """Two batteries on one lamp: b is unknown, and 3 Ω and 4 Ω in a row are one branch."""
    solution = solved(TWO_BATTERIES, "method: junctions")
    step = step_of(solution, "junctions")
    assert step.reference == "e"
    assert statements_of(step) == [
        "b: (φ(b) − V(E1))/R(R1) + φ(b)/R(R2) + (φ(b) − V(E2))/(R(R3) + R(R4)) = 0"
    ]
    assert lines_of(step) == [
        "φ(b) = unknown 0 of (1/R(R1) + 1/R(R2) + 1/(R(R3) + R(R4)) | "
        "V(E1)/R(R1) + V(E2)/(R(R3) + R(R4)))"
    ]
    assert value(solution, "potential", "b") == 15


def test_potentials_give_every_flow_and_drop() -> None:
    """An element alone has its drop first; elements in a row have their current first."""
    solution = solved(TWO_BATTERIES, "method: junctions")
    assert lines_of(step_of(solution, "branches")) == [
        "V(R1) = V(E1) − φ(b)",
        "I(R1) = V(R1)/R(R1)",
        "I(E1) = I(R1)",
        "V(R2) = φ(b)",
        "I(R2) = V(R2)/R(R2)",
        "I(R3) = (φ(b) − V(E2))/(R(R3) + R(R4))",
        "I(R4) = I(R3)",
        "I(E2) = −I(R3)",
        "V(R3) = R(R3)·I(R3)",
        "V(R4) = R(R4)·I(R4)",
    ]
    assert [value(solution, "current", of) for of in ("R1", "R2", "R3", "E2")] == [3, 5, -2, 2]


def test_junctions_that_a_source_ties_share_an_equation_and_currents_stand_on_the_right() -> None:
    """φ_b is φ_a less the source's voltage, and what a current source brings is on the right."""
    solution = solved(TIED, "reference: g\nmethod: junctions", "[current, 'potential: b']")
    step = step_of(solution, "junctions")
    assert statements_of(step) == [
        "a: φ(a)/R(R1) + (φ(a) − V(E1))/R(R2) + (φ(a) − V(E1))/R(R3) + φ(a)/R(R4) = I(J1)"
    ]
    assert lines_of(step)[1] == "φ(b) = φ(a) − V(E1)"
    assert step.joined == {"a": ("a", "b")}
    assert "I(E1) = I(R1) + I(R4) − I(J1)" in lines_of(step_of(solution, "branches"))
    assert value(solution, "potential", "a") == 4


def test_charges_on_an_island_add_up_to_zero() -> None:
    """Capacitors have an equation for every island, those between two capacitors too."""
    solution = solved(CAPACITORS, "method: junctions", "[charge]")
    assert statements_of(step_of(solution, "junctions")) == [
        "c: C(C1)·(φ(c) − V(E1)) + C(C2)·(φ(c) − V(E2)) + C(C3)·(φ(c) − φ(d)) = 0",
        "d: C(C3)·(φ(d) − φ(c)) + C(C4)·φ(d) = 0",
    ]


def test_each_window_has_one_equation() -> None:
    """The first source is passed from − to +; a shared resistor has the difference."""
    solution = solved(TWO_BATTERIES, "method: loops")
    step = step_of(solution, "loops")
    assert [(loop.name, loop.path) for loop in step.loops] == [
        ("A", (("E1", False), ("R1", True), ("R2", True))),
        ("B", (("R2", False), ("R3", True), ("R4", True), ("E2", True))),
    ]
    assert statements_of(step) == [
        "A: R(R1)·I(A) + R(R2)·(I(A) − I(B)) = V(E1)",
        "B: R(R2)·(I(B) − I(A)) + R(R3)·I(B) + R(R4)·I(B) = −V(E2)",
    ]
    assert lines_of(step)[1] == (
        "I(B) = unknown 1 of (R(R1) + R(R2), −R(R2) | V(E1); "
        "−R(R2), R(R2) + R(R3) + R(R4) | −V(E2))"
    )
    assert lines_of(step_of(solution, "branches"))[3] == "I(R2) = I(A) − I(B)"
    assert (value(solution, "current", "A"), value(solution, "current", "B")) == (3, -2)


def test_a_current_source_fixes_the_current_of_its_loop() -> None:
    """Its loop has no equation, but its current flows through what the loops share."""
    solution = solved(TIED, "method: loops")
    step = step_of(solution, "loops")
    assert step.telling == {"fixed": "J1", "fixed-J1": "R1"}
    assert statements_of(step)[0] == "A: R(R1)·(I(A) + I(J1)) + R(R4)·(I(A) − I(C)) = 0"
    assert "V(J1) = V(R1)" in lines_of(step_of(solution, "branches"))
    assert value(solution, "power", "J1") == 12


def test_a_current_source_in_the_only_loop_leaves_no_equation() -> None:
    """Its current goes all the way round; only the voltage across it is left to find."""
    rows = """
    J1: {current: 2 A, between: [a, g]}
    R1: {resistance: 3 ohm, between: [a, b]}
    E1: {emf: 4 V, between: [b, g]}
    """.replace("    ", "")
    for method in ("", "method: loops", "method: superposition"):
        solution = solved(rows, method, "[current, 'voltage: J1', 'power: E1']")
        assert value(solution, "current", "R1") == 2
        assert value(solution, "voltage", "J1") == 10
        assert value(solution, "power", "E1") == -8


def test_letters_of_loops_are_not_those_of_elements() -> None:
    """An element called A or RA leaves the letter to itself."""
    rows = RING.replace("R1", "R_A").replace("R2", "B")
    (loop,) = step_of(solved(rows, "method: loops"), "loops").loops
    assert loop.name == "C"


def test_loops_that_cannot_be_drawn_without_crossings_are_closed_through_a_tree() -> None:
    """Five junctions, each joined to each: six loops, and the currents agree with analysis."""
    pairs = [(a, b) for a in "abcde" for b in "abcde" if a < b]
    rows = ["E1: {emf: 10 V, between: [p, b]}", "R0: {resistance: 1 ohm, between: [p, a]}"]
    rows += [
        f"R{at}: {{resistance: {at} ohm, between: [{a}, {b}]}}"
        for at, (a, b) in enumerate(pairs, start=1)
    ]
    solution = solved("\n".join(rows), "method: loops")
    assert len(step_of(solution, "loops").loops) == 7
    assert solution.agree


@pytest.mark.parametrize(
    ("rows", "method"),
    [
        (TWO_BATTERIES, "junctions"),
        (TIED, "junctions"),
        (CAPACITORS.replace("charge", "current"), "junctions"),
        (BRIDGE, "delta-star"),
        (BRIDGE.replace("R4: {resistance: 4", "R4: {resistance: 6"), "balance"),
        (RING, "loops"),
        (BENCH_OF_THREE, "loops"),
    ],
)
def test_the_usual_way_is_the_one_that_a_teacher_takes(rows: str, method: str) -> None:
    """One source: a reduction. One loop, or no unknown potential: loops. Else junctions."""
    flow = "charge" if "C1" in rows else "current"
    assert solved(rows, "reference: g" if "g]" in rows else "", f"[{flow}]").method == method


@pytest.mark.parametrize(
    ("rows", "reference", "taken"),
    [(TWO_BATTERIES, "", "e"), (TWO_BATTERIES, "reference: b", "b"), (BRIDGE, "", "g")],
)
def test_the_reference_is_the_authors_or_the_minus_side(
    rows: str, reference: str, taken: str
) -> None:
    """Without a reference the − side of the first source counts as 0 V."""
    solution = solved(rows, f"{reference}\nmethod: junctions".strip())
    assert step_of(solution, "junctions").reference == taken


def test_only_what_is_asked_is_shown() -> None:
    """Every step stays in the program, but the page gets no line that nothing needs."""
    solution = solved(TWO_BATTERIES, "method: junctions", "[current: R2]")
    assert [step.id for step in solution.steps] == ["junctions", "branches"]
    assert [line.name.of for line in solution.steps[1].lines] == ["R2", "R2"]
    assert len(solution.every_step) == 5


def test_voltages_between_points_go_by_potentials_or_along_a_way() -> None:
    """Potentials are subtracted where they are known; else the drops of a way are added."""
    find = "['voltage: between x and z', 'potential: e']"
    by_junctions = solved(TWO_BATTERIES, "method: junctions", find)
    assert lines_of(step_of(by_junctions, "between")) == ["V(x/z) = φ(x) − φ(z)"]
    by_loops = solved(TWO_BATTERIES, "method: loops", find)
    assert lines_of(step_of(by_loops, "between")) == ["V(x/z) = V(R1) + V(R3)", "φ(e) = 0"]
    for solution in (by_junctions, by_loops):
        assert value(solution, "voltage", "x/z") == 3
        assert value(solution, "potential", "e") == 0


@pytest.mark.parametrize(
    ("rows", "beside", "told"),
    [
        (BRIDGE, "merge", "No two elements that are left lie in series or in parallel."),
        (BRIDGE, "balance", "No bridge in it is balanced."),
        (BRIDGE, "symmetry", "No symmetry in it makes junctions equal."),
        (RING, "junctions", "Its sources give every potential already, or there is but one loop."),
    ],
)
def test_a_method_that_does_not_fit_is_refused_at_its_line(
    rows: str, beside: str, told: str
) -> None:
    """The fault says why, and stands where the method is written."""
    with pytest.raises(FaultyFile) as caught:
        solved(rows, f"method: {beside}")
    (fault,) = caught.value.faults
    assert (fault.line, fault.column) == (3, 11)
    assert fault.found == f"method: {beside}, which does not lead to the end here"
    assert fault.advice == f"{told} Leave the method out to have the shortest way taken."


def test_every_junction_and_loop_and_the_power_are_checked() -> None:
    """As many loops as are independent, each junction, and the power delivered and taken."""
    solution = solved(TWO_BATTERIES)
    kinds = [check.kind for check in solution.checks]
    assert [kinds.count(kind) for kind in NetworkCheck] == [5, 2, 1]


@pytest.mark.parametrize(
    ("changed", "told"), [("current", "junction"), ("voltage", "loop"), ("power", "work")]
)
def test_checks_fail_when_a_result_is_wrong(changed: str, told: str) -> None:
    """A single wrong value is caught by the check that it belongs to."""
    solution = solved(TWO_BATTERIES)
    name = Name(changed, "R2")
    wrong = {**solution.values, name: solution.values[name] + 1}
    with pytest.raises(CheckFailed, match=told):
        hold_all(solution.checks, wrong, "bench")


def test_two_methods_that_differ_stop_the_build(monkeypatch: pytest.MonkeyPatch) -> None:
    """The quantity and both values are named."""

    def astray(problem: NetworkProblem) -> dict[Name, Exact]:
        return {**second_values(problem), Name("current", "R2"): Integer(4)}

    monkeypatch.setattr("builder.solution.network.solve.second_values", astray)
    with pytest.raises(Disagreement, match=r"current of R2 is 5 A by the steps but 4 A"):
        solved(TWO_BATTERIES)


@pytest.mark.parametrize("method", ["junctions", "loops", "superposition"])
def test_symbols_go_through_every_method(method: str) -> None:
    """24E and 29E behind resistances in R: the lamp of 3R takes 5E/R."""
    resistance, volts = Symbol("R", positive=True), Symbol("E", positive=True)
    problem = problem_of(TWO_BATTERIES, f"method: {method}", "[current: R2, 'power: total']")
    network = problem.network
    network = replace(
        network,
        elements=tuple(replace(e, value=e.value * resistance) for e in network.elements),
        sources=tuple(replace(s, value=s.value * volts) for s in network.sources),
    )
    solution = solve_network(replace(problem, network=network))
    assert solution.agree
    assert same(solution.value(Name("current", "R2")), 5 * volts / resistance)
    assert same(solution.value(Name("power", "total")), 130 * volts**2 / resistance)


def test_a_charged_source_has_negative_power() -> None:
    """24 V against 12 V through 40 Ω in all: 0.3 A, and the 12 V source takes 3.6 W in."""
    solution = solved(RING, "", "[current, 'power: E1', 'power: E2', 'power: total']")
    assert value(solution, "power", "E1") == Rational(36, 5)
    assert value(solution, "power", "E2") == Rational(-18, 5)
    assert value(solution, "power", "total") == Rational(18, 5)
