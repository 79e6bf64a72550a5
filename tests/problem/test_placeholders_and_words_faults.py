"""What is told of mistakes in an author's own texts."""

from __future__ import annotations

import pytest

from tests.problem.samples import NEST, changed, faults_of


@pytest.mark.parametrize(
    ("sample", "old", "new", "faults"),
    [
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nscenario: |\n  Look at {C3}.\n",
            [
                '9:11: found the placeholder "{C3}"; expected a name of the circuit: C1, '
                "C2 or V0. Correct the name, or double the braces to print them: {{ and }}."
            ],
            id="unknown-placeholder",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nplan: Look at {v0}.\n",
            [
                '8:15: found the placeholder "{v0}"; expected a name of the circuit: C1, '
                'C2 or V0. Did you mean "V0"?'
            ],
            id="placeholder-in-other-case",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nplan: Look at {C1.nam}.\n",
            [
                '8:15: found the placeholder "{C1.nam}"; expected {C1}, {C1.name} or '
                '{C1.value}. Did you mean "C1.name"?'
            ],
            id="placeholder-part",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nplan: Look at {C1.\n",
            [
                '8:15: found a single "{" in the text; expected braces around a name, '
                'such as {C1}. Complete the pair, or double it ("{{" or "}}") to print a '
                "brace."
            ],
            id="open-brace-in-text",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nplan: Look at C1}.\n",
            [
                '8:17: found a single "}" in the text; expected braces around a name, '
                'such as {C1}. Complete the pair, or double it ("{{" or "}}") to print a '
                "brace."
            ],
            id="closing-brace",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nplan: Look at {}.\n",
            [
                '8:15: found the placeholder "{}"; expected a name of the circuit: C1, C2 '
                "or V0. Correct the name, or double the braces to print them: {{ and }}."
            ],
            id="empty-placeholder",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nplan: {C1}\n",
            [
                '8:7: found keys with values (first "C1"); expected the plan as a text. '
                "Write a text; one that starts with a brace or a bracket goes between quotes."
            ],
            id="placeholder-without-quotes",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nplan: From {C7} to {R1}.\n",
            [
                '8:12: found the placeholder "{C7}"; expected a name of the circuit: C1, '
                "C2 or V0. Correct the name, or double the braces to print them: {{ and }}.",
                '8:20: found the placeholder "{R1}"; expected a name of the circuit: C1, '
                "C2 or V0. Correct the name, or double the braces to print them: {{ and }}.",
            ],
            id="two-placeholders",
        ),
        pytest.param(
            NEST,
            "  source: 12 V\n  series:\n    - C1: 10 uF\n    - C2: 20 uF\n",
            "  series:\n    - C1: 10 uF\n    - C2: 20 uF\nplan: Start at {V0}.\n",
            [
                '6:16: found the placeholder "{V0}"; expected a name of the circuit: C1 '
                "or C2. The circuit has no source. Add source: to it, or reword the text."
            ],
            id="source-placeholder-without-source",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nwords:\n  merge-totl: We merge.\n",
            [
                '9:3: found the step "merge-totl"; expected merge-total, charge, '
                "charge-total, open-total, energy or energy-total. Did you mean "
                '"merge-total"?'
            ],
            id="unknown-step",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nwords:\n  charge: {goals: We merge.}\n",
            ['9:12: found the key "goals"; expected goal or reason. Did you mean "goal"?'],
            id="unknown-word-key",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nwords:\n  energy: {goal: 'Look at {C9}'}\n",
            [
                '9:27: found the placeholder "{C9}"; expected a name of the circuit: C1, '
                "C2 or V0. Correct the name, or double the braces to print them: {{ and }}."
            ],
            id="placeholder-in-words",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nwords:\n  charge:\n",
            [
                '9:3: found nothing after "charge:"; expected the reason, or goal: and '
                "reason: below. Write it here, or delete the line."
            ],
            id="empty-words",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nwords: We merge.\n",
            [
                '8:8: found "We merge."; expected step ids with your words. Write each '
                "key on a line of its own, indented, with a colon and a space."
            ],
            id="words-as-text",
        ),
    ],
)
def test_mistakes_in_placeholders_and_words_are_told_in_plain_words(
    sample: str, old: str, new: str, faults: list[str]
) -> None:
    """One change to a sound file yields just the faults of that change."""
    told = faults_of(changed(sample, old, new))
    assert told == [f"problem.yml:{fault}" for fault in faults]
