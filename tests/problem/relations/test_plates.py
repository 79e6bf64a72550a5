"""Plates become quantities and relations; their mistakes are told."""

from __future__ import annotations

import pytest

from builder.errors import FaultyFile
from builder.problem import read_problem_text
from builder.problem.model import Unit
from builder.problem.relations.model import RelationsProblem


def plates_problem(plates: str, find: str = "[C]") -> RelationsProblem:
    """A problem of plates from the text under ``plates:``, in braces."""
    text = f"title: Plates\nplates: {plates}\nfind: {find}\n"
    problem = read_problem_text(text, "p.yml", Unit(title="Tests"))
    assert isinstance(problem, RelationsProblem)
    return problem


@pytest.mark.parametrize(
    ("plates", "relations"),
    [
        ("{area: 8 cm^2, gap: 1 mm}", ["C = eps0*A/d"]),
        ("{capacitance: 20 pF, voltage: 5 V}", ["C = C0", "Q = C*V", "U = Q*V/2"]),
        ("{area: 8 cm^2, gap: 1 mm, filling: {kappa: 6}}", ["C = kappa*eps0*A/d"]),
        ("{capacitance: 20 pF, filling: {kappa: 6}}", ["C = kappa*C0"]),
        ("{area: 8 cm^2, gap: 2 mm, charge: 3 nC, filling: {metal: 1 mm}}",
         ["C = eps0*A/(d - t)", "Q = C*V", "U = Q*V/2", "E = V/(d - t)"]),
        ("{area: 8 cm^2, gap: 2 mm, filling: {layers: [{thickness: 1 mm, kappa: 4}]}}",
         ["d2 = d - d1", "C1 = kappa1*eps0*A/d1", "C2 = eps0*A/d2", "C = 1/(1/C1 + 1/C2)"]),
        ("{area: 8 cm^2, gap: 2 mm, filling: {slabs: [{area: 3 cm^2, kappa: 4}, "
         "{area: 5 cm^2, kappa: 2}]}}",
         ["C1 = kappa1*eps0*A1/d", "C2 = kappa2*eps0*A2/d", "C = C1 + C2"]),
        ("{capacitance: 20 pF, voltage: 40 V, battery: removed, filling: {kappa: 2}}",
         ["Q0 = C0*V0", "U0 = Q0*V0/2", "C = kappa*C0", "Q = Q0", "Q = C*V", "U = Q*V/2",
          "DeltaU = U - U0", "W_in = U0 - U"]),
        ("{capacitance: 20 pF, voltage: 40 V, battery: connected, filling: {kappa: 2}}",
         ["Q0 = C0*V0", "U0 = Q0*V0/2", "C = kappa*C0", "V = V0", "Q = C*V", "U = Q*V/2",
          "DeltaU = U - U0", "DeltaQ = Q - Q0", "W = V0*DeltaQ", "W_in = W - DeltaU"]),
    ],
)  # fmt: skip
def test_what_lies_between_plates_becomes_relations(plates: str, relations: list[str]) -> None:
    """Layers are joined in series, slabs side by side in parallel, and the rest is empty."""
    problem = plates_problem(plates)
    assert [relation.written for relation in problem.relations] == relations
    assert all(relation.because for relation in problem.relations)


@pytest.mark.parametrize(
    ("plates", "fault"),
    [
        ("{area: 8 cm^2}", '2:9: found no "gap"; expected gap: such as 2 mm. Add a line with the '
         'key "gap".'),
        ("{area: 8 cm, gap: 1 mm}", '2:16: found "8 cm", a length; expected an area such as '
         "80 cm^2. Change the unit."),
        ("{area: 8 cm^2, gap: 0 mm}", '2:29: found "0 mm"; expected a length above zero, '
         "such as 2 mm. Change the value."),
        ("{area: 8 cm^2, gap: 1 mm, voltage: 3 V, charge: 2 nC}",
         "2:49: found a charge beside a voltage; expected only one of the two. Delete one of "
         "them: it follows from the other."),
        ("{area: 8 cm^2, gap: 1 mm, capacitance: 3 pF}",
         "2:35: found capacitance beside area or gap; expected area and gap, or the capacitance "
         "of the empty plates. Delete one of the two."),
        ("{area: 8 cm^2, gap: 1 mm, battery: removed}",
         "2:9: found a battery without its voltage; expected voltage: such as 12 V. Add a line "
         'with the key "voltage".'),
        ("{area: 8 cm^2, gap: 1 mm, voltage: 3 V, battery: off, filling: {kappa: 2}}",
         '2:58: found "off"; expected connected or removed. Choose one of these.'),
        ("{area: 8 cm^2, gap: 1 mm, filling: {kappa: 2, metal: 1 mm}}",
         "2:44: found kappa and metal in one filling; expected kappa, layers, slabs or metal. "
         "Keep one of them."),
        ("{area: 8 cm^2, gap: 1 mm, filling: {metal: 1 mm}}",
         "2:35: found 1 mm in the gap of 1 mm; expected parts that fit into the gap. Make them "
         "thinner, or the gap wider."),
        ("{area: 8 cm^2, gap: 1 mm, filling: {layers: [{thickness: 2 mm, kappa: 3}]}}",
         "2:35: found 2 mm in the gap of 1 mm; expected parts that fit into the gap. Make them "
         "thinner, or the gap wider."),
        ("{area: 8 cm^2, gap: 1 mm, filling: {layers: [{thickness: 1 mm}]}}",
         '2:54: found no "kappa"; expected kappa: of its material. Add a line with the key '
         '"kappa".'),
        ("{capacitance: 8 pF, filling: {slabs: [{area: 1 cm^2, kappa: 3}]}}",
         "2:29: found a filling in parts, of plates without area and gap; expected area: and gap: "
         "of the plates. Give area and gap in place of the capacitance."),
    ],
)  # fmt: skip
def test_mistakes_in_plates_are_told_at_their_place(plates: str, fault: str) -> None:
    """Each mistake is told with what was found, what was expected and what to do."""
    with pytest.raises(FaultyFile) as caught:
        plates_problem(plates)
    assert f"p.yml:{fault}" in [str(one) for one in caught.value.faults]
