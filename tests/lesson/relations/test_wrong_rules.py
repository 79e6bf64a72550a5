"""Mistakes with equations and plates, each against a wrong value worked by hand."""

from __future__ import annotations

import pytest

from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.relations.wrong_rules import RULES
from builder.lesson.wrong_rule import slips_of
from builder.problem.relations.model import RelationsProblem
from builder.solution.relations.solve import solve_relations
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


def slips(problem: RelationsProblem) -> dict[tuple[str, str], str]:
    """The wrong value of each rule for each quantity."""
    display = RelationsDisplay(solve_relations(problem))
    return {(s.rule.id, s.wrong.name.of): s.shown.text for s in slips_of(display, RULES)}


ENERGY = ("U = 1/2*C*V^2",)
WORKED = [
    # Removed, but the voltage kept: Q = κ·C0·V0, U = κ·U0.
    ("kept-the-wrong-one", slab("20 pF", "40 V", "removed", "2"), "Q", "1.60 nC"),
    ("kept-the-wrong-one", slab("20 pF", "40 V", "removed", "2"), "U", "32.0 nJ"),
    # Connected, but the charge kept: V = V0/κ = 10 V, U = U0/κ = 16 nJ/4.
    ("kept-the-wrong-one", slab("20 pF", "40 V", "connected", "4"), "V", "10.0 V"),
    ("kept-the-wrong-one", slab("20 pF", "40 V", "connected", "4"), "U", "4.00 nJ"),
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
]  # fmt: skip


@pytest.mark.parametrize(("rule", "problem", "of", "shown"), WORKED)
def test_a_mistake_gives_the_number_worked_by_hand(
    rule: str, problem: RelationsProblem, of: str, shown: str
) -> None:
    """Each rule yields what the mistake leads to; its working stands above the row."""
    assert slips(problem)[rule, of] == shown


def test_every_rule_is_worked_by_hand() -> None:
    """No rule stands without at least three worked values."""
    counts = {rule.id: sum(row[0] == rule.id for row in WORKED) for rule in RULES}
    assert min(counts.values()) >= 3, counts
