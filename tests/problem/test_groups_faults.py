"""What is told of mistakes in nests of groups."""

from __future__ import annotations

import pytest

from tests.problem.samples import NEST, changed, faults_of


@pytest.mark.parametrize(
    ("sample", "old", "new", "faults"),
    [
        pytest.param(
            NEST,
            "- C1: 10 uF",
            "- paralel: [{C1: 1 uF}, {C3: 2 uF}]",
            ['5:7: found the key "paralel"; expected series or parallel. Did you mean "parallel"?'],
            id="misspelled-group",
        ),
        pytest.param(
            NEST,
            "- C1: 10 uF",
            "- parallel: [{C1: 1 uF}]",
            [
                "5:7: found only one element in parallel; expected at least two. Add the "
                'others, each after a dash, or write the element alone, without "parallel".'
            ],
            id="group-of-one",
        ),
        pytest.param(
            NEST,
            "- C1: 10 uF",
            "- parallel: []",
            [
                "5:7: found an empty list; expected at least two. Add the others, each "
                'after a dash, or write the element alone, without "parallel".'
            ],
            id="empty-group",
        ),
        pytest.param(
            NEST,
            "- C1: 10 uF",
            "- parallel: {C1: 1 uF, C3: 1 uF}",
            [
                '5:17: found keys with values (first "C1"); expected a list of elements '
                'in parallel. Start each line with a dash: "- C1: …".'
            ],
            id="group-without-dashes",
        ),
        pytest.param(
            NEST,
            "- C1: 10 uF",
            "- [{C1: 1 uF}, {C3: 1 uF}]",
            [
                "5:7: found a list with 2 items; expected an element with its value, "
                "such as C1: 10 uF. Name the group: series: or parallel:, with its list "
                "below."
            ],
            id="list-in-a-list",
        ),
        pytest.param(
            NEST,
            "    - C2",
            "      C2",
            [
                '6:7: found "C1" and "C2" in one item of a list; expected one element '
                'for each dash. Put a dash before "C2", below the dash above.'
            ],
            id="missing-dash",
        ),
        pytest.param(
            NEST,
            "    - C1: 10 uF\n    - C2",
            "    C1: 10 uF\n    C2",
            [
                '5:5: found keys with values (first "C1"); expected a list of elements '
                'in series. Start each line with a dash: "- C1: …".'
            ],
            id="no-dashes",
        ),
        pytest.param(
            NEST,
            "10 uF",
            "{capacitance: 10 ohm}",
            [
                '5:25: found "10 ohm", a resistance; expected a capacitance such as 10 '
                "uF. Change the unit: Ω measures resistance."
            ],
            id="long-form-other-unit",
        ),
        pytest.param(
            NEST,
            "10 uF",
            "{capacity: 10 uF}",
            [
                '5:12: found the key "capacity"; expected capacitance or resistance. Did '
                'you mean "capacitance"?'
            ],
            id="long-form-unknown-key",
        ),
        pytest.param(
            NEST,
            "10 uF",
            "{capacitance: 1 uF, resistance: 2 ohm}",
            [
                "5:31: found two values for C1; expected capacitance or resistance, not "
                "both. Delete one of them."
            ],
            id="long-form-two-values",
        ),
        pytest.param(
            NEST,
            "series:\n    - C1: 10 uF\n    - C2: 20 uF",
            "C1: 10 uF\n  C2: 20 uF",
            [
                '5:3: found "C2" beside "C1"; expected only one of series, parallel, '
                "branches or a single element. Put the elements into a list under "
                "series: or parallel:, each after a dash."
            ],
            id="two-loose-elements",
        ),
        pytest.param(
            NEST,
            "  series:\n    - C1: 10 uF\n    - C2: 20 uF\n",
            "",
            [
                "3:3: found a circuit without elements; expected series, parallel, "
                "branches or a single element such as C1: 10 uF. Add the elements."
            ],
            id="nothing-in-circuit",
        ),
        pytest.param(
            NEST,
            "series",
            "serise",
            [
                '4:3: found the key "serise"; expected source, series, parallel, '
                "branches, across, method, load, reference or place. Did you mean "
                '"series"?'
            ],
            id="misspelled-series",
        ),
        pytest.param(
            NEST,
            "find",
            "  parallel: [{C3: 1 uF}, {C4: 1 uF}]\nfind",
            [
                '7:3: found "parallel" beside "series"; expected only one of series, '
                "parallel, branches or a single element. Put one of the two as an item "
                "into the list of the other."
            ],
            id="series-and-parallel",
        ),
        pytest.param(
            NEST,
            "find",
            "  C5: 1 uF\nfind",
            [
                '7:3: found "C5" beside "series"; expected only one of series, parallel, '
                'branches or a single element. Move "C5" into the list, as "- C5: …".'
            ],
            id="element-beside-series",
        ),
        pytest.param(
            NEST,
            "find",
            "  across: [a, b]\nfind",
            [
                "7:3: found across without branches; expected across only beside "
                "branches. Delete it: the terminals are the two ends of the group."
            ],
            id="across-a-nest",
        ),
    ],
)
def test_mistakes_in_groups_are_told_in_plain_words(
    sample: str, old: str, new: str, faults: list[str]
) -> None:
    """One change to a sound file yields just the faults of that change."""
    told = faults_of(changed(sample, old, new))
    assert told == [f"problem.yml:{fault}" for fault in faults]
