"""The JSON Schema for editors says of problems what the reader says."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from builder.problem import problem_schema, unit_schema
from builder.problem.model import LEVELS
from builder.problem.shape import (
    BranchShape,
    ChoiceShape,
    CircuitShape,
    ElementShape,
    ItemShape,
    KeepShape,
    ProblemShape,
    QuestionShape,
    StepWordsShape,
    UnitShape,
    keys_of,
)
from tests.problem.samples import BRANCHES, FULL, NEST, changed, faults_of

CONTENT = Path(__file__).parent.parent.parent / "content"
SHAPES = (
    BranchShape, ChoiceShape, CircuitShape, ElementShape, ItemShape, ProblemShape,
    KeepShape, QuestionShape, StepWordsShape, UnitShape,
)  # fmt: skip


def errors(text: str, schema: dict[str, Any] | None = None) -> list[str]:
    """What an editor would underline."""
    validator = Draft202012Validator(schema or problem_schema())
    return [error.message for error in validator.iter_errors(yaml.safe_load(text))]


def test_the_schemas_are_schemas() -> None:
    """Both documents hold to draft 2020-12 and say what they are for."""
    for schema in (problem_schema(), unit_schema()):
        Draft202012Validator.check_schema(schema)
        assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
        assert schema["title"]
        assert schema["description"]


@pytest.mark.parametrize("text", [NEST, BRANCHES, FULL])
def test_sound_files_hold_to_the_schema(text: str) -> None:
    """An editor underlines nothing in what the reader takes."""
    assert faults_of(text) == []
    assert errors(text) == []


@pytest.mark.parametrize("find", ["charge", "[charge]", "[charge: total, energy: [C1, C2]]"])
def test_every_form_of_find_holds_to_the_schema(find: str) -> None:
    """What is asked may be a text or a list."""
    text = changed(NEST, "equivalent", find)
    assert faults_of(text) == []
    assert errors(text) == []


@pytest.mark.parametrize("file", sorted((CONTENT / "problems").glob("*.yml")), ids=lambda f: f.stem)
def test_the_demonstration_unit_holds_to_the_schema(file: Path) -> None:
    """Every problem that is shipped is one that editors take."""
    assert errors(file.read_text(encoding="utf-8")) == []


def test_the_unit_file_holds_to_its_schema() -> None:
    """The description of the shipped unit is one that editors take."""
    assert errors((CONTENT / "unit.yml").read_text(encoding="utf-8"), unit_schema()) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("title", "titel"),
        ("title: Two lamps\n", ""),
        ("find", "level: hard\nfind"),
        ("find", "digits: 11\nfind"),
        ("find", "objectives: energy\nfind"),
        ("12 V", "[12 V]"),
        ("10 uF", "ten uF"),
        ("10 uF", "{capacity: 10 uF}"),
        ("10 uF", "{capacitance: 10 uF, resistance: 1 ohm}"),
        ("- C1: 10 uF", "- parallel: [{C3: 1 uF}]"),
        ("- C1: 10 uF", "- parallel: {C3: 1 uF, C4: 1 uF}"),
        ("- C1: 10 uF", "- parallel: [{C3: 1 uF}, {C-4: 1 uF}]"),
        ("    - C2", "      C2"),
        ("find", "questions: [{ask: Why, because: x}]\nfind"),
        ("find", "words: {charge: {goals: x}}\nfind"),
        ("find", "vary: all\nfind"),
        ("find", "vary: {C1: [10 uF]}\nfind"),
        ("find", "vary: [C1]\nfind"),
        ("find", "keep: {digits: 0}\nfind"),
        ("find", "keep: {order: other}\nfind"),
    ],
)
def test_what_the_schema_refuses_the_reader_refuses(old: str, new: str) -> None:
    """Mistakes of structure are underlined while typing, and told by the reader as well."""
    text = changed(NEST, old, new)
    assert errors(text)
    assert faults_of(text)


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.__name__)
def test_every_key_is_described_with_an_example(shape: type[ProblemShape]) -> None:
    """An editor has something to show for each key."""
    for key, field in shape.model_fields.items():
        assert field.description, key
        assert field.description.endswith("."), key
        assert field.examples, key


def test_examples_hold_to_their_own_schema() -> None:
    """No example shows what would be refused."""
    schema = problem_schema()
    for key, part in schema["properties"].items():
        validator = Draft202012Validator({**part, "$defs": schema["$defs"]})
        for example in part.get("examples", ()):
            assert validator.is_valid(example), key


def test_the_reader_knows_every_key_of_the_shapes() -> None:
    """A key that is completed by the editor is never unknown to the reader."""
    told = faults_of("".join(f"{key}: x\n" for key in keys_of(ProblemShape)))
    assert not any("found the key" in fault for fault in told)


def test_levels_of_the_schema_are_those_of_the_model() -> None:
    """The list of levels has one source."""
    assert problem_schema()["properties"]["level"]["enum"] == list(LEVELS)
