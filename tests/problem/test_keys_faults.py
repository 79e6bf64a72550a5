"""What is told of mistakes in the keys of a problem and in its source."""

from __future__ import annotations

import pytest

from tests.problem.samples import NEST, changed, faults_of


@pytest.mark.parametrize(
    ("sample", "old", "new", "faults"),
    [
        pytest.param(
            NEST,
            "title: Two lamps\n",
            "",
            [
                '1:1: found no "title"; expected a heading, such as title: Two lamps. '
                'Add a line with the key "title".'
            ],
            id="no-title",
        ),
        pytest.param(
            NEST,
            "circuit:\n  source: 12 V\n  series:\n    - C1: 10 uF\n    - C2: 20 uF\n",
            "",
            [
                '1:1: found no "circuit"; expected circuit: with a source and elements '
                'below it. Add a line with the key "circuit".'
            ],
            id="no-circuit",
        ),
        pytest.param(
            NEST,
            "title: Two lamps",
            "title:",
            [
                '1:1: found nothing after "title:"; expected a heading as a text. Write '
                "it here, or delete the line."
            ],
            id="empty-title",
        ),
        pytest.param(
            NEST,
            "Two lamps",
            "[Two, lamps]",
            [
                "1:8: found a list with 2 items; expected a heading as a text. Write a "
                "text; one that starts with a brace or a bracket goes between quotes."
            ],
            id="list-as-title",
        ),
        pytest.param(
            NEST,
            "title",
            "titel",
            [
                '1:1: found the key "titel"; expected title, level, objectives, '
                "scenario, circuit, measured, quantities, plates, relations, stages, change, "
                "find, digits, plan, words, questions, "
                "leave-out, vary or keep. Did you mean "
                '"title"?'
            ],
            id="misspelled-key",
        ),
        pytest.param(
            NEST,
            "find",
            "author: me\nfind",
            [
                '7:1: found the key "author"; expected title, level, objectives, '
                "scenario, circuit, measured, quantities, plates, relations, stages, change, "
                "find, digits, plan, words, questions, "
                "leave-out, vary or keep. Delete the "
                "key, or check its spelling."
            ],
            id="unknown-key",
        ),
        pytest.param(
            NEST,
            "find",
            "level: hard\nfind",
            ['7:8: found "hard"; expected intro, core or stretch. Choose one of these.'],
            id="unknown-level",
        ),
        pytest.param(
            NEST,
            "find",
            "level: Core\nfind",
            ['7:8: found "Core"; expected intro, core or stretch. Did you mean "core"?'],
            id="capital-level",
        ),
        pytest.param(
            NEST,
            "find",
            "digits: three\nfind",
            [
                '7:9: found "three"; expected a whole number from 1 to 10. Write another '
                "number, in digits."
            ],
            id="no-digits",
        ),
        pytest.param(
            NEST,
            "find",
            "digits: 11\nfind",
            [
                '7:9: found "11"; expected a whole number from 1 to 10. Write another '
                "number, in digits."
            ],
            id="digits-out-of-range",
        ),
        pytest.param(
            NEST,
            "find",
            "objectives: energy\nfind",
            [
                '7:13: found "energy"; expected a list of objectives, such as '
                "[merge-parallel]. Put each item on a line of its own, starting with a "
                "dash and a space."
            ],
            id="objectives-no-list",
        ),
        pytest.param(
            NEST,
            "find",
            "objectives: [energy, energy]\nfind",
            [
                '7:22: found the objective "energy" a second time; expected each '
                "objective once. Delete one of the two."
            ],
            id="objective-twice",
        ),
        pytest.param(
            NEST,
            "find",
            "objectives: [walk back]\nfind",
            [
                '7:14: found "walk back" for an objective; expected letters, digits and '
                "hyphens. Choose an id such as merge-parallel."
            ],
            id="odd-objective",
        ),
        pytest.param(
            NEST,
            "circuit:\n  source: 12 V\n  series:\n    - C1: 10 uF\n    - C2: 20 uF\n",
            "circuit: two lamps\n",
            [
                '2:10: found "two lamps"; expected a source and elements. Write each key '
                "on a line of its own, indented, with a colon and a space."
            ],
            id="circuit-is-text",
        ),
        pytest.param(
            NEST,
            "12 V",
            "12",
            [
                '3:11: found "12"; expected a voltage such as 12 V, a current such as 2 '
                "A or a charge such as 60 uC. Add the unit after 12."
            ],
            id="source-without-unit",
        ),
        pytest.param(
            NEST,
            "12 V",
            "12,5 V",
            [
                '3:11: found "12,5 V"; expected a voltage such as 12 V, a current such '
                "as 2 A or a charge such as 60 uC. Write the decimal point as a point: "
                '"12.5 V".'
            ],
            id="decimal-comma",
        ),
        pytest.param(
            NEST,
            "12 V",
            "0 V",
            [
                "3:11: found a source of 0 V; expected a voltage above zero. Leave the "
                "source out, or change its value."
            ],
            id="source-zero",
        ),
        pytest.param(
            NEST,
            "12 V",
            "-12 V",
            [
                "3:11: found a source of −12 V; expected a voltage above zero. Delete "
                "the minus sign."
            ],
            id="source-negative",
        ),
        pytest.param(
            NEST,
            "12 V",
            "2 A",
            [
                "3:11: found a current as the source of capacitors; expected a voltage "
                "such as 12 V or a charge such as 60 uC. Capacitors are driven by a "
                "voltage or a charge."
            ],
            id="current-for-capacitors",
        ),
        pytest.param(
            NEST,
            "  source: 12 V\n  series:\n    - C1: 10 uF\n    - C2: 20 uF\n",
            "  source: 60 uC\n  series:\n    - R1: 10 ohm\n    - R2: 20 ohm\n",
            [
                "3:11: found a charge as the source of resistors; expected a voltage "
                "such as 12 V or a current such as 2 A. Resistors are driven by a "
                "voltage or a current."
            ],
            id="charge-for-resistors",
        ),
        pytest.param(
            NEST,
            "12 V",
            "{V0: 12 V, V1: 3 V}",
            [
                '3:22: found more than one source, "V0" and "V1"; expected one source. '
                "Keep one of them, or write the circuit as branches, which may hold several."
            ],
            id="two-sources",
        ),
        pytest.param(
            NEST,
            "12 V",
            "[12 V]",
            [
                "3:11: found a list with 1 item; expected a source such as 12 V, or with "
                "a name, such as {V0: 12 V}. Write the source's value after the colon."
            ],
            id="source-in-a-list",
        ),
        pytest.param(
            NEST,
            "12 V",
            "{total: 12 V}",
            [
                '3:12: found the name "total" for a source; expected a name that means '
                "nothing else here. Choose a name such as C1, R2 or V0."
            ],
            id="reserved-source-name",
        ),
        pytest.param(
            NEST,
            "12 V",
            "{C1: 12 V}",
            [
                '3:12: found the name "C1" for a source and an element; expected each '
                "name once. Give one of the two another name."
            ],
            id="source-named-like-element",
        ),
        pytest.param(
            NEST,
            " 12 V",
            "",
            [
                '3:3: found nothing after "source:"; expected a voltage such as 12 V, a '
                "current such as 2 A or a charge such as 60 uC. Write a number and a "
                "unit after the colon."
            ],
            id="source-empty",
        ),
        pytest.param(
            NEST,
            "12 V",
            "10 uF",
            [
                '3:11: found "10 uF", a capacitance; expected a voltage such as 12 V, a '
                "current such as 2 A or a charge such as 60 uC. Change the unit: µF "
                "measures capacitance."
            ],
            id="capacitance-as-source",
        ),
        pytest.param(
            NEST,
            "12 V",
            "{V1: 12 V}",
            [
                '3:12: found the source "V1" beside the element "C1"; expected names '
                "that look different on the page. The voltage of C1 would be printed "
                "like the source. Give one of them another name, such as source: {Vs: 12 V}."
            ],
            id="source-looks-like-element",
        ),
        pytest.param(
            NEST,
            "source",
            "sorce",
            [
                '3:3: found the key "sorce"; expected source, series, parallel, branches, '
                'across, method, load, reference or place. Did you mean "source"?'
            ],
            id="misspelled-source",
        ),
    ],
)
def test_mistakes_in_keys_are_told_in_plain_words(
    sample: str, old: str, new: str, faults: list[str]
) -> None:
    """One change to a sound file yields just the faults of that change."""
    told = faults_of(changed(sample, old, new))
    assert told == [f"problem.yml:{fault}" for fault in faults]
