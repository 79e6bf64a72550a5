"""What is told of mistakes in the names and values of elements."""

from __future__ import annotations

import pytest

from tests.problem.samples import NEST, changed, faults_of


@pytest.mark.parametrize(
    ("sample", "old", "new", "faults"),
    [
        pytest.param(
            NEST,
            "10 uF",
            "0 uF",
            [
                "5:11: found a capacitor of 0 µF, C1; expected a capacitance above zero. "
                "Leave C1 out, or change its value."
            ],
            id="zero",
        ),
        pytest.param(
            NEST,
            "10 uF",
            "-10 uF",
            [
                "5:11: found a capacitor of −10 µF, C1; expected a capacitance above "
                "zero. Delete the minus sign."
            ],
            id="negative",
        ),
        pytest.param(
            NEST,
            "20 uF",
            "20 ohm",
            [
                "6:11: found a resistor, C2, among capacitors; expected capacitors only "
                "or resistors only. Check the unit, or write the circuit as "
                "branches, which may hold both."
            ],
            id="mixture",
        ),
        pytest.param(
            NEST,
            "10 uF",
            "12 V",
            [
                '5:11: found "12 V", a voltage; expected a capacitance such as 10 uF or '
                "a resistance such as 100 ohm. Change the unit: V measures voltage."
            ],
            id="voltage-as-element",
        ),
        pytest.param(
            NEST,
            "10 uF",
            "10 ufd",
            [
                '5:11: found "10 ufd"; expected a capacitance such as 10 uF or a '
                'resistance such as 100 ohm. "ufd" is no unit of a circuit quantity.'
            ],
            id="unknown-unit",
        ),
        pytest.param(
            NEST,
            "10 uF",
            "10 UF",
            [
                '5:11: found "10 UF"; expected a capacitance such as 10 uF or a '
                'resistance such as 100 ohm. "UF" is no unit of a circuit quantity. Did '
                'you mean "uF"?'
            ],
            id="wrong-case-of-unit",
        ),
        pytest.param(
            NEST,
            "C1: 10 uF",
            "C1:10 uF",
            [
                '5:7: found "C1:10 uF"; expected an element with its value, such as C1: '
                '10 uF. Put a space after the colon: "C1: 10 uF".'
            ],
            id="no-space-after-element",
        ),
        pytest.param(
            NEST,
            "C1: 10 uF",
            "C1",
            [
                '5:7: found "C1"; expected an element with its value, such as C1: 10 uF. '
                "Write a name, a colon, a space and the value."
            ],
            id="element-without-value",
        ),
        pytest.param(
            NEST,
            "C1: 10 uF",
            "C1:",
            [
                '5:7: found nothing after "C1:"; expected a capacitance such as 10 uF or '
                "a resistance such as 100 ohm. Write a number and a unit after the colon."
            ],
            id="element-with-empty-value",
        ),
        pytest.param(
            NEST,
            "C1: 10 uF",
            "",
            [
                "5:6: found nothing; expected an element with its value, such as C1: 10 "
                "uF. Write it here, or delete the line."
            ],
            id="empty-item",
        ),
        pytest.param(
            NEST,
            "10 uF",
            "1/0 uF",
            [
                '5:11: found "1/0 uF"; expected a capacitance such as 10 uF or a '
                'resistance such as 100 ohm. "1/0" divides by zero.'
            ],
            id="divided-by-zero",
        ),
        pytest.param(
            NEST,
            "10 uF",
            "10 000 uF",
            [
                '5:11: found "10 000 uF"; expected a capacitance such as 10 uF or a '
                "resistance such as 100 ohm. Write the digits of a number without spaces."
            ],
            id="spaced-digits",
        ),
        pytest.param(
            NEST,
            "10 uF",
            "ten uF",
            [
                '5:11: found "ten uF"; expected a capacitance such as 10 uF or a '
                "resistance such as 100 ohm. Start with a number."
            ],
            id="spelled-number",
        ),
        pytest.param(
            NEST,
            "C1",
            "C_2",
            [
                '6:7: found the names "C_2" and "C2"; expected names that look different '
                "on the page. Both would be printed alike. Give one of them another name."
            ],
            id="look-alike",
        ),
        pytest.param(
            NEST,
            "C1",
            "C2",
            [
                '6:7: found a second element with the name "C2"; expected each name once '
                "(it stands on line 5 already). Give one of the two another name."
            ],
            id="same-name",
        ),
        pytest.param(
            NEST,
            "C1",
            "total",
            [
                '5:7: found the name "total" for an element; expected a name that means '
                "nothing else here. Choose a name such as C1, R2 or V0."
            ],
            id="reserved-name",
        ),
        pytest.param(
            NEST,
            "C1",
            "C-1",
            [
                '5:7: found the name "C-1" for an element; expected a letter, then '
                "letters, digits or _, at most 12 in all. Choose a name such as C1, R2 or V0."
            ],
            id="odd-name",
        ),
        pytest.param(
            NEST,
            "C1",
            "Cfirstreservoir",
            [
                '5:7: found the name "Cfirstreservoir" for an element; expected a '
                "letter, then letters, digits or _, at most 12 in all. Choose a name "
                "such as C1, R2 or V0."
            ],
            id="long-name",
        ),
        pytest.param(
            NEST,
            "C1",
            "C_eq",
            [
                '5:7: found the name "C_eq"; expected a name that does not look like '
                "that of the whole circuit. Choose a name such as C1, R2 or V0."
            ],
            id="named-like-the-whole",
        ),
        pytest.param(
            NEST,
            "C1",
            "C0",
            [
                '3:11: found the source "V0" beside the element "C0"; expected names '
                "that look different on the page. The voltage of C0 would be printed "
                "like the source. Give one of them another name, such as source: {Vs: 12 V}."
            ],
            id="capacitor-looks-like-source",
        ),
    ],
)
def test_mistakes_in_elements_are_told_in_plain_words(
    sample: str, old: str, new: str, faults: list[str]
) -> None:
    """One change to a sound file yields just the faults of that change."""
    told = faults_of(changed(sample, old, new))
    assert told == [f"problem.yml:{fault}" for fault in faults]
