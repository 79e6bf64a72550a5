"""Wrong rules: the numbers they lead to, worked by hand, and where they stay silent."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings

from builder.circuit.tree import Tree
from builder.lesson.nest.display import NestDisplay
from builder.lesson.nest.wrong_rules import RULES, WrongRule, slips_of
from builder.problem.model import NestProblem
from builder.quantity.exact import as_fraction
from builder.quantity.measure import read_measure
from builder.solution.nest.solve import solve_nest
from tests.lesson.telling import (
    asking,
    lesson_of,
    name_of,
    parallel,
    plain,
    series,
    taught_problems,
)

MICRO = Fraction(1, 10**6)
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

# The right values, for comparison.
# Chain of C: 8 µF, 96 µC, V1 = 9.6 V, V2 = 2.4 V, U1 = ½ · 96 · 9.6 = 460.8 µJ, U = 576 µJ.
# Bank of C: 50 µF, Q1 = 120 µC, Q2 = 480 µC, in all 600 µC.
# Chain of R: 50 Ω, 0.24 A, V1 = 2.4 V, V2 = 9.6 V.
# Bank of R: 8 Ω, I1 = 1.2 A, I2 = 0.3 A, in all 1.5 A.
# Three C in a chain: 1/(1/10 + 1/40 + 1/60) = 120/17 µF, Q = 1440/17 µC.
WORKED = [
    ("added-instead", C_CHAIN, "capacitance:total", (10 + 40) * MICRO,
     "Adding C₁ and C₂ gives C_eq = 50.0 µF."),
    ("added-instead", R_BANK, "resistance:total", Fraction(10 + 40),
     "Adding R₁ and R₂ gives R_eq = 50.0 Ω."),
    ("never-inverted", C_CHAIN, "capacitance:total", (Fraction(1, 10) + Fraction(1, 40)) * MICRO,
     "Stopping at the sum of the reciprocals of C₁ and C₂ gives C_eq = 0.125 µF."),
    ("never-inverted", R_BANK, "resistance:total", Fraction(1, 10) + Fraction(1, 40),
     "Stopping at the sum of the reciprocals of R₁ and R₂ gives R_eq = 0.125 Ω."),
    ("reciprocals-instead", C_BANK, "capacitance:total", Fraction(10 * 40, 10 + 40) * MICRO,
     "Adding the reciprocals of C₁ and C₂ gives C_eq = 8.00 µF."),
    ("reciprocals-instead", R_CHAIN, "resistance:total", Fraction(10 * 40, 10 + 40),
     "Adding the reciprocals of R₁ and R₂ gives R_eq = 8.00 Ω."),
    ("averaged", C_CHAIN, "capacitance:total", Fraction(10 + 40, 2) * MICRO,
     "Taking the average of C₁ and C₂ gives C_eq = 25.0 µF."),
    ("averaged", R_THREE, "resistance:total", Fraction(10 + 40 + 60, 3),
     "Taking the average of R₁, R₂ and R₃ gives R_eq ≈ 36.7 Ω."),
    ("product-over-sum", C_THREE, "capacitance:total",
     Fraction(10 * 40 * 60, 10 + 40 + 60) * MICRO,
     "Taking product over sum of C₁, C₂ and C₃ gives C_eq ≈ 218 µF."),
    ("product-over-sum", R_THREE, "resistance:total", Fraction(10 * 40 * 60, 10 + 40 + 60),
     "Taking product over sum of R₁, R₂ and R₃ gives R_eq ≈ 218 Ω."),
    ("equal-voltages", C_CHAIN, "voltage:C1", Fraction(12, 2),
     "Sharing the voltage equally between the two in the chain gives V₁ = 6.00 V."),
    ("equal-voltages", C_THREE, "voltage:C2", Fraction(12, 3),
     "Sharing the voltage equally between the three in the chain gives V₂ = 4.00 V."),
    ("equal-voltages", R_CHAIN, "voltage:R2", Fraction(12, 2),
     "Sharing the voltage equally between the two in the chain gives V₂ = 6.00 V."),
    ("whole-voltage", C_CHAIN, "voltage:C1", Fraction(12),
     "Taking the source's whole voltage for C₁ gives V₁ = 12.0 V."),
    ("whole-voltage", R_CHAIN, "voltage:R2", Fraction(12),
     "Taking the source's whole voltage for R₂ gives V₂ = 12.0 V."),
    ("divided-the-wrong-way", C_CHAIN, "voltage:C1", 12 * Fraction(10, 10 + 40),
     "Expecting the larger voltage at the larger capacitance gives V₁ = 2.40 V."),
    ("divided-the-wrong-way", R_CHAIN, "voltage:R1", 12 * Fraction(40, 10 + 40),
     "Expecting the larger voltage at the smaller resistance gives V₁ = 9.60 V."),
    # By conductances: (1/40) / (1/10 + 1/40 + 1/60) = 3/17.
    ("divided-the-wrong-way", series("R1", "R2", "R3"), "voltage:R2", 12 * Fraction(3, 12 + 3 + 2),
     "Expecting the larger voltage at the smaller resistance gives V₂ ≈ 2.12 V."),
    ("equal-flows", C_BANK, "charge:C1", Fraction((10 + 40) * 12, 2) * MICRO,
     "Splitting the charge equally between the two branches gives Q₁ = 300 µC."),
    ("equal-flows", R_BANK, "current:R2", (Fraction(12, 10) + Fraction(12, 40)) / 2,
     "Splitting the current equally between the two branches gives I₂ = 750 mA."),
    # Three branches: 1.2 + 0.3 + 0.2 A.
    ("equal-flows", R_THREE, "current:R1",
     (Fraction(12, 10) + Fraction(12, 40) + Fraction(12, 60)) / 3,
     "Splitting the current equally between the three branches gives I₁ ≈ 0.567 A."),
    ("group-for-one", C_BANK, "charge:C2", (10 + 40) * 12 * MICRO,
     "Taking the whole charge of the group for C₂ gives Q₂ = 600 µC."),
    ("group-for-one", R_BANK, "current:R1", Fraction(12, 10) + Fraction(12, 40),
     "Taking the whole current of the group for R₁ gives I₁ = 1.50 A."),
    # 40 + 60 = 100 µF behind 10 µF: 1000/110 µF, and 12 V bring 12000/110 µC.
    ("group-for-one", series("C1", parallel("C2", "C3")), "charge:C2",
     Fraction(12 * 10 * 100, 10 + 100) * MICRO,
     "Taking the whole charge of the group for C₂ gives Q₂ ≈ 109 µC."),
    ("chain-charges-added", C_CHAIN, "charge:total", 2 * Fraction(10 * 40, 10 + 40) * 12 * MICRO,
     "Adding up the charges of the two along the chain gives Q = 192 µC."),
    ("chain-charges-added", C_THREE, "charge:total", 3 * Fraction(120, 17) * 12 * MICRO,
     "Adding up the charges of the three along the chain gives Q ≈ 254 µC."),
    ("half-dropped", C_CHAIN, "energy:C1", 96 * MICRO * Fraction(96, 10),
     "Taking charge times voltage without the ½ gives U₁ ≈ 922 µJ."),
    ("half-dropped", C_CHAIN, "energy:total", 96 * MICRO * 12,
     "Taking charge times voltage without the ½ gives U ≈ 1.15 mJ."),
    ("prefix-slipped", C_CHAIN, "charge:C1", 96 * Fraction(1, 10**3),
     "Slipping by one prefix gives Q₁ = 96.0 mC."),
    ("prefix-slipped", R_CHAIN, "current:R1", Fraction(24, 100) * 1000,
     "Slipping by one prefix gives I₁ = 240 A."),
    ("prefix-slipped", R_CHAIN, "power:total", 12 * Fraction(24, 100) * 1000,
     "Slipping by one prefix gives P = 2.88 kW."),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "tree", "key", "value", "sentence"), WORKED)
def test_a_wrong_rule_leads_to_its_number(
    rule: str, tree: Tree, key: str, value: Fraction, sentence: str
) -> None:
    """The number, worked by hand in the table, and the sentence that tells it."""
    display = _circuit(tree, "12 V")
    (slip,) = (s for s in slips_of(display, [BY_ID[rule]]) if s.wrong.name == name_of(key))
    assert as_fraction(slip.wrong.value) == value
    assert plain(slip.sentence, display) == sentence
    assert slip.wrong.step in {step.id for step in display.solution.steps}


def test_every_rule_is_worked_by_hand() -> None:
    """No rule is registered without a row in the table above."""
    assert {row[0] for row in WORKED} == set(BY_ID)


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
    ("equal-voltages", C_BANK, "12 V", ()),
    ("equal-voltages", C_CHAIN, "12 V", ("charge:C1",)),
    ("equal-voltages", C_CHAIN, None, ()),
    ("whole-voltage", C_CHAIN, "12 uC", ()),
    ("whole-voltage", R_CHAIN, "2 A", ()),
    ("whole-voltage", C_BANK, "12 V", ()),
    ("divided-the-wrong-way", R_BANK, "12 V", ()),
    ("equal-flows", R_CHAIN, "12 V", ()),
    ("group-for-one", C_CHAIN, "12 V", ()),
    ("chain-charges-added", R_CHAIN, "12 V", ()),
    ("chain-charges-added", C_BANK, "12 V", ()),
    ("chain-charges-added", parallel("C3", C_CHAIN), "12 V", ()),
    ("chain-charges-added", C_CHAIN, "12 uC", ()),
    ("half-dropped", R_CHAIN, "12 V", ()),
    ("half-dropped", C_CHAIN, "12 V", ("charge:C1",)),
    ("prefix-slipped", C_CHAIN, None, ()),
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
        assert wrong > 0
        assert wrong != as_fraction(read_measure(display.shown(name).text).value)
        assert (name, slip.shown.text) not in seen
        seen.add((name, slip.shown.text))


WARNED = [
    (series("C1", parallel("C2", "C3")), "12 V", (),
     ["added-instead", "equal-voltages", "half-dropped", "equal-flows", "never-inverted"]),
    (series("R1", parallel("R2", "R3")), "12 V", (),
     ["added-instead", "equal-voltages", "equal-flows", "never-inverted", "whole-voltage"]),
    (C_BANK, "12 V", ("charge:C1",), ["equal-flows", "group-for-one", "prefix-slipped"]),
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
    # Right is 500 mΩ. By product over sum: 1 · 2 · 2 / 5; averaged: 5/3; added: 5.
    assert told == {
        "product-over-sum": "800 mΩ",
        "averaged": "1.67 Ω",
        "never-inverted": "2.00 Ω",
        "added-instead": "5.00 Ω",
    }
