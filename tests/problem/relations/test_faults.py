"""Mistakes in quantities and relations, told in plain words at their place."""

from __future__ import annotations

import pytest

from builder.errors import FaultyFile
from builder.problem import read_problem_text
from builder.problem.model import Unit
from builder.problem.relations.model import RelationsProblem
from builder.solution import solve
from tests.problem.relations.written import text_of

PLATES = "A: 8 cm^2; d: 1 mm; V: 9 V; C: capacitance; Q: charge"
Q_CV = "Q = C * V"


def faults_of(text: str) -> list[str]:
    """The faults that reading and solving a problem find."""
    with pytest.raises(FaultyFile) as caught:
        solve(read_problem_text(text, "p.yml", Unit(title="Tests")))
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("relation", "fault"),
    [
        ("C = eps0 * A * d",
         '9:9: found "eps0 * A * d", which is capacitance times area (F·m²); expected a '
         "capacitance (F), as on the left side. Check what is missing or too much on one of the "
         "sides."),
        ("C = eps0*A/d + A",
         '9:20: found the term from "A" on, which is an area (m²); expected a capacitance (F), '
         "like the terms before it. Only what is measured alike can be added or compared."),
        ("V = Q/C + 2*d",
         '9:17: found the term from "d" on, which is a length (m); expected a voltage (V), like '
         "the terms before it. Only what is measured alike can be added or compared."),
        ("C = Q/V * exp(d)",
         '9:19: found the exponent from "d)" on, which is a length (m); expected a pure number. '
         "Divide it by something of its own kind."),
        ("A = 3 m",
         '9:9: found "3 m", which is a length (m); expected an area (m²), as on the left side. '
         "Check what is missing or too much on one of the sides."),
        ("C = eps0*B/d",
         '9:14: found "B"; expected a name that is known here: A, C, Q, V, d. Write products '
         "with *, as C * V."),
        ("C =",
         "9:8: found the end; expected a number, a name or a bracket. Complete it, or remove "
         "what is too much."),
        ("C eps0*A/d",
         '9:15: found the end; expected "=". Write what equals what: left = right.'),
        ("3 mV = 3 mV",
         '9:5: found "3 mV = 3 mV", without any quantity; expected an equation such as Q = C * V. '
         "Use the names under quantities."),
    ],
)  # fmt: skip
def test_a_relation_that_does_not_fit_is_told_at_its_term(relation: str, fault: str) -> None:
    """Units are checked term by term, and both dimensions are told in words."""
    assert faults_of(text_of(PLATES, (relation, Q_CV), "[C]")) == [f"p.yml:{fault}"]


@pytest.mark.parametrize(
    ("quantities", "fault"),
    [
        ("C: capacity; V: 9 V; Q: charge",
         '3:6: found "capacity"; expected a value such as 8 cm^2, a number, or the kind of an '
         'unknown such as capacitance. Did you mean "capacitance"?'),
        ("C: 9 lumens; V: 9 V; Q: charge",
         '3:6: found "9 lumens"; expected a value such as 8 cm^2, a number, or the kind of an '
         'unknown such as capacitance. "lumens" is no unit of a circuit quantity.'),
        ("C: -3 uF; V: 9 V; Q: charge",
         "3:6: found C = −3 µF; expected a capacitance above zero. Change the value."),
        ("eps0: 3 F/m; C: 3 uF; V: 9 V; Q: charge",
         '3:3: found the name "eps0" for a quantity; expected a name that means nothing else '
         "here. Choose a name such as C, V1 or d_air."),
        ("C-1: 3 uF; V: 9 V; Q: charge",
         '3:3: found the name "C-1" for a quantity; expected a letter, then letters, digits or '
         "_, at most 12 in all. Choose a name such as C, V1 or d_air."),
        ("C: {value: 3 uF, kind: charge}; V: 9 V; Q: charge",
         "3:20: found a value and a kind; expected value: for what is given, kind: for what is "
         "to be found. Delete one of the two."),
        ("C: {is: the reservoir}; V: 9 V; Q: charge",
         "3:6: found C without either; expected value: for what is given, kind: for what is to "
         "be found. Add one of them."),
        ("C: {value: charge}; V: 9 V; Q: charge",
         '3:14: found "charge" as a value; expected a value such as 8 cm^2. Write "kind:" before '
         "the kind of an unknown."),
        ("C: {valu: 3 uF, kind: charge}; V: 9 V; Q: charge",
         '3:7: found the key "valu"; expected value, kind, is or choose. Did you mean "value"?'),
        ("C: ; V: 9 V; Q: charge",
         '3:3: found nothing after "C:"; expected a value such as 8 cm^2, a number, or the kind '
         "of an unknown such as capacitance. Write it after the colon."),
    ],
)  # fmt: skip
def test_a_quantity_that_cannot_be_read_is_told(quantities: str, fault: str) -> None:
    """Each mistake in a quantity is told with what was found, what was expected, what to do."""
    assert faults_of(text_of(quantities, (Q_CV,), "[Q]")) == [f"p.yml:{fault}"]


@pytest.mark.parametrize(
    ("find", "fault"),
    [
        ("[V]", '10:8: found "V", which is given already; expected the name of an unknown. Delete '
         "it here, or give its kind instead of a value."),
        ("[Z]", '10:8: found "Z", which is no quantity of the problem; expected C or Q. Add it to '
         "quantities, or correct the name."),
        ("[]", "10:7: found an empty list; expected at least one name. Say what is asked for, "
         "such as [C, Q]."),
        ("{charge: Q}", '10:7: found keys with values (first "charge"); expected the name of an '
         "unknown, such as C. Write only the name, or several as [C, Q]."),
    ],
)  # fmt: skip
def test_what_cannot_be_asked_is_told(find: str, fault: str) -> None:
    """Only unknowns of the problem can be asked for."""
    text = text_of(PLATES, ("C = eps0*A/d",), find)
    assert faults_of(text) == [f"p.yml:{fault}"]


@pytest.mark.parametrize(
    ("quantities", "relations", "find", "fault"),
    [
        ("Q: 60 uC; C: capacitance; V: voltage", (Q_CV,), "[C]",
         "4:3: found one relation for two unknowns: C and V cannot be found; expected as many "
         "independent relations as quantities that are to be found. Give one of them a value, or "
         "add a relation with one of them alone in it."),
        ("Q: charge; C: 3 uF; V: 2 V; U: energy", (Q_CV,), "[Q]",
         '6:3: found "U", which is in no relation; expected a relation for every quantity that is '
         "to be found. Add a relation with U in it, or give it a value."),
        ("Q: 50 uC; C: 5 uF; V: 12 V; U: energy", (Q_CV, "U = Q*V/2"), "[U]",
         '8:5: found "Q = C * V", whose left side comes to 50.0 µC and whose right side to '
         "60.0 µC; expected relations and values that agree. Everything in it is known without "
         "it. Correct one of the given values, or delete one so that it can be found."),
        ("a: 8 uF; b: 5 uF; x: capacitance", ("b = a + x",), "[x]",
         '7:5: found "b = a + x", which gives x = −3.00 µF; expected a capacitance above zero. '
         "With these values there is no such thing. Check the values that are given."),
        ("s: 10 ohm; p: 2.4 ohm; a: resistance; b: resistance",
         ("s = a + b", "p = a*b/(a+b)"), "[a, b]",
         "6:3: found two possible values for b: 4.00 Ω and 6.00 Ω; expected one that is meant. "
         "Write b: {kind: resistance, choose: larger}, or smaller, or add a relation that "
         "decides."),
        ("t: 4 m; x: length; y: length", ("x + y = t", "2*x + 2*y = 2*t"), "[x]",
         '8:5: found "2*x + 2*y = 2*t", which says of x and y what the other relations say '
         "already, or the opposite; expected relations that are independent of each other. Give "
         "one of x and y a value instead, or correct the relation."),
        ("U: -2 J; C: 3 uF; V: voltage", ("U = C*V^2/2",), "[V]",
         '7:5: found "U = C*V^2/2", for which no V can be found: the root of a negative number '
         "would be needed; expected values for which the relation can hold. Check the values that "
         "are given."),
    ],
)  # fmt: skip
def test_a_system_without_a_single_solution_is_named_as_such(
    quantities: str, relations: tuple[str, ...], find: str, fault: str
) -> None:
    """Too little, too much, nothing possible and several values are each told for what they are."""
    assert faults_of(text_of(quantities, relations, find)) == [f"p.yml:{fault}"]


def test_everything_of_a_good_file_is_read() -> None:
    """Long forms, reasons, pure numbers and constants arrive in the problem."""
    text = text_of(
        "A: 8 cm^2; d: {value: 1 mm, is: the gap}; k: 6.0; C: {kind: capacitance, choose: larger}",
        ("{equation: C = eps0*k*A/d, because: The field is even.}",), "C",
    )  # fmt: skip
    problem = read_problem_text(text, "p.yml", Unit(title="Tests"))
    assert isinstance(problem, RelationsProblem)
    told = [(s.name, s.shown and s.shown.text, s.means, s.choose, s.source)
            for s in problem.quantities]  # fmt: skip
    assert told == [
        (("area", "A"), "8 cm²", "", "", ""),
        (("length", "d"), "1 mm", "the gap", "", ""),
        (("ratio", "k"), "6.0", "", "", ""),
        (("capacitance", "C"), None, "", "larger", ""),
        (("permittivity", "eps0"), "8.8541878188 pF/m", "the electric constant", "",
         "CODATA 2022"),
    ]  # fmt: skip
    assert [(r.written, r.because) for r in problem.relations] == [
        ("C = eps0*k*A/d", "The field is even.")
    ]
