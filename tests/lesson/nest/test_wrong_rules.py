"""Wrong rules of nests: where they stay silent, and what holds of all that they say."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from sympy import Integer

from builder.circuit.tree import Tree
from builder.lesson.nest.display import NestDisplay
from builder.lesson.nest.wrong_rules import RULES, WrongRule, slips_of
from builder.problem.model import NestProblem
from builder.quantity.exact import as_fraction
from builder.quantity.measure import read_measure
from builder.quantity.names import Name
from builder.solution.nest.solve import solve_nest
from tests.lesson.telling import (
    asking,
    lesson_of,
    parallel,
    plain,
    series,
    taught_problems,
)
from tests.lesson.test_sentences import Kind, blemishes

BY_ID = {rule.id: rule for rule in RULES}

# Elements have the values 10, 40, 60 µF or ohms by number, and the source 12 V.
VALUES = {"1": 10, "2": 40, "3": 60}


def _circuit(tree: Tree | str, source: str | None, *asked: str) -> NestDisplay:
    problem = asking(tree, source, *asked, values=_typed(tree))
    return NestDisplay(solve_nest(problem))


def _typed(tree: Tree | str) -> dict[str, str]:
    names = sorted(set(re.findall(r"[CR]\d", str(tree))))
    return {name: f"{VALUES[name[1]]} {'uF' if name[0] == 'C' else 'ohm'}" for name in names}


C_CHAIN, C_BANK = series("C1", "C2"), parallel("C1", "C2")
R_CHAIN, R_BANK = series("R1", "R2"), parallel("R1", "R2")
C_THREE, R_THREE = series("C1", "C2", "C3"), parallel("R1", "R2", "R3")


def test_the_reciprocal_that_is_not_turned_over_has_the_unit_as_typed() -> None:
    """1/2 + 1/4 of kilohms is 0.75, which a student then calls 0.75 kΩ."""
    typed = {"R1": "2 kohm", "R2": "4 kohm"}
    display = NestDisplay(solve_nest(asking(R_BANK, None, values=typed)))
    (slip,) = slips_of(display, [BY_ID["never-inverted"]])
    assert as_fraction(slip.wrong.value) == (Fraction(1, 2) + Fraction(1, 4)) * 1000
    assert slip.shown.text == "0.750 kΩ"


SILENT = [
    ("added-instead", C_BANK, "12 V", ()),
    ("added-instead", R_CHAIN, "12 V", ()),
    ("never-inverted", C_BANK, "12 V", ()),
    ("never-inverted", R_CHAIN, "12 V", ()),
    ("reciprocals-instead", C_CHAIN, "12 V", ()),
    ("reciprocals-instead", R_BANK, "12 V", ()),
    ("averaged", C_BANK, "12 V", ("charge:C1",)),
    ("averaged", "C1", "12 V", ()),
    ("product-over-sum", C_CHAIN, "12 V", ()),
    ("product-over-sum", parallel("C1", "C2", "C3"), "12 V", ()),
    ("product-over-sum", series("R1", "R2", "R3"), "12 V", ()),
    ("third-left-out", C_CHAIN, "12 V", ()),
    ("third-left-out", parallel("C1", "C2", "C3"), "12 V", ()),
    ("going-on", C_CHAIN, None, ()),
    ("going-on", C_CHAIN, "12 uC", ("charge:C1",)),
    ("equal-voltages", C_BANK, "12 V", ()),
    ("equal-voltages", C_CHAIN, "12 V", ("charge:C1",)),
    ("equal-voltages", C_CHAIN, None, ()),
    ("used-up", C_CHAIN, "12 V", ()),
    ("used-up", R_BANK, "12 V", ()),
    ("used-up", R_CHAIN, "12 V", ("current:R1",)),
    ("inner-uncharged", C_CHAIN, "12 V", ()),
    ("inner-uncharged", series("R1", "R2", "R3"), "12 V", ()),
    ("whole-voltage", C_CHAIN, "12 uC", ()),
    ("whole-voltage", R_CHAIN, "2 A", ()),
    ("whole-voltage", C_BANK, "12 V", ()),
    ("first-alone", C_BANK, "12 V", ()),
    ("first-alone", R_CHAIN, "2 A", ()),
    ("first-alone", parallel("R3", R_CHAIN), "12 V", ()),
    ("divided-the-wrong-way", R_BANK, "12 V", ()),
    ("split-the-wrong-way", R_CHAIN, "12 V", ()),
    ("equal-flows", R_CHAIN, "12 V", ()),
    ("group-for-one", C_CHAIN, "12 V", ()),
    ("chain-charges-added", R_CHAIN, "12 V", ()),
    ("chain-charges-added", C_BANK, "12 V", ()),
    ("chain-charges-added", parallel("C3", C_CHAIN), "12 V", ("charge:C3",)),
    ("chain-charges-added", C_CHAIN, "12 uC", ()),
    ("half-dropped", R_CHAIN, "12 V", ()),
    ("half-dropped", C_CHAIN, "12 V", ("charge:C1",)),
    ("charge-for-capacitance", R_CHAIN, "12 V", ()),
    ("wrong-pair", C_CHAIN, "12 V", ("charge:C1",)),
    ("wrong-pair", "R1", "12 V", ()),
    ("square-forgotten", R_CHAIN, "12 V", ()),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "tree", "source", "asked"), SILENT)
def test_a_rule_is_silent_where_it_does_not_fit(
    rule: str, tree: Tree | str, source: str | None, asked: tuple[str, ...]
) -> None:
    """Wrong kind of group, of element or of source, or nothing asked that it gets wrong."""
    assert slips_of(_circuit(tree, source, *asked), [BY_ID[rule]]) == ()


@pytest.mark.parametrize(
    ("rule", "problem"),
    [
        ("product-over-sum", asking(series("C1", "C2", "C3", "C4"), "12 V")),
        ("equal-voltages", asking(C_CHAIN, "12 V", values={"C1": "5 uF", "C2": "5 uF"})),
        ("divided-the-wrong-way", asking(R_CHAIN, "12 V", values={"R1": "5 ohm", "R2": "5 ohm"})),
        ("equal-flows", asking(R_BANK, "12 V", values={"R1": "5 ohm", "R2": "5 ohm"})),
    ],
)
def test_equal_members_and_long_chains_silence_some_rules(rule: str, problem: NestProblem) -> None:
    """Equal shares are right for equal members; no one believes the product of four."""
    assert slips_of(NestDisplay(solve_nest(problem)), [BY_ID[rule]]) == ()


def test_rules_are_told_apart() -> None:
    """Each has an id and a heading of its own."""
    assert len(BY_ID) == len(RULES) == len({rule.called for rule in RULES}) >= 5


SOURCES = (
    r"Am\. J\. Phys\. \d+, S?\d+ \(\d{4}\)", r"Science & Education \d+, \d+ \(\d{4}\)",
    r"University Physics Volume 2 \(OpenStax\), chapter \d+", r"common practice, no source",
)  # fmt: skip


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_rule_names_its_source(rule: WrongRule) -> None:
    """A paper with volume, page and year, a chapter, or plainly that there is none."""
    assert any(re.search(source, rule.source) for source in SOURCES)


def test_the_same_wrong_number_is_told_once() -> None:
    """Of 20, 10 and 30 µF in a chain, 20/60 of the voltage is also a third of it."""
    typed = {"C1": "20 uF", "C2": "10 uF", "C3": "30 uF"}
    display = NestDisplay(solve_nest(asking(C_THREE, "12 V", "voltage:C1", values=typed)))
    both = [BY_ID["equal-voltages"], BY_ID["divided-the-wrong-way"]]
    assert [s.shown.text for rule in both for s in slips_of(display, [rule])] == ["4.00 V"] * 2
    assert [s.rule.id for s in slips_of(display, both)] == ["equal-voltages"]
    assert [s.rule.id for s in slips_of(display, both[::-1])] == ["divided-the-wrong-way"]


@given(problem=taught_problems())
@settings(max_examples=100)
def test_a_slip_is_never_right_and_never_told_twice(problem: NestProblem) -> None:
    """At the shown digits it differs from the right value and from every other slip."""
    display = NestDisplay(solve_nest(problem))
    seen = set()
    for slip in slips_of(display, RULES):
        name = slip.wrong.name
        wrong = as_fraction(read_measure(slip.shown.text).value)
        assert wrong > 0 or slip.rule.id == "inner-uncharged"
        assert wrong != as_fraction(read_measure(display.shown(name).text).value)
        assert (name, slip.shown.text) not in seen
        seen.add((name, slip.shown.text))


@given(problem=taught_problems())
@settings(max_examples=100)
def test_a_slip_leads_back_to_a_step_and_reads_well(problem: NestProblem) -> None:
    """Its step and its quantity belong to the solution; each rule alone speaks in sentences."""
    display = NestDisplay(solve_nest(problem))
    steps = {step.id for step in display.solution.steps}
    found = {name for step in display.solution.steps for name in step.found}
    for rule in RULES:
        for slip in slips_of(display, [rule]):
            assert slip.wrong.step in steps
            assert slip.wrong.name in found
            assert blemishes(rule.called, Kind.HEADING) == []
            assert blemishes(plain(slip.sentence, display), Kind.SENTENCES) == []
            tempting = plain(slip.tempting, display)
            assert blemishes(tempting, Kind.SENTENCES) == []
            assert 1 <= len(re.findall(r"[.?!](?: |$)", tempting)) <= 3


@given(problem=taught_problems())
@settings(max_examples=50)
def test_values_decide_about_no_rule(problem: NestProblem) -> None:
    """With other values, none like another, the same rules speak of the same quantities."""
    assert _speaking(_revalued(problem, PRIMES)) == _speaking(_revalued(problem, PRIMES[::-1]))


PRIMES = (3, 17, 41, 7, 23, 59, 13, 5, 101, 11, 37, 83)
"""As many as a taught problem has elements at most."""


def _revalued(problem: NestProblem, values: Sequence[int]) -> NestProblem:
    network = problem.network
    elements = tuple(replace(element, value=Integer(value))
                     for element, value in zip(network.elements, values, strict=False))  # fmt: skip
    return replace(problem, network=replace(network, elements=elements))


def _speaking(problem: NestProblem) -> set[tuple[str, Name]]:
    """What each rule gets wrong, before anything is rounded."""
    display = NestDisplay(solve_nest(problem))
    return {(rule.id, wrong.name) for rule in RULES for wrong in rule.find(display)}


WARNED = [
    (series("C1", parallel("C2", "C3")), "12 V", (),
     ["added-instead", "equal-voltages", "whole-voltage", "half-dropped", "reciprocals-instead"]),
    (series("R1", parallel("R2", "R3")), "12 V", (),
     ["added-instead", "equal-voltages", "whole-voltage", "wrong-pair", "reciprocals-instead"]),
    (C_BANK, "12 V", ("charge:C1",), ["equal-flows", "split-the-wrong-way", "group-for-one"]),
    (C_CHAIN, None, (), ["added-instead", "never-inverted", "averaged"]),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "source", "asked", "rules"), WARNED)
def test_warnings_are_of_different_kinds(
    tree: Tree, source: str | None, asked: tuple[str, ...], rules: list[str]
) -> None:
    """Five at most, each rule once, about each quantity in turn."""
    lesson = lesson_of(asking(tree, source, *asked, values=_typed(tree)))
    assert [slip.rule.id for slip in lesson.warnings] == rules


def test_a_wrong_number_keeps_the_unit_of_the_right_one_below_a_thousand() -> None:
    """So that the unit alone tells nothing; from a thousand on nobody would write it so."""
    typed = {"R1": "1 ohm", "R2": "2 ohm", "R3": "2 ohm"}
    display = NestDisplay(solve_nest(asking(R_THREE, None, values=typed)))
    told = {s.rule.id: s.shown.text for s in slips_of(display, RULES)}
    # Right is 500 mΩ. By product over sum there are 4 over 5, of the first two 2 over 3, and
    # averaged 5 over 3.
    assert told == {
        "product-over-sum": "800 mΩ",
        "third-left-out": "667 mΩ",
        "averaged": "1.67 Ω",
        "never-inverted": "2.00 Ω",
        "added-instead": "5.00 Ω",
    }
