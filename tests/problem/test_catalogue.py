"""The catalogue of faults: what authors are told of the mistakes that they make, word by word."""

from __future__ import annotations

import unicodedata
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from builder.errors import Fault
from builder.problem import problem_schema, unit_schema
from tests.problem.catalogue.cases import SOUND, Case, cases, faults_of, told_of

CASES = list(cases())
EVERY = pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)


def corrected(text: str, fault: Fault) -> str:
    """A file with the one line as a fault would have it."""
    lines = text.split("\n")
    lines[fault.line - 1] = fault.right
    return "\n".join(lines)


@pytest.mark.parametrize("file", sorted(SOUND.iterdir()), ids=lambda file: file.name)
def test_the_files_in_which_mistakes_are_made_are_sound(file: Path) -> None:
    """Nothing is told of a file before a mistake is made in it."""
    assert told_of(file.name, file.read_text(encoding="utf-8")) == ""


def test_the_catalogue_is_large_and_no_case_stands_twice() -> None:
    """At least sixty mistakes, each with an id and a text of its own."""
    assert len(CASES) >= 60
    assert max(Counter(case.id for case in CASES).values()) == 1
    assert max(Counter((case.of, case.text) for case in CASES).values()) == 1
    assert sum(case.structural for case in CASES) >= 30


@EVERY
def test_what_is_told_is_told_in_these_words(case: Case) -> None:
    """The whole text: what is wrong, the line with its mark, and how it would be right."""
    assert told_of(case.of, case.text) == case.told


@EVERY
def test_every_fault_shows_its_line_and_marks_what_is_in_it(case: Case) -> None:
    """Each fault has a place in the file, the line as it was typed, and a mark inside that line."""
    lines = case.text.split("\n")
    for fault in faults_of(case.of, case.text):
        assert 1 <= fault.line <= len(lines)
        assert fault.source == lines[fault.line - 1]
        assert 1 <= fault.column <= len(fault.source) + 1
        assert fault.width >= 1
        assert fault.column - 1 + fault.width <= max(len(fault.source), fault.column)


@EVERY
def test_a_corrected_line_is_right(case: Case) -> None:
    """With all corrected lines in place, none of their faults is told any more."""
    faults = faults_of(case.of, case.text)
    mended = [fault for fault in faults if fault.mends]
    text = case.text
    for fault in sorted(mended, key=lambda fault: -fault.line):
        text = corrected(text, fault)
    left = [(fault.found, fault.expected) for fault in faults_of(case.of, text)]
    assert not [fault for fault in mended if (fault.found, fault.expected) in left]
    if len(mended) == len(faults):
        assert left == []


@EVERY
def test_examples_are_yaml(case: Case) -> None:
    """What is shown as an example can be read as keys with values."""
    for fault in faults_of(case.of, case.text):
        if fault.right and not fault.mends:
            assert isinstance(yaml.safe_load(fault.right), dict | list), fault.right


@EVERY
def test_nothing_that_is_told_can_move_a_cursor(case: Case) -> None:
    """No control character of a file reaches the terminal, nor one that turns writing round."""
    for sign in told_of(case.of, case.text).replace("\n", ""):
        assert unicodedata.category(sign) not in ("Cc", "Cf", "Zl", "Zp")


@EVERY
def test_an_editor_underlines_what_is_marked_structural(case: Case) -> None:
    """The JSON Schema refuses what is marked so, and takes every other file that is YAML."""
    schema: dict[str, Any] = unit_schema() if case.of == "unit.yml" else problem_schema()
    try:
        data = yaml.safe_load(case.text)
    except yaml.YAMLError:
        assert not case.structural, "an editor underlines it as no YAML at all"
        return
    if not case.of.endswith(".md"):
        assert case.structural == bool(list(Draft202012Validator(schema).iter_errors(data)))
