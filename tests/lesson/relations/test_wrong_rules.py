"""Mistakes with equations and plates, each against a wrong value worked by hand."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.relations.wrong_rules import RULES
from builder.lesson.slips import slips_of
from builder.problem.relations.model import RelationsProblem
from builder.solution.relations.solve import solve_relations
from tests.lesson.telling import plain
from tests.lesson.test_sentences import Kind, blemishes
from tests.problem.relations.test_plates import plates_problem
from tests.problem.relations.written import relations_problem

SLAB = "{{capacitance: {c}, voltage: {v}, battery: {b}, filling: {{kappa: {k}}}}}"
HALF = "{{area: 80 cm^2, gap: 2 mm, filling: {{{way}: [{{{size}, kappa: {k}}}]}}}}"


def slab(c: str, v: str, b: str, k: str) -> RelationsProblem:
    """A filling put between plates of that capacitance."""
    return plates_problem(SLAB.format(c=c, v=v, b=b, k=k), "[C, Q, V, U]")


def half(way: str, size: str, k: str) -> RelationsProblem:
    """Plates of 80 cm² and 2 mm that are filled in part; ε0·A/d is 35.4 pF."""
    return plates_problem(HALF.format(way=way, size=size, k=k), "[C]")


def layers(gap: str, driven: str, *parts: str) -> RelationsProblem:
    """Layers of thickness and κ between plates of 80 cm², driven by a voltage."""
    listed = ", ".join(
        f"{{thickness: {t}, kappa: {k}}}" for t, k in (p.split(" × ") for p in parts)
    )
    text = f"{{area: 80 cm^2, gap: {gap}, voltage: {driven}, filling: {{layers: [{listed}]}}}}"
    return plates_problem(text, "[V1, V2, E2, C]")


def metal(area: str, gap: str, thickness: str) -> RelationsProblem:
    """A sheet of metal between plates."""
    return plates_problem(f"{{area: {area}, gap: {gap}, filling: {{metal: {thickness}}}}}")


def wires(chain: str, beside: str) -> RelationsProblem:
    """Two resistances of which the sum is known and what they make side by side."""
    quantities = (f"R_c: {chain}; R_b: {beside}; R1: {{kind: resistance, choose: smaller}}; "
                  "R2: {kind: resistance, choose: larger}")  # fmt: skip
    return relations_problem(quantities, ("R_c = R1 + R2", "R_b = R1*R2/(R1 + R2)"), "[R1, R2]")


def found(problem: RelationsProblem, rule: str, of: str) -> set[str]:
    """What a rule leads to for a quantity."""
    display = RelationsDisplay(solve_relations(problem))
    return {s.shown.text for s in slips_of(display, RULES)
            if rule in s.rules and s.wrong.name.of == of}  # fmt: skip


ENERGY = ("U = 1/2*C*V^2",)
WORKED = [
    # Removed, but the voltage kept: Q = κ·C0·V0, U = κ·U0.
    ("kept-the-wrong-one", slab("20 pF", "40 V", "removed", "2"), "Q", "1.60 nC"),
    ("kept-the-wrong-one", slab("20 pF", "40 V", "removed", "2"), "U", "32.0 nJ"),
    # Connected, but the charge kept: V = V0/κ = 10 V, U = U0/κ = 16 nJ/4.
    ("kept-the-wrong-one", slab("20 pF", "40 V", "connected", "4"), "V", "10.0 V"),
    ("kept-the-wrong-one", slab("20 pF", "40 V", "connected", "4"), "U", "4.00 nJ"),
    # Removed, V kept at 12 V: 250 pF · 12 V.
    ("kept-the-wrong-one", slab("50 pF", "12 V", "removed", "5"), "Q", "3.00 nC"),
    # C0·V/V0 = C0/κ: 20/2, 20/4 and 50/5 pF.
    ("capacitance-by-voltage", slab("20 pF", "40 V", "removed", "2"), "C", "10.0 pF"),
    ("capacitance-by-voltage", slab("20 pF", "40 V", "removed", "4"), "C", "5.00 pF"),
    ("capacitance-by-voltage", slab("50 pF", "12 V", "removed", "5"), "C", "10.0 pF"),
    # Half of κ = 4 and half of air side by side: 35.417·(4 + 1)/2; κ = 2; a quarter of κ = 4.
    ("layers-for-slabs", half("layers", "thickness: 1 mm", "4"), "C", "88.5 pF"),
    ("layers-for-slabs", half("layers", "thickness: 1 mm", "2"), "C", "53.1 pF"),
    ("layers-for-slabs", half("layers", "thickness: 0.5 mm", "4"), "C", "62.0 pF"),
    # The other way round: 35.417/(1/2/4 + 1/2).
    ("layers-for-slabs", half("slabs", "area: 40 cm^2", "4"), "C", "56.7 pF"),
    # Layers added: 2·35.417·(4 + 1), (2 + 1), and 35.417·(4·4 + 4/3).
    ("layers-added", half("layers", "thickness: 1 mm", "4"), "C", "354 pF"),
    ("layers-added", half("layers", "thickness: 1 mm", "2"), "C", "213 pF"),
    ("layers-added", half("layers", "thickness: 0.5 mm", "4"), "C", "614 pF"),
    # Without the ½: C = U/V², V² = U/C, U = C·V².
    ("half-dropped", relations_problem("U: 400 J; V: 10 kV; C: capacitance", ENERGY, "C"), "C",
     "4.00 µF"),
    ("half-dropped", relations_problem("U: 72 uJ; C: 1 uF; V: voltage", ENERGY, "V"), "V",
     "8.49 V"),
    ("half-dropped", relations_problem("V: 12 V; C: 1 uF; U: energy", ENERGY, "U"), "U",
     "144 µJ"),
    # V² taken for V: 144, 100 and 16.
    ("root-forgotten", relations_problem("U: 72 uJ; C: 1 uF; V: voltage", ENERGY, "V"), "V",
     "144 V"),
    ("root-forgotten", relations_problem("U: 50 uJ; C: 1 uF; V: voltage", ENERGY, "V"), "V",
     "100 V"),
    ("root-forgotten", relations_problem("U: 8 uJ; C: 1 uF; V: voltage", ENERGY, "V"), "V",
     "16.0 V"),
    # 8 cm² taken for 0.08 m²: 708 pF instead of 7.08 pF; 80 cm² and 500 mm² likewise.
    ("area-prefix", plates_problem("{area: 8 cm^2, gap: 1 mm}"), "C", "708 pF"),
    ("area-prefix", plates_problem("{area: 80 cm^2, gap: 2 mm}"), "C", "3.54 nF"),
    ("area-prefix", plates_problem("{area: 500 mm^2, gap: 1 mm}"), "C", "4.43 nF"),
    # One field in all layers: 12 V · 1/2, 12 V · 0.5/2, 12 V over 2 mm, and 10 V · 1/4.
    ("field-everywhere", layers("2 mm", "12 V", "1 mm × 4"), "V1", "6.00 V"),
    ("field-everywhere", layers("2 mm", "12 V", "0.5 mm × 4"), "V1", "3.00 V"),
    ("field-everywhere", layers("2 mm", "12 V", "0.5 mm × 4"), "E2", "6.00 kV/m"),
    ("field-everywhere", layers("4 mm", "10 V", "1 mm × 2"), "V1", "2.50 V"),
    # Halves and thirds.
    ("equal-voltages", layers("2 mm", "12 V", "0.5 mm × 4"), "V1", "6.00 V"),
    ("equal-voltages", layers("4 mm", "10 V", "1 mm × 2"), "V2", "5.00 V"),
    ("equal-voltages", layers("4 mm", "12 V", "1 mm × 4", "1 mm × 2"), "V2", "4.00 V"),
    # 1/283.3 + 1/70.83; 1/141.7 + 1/70.83; 1/566.7 + 1/47.22.
    ("never-inverted", half("layers", "thickness: 1 mm", "4"), "C", "0.0176 pF"),
    ("never-inverted", half("layers", "thickness: 1 mm", "2"), "C", "0.0212 pF"),
    ("never-inverted", half("layers", "thickness: 0.5 mm", "4"), "C", "0.0229 pF"),
    # As if nothing were there: 20 pF, ½ · 20 pF · (40 V)² and 35.4 pF.
    ("filling-forgotten", slab("20 pF", "40 V", "removed", "2"), "C", "20.0 pF"),
    ("filling-forgotten", slab("20 pF", "40 V", "connected", "4"), "U", "16.0 nJ"),
    ("filling-forgotten", half("slabs", "area: 40 cm^2", "4"), "C", "35.4 pF"),
    ("filling-forgotten", half("layers", "thickness: 1 mm", "4"), "C", "35.4 pF"),
    # What was stored before: ½ · 20 pF · (40 V)², and ½ · 50 pF · (12 V)².
    ("energy-kept", slab("20 pF", "40 V", "removed", "2"), "U", "16.0 nJ"),
    ("energy-kept", slab("20 pF", "40 V", "connected", "4"), "U", "16.0 nJ"),
    ("energy-kept", slab("50 pF", "12 V", "removed", "5"), "U", "3.60 nJ"),
    # 35.42 pF times κ.
    ("filled-throughout", half("layers", "thickness: 1 mm", "4"), "C", "142 pF"),
    ("filled-throughout", half("slabs", "area: 40 cm^2", "4"), "C", "142 pF"),
    ("filled-throughout", half("layers", "thickness: 1 mm", "2"), "C", "70.8 pF"),
    # 20/4; 17.71 and 70.83 in a chain; 4.427 and 17.71 side by side.
    ("kappa-divided", slab("20 pF", "40 V", "connected", "4"), "C", "5.00 pF"),
    ("kappa-divided", half("layers", "thickness: 1 mm", "4"), "C", "14.2 pF"),
    ("kappa-divided", half("slabs", "area: 40 cm^2", "4"), "C", "22.1 pF"),
    # The gap as if it were empty.
    ("metal-ignored", metal("80 cm^2", "2 mm", "1 mm"), "C", "35.4 pF"),
    ("metal-ignored", metal("80 cm^2", "1 mm", "0.5 mm"), "C", "70.8 pF"),
    ("metal-ignored", metal("8 cm^2", "2 mm", "0.5 mm"), "C", "3.54 pF"),
    # ½ · 1 µF · 12; 2 · 400/10 000; 5 · 3.
    ("square-forgotten", relations_problem("V: 12 V; C: 1 uF; U: energy", ENERGY, "U"), "U",
     "6.00 µJ"),
    ("square-forgotten", relations_problem("U: 400 J; V: 10 kV; C: capacitance", ENERGY, "C"),
     "C", "80.0 mF"),
    ("square-forgotten", relations_problem("I: 3 A; R: 5 ohm; P: power", ("P = R*I^2",), "P"),
     "P", "15.0 W"),
    # The other of 4 and 6 Ω, of 3 and 6 Ω, of 10 and 15 Ω.
    ("other-solution", wires("10 ohm", "2.4 ohm"), "R1", "6.00 Ω"),
    ("other-solution", wires("9 ohm", "2 ohm"), "R2", "3.00 Ω"),
    ("other-solution", wires("25 ohm", "6 ohm"), "R1", "15.0 Ω"),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "problem", "of", "shown"), WORKED)
def test_a_mistake_gives_the_number_worked_by_hand(
    rule: str, problem: RelationsProblem, of: str, shown: str
) -> None:
    """Each rule yields what the mistake leads to; its working stands above the row."""
    assert shown in found(problem, rule, of)


def test_every_rule_is_worked_in_three_problems() -> None:
    """No rule stands without at least three problems with worked values."""
    problems = {rule.id: {str(problem) for id, problem, *_ in WORKED if id == rule.id}
                for rule in RULES}  # fmt: skip
    assert {id for id, *_ in WORKED} == set(problems)
    assert {id: len(those) for id, those in problems.items() if len(those) < 3} == {}


@pytest.mark.parametrize("problem", [problem for _, problem, *_ in WORKED])
def test_what_is_told_of_mistakes_is_well_formed(problem: RelationsProblem) -> None:
    """The sentence, the reason and the heading of each slip, which is never right."""
    display = RelationsDisplay(solve_relations(problem))
    for slip in slips_of(display, RULES):
        assert slip.shown.text != display.shown(slip.wrong.name).text
        for kind, told in ((Kind.SENTENCES, slip.sentence), (Kind.SENTENCES, slip.tempting),
                           (Kind.HEADING, (slip.rule.called,))):  # fmt: skip
            assert not blemishes(plain(told, display), kind), plain(told, display)


SILENT = [
    ("kept-the-wrong-one", half("slabs", "area: 40 cm^2", "4")),
    ("layers-added", half("slabs", "area: 40 cm^2", "4")),
    ("filled-throughout", slab("20 pF", "40 V", "removed", "2")),
    ("energy-kept", half("slabs", "area: 40 cm^2", "4")),
    ("square-forgotten", relations_problem("U: 72 uJ; C: 1 uF; V: voltage", ENERGY, "V")),
    ("other-solution", relations_problem("U: 72 uJ; C: 1 uF; V: voltage", ENERGY, "V")),
    ("metal-ignored", slab("20 pF", "40 V", "removed", "2")),
]


@pytest.mark.parametrize(("rule", "problem"), SILENT)
def test_a_rule_is_silent_where_it_does_not_fit(rule: str, problem: RelationsProblem) -> None:
    """Where what it is about does not occur."""
    slips = slips_of(RelationsDisplay(solve_relations(problem)), RULES)
    assert rule not in {id for slip in slips for id in slip.rules}


@given(
    kappas=st.lists(st.integers(2, 9), min_size=1, max_size=3),
    volts=st.integers(1, 90),
    way=st.sampled_from(("layers", "slabs", "removed", "connected")),
)
@settings(max_examples=40)
def test_whatever_the_plates_no_mistake_is_right(kappas: list[int], volts: int, way: str) -> None:
    """At the shown digits a slip differs from the right value and from every other slip."""
    if way in ("removed", "connected"):
        problem = slab("30 pF", f"{volts} V", way, str(kappas[0]))
    else:
        size = "thickness: 1 mm" if way == "layers" else "area: 20 cm^2"
        listed = ", ".join(f"{{{size}, kappa: {k}}}" for k in kappas)
        text = (f"{{area: 80 cm^2, gap: 4 mm, voltage: {volts} V, "
                f"filling: {{{way}: [{listed}]}}}}")  # fmt: skip
        problem = plates_problem(text, "[C, Q, U]")
    display = RelationsDisplay(solve_relations(problem))
    seen = set()
    for slip in slips_of(display, RULES):
        assert slip.shown.text != display.shown(slip.wrong.name).text
        assert (slip.wrong.name, slip.shown.text) not in seen
        assert slip.wrong.step in {step.id for step in display.solution.steps}
        seen.add((slip.wrong.name, slip.shown.text))
