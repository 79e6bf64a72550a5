"""What is told of mistakes in an author's own questions."""

from __future__ import annotations

import pytest

from tests.problem.samples import NEST, changed, faults_of


@pytest.mark.parametrize(
    ("sample", "old", "new", "faults"),
    [
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: Why?\n",
            [
                '8:12: found "Why?"; expected a list of questions. Put each item on a '
                "line of its own, starting with a dash and a space."
            ],
            id="questions-as-text",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [Why?]\n",
            [
                '8:13: found "Why?"; expected a question with its answer or its choices. '
                "Write each key on a line of its own, indented, with a colon and a space."
            ],
            id="question-as-text",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{ask: Why}]\n",
            [
                "8:14: found a question without an answer or choices; expected "
                "answer: with a quantity, or choices: with options. Add answer: with a quantity, "
                "such as {charge: C2}, or choices:."
            ],
            id="question-without-answer",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{answer: {charge: C1}}]\n",
            [
                '8:13: found no "ask"; expected ask: with the question. Add a line with '
                'the key "ask".'
            ],
            id="answer-without-question",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{ask: Why, answer: {charge: all}}]\n",
            [
                "8:32: found 2 quantities as the answer; expected one quantity. Name one "
                "element, such as {charge: C2}."
            ],
            id="two-answers",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{ask: Why, answer: {charge: C1}, choices: [A, B]}]\n",
            [
                "8:46: found choices beside an answer; expected only one of the two. "
                "Delete one of them."
            ],
            id="answer-and-choices",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{ask: Why, choices: [A]}]\n",
            [
                "8:24: found only one option to choose from; expected at least two "
                "options. Add the others, each after a dash."
            ],
            id="one-choice",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{ask: Why, choices: [A, B]}]\n",
            [
                "8:24: found options none of which is right; expected exactly one right "
                "option. Add right: yes to one of them."
            ],
            id="none-right",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{ask: Why, choices: [{text: A, right: "
            "yes}, {text: B, right: true}]}]\n",
            [
                "8:24: found 2 options that are right; expected exactly one right "
                "option. Keep right: yes at one of them."
            ],
            id="two-right",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{ask: Why, choices: [{text: A, right: maybe}, B]}]\n",
            ['8:51: found "maybe"; expected yes or no. Write yes for the right option.'],
            id="maybe-right",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{ask: Why, choices: [{txt: A}, B]}]\n",
            ['8:35: found the key "txt"; expected text, right or reply. Did you mean "text"?'],
            id="misspelled-text",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{ask: Why, choices: [{text: A, right: yes}, A]}]\n",
            [
                '8:57: found the option "A" a second time; expected options that differ. '
                "Change one of the two."
            ],
            id="same-option",
        ),
        pytest.param(
            NEST,
            "find: equivalent\n",
            "find: equivalent\nquestions: [{ask: Why, answer: {current: C1}}]\n",
            [
                '8:33: found "current"; expected a quantity of capacitors: equivalent, '
                "charge, voltage or energy. Capacitors have no current; did you mean charge?"
            ],
            id="answer-of-resistors",
        ),
    ],
)
def test_mistakes_in_questions_are_told_in_plain_words(
    sample: str, old: str, new: str, faults: list[str]
) -> None:
    """One change to a sound file yields just the faults of that change."""
    told = faults_of(changed(sample, old, new))
    assert told == [f"problem.yml:{fault}" for fault in faults]
