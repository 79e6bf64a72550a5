"""Nests whose values are symbols: identities, closed forms, and limits."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy import Rational, Symbol, oo

from builder.circuit.law import LAWS, Law
from builder.circuit.tree import Leaf, Tree, in_parallel, in_series, leaves
from builder.errors import CheckFailed, Disagreement
from builder.problem.model import NestProblem
from builder.quantity.exact import Exact
from builder.quantity.formula import Ref, Sum
from builder.quantity.letters import kind_of, letter_of, symbol_of
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import show
from builder.quantity.symbolic import plain, same
from builder.solution.nest import limits
from builder.solution.nest.limits import Limit, free_elements
from builder.solution.nest.solve import NestSolution, solve_nest
from builder.solution.nest.stepwise import all_steps
from builder.solution.program import Line
from tests.strategies import SOURCE_NAMES, UNITS, problem_of, trees

SUBSTITUTIONS = 20


def with_values(problem: NestProblem, values: dict[str, Exact], driven: Exact) -> NestProblem:
    """The same circuit with other values, the source's included."""
    law, network = problem.law, problem.network
    elements = tuple(
        replace(element, value=values[element.name], shown=show(values[element.name], law.value))
        for element in network.elements
    )
    assert network.source is not None
    shown = show(driven, network.source.quantity)
    source = replace(network.source, value=driven, shown=shown)
    return replace(problem, network=replace(network, elements=elements, sources=(source,)))


def circuit(tree: Tree, law: Law, quantity: str) -> NestProblem:
    """A circuit of that tree, its values to be put in later."""
    values = dict.fromkeys(sorted(leaves(tree)), f"1 {UNITS[law.value]}")
    return problem_of(tree, law, values, f"1 {UNITS[quantity]}")


@st.composite
def symbolic(draw: st.DrawFn, law: Law) -> NestProblem:
    """A nest of multiples of one letter, of letters of their own, and of a number or two."""
    tree = draw(trees(2, 6, law.letter))
    quantity = draw(st.sampled_from((law.drop, law.flow)))
    problem = circuit(tree, law, quantity)
    shared = symbol_of("X", law.value)
    sizes = st.fractions(Fraction(1, 3), 5, max_denominator=3)

    def value_of(name: str) -> Exact:
        size = draw(sizes)
        number = Rational(size.numerator, size.denominator)
        sort = draw(st.sampled_from(("shared", "shared", "own", "number")))
        if sort == "own":
            return symbol_of(name, law.value)
        return number * shared if sort == "shared" else number

    values = {name: value_of(name) for name in sorted(leaves(tree))}
    return with_values(problem, values, symbol_of(SOURCE_NAMES[quantity], quantity))


def letters_of(problem: NestProblem) -> list[Symbol]:
    """All symbols of a problem, in a fixed order."""
    network = problem.network
    given = [part.value for part in (*network.elements, *network.sources)]  # type: ignore[attr-defined]
    return sorted({symbol for value in given for symbol in value.free_symbols}, key=str)


@pytest.mark.parametrize("law", LAWS.values(), ids=list(LAWS))
def test_numbers_put_in_afterwards_give_what_they_give_from_the_start(law: Law) -> None:
    """Every quantity of a symbolic solution is right for twenty sets of rationals each."""

    @settings(max_examples=12, deadline=None)
    @given(problem=symbolic(law), seed=st.integers(0, 10**6))
    def check(problem: NestProblem, seed: int) -> None:
        solution = solve_nest(problem)
        assert solution.agree
        letters, random = letters_of(problem), Random(seed)
        for _ in range(SUBSTITUTIONS):
            sizes = {s: Rational(random.randint(1, 99), random.randint(1, 20)) for s in letters}
            network = problem.network
            assert network.source is not None
            values = {e.name: e.value.xreplace(sizes) for e in network.elements}
            numeric = solve_nest(with_values(problem, values, network.source.value.xreplace(sizes)))
            assert numeric.values.keys() == solution.values.keys()
            for name, value in solution.values.items():
                assert value.xreplace(sizes) == numeric.values[name], name

    check()


def solved(
    tree: Tree, law: Law, values: dict[str, Any], driven: Exact | None = None
) -> NestSolution:
    """A circuit of given values across a source of V volts."""
    problem = circuit(tree, law, "voltage")
    return solve_nest(with_values(problem, values, driven or symbol_of("V", "voltage")))


CAPACITORS, RESISTORS = LAWS["capacitance"], LAWS["resistance"]
C, V, R = (
    symbol_of(*each) for each in (("C", "capacitance"), ("V", "voltage"), ("R", "resistance"))
)


def own(*names: str) -> dict[str, Symbol]:
    """Elements with letters of their own."""
    kind = {"C": "capacitance", "R": "resistance"}
    return {name: symbol_of(name, kind[name[0]]) for name in names}


def pair(law: Law, join: Any) -> Tree:
    """Two elements joined in one way."""
    tree: Tree = join("", Leaf(f"{law.letter}1"), Leaf(f"{law.letter}2"))
    return tree


CLOSED: list[tuple[Tree, Law, dict[str, Any], str, str, str]] = [
    # University Physics Volume 2 (OpenStax), equations 8.7, 8.8, 10.2 and 10.3.
    (pair(CAPACITORS, in_series), CAPACITORS, own("C1", "C2"), "capacitance", TOTAL,
     "C1*C2/(C1 + C2)"),
    (pair(CAPACITORS, in_parallel), CAPACITORS, own("C1", "C2"), "capacitance", TOTAL, "C1 + C2"),
    (pair(RESISTORS, in_series), RESISTORS, own("R1", "R2"), "resistance", TOTAL, "R1 + R2"),
    (pair(RESISTORS, in_parallel), RESISTORS, own("R1", "R2"), "resistance", TOTAL,
     "R1*R2/(R1 + R2)"),
    # The voltage divider, University Physics Volume 2 (OpenStax), chapter 10.
    (pair(RESISTORS, in_series), RESISTORS, own("R1", "R2"), "voltage", "R2", "R2*V/(R1 + R2)"),
    # Half filled side by side, and in layers, with kappa = 3: C(1 + 3)/2 and 2·3·C/(3 + 1); the
    # halves of the plate pair C are C/2 and 3C/2 side by side, 2C and 6C in layers. Standard
    # result, from memory: (1 + κ)C/2 and 2κC/(1 + κ).
    (pair(CAPACITORS, in_parallel), CAPACITORS, {"C1": C / 2, "C2": 3 * C / 2}, "capacitance",
     TOTAL, "2*C"),
    (pair(CAPACITORS, in_series), CAPACITORS, {"C1": 2 * C, "C2": 6 * C}, "capacitance", TOTAL,
     "3*C/2"),
    (pair(CAPACITORS, in_series), CAPACITORS, {"C1": C, "C2": 2 * C}, "charge", "C1", "2*C*V/3"),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "law", "values", "quantity", "of", "expected"), CLOSED)
def test_closed_forms_come_out_as_printed(
    tree: Tree, law: Law, values: dict[str, Any], quantity: str, of: str, expected: str
) -> None:
    """Published formulas are what a solution with letters gives, letter by letter."""
    found = solved(tree, law, values).value(Name(quantity, of))
    assert str(plain(found)) == expected


@pytest.mark.parametrize("count", range(2, 9))
@pytest.mark.parametrize("law", LAWS.values(), ids=list(LAWS))
def test_equal_elements_divide_or_multiply(law: Law, count: int) -> None:
    """N equal ones make n times, or the n-th part, of one of them."""
    one = symbol_of("X", law.value)
    parts = [Leaf(f"{law.letter}{number}") for number in range(1, count + 1)]
    values = {part.id: one for part in parts}
    found = {
        join: solved(join("", *parts), law, values).value(Name(law.value, TOTAL))
        for join in (in_series, in_parallel)
    }
    adds = in_parallel if law is CAPACITORS else in_series
    assert found.pop(adds) == count * one
    assert set(found.values()) == {one / count}


def test_a_wrong_step_is_no_identity() -> None:
    """A formula that is right for some values only is found out by the second method."""

    def adding(problem: NestProblem) -> Any:
        first, *rest = all_steps(problem)
        (line,) = first.lines
        wrong = Line(line.name, Sum(line.formula.terms))  # type: ignore[union-attr]
        return (replace(first, lines=(wrong,)), *rest)

    problem = with_values(circuit(pair(CAPACITORS, in_series), CAPACITORS, "voltage"),
                          own("C1", "C2"), V)  # fmt: skip
    with pytest.raises(Disagreement, match="capacitance of the whole circuit"):
        solve_nest(problem, write_steps=adding)


def told(solution: NestSolution) -> set[tuple[str, str, str, str]]:
    """The limits of a solution: element and what it turns into, quantity, and its limit."""
    return {
        (each.element, "wire" if each.wire else "gap", each.name.key, str(plain_or_oo(each)))
        for each in solution.limits
    }


def plain_or_oo(each: Limit) -> Exact:
    """A limit with bare letters."""
    return each.becomes if each.becomes == oo else plain(each.becomes)


def test_limits_of_two_resistors_in_series() -> None:
    """A chain is cut by a gap, and is its other member with a wire; worked by hand."""
    solution = solved(pair(RESISTORS, in_series), RESISTORS, own("R1", "R2"))
    found = told(solution)
    assert {
        ("R2", "gap", "resistance:total", "oo"),
        ("R2", "wire", "resistance:total", "R1"),
        ("R2", "gap", "current:total", "0"),
        ("R2", "wire", "current:total", "V/R1"),
        ("R2", "gap", "voltage:R2", "V"),
        ("R2", "wire", "voltage:R2", "0"),
        ("R1", "wire", "voltage:R2", "V"),
        ("R1", "wire", "power:total", "V**2/R2"),
    } <= found
    large = {each.element for each in solution.limits if each.large and not each.wire}
    assert large == {"R1", "R2"}


def test_limits_of_two_capacitors_side_by_side() -> None:
    """A very small one is a gap that leaves the other alone; a very large one takes it all."""
    found = told(solved(pair(CAPACITORS, in_parallel), CAPACITORS, own("C1", "C2")))
    assert {
        ("C2", "gap", "capacitance:total", "C1"),
        ("C2", "wire", "capacitance:total", "oo"),
        ("C2", "gap", "charge:total", "C1*V"),
        ("C2", "wire", "charge:total", "oo"),
    } <= found


@pytest.mark.parametrize("law", LAWS.values(), ids=list(LAWS))
def test_limits_of_random_nests_are_those_of_altered_circuits(law: Law) -> None:
    """No limit of any answer contradicts the circuit with a wire or a gap in that place."""
    count = 0

    @settings(max_examples=12, deadline=None)
    @given(tree=trees(2, 6, law.letter))
    def check(tree: Tree) -> None:
        nonlocal count
        solution = solved(tree, law, own(*leaves(tree)))
        count += len(solution.limits)
        elements = {each.element for each in solution.limits}
        assert elements == set(leaves(tree))

    check()
    assert count > 100


def test_a_wrong_limit_is_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """If the algebra of limits were wrong, the altered circuit would say so."""
    monkeypatch.setattr(limits, "limit", lambda value, symbol, *, large: symbol)
    with pytest.raises(CheckFailed, match="capacitance of total with C1 as a wire"):
        solved(pair(CAPACITORS, in_series), CAPACITORS, own("C1", "C2"))


def test_only_a_letter_of_its_own_can_change_alone() -> None:
    """Multiples of a shared letter, and numbers, have no limits to tell."""
    tree = pair(CAPACITORS, in_series)
    for values in ({"C1": C, "C2": 2 * C}, {"C1": C, "C2": C}):
        solution = solved(tree, CAPACITORS, values)
        assert not list(free_elements(solution.problem))
        assert solution.limits == ()
    mixed = solved(tree, CAPACITORS, {"C1": C, "C2": Rational(3)})
    assert {each.element for each in mixed.limits} == {"C1"}


def test_a_bound_is_checked_where_symbols_prove_it() -> None:
    """Two multiples of one letter are compared; two letters leave the largest open."""
    tree = pair(CAPACITORS, in_series)
    checked = solved(tree, CAPACITORS, {"C1": C, "C2": 2 * C}).checks
    assert [check.about for check in checked if check.relation == "<"] == [("total", "C1", "C2")]
    open_checks = solved(tree, CAPACITORS, own("C1", "C2")).checks
    assert all(check.relation == "=" for check in open_checks)


def test_a_check_with_symbols_can_fail() -> None:
    """An equation that is no identity, and an inequality without proof, do not pass."""
    solution = solved(pair(CAPACITORS, in_series), CAPACITORS, {"C1": C, "C2": 2 * C})
    bound = next(check for check in solution.checks if check.relation == "<")
    assert bound.holds(solution.values)
    assert not replace(bound, relation=">").holds(solution.values)
    assert not replace(bound, relation="=").holds(solution.values)
    two = solved(pair(CAPACITORS, in_series), CAPACITORS, own("C1", "C2"))
    left, right = (Ref(Name("capacitance", name)) for name in ("C1", "C2"))
    for relation in "<>":
        assert not replace(bound, left=left, relation=relation, right=right).holds(two.values)


def test_symbols_know_their_kind() -> None:
    """Results are made of the symbols that were given, each with its kind."""
    solution = solved(pair(RESISTORS, in_series), RESISTORS, {"R1": R, "R2": 2 * R})
    value = solution.value(Name("power", TOTAL))
    assert {(letter_of(s), kind_of(s)) for s in value.free_symbols} == {
        ("V", "voltage"), ("R", "resistance"),
    }  # fmt: skip
    assert same(value, V**2 / (3 * R))
