"""The formula sheet says the same as the solutions do."""

from __future__ import annotations

import pytest

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.lesson.formulary import sheets
from builder.lesson.stages.about import SHARING
from builder.lesson.stages.formulas import stages_rules
from builder.quantity.formula import evaluate
from builder.quantity.names import Name
from tests.lesson.stages.stories import ALIKE, BOTH_CHARGED, lesson_of


@pytest.mark.parametrize("text", [ALIKE, BOTH_CHARGED])
def test_the_rules_give_what_the_steps_find(text: str) -> None:
    """Voltage and heat of two joined capacitors, from the letters of the sheet."""
    solution = lesson_of(text).solution
    known = {
        Name(quantity, number): solution.value(Name(quantity, of + when))
        for number, of in (("1", "C1"), ("2", "C2"))
        for quantity, when in (("capacitance", ""), ("charge", "@0"), ("voltage", "@0"))
    }
    rules = {called: lines[0][1] for called, lines, _ in stages_rules(CAPACITORS, {SHARING})}
    volts = evaluate(rules["Charged capacitors that are joined"], known)
    heat = evaluate(rules["Heat where two capacitors are joined"], known)
    assert volts == solution.value(Name("voltage", "C1"))
    assert heat == solution.value(Name("energy", "lost"))


def test_they_stand_on_the_sheet_only_where_charge_is_shared() -> None:
    """A unit without charged capacitors has no such rule, and resistors never have."""
    assert not list(stages_rules(CAPACITORS, {"capacitor"}))
    assert not list(stages_rules(RESISTORS, {SHARING}))
    (sheet,) = sheets({"capacitor", "charge", SHARING})
    assert "Charged capacitors that are joined" in [rule.called for rule in sheet.rules]
