"""Relations solved step by step, again as one system, and compared."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy import Integer, Rational, sqrt

from builder.errors import CheckFailed, Disagreement
from builder.problem.relations.model import RelationsProblem
from builder.quantity.formula import Num, Product
from builder.quantity.names import Name
from builder.solution.program import Line
from builder.solution.relations.solve import OTHER_ORDER, WHOLE_SYSTEM, solve_relations, write_steps
from builder.solution.relations.step import RelationStep
from tests.problem.relations.written import relations_problem

PLATES = (
    "A: 8 cm^2; d: 1 mm; k: 6.0; V: 9 V; C: capacitance; Q: charge; U: energy",
    ("U = Q*V/2", "Q = C*V", "C = eps0*k*A/d"),
)


def steps_of(problem: RelationsProblem) -> list[tuple[str, str]]:
    """The id and the kind of each step to what is asked."""
    return [(step.id, step.kind.value) for step in solve_relations(problem).steps]


def test_steps_come_in_the_order_in_which_they_can_be_taken() -> None:
    """Whatever order the author wrote, what is needed is found before it is used."""
    problem = relations_problem(*PLATES, "[U]")
    assert steps_of(problem) == [("find-C", "gives"), ("find-Q", "gives"), ("find-U", "gives")]


def test_only_what_is_asked_is_found() -> None:
    """Steps that what is asked does not need are left out, though their values are known."""
    problem = relations_problem(*PLATES, "[C]")
    assert steps_of(problem) == [("find-C", "gives")]
    solution = solve_relations(problem)
    assert solution.values[Name("charge", "Q")] == solution.values[Name("capacitance", "C")] * 9


@pytest.mark.parametrize(
    ("quantities", "relations", "find", "kinds", "values"),
    [
        ("U: 400 J; V: 10 kV; C: capacitance", ("U = 1/2*C*V^2",), "[C]", ["rearrange"],
         {"C": Rational(8, 10**6)}),
        ("V: 12 V; I: 2 A; a: resistance; b: resistance", ("V = (a+b)*I", "a = 2*b"), "[a, b]",
         ["substitute"], {"a": 4, "b": 2}),
        ("V: 12 V; W: 3 V; I: 2 A; J: 1 A; a: resistance; b: resistance",
         ("V = a*I + b*J", "W = a*J - b*J"), "[a, b]", ["together"], {"a": 5, "b": 2}),
        ("Q: 60 uC; U: 360 uJ; C: capacitance; V: voltage", ("Q = C*V", "U = 1/2*C*V^2"),
         "[C, V]", ["powers"], {"C": Rational(5, 10**6), "V": 12}),
        ("s: 10 ohm; p: 2.4 ohm; a: {kind: resistance, choose: smaller}; "
         "b: {kind: resistance, choose: larger}", ("s = a+b", "p = a*b/(a+b)"), "[a, b]",
         ["substitute"], {"a": 4, "b": 6}),
        ("P: 4 W; R: 2 ohm; V: 6 V; r: resistance; I: current", ("P = R*I^2", "V = (R+r)*I"),
         "[r]", ["rearrange", "rearrange"], {"r": 3 * sqrt(2) - 2}),
        ("a: 3 m; x: length", ("x^2 + a*x = 10 m^2",), "[x]", ["quadratic"], {"x": 2}),
        ("E: 6 V; R: 2 ohm; P: 2 W; r: resistance", ("P = E^2*R/(R+r)^2",), "[r]", ["rearrange"],
         {"r": 4, "r'1": 4, "r'2": -8}),
    ],
)  # fmt: skip
def test_each_kind_of_system_is_solved_exactly(
    quantities: str, relations: tuple[str, ...], find: str, kinds: list[str],
    values: dict[str, object],
) -> None:  # fmt: skip
    """Single relations, linear systems, products of powers and quadratics give exact values."""
    solution = solve_relations(relations_problem(quantities, relations, find))
    assert [step.kind.value for step in solution.steps] == kinds
    found = {name.of: value for name, value in solution.values.items()}
    assert {of: found[of] for of in values} == values
    assert solution.agree
    assert solution.method == WHOLE_SYSTEM


def test_of_two_roots_the_possible_one_is_chosen_and_the_reason_kept() -> None:
    """A length is never negative, so of 2 m and −5 m the first is meant."""
    problem = relations_problem("a: 3 m; x: length", ("x^2 + a*x = 10 m^2",), "[x]")
    (step,) = solve_relations(problem).steps
    assert step.choice is not None
    assert step.choice.why == "only-positive"
    values = solve_relations(problem).values
    assert [values[name] for name in step.choice.both] == [2, -5]


def test_what_is_no_polynomial_is_solved_again_in_another_order() -> None:
    """An exponential has no basis of polynomials; the relations are then taken backwards."""
    problem = relations_problem(
        "T: 2 s; u: 12 V; v: 6 V; t: time; s: time", ("v = u*exp(0-t/T)", "s = 2*t"), "[s]"
    )
    solution = solve_relations(problem)
    assert solution.method == OTHER_ORDER
    assert solution.agree
    assert str(solution.values[Name("time", "s")]) == "4*log(2)"


@pytest.mark.parametrize("wrong", ["C", "Q", "U"])
def test_a_wrong_step_is_noticed_by_the_second_method(wrong: str) -> None:
    """A formula that is off by a factor makes the two methods differ, and nothing is published."""

    def off(problem: RelationsProblem) -> tuple[RelationStep, ...]:
        return tuple(
            replace(step, lines=tuple(
                Line(line.name, Product((Num(Fraction(2)), line.formula)))
                if line.name.of == wrong else line for line in step.lines
            ))
            for step in write_steps(problem)
        )  # fmt: skip

    with pytest.raises((Disagreement, CheckFailed), match=f"of {wrong} "):
        solve_relations(relations_problem(*PLATES, "[U]"), write_steps=off)


VALUES = st.integers(1, 12)


@settings(max_examples=30, deadline=None)
@given(
    values=st.lists(VALUES, min_size=5, max_size=5),
    rows=st.lists(st.lists(st.integers(-3, 3), min_size=5, max_size=5), min_size=4, max_size=4),
)
def test_random_linear_relations_are_solved_or_refused_alike(
    values: list[int], rows: list[list[int]]
) -> None:
    """Resistances in random sums come out as they went in, whenever the sums determine them."""
    names = ["a", "b", "c", "d", "e"]
    relations = []
    for row in rows:
        terms = " + ".join(f"{n}*{name}" for n, name in zip(row, names, strict=True) if n > 0)
        others = " + ".join(f"{-n}*{name}" for n, name in zip(row, names, strict=True) if n < 0)
        total = sum(n * value for n, value in zip(row, values, strict=True))
        relations.append((f"{terms or '0*a'} + {total if total > 0 else 0} ohm".strip(),
                          f"{others or '0*a'} + {-total if total < 0 else 0} ohm"))  # fmt: skip
    # Moved so that both sides are sums of positive terms: left + |total| below zero goes right.
    written = tuple(
        f"{left.rpartition(' + ')[0]} + {right.rpartition(' + ')[2]} = "
        f"{right.rpartition(' + ')[0]} + {left.rpartition(' + ')[2]}"
        for left, right in relations
    )
    quantities = f"e: {values[4]} ohm; " + "; ".join(f"{n}: resistance" for n in names[:4])
    problem = relations_problem(quantities, written, "[a, b, c, d]")
    rank = _rank([row[:4] for row in rows])
    if rank < 4:
        with pytest.raises(Exception, match="expected"):
            solve_relations(problem)
        return
    solution = solve_relations(problem)
    found = [solution.values[Name("resistance", name)] for name in names[:4]]
    assert found == [Integer(value) for value in values[:4]]
    assert solution.agree


def _rank(rows: list[list[int]]) -> int:
    from sympy import Matrix

    return int(Matrix(rows).rank())
