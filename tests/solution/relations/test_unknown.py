"""Unknown elements found from measured facts."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy import Rational

from builder.errors import FaultyFile
from builder.problem import read_problem_text
from builder.problem.faults.gathering import START
from builder.problem.model import NestProblem, Unit
from builder.problem.relations.measured import Fact
from builder.problem.relations.unknowns import UnknownProblem
from builder.quantity.measure import Measure
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import show
from builder.solution.nest.solve import solve_nest
from builder.solution.relations.unknown import UnknownSolution, solve_unknown
from tests.strategies import problems


def unknown_problem(circuit: str, measured: str, find: str) -> UnknownProblem:
    """A nest with an unknown element, read from its file."""
    text = f"title: T\ncircuit: {circuit}\nmeasured: {measured}\nfind: {find}\n"
    problem = read_problem_text(text, "p.yml", Unit(title="Tests"))
    assert isinstance(problem, UnknownProblem)
    return problem


def solved(circuit: str, measured: str, find: str) -> UnknownSolution:
    """The same, solved."""
    return solve_unknown(unknown_problem(circuit, measured, find))


PAIR = "{source: 12 V, series: [C1: 12 uF, parallel: [C2: unknown, C3: 4 uF]]}"
RS = "{source: 12 V, series: [R1: 2 ohm, R2: unknown]}"


@pytest.mark.parametrize(
    ("circuit", "measured", "find", "of", "value"),
    [
        ("{parallel: [C1: 5 uF, C2: unknown]}", "{equivalent: 8 uF}", "[C2]", "C2", "3e-6"),
        ("{series: [C1: 6 uF, C2: unknown]}", "{equivalent: 2 uF}", "[C2]", "C2", "3e-6"),
        ("{series: [R1: 6 ohm, R2: {resistance: unknown}]}", "{equivalent: 8 ohm}",
         "[{resistance: R2}]", "R2", "2"),
        (PAIR, "{charge: {C1: 48 uC}}", "[C2]", "C2", "2e-6"),
        (PAIR, "{voltage: {C2: 8 V}}", "[C2]", "C2", "2e-6"),
        (PAIR, "{charge: {C2: 16 uC}}", "[C2]", "C2", "2e-6"),
        (PAIR, "{charge: {total: 48 uC}}", "[C2]", "C2", "2e-6"),
        (PAIR, "{equivalent: 4 uF}", "[C2]", "C2", "2e-6"),
        (RS, "{current: {R1: 2 A}}", "[R2]", "R2", "4"),
        (RS, "{voltage: {R1: 4 V}}", "[R2]", "R2", "4"),
        (RS, "{power: {R1: 8 W}}", "[R2]", "R2", "4"),
        (RS, "{power: {total: 24 W}}", "[R2]", "R2", "4"),
        ("{source: 2 A, parallel: [R1: 6 ohm, R2: unknown]}", "{current: {R1: 1.5 A}}", "[R2]",
         "R2", "18"),
        ("{source: 12 V, series: [R1: unknown, R2: unknown]}",
         "{current: {R1: 2 A}, voltage: {R2: 8 V}}", "[R1, R2]", "R1", "2"),
    ],
)  # fmt: skip
def test_an_unknown_is_found_from_what_was_measured(
    circuit: str, measured: str, find: str, of: str, value: str
) -> None:
    """Whatever was measured, the unknown comes out exactly and the whole adds up with it."""
    solution = solved(circuit, measured, find)
    law = solution.problem.law
    assert solution.values[Name(law.value, of)] == Rational(str(Fraction(value)))
    assert solution.agree
    assert solution.second


def test_the_way_goes_from_what_was_measured_to_what_is_unknown() -> None:
    """The charge on C1 is that of the source; so C_eq, then C23, then what is left for C2."""
    steps = solved(PAIR, "{charge: {C1: 48 uC}}", "[C2]").steps
    assert [(step.id, step.relations[0].about[:2]) for step in steps] == [
        ("find-charge-total", ("shared", "total")),
        ("find-capacitance-total", ("law", "total")),
        ("find-capacitance-C23", ("merge", "total")),
        ("find-capacitance-C2", ("merge", "C23")),
    ]


@pytest.mark.parametrize(
    ("circuit", "measured", "fault"),
    [
        # C48: University Physics Volume 2, chapter 8, additional problem fs-id1167134816254;
        # College Physics 2e, section 19.6, problem fs-id2605419: −3.00 µF must be refused.
        ("{parallel: [C1: 8.00 uF, C2: unknown]}", "{equivalent: 5.00 uF}",
         '3:12: found the equivalent of C1 and C2, which gives C2 = −3.00 µF; expected a '
         "capacitance above zero. With these values there is no such thing. Check the values that "
         "are given."),
        (RS, "{power: {R2: 16 W}}",
         "3:20: found facts that leave two possible values for the voltage of R2: 4.00 V and "
         "8.00 V; expected facts that leave one. Measure something else, or give another value."),
        (RS, "{current: {R1: 2 A}, voltage: {R2: 8 V}}",
         "3:42: found the voltage of R2, which follows from the other facts already; expected one "
         "fact for each unknown element. Delete it, or make one more element unknown."),
        (RS, "{current: {R1: 2 A}, voltage: {R2: 7 V}}",
         "3:42: found a measured voltage of R2 of 7 V, where the other facts lead to 8.00 V; "
         "expected one fact for each unknown element. Correct one of the facts, or delete this "
         "one."),
        ("{source: 12 V, parallel: [R1: 2 ohm, R2: unknown]}", "{current: {R1: 6 A}}",
         "3:22: found a measured current of R1, which is the same whatever R2 may be; expected a "
         "fact that depends on what is unknown. Measure something else."),
        ("{source: 12 V, parallel: [R1: 2 ohm, R2: unknown, R3: unknown]}",
         "{current: {R2: 6 A}}",
         "2:60: found R3 unknown, which no measured fact depends on; expected one fact for each "
         "unknown element. Measure something that changes with R3."),
        ("{source: 12 V, series: [R1: unknown, R2: unknown]}", "{current: {R2: 6 A}}",
         "2:47: found 2 unknown elements for 1 measured fact; expected one fact for each unknown "
         "element. Measure one thing more, or give one of them a value."),
        ("{source: 12 V, series: [R1: 2 ohm, R2: 3 ohm]}", "{current: {R1: 7 A}}",
         "3:1: found measured without an unknown element; expected an element such as C2: "
         "unknown. Delete it, or write unknown for the element it is about."),
        ("{source: 12 V, series: [R1: 2*R, R2: unknown]}", "{current: {R1: 2 A}}",
         "2:1: found a symbol for the value of R1 beside an unknown element; expected numbers with "
         "units. Write a number in its place."),
        (RS, "{charge: {R1: 7 C}}",
         '3:12: found "charge"; expected equivalent, current, voltage or power. Check its '
         "spelling."),
        (RS, "{current: {R7: 7 A}}",
         '3:22: found "R7", which is no element of the circuit; expected R1, R2 or total. Name an '
         "element of this circuit."),
        (RS, "{current: {R1: 7 V}}",
         '3:26: found "7 V", a voltage; expected a current such as 2 A. Change the unit: V '
         "measures voltage."),
        (RS, "{current: {R1: 0 A}}",
         "3:26: found a measured 0 A; expected a current such as 2 A, above zero. Change the "
         "value."),
        ("{parallel: [C1: 8 uF, C2: unknown]}", "{charge: {C1: 5 uC}}",
         '3:12: found "charge" in a circuit without a source; expected equivalent. Add source: to '
         "the circuit, or measure the equivalent."),
    ],
)  # fmt: skip
def test_facts_that_tell_nothing_too_much_or_the_impossible_are_named(
    circuit: str, measured: str, fault: str
) -> None:
    """No value, several, a negative one, a fact too few or too many: each at its line."""
    find = "[C2]" if "C2" in circuit else "[R2]"
    find = "[equivalent]" if "R2: 3 ohm" in circuit else find
    with pytest.raises(FaultyFile) as caught:
        solved(circuit, measured, find)
    assert f"p.yml:{fault}" in [str(one) for one in caught.value.faults]


def test_an_unknown_without_a_fact_is_told_at_its_line() -> None:
    """An unknown element needs something to find it by."""
    text = "title: T\ncircuit: {series: [C1: 6 uF, C2: unknown]}\nfind: [C2]\n"
    with pytest.raises(FaultyFile, match="2:30: found C2 unknown, and nothing measured"):
        read_problem_text(text, "p.yml", Unit(title="Tests"))


@settings(max_examples=15, deadline=None)
def hidden_in(problem: NestProblem, pick: int, fact: int) -> UnknownProblem:
    """A nest in which one element is hidden and something is measured."""
    hidden = problem.network.elements[pick % len(problem.network.elements)]
    whole = solve_nest(problem)
    law = problem.law
    facts = [Name(law.value, TOTAL)]
    facts += [Name(kind, e.name) for kind in (law.flow, law.drop) for e in problem.network.elements]
    name = facts[fact % len(facts)]
    value = whole.value(name)
    measured = Fact(name, Measure(name.quantity, value, show(value, name.quantity)), START)
    return UnknownProblem(
        slug="random", path="random.yml", title="", level="core", objectives=(), scenario="",
        find=(Name(law.value, hidden.name),), law=law, network=problem.network,
        tree=problem.tree, unknown={hidden.name: START}, facts=(measured,),
    )  # fmt: skip


@given(problem=problems(most=5), pick=st.integers(0, 6), fact=st.integers(0, 20))
def test_what_is_hidden_in_a_random_nest_is_found_again(
    problem: NestProblem, pick: int, fact: int
) -> None:
    """Hide an element, measure something that depends on it: the same value comes back."""
    asked = hidden_in(problem, pick, fact)
    (name,) = asked.find
    try:
        solution = solve_unknown(asked)
    except FaultyFile as error:
        told = str(error)
        assert "is the same whatever" in told or "two possible values" in told
        return
    assert solution.values[name] == problem.network.element(name.of).value
    assert solution.agree
