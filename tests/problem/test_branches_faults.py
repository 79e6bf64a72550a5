"""What is told of mistakes in tables of branches."""

from __future__ import annotations

import pytest

from tests.problem.samples import BRANCHES, changed, faults_of


@pytest.mark.parametrize(
    ("sample", "old", "new", "faults"),
    [
        pytest.param(
            BRANCHES,
            "left]",
            "lefft]",
            [
                '5:46: found the junction "lefft", where nothing but R1 ends; expected '
                "at least two elements at each junction between the terminals. Did you "
                'mean "left"?'
            ],
            id="misspelled-junction",
        ),
        pytest.param(
            BRANCHES,
            "[top, left]",
            "[top, top]",
            [
                '5:46: found both ends of R1 at the junction "top"; expected two '
                "different junctions. Change one of the two."
            ],
            id="short-circuit",
        ),
        pytest.param(
            BRANCHES,
            "[top, left]",
            "[top]",
            [
                "5:40: found a list with 1 item; expected two junctions, such as [top, "
                "bottom]. Write two names in square brackets, with a comma between them."
            ],
            id="one-end",
        ),
        pytest.param(
            BRANCHES,
            "[top, left]",
            "top",
            [
                '5:40: found "top"; expected two junctions, such as [top, bottom]. Write '
                "two names in square brackets, with a comma between them."
            ],
            id="ends-as-text",
        ),
        pytest.param(
            BRANCHES,
            ", between: [top, left]",
            "",
            [
                '5:5: found "R1" without its ends; expected between: two junctions, such '
                "as [top, bottom]. Add between: with the two junctions."
            ],
            id="no-ends",
        ),
        pytest.param(
            BRANCHES,
            "resistance: 100 ohm, ",
            "",
            [
                '5:5: found "R1" without a value; expected capacitance or resistance, '
                "emf or current for a source, or switch. Add its value."
            ],
            id="no-value",
        ),
        pytest.param(
            BRANCHES,
            "    V0: {emf: 9 V, between: [top, bottom]}\n",
            "",
            [
                "3:3: found branches without terminals; expected a source among the "
                "branches, such as V0: {emf: 9 V, between: [top, bottom]}, or across: "
                "[top, bottom]. Add the source to the branches, or say with across: "
                "between which junctions the circuit is looked at."
            ],
            id="no-terminals",
        ),
        pytest.param(
            BRANCHES,
            "[top, bottom]",
            "[tip, bottom]",
            [
                '4:30: found the terminal "tip", which no element reaches; expected a '
                'junction at which an element ends. Did you mean "top"?'
            ],
            id="misspelled-terminal",
        ),
        pytest.param(
            BRANCHES,
            "resistance",
            "restance",
            [
                '5:10: found the key "restance"; expected capacitance, resistance, emf, '
                'current, switch, between, inner or charged. Did you mean "resistance"?'
            ],
            id="misspelled-branch-key",
        ),
        pytest.param(
            BRANCHES,
            "{resistance: 100 ohm, between: [top, left]}",
            "4.7 kohm",
            [
                '5:9: found "4.7 kohm"; expected an element with its ends, such as '
                "{resistance: 100 ohm, between: [top, bottom]}. Write R1: {resistance: "
                "4.7 kohm, between: [top, bottom]}."
            ],
            id="branch-in-short-form-with-its-own-value",
        ),
        pytest.param(
            BRANCHES,
            "{resistance: 100 ohm, between: [top, left]}",
            "closed",
            [
                '5:9: found "closed"; expected an element with its ends, such as '
                "{resistance: 100 ohm, between: [top, bottom]}. Write R1: {switch: "
                "closed, between: [top, bottom]}."
            ],
            id="switch-in-short-form",
        ),
        pytest.param(
            BRANCHES,
            "{resistance: 100 ohm, between: [top, left]}",
            "100 ohm",
            [
                '5:9: found "100 ohm"; expected an element with its ends, such as '
                "{resistance: 100 ohm, between: [top, bottom]}. Write R1: {resistance: "
                "100 ohm, between: [top, bottom]}."
            ],
            id="branch-in-short-form",
        ),
        pytest.param(
            BRANCHES,
            "find",
            "  source: 2 A\nfind",
            [
                "8:3: found source beside the source V0 in branches; expected every source in "
                "the branches, with its ends. Move it there, such as V2: {emf: 3 V, between: "
                "[top, bottom]}, or delete it."
            ],
            id="source-beside-emf",
        ),
        pytest.param(
            BRANCHES,
            "find",
            "  across: [top, left]\nfind",
            [
                "8:3: found across beside a source with its own ends; expected only one "
                "of the two. Delete across."
            ],
            id="across-beside-emf",
        ),
        pytest.param(
            BRANCHES,
            "emf",
            "voltage",
            [
                '4:10: found the key "voltage"; expected capacitance, resistance, emf, '
                "current, switch, between, inner or charged. For a source, write emf."
            ],
            id="voltage-for-emf",
        ),
        pytest.param(
            BRANCHES,
            "9 V",
            "9 A",
            [
                '4:15: found "9 A", a current; expected a voltage such as 12 V. Change '
                "the unit: A measures current."
            ],
            id="emf-of-amperes",
        ),
        pytest.param(
            BRANCHES,
            "left]",
            "'left*']",
            [
                '5:46: found "left*" as a junction; expected letters, digits, spaces, _ '
                "or -, at most 20 in all. Choose a name such as top or a."
            ],
            id="odd-junction",
        ),
        pytest.param(
            BRANCHES,
            "emf: 9 V",
            "emf: 9 V, resistance: 1 ohm",
            [
                "4:20: found resistance beside emf; expected one value for each branch. "
                "Give the element a branch of its own."
            ],
            id="emf-and-resistance",
        ),
        pytest.param(
            BRANCHES,
            "  branches:\n    V0: {emf: 9 V, between: [top, bottom]}\n    R1: "
            "{resistance: 100 ohm, between: [top, left]}\n    R2: {resistance: 50 "
            "ohm, between: [bottom, left]}\n    R3: {resistance: 50 ohm, between: "
            "[left, bottom]}\n",
            "  branches: [R1, R2]\n",
            [
                "3:13: found a list with 2 items; expected a name for each element, with "
                "its value and its ends. Write each element on a line of its own: R1: "
                "{resistance: 100 ohm, between: [top, bottom]}."
            ],
            id="branches-in-a-list",
        ),
    ],
)
def test_mistakes_in_branches_are_told_in_plain_words(
    sample: str, old: str, new: str, faults: list[str]
) -> None:
    """One change to a sound file yields just the faults of that change."""
    told = faults_of(changed(sample, old, new))
    assert told == [f"problem.yml:{fault}" for fault in faults]
