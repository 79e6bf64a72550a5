"""Every text of a lesson is a well-formed sentence, heading or fragment."""

from __future__ import annotations

import re
from collections.abc import Iterator
from enum import Enum, auto

import pytest
from hypothesis import given, settings

from builder.circuit.law import SERIES
from builder.lesson import Lesson
from builder.lesson.prose import NumberOf, Prose
from builder.lesson.questions import ChoiceQuestion, TypedQuestion
from builder.problem.model import NestProblem
from builder.quantity.names import Name
from builder.quantity.show import show
from builder.solution.nest.step import StepKind
from tests.lesson.telling import (
    asking,
    lesson_of,
    move_of,
    parallel,
    plain,
    series,
    taught_problems,
)


class Kind(Enum):
    """What a text is, which decides how it starts and ends."""

    SENTENCES = auto()
    QUESTION = auto()
    HEADING = auto()
    FRAGMENT = auto()
    INTRODUCTION = auto()


ENDS = {
    Kind.SENTENCES: r"[.]$",
    Kind.QUESTION: r"[?]$",
    Kind.HEADING: r"[^.?!:,;]$",
    Kind.FRAGMENT: r"[^.?!:,;]$",
    Kind.INTRODUCTION: r"[^.?!,;]:$",
}


def texts(lesson: Lesson) -> Iterator[tuple[Kind, Prose]]:
    """Every text that a lesson holds; empty ones are left out."""
    for kind, prose in (*_told(lesson), *_asked(lesson)):
        if prose:
            yield kind, prose


def _told(lesson: Lesson) -> Iterator[tuple[Kind, Prose]]:
    yield from ((Kind.FRAGMENT, item) for item in lesson.find)
    yield Kind.SENTENCES, lesson.plan
    for taught in lesson.steps:
        yield Kind.HEADING, taught.words.goal
        yield Kind.SENTENCES, taught.words.reason
        yield Kind.SENTENCES, taught.words.remark
    yield from ((Kind.INTRODUCTION, check.says) for check in lesson.checks)
    yield Kind.SENTENCES, lesson.checks_rest
    for slip in lesson.warnings:
        yield Kind.HEADING, (slip.rule.called,)
        yield Kind.SENTENCES, slip.sentence
        yield Kind.SENTENCES, slip.tempting
    if lesson.caution is not None:
        yield Kind.SENTENCES, lesson.caution.says


def _asked(lesson: Lesson) -> Iterator[tuple[Kind, Prose]]:
    predict = () if lesson.predict is None else (lesson.predict,)
    for question in (*predict, *lesson.questions):
        if not isinstance(question, ChoiceQuestion | TypedQuestion):
            continue  # those are read in tests/lesson/generated
        # A question may be led up to by a sentence, but it ends as a question.
        yield Kind.QUESTION, question.ask
        if isinstance(question, ChoiceQuestion):
            yield from ((Kind.HEADING, option.text) for option in question.options)
            yield from ((Kind.SENTENCES, option.reply) for option in question.options)


MANY = r"(?:[CR]\S*,? (?:and|to) [CR]\S*)"
SYMBOL = r"[CR][₀-₉_]\S*"
BLEMISHES = {
    "two spaces": r"  ",
    "space before punctuation": r" [,.;:?!)]",
    "space at an end": r"^\s|\s$",
    "doubled punctuation": r"[.,;:?!]{2}",
    "missing space": r"[,;?!][^\s\d]|[.:][A-Za-z]",
    "small letter after a full stop": r"[.?!] [a-z]",
    "brace": r"[{}]",
    "code": r"None|True|False|\w+\(\w+=|object at",
    "one with a plural": r"\b(?:1|one) (?:\w+ )?(?:capacitors|resistors|groups|moves|branches)\b",
    "several with a singular": r"\b(?:[2-9]|1\d|two|three|four|five|six|seven|eight|nine|ten|"
    r"eleven|twelve) (?:capacitor|resistor|group|move|branch)\b",
    "a before a vowel": r"\b[Aa] [aeiouAEIO]",
    "an before a consonant": r"\b[Aa]n [^aeiouAEIO]",
    "word twice": r"\b([A-Za-z]+) \1\b",
    "plural subject, singular verb": MANY + r" (?:carries|has|sits|begins|stands|shares|meets)\b",
    "single subject, plural verb": r"(?:^|[.] )(?:So )?" + SYMBOL
    + r" (?:carry|have|sit|begin|follow|share|form|meet)\b",
    "both of more than two": r"\S+, \S+ and " + SYMBOL + r" both\b",
}  # fmt: skip


def blemishes(text: str, kind: Kind) -> list[str]:
    """What is wrong with a text."""
    found = [name for name, pattern in BLEMISHES.items() if re.search(pattern, text)]
    if not re.search(ENDS[kind], text):
        found.append("ending")
    start = r"the [a-z]" if kind is Kind.FRAGMENT else r"[A-Z0-9½−]"
    if not re.match(start, text):
        found.append("beginning")
    for opening, closing in ("()", "[]", "“”"):
        if text.count(opening) != text.count(closing):
            found.append(f"unbalanced {opening}{closing}")
    if text.count('"') % 2:
        found.append("unbalanced quotes")
    return found


@given(problem=taught_problems())
@settings(max_examples=150)
def test_every_text_of_a_lesson_is_well_formed(problem: NestProblem) -> None:
    """Whatever the circuit, its source and what is asked."""
    lesson = lesson_of(problem)
    for kind, prose in texts(lesson):
        text = plain(prose, lesson.display)
        assert not blemishes(text, kind), text


@pytest.mark.parametrize(
    ("text", "kind", "blemish"),
    [
        ("Two  spaces.", Kind.SENTENCES, "two spaces"),
        ("A space before .", Kind.SENTENCES, "space before punctuation"),
        (" A space.", Kind.SENTENCES, "space at an end"),
        ("The end..", Kind.SENTENCES, "doubled punctuation"),
        ("First,second.", Kind.SENTENCES, "missing space"),
        ("First.Second.", Kind.SENTENCES, "missing space"),
        ("First. second.", Kind.SENTENCES, "small letter after a full stop"),
        ("What {is} it.", Kind.SENTENCES, "brace"),
        ("By Relation(text='Q = CV') it is.", Kind.SENTENCES, "code"),
        ("It is None.", Kind.SENTENCES, "code"),
        ("There are 1 capacitors.", Kind.SENTENCES, "one with a plural"),
        ("Merge two group.", Kind.SENTENCES, "several with a singular"),
        ("It is a equivalent.", Kind.SENTENCES, "a before a vowel"),
        ("It is an resistor.", Kind.SENTENCES, "an before a consonant"),
        ("Say the the same.", Kind.SENTENCES, "word twice"),
        ("C₁ and C₂ carries it.", Kind.SENTENCES, "plural subject, singular verb"),
        ("R₁ to R₆ has it.", Kind.SENTENCES, "plural subject, singular verb"),
        ("So C₁ carry it.", Kind.SENTENCES, "single subject, plural verb"),
        ("C₁, C₂ and C₃ both carry it.", Kind.SENTENCES, "both of more than two"),
        ("No full stop", Kind.SENTENCES, "ending"),
        ("No question.", Kind.QUESTION, "ending"),
        ("A heading.", Kind.HEADING, "ending"),
        ("small.", Kind.SENTENCES, "beginning"),
        ("It (is.", Kind.SENTENCES, "unbalanced ()"),
    ],
)
def test_the_reader_of_proofs_sees_blemishes(text: str, kind: Kind, blemish: str) -> None:
    """Each blemish is found in a text that has it."""
    assert blemish in blemishes(text, kind)


@given(problem=taught_problems())
@settings(max_examples=100)
def test_numbers_in_reasons_are_those_of_the_nodal_method(problem: NestProblem) -> None:
    """What is said to be carried over is what every member has by the independent method."""
    lesson = lesson_of(problem)
    solution, display = lesson.solution, lesson.display
    law, source = problem.law, problem.network.source
    for taught in lesson.steps:
        numbers = [p.name for p in taught.words.reason if isinstance(p, NumberOf)]
        step = move_of(taught)
        if step.kind is not StepKind.OPEN or not numbers:
            assert not numbers
            continue
        assert step.group is not None
        shared = law.flow if step.group.connection == SERIES else law.drop
        for part in step.group.parts:
            value = solution.second[Name(shared, part.id)]
            rounded = show(value, shared, problem.digits).text
            typed = source.shown.text if source is not None and source.value == value else None
            assert display.shown(numbers[0]).text in (rounded, typed)
            assert numbers[0].quantity == shared


FOUND = [
    (series("C1", "C2"), ("capacitance:total", "charge:total", "voltage:total", "energy:total"),
     ["the equivalent capacitance", "the charge that the source delivers",
      "the voltage of the source", "the total energy"]),
    (series("C1", "C2"), ("charge:C1", "charge:C2", "voltage:C1"),
     ["the charge on each capacitor", "the voltage across C₁"]),
    (series("C1", "C2", "C3"), ("energy:C1", "energy:C3"), ["the energies stored in C₁ and C₃"]),
    (parallel("R1", "R2", "R3"), ("current:R1", "current:R2", "power:R3"),
     ["the currents through R₁ and R₂", "the power in R₃"]),
    (parallel("R1", "R2", "R3"), ("power:R2", "power:R3", "resistance:R1"),
     ["the powers in R₂ and R₃", "the resistance of R₁"]),
    (series("R1", "R2", "R3"), ("voltage:R1", "voltage:R2"), ["the voltages across R₁ and R₂"]),
    ("R1", ("current:total", "current:R1", "power:total"),
     ["the current through R₁", "the power in R₁"]),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "asked", "told"), FOUND)
def test_what_is_asked_is_told_once(tree: str, asked: tuple[str, ...], told: list[str]) -> None:
    """The same quantity of several elements in one item, with its noun in the plural."""
    lesson = lesson_of(asking(tree, "12 V", *asked))
    assert [plain(item, lesson.display) for item in lesson.find] == told


def test_a_source_that_gives_the_flow_is_called_by_it() -> None:
    """Then the flow is the source's own, and the voltage across it is to be found."""
    lesson = lesson_of(asking(series("R1", "R2"), "2 A", "current:total", "voltage:total"))
    told = [plain(item, lesson.display) for item in lesson.find]
    assert told == ["the current of the source", "the voltage across the whole circuit"]
