"""What is told of mistakes in what is asked."""

from __future__ import annotations

import pytest

from tests.problem.samples import NEST, changed, faults_of


@pytest.mark.parametrize(
    ("sample", "old", "new", "faults"),
    [
        pytest.param(
            NEST,
            "find: equivalent\n",
            "",
            [
                '1:1: found no "find"; expected what is asked for, such as find: '
                'equivalent. Add a line with the key "find".'
            ],
            id="nothing-asked",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: []",
            [
                "7:7: found an empty list; expected at least one quantity. Say what is "
                "asked for, such as equivalent."
            ],
            id="find-empty-list",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: charge: C1",
            [
                '7:7: found a text with a colon in it, "charge: C1"; expected a text '
                "between quotes. Put quotes around the text."
            ],
            id="find-without-quotes",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: {charge: C1}",
            [
                '7:8: found keys with values (first "charge"); expected a list of '
                'quantities. Put a dash before each: "- charge: …".'
            ],
            id="find-as-mapping",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: current",
            [
                '7:7: found "current"; expected a quantity of capacitors: equivalent, '
                "charge, voltage or energy. Capacitors have no current; did you mean charge?"
            ],
            id="quantity-of-resistors",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: resistance",
            [
                '7:7: found "resistance"; expected a quantity of capacitors: equivalent, '
                "charge, voltage or energy. Capacitors have no resistance; did you mean "
                "equivalent?"
            ],
            id="resistance-of-capacitors",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [voltage: total]",
            [
                '7:17: found "voltage: total", which the source V0 gives already; '
                "expected a quantity that is not given. Delete it, or name elements."
            ],
            id="given-voltage",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [charge: C3]",
            [
                '7:16: found "C3", which is no element of the circuit; expected C1, C2, '
                "all or total. Name an element of this circuit."
            ],
            id="unknown-element",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [charge: 'C1, C2']",
            [
                '7:16: found "C1, C2", which is no element of the circuit; expected C1, '
                "C2, all or total. Write several elements in square brackets: [C1, C2]."
            ],
            id="elements-without-brackets",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [charge: V0]",
            [
                '7:16: found "V0", which is no element of the circuit; expected C1, C2, '
                "all or total. For the source, write charge: total."
            ],
            id="source-as-element",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [charge: [C1, [C2]]]",
            [
                "7:21: found a list with 1 item; expected an element, all or total. "
                "Write charge: all, or name the elements."
            ],
            id="list-in-list",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [capacitance: C1]",
            [
                '7:21: found capacitance of "C1"; expected equivalent alone. The values '
                "of the elements are given already; the equivalent is that of the whole "
                "circuit."
            ],
            id="given-capacitance",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [equivalent: C1]",
            [
                '7:20: found equivalent of "C1"; expected equivalent alone. The values '
                "of the elements are given already; the equivalent is that of the whole "
                "circuit."
            ],
            id="equivalent-of-one",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: C1",
            [
                '7:7: found "C1"; expected a quantity of capacitors: equivalent, charge, '
                "voltage or energy. Say what of C1, such as charge: C1."
            ],
            id="element-alone",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: chrage",
            [
                '7:7: found "chrage"; expected a quantity of capacitors: equivalent, '
                'charge, voltage or energy. Did you mean "charge"?'
            ],
            id="misspelled-quantity",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: ['charge:C1']",
            [
                '7:8: found "charge:C1"; expected a quantity, such as equivalent or '
                'charge: C1. Put a space after the colon: "charge: C1".'
            ],
            id="no-space-in-find",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [{charge: C1, voltage: C2}]",
            [
                '7:21: found "charge" and "voltage" in one item; expected one quantity '
                "in each item. Start a new line with a dash for each quantity."
            ],
            id="two-in-one-item",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [time]",
            [
                '7:8: found "time"; expected a quantity of capacitors: equivalent, '
                "charge, voltage or energy. Check its spelling."
            ],
            id="other-quantity",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [charge: ]",
            [
                '7:8: found nothing after "charge:"; expected an element, all or total. '
                "Write charge: all, or name the elements."
            ],
            id="quantity-of-nothing",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: [charge: []]",
            [
                "7:16: found an empty list; expected elements, all or total. Name the "
                "elements, or delete the item."
            ],
            id="quantity-of-empty-list",
        ),
        pytest.param(
            NEST,
            "find: equivalent",
            "find: ''",
            [
                '7:1: found nothing after "find:"; expected a quantity, such as '
                "equivalent or charge: C1. Write it here, or delete the line."
            ],
            id="find-empty",
        ),
        pytest.param(
            NEST,
            "  source: 12 V\n  series:\n    - C1: 10 uF\n    - C2: 20 uF\nfind: equivalent",
            "  series:\n    - C1: 10 uF\n    - C2: 20 uF\nfind: charge",
            [
                '6:7: found "charge" in a circuit without a source; expected equivalent. '
                "Add source: to the circuit, or ask only for the equivalent."
            ],
            id="no-source",
        ),
        pytest.param(
            NEST,
            "series:\n    - C1: 10 uF\n    - C2: 20 uF",
            "C1: 10 uF",
            [
                '5:7: found "equivalent" of a single element; expected a quantity that '
                "is not given. Ask for another quantity, or add elements."
            ],
            id="single-equivalent",
        ),
    ],
)
def test_mistakes_in_asked_are_told_in_plain_words(
    sample: str, old: str, new: str, faults: list[str]
) -> None:
    """One change to a sound file yields just the faults of that change."""
    told = faults_of(changed(sample, old, new))
    assert told == [f"problem.yml:{fault}" for fault in faults]
