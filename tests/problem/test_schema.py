"""The JSON Schema for editors says of problems what the reader says."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from builder.errors import FaultyFile
from builder.problem import problem_schema, read_problem_text, unit_schema
from builder.problem.model import LEVELS
from builder.problem.relations.quantities import KIND_WORDS
from builder.problem.shape import (
    BranchShape,
    ChangeShape,
    ChoiceShape,
    CircuitShape,
    ElementShape,
    FillingShape,
    ItemShape,
    KeepShape,
    PartShape,
    PlatesShape,
    ProblemShape,
    QuantityShape,
    QuestionShape,
    RelationShape,
    StageShape,
    StepWordsShape,
    UnitShape,
    keys_of,
)
from builder.problem.shape.keys import (
    ALONE_WORDS,
    KIND_NAMES,
    MEASURED_WORDS,
    QUANTITY_WORDS,
)
from tests.problem.samples import BRANCHES, FULL, NEST, changed, faults_of
from tests.site.guide.texts import PROBLEMS, all_examples

CONTENT = Path(__file__).parent.parent.parent / "content"
SHAPES = (
    BranchShape, ChoiceShape, CircuitShape, ElementShape, ItemShape, ProblemShape,
    KeepShape, QuestionShape, StepWordsShape, UnitShape, ChangeShape, StageShape, QuantityShape,
    RelationShape, PlatesShape, FillingShape, PartShape,
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


def test_the_words_of_the_schema_are_those_of_the_reader() -> None:
    """Kinds of unknown quantities have one list; a test keeps both places in step."""
    assert set(KIND_NAMES) == set(KIND_WORDS)


FILES = {yaml.safe_load(text)["title"]: text for text in PROBLEMS.values()}
"""The problems of the guide by their titles."""

CLAMPS = """title: Two clamps
circuit:
  method: equivalent-source
  across: [a, b]
  branches:
    V0: {emf: 6 V, between: [p, b]}
    C1: {capacitance: 2 uF, between: [p, a]}
    C2: {capacitance: 4 uF, between: [a, b]}
find: open-voltage
"""
ASKED = {
    "capacitors": (NEST, "find: equivalent"),
    "resistors": (FILES["The chart lamp's lost label"], "find: [R2, {power: R2}]"),
    "branches": (BRANCHES, "find: equivalent"),
    "between clamps": (CLAMPS, "find: open-voltage"),
    **{
        title: (FILES[title], FILES[title][FILES[title].index("find:") :].split("\nvary")[0])
        for title in (
            "The charger and the battery share a lamp",
            "What the two clamps offer",
            "The reserve joins in",
            "The lamp's memory fades",
        )
    },
}
ENDS = ("C1", "R1", "R3", "R5", "all", "total", "lamp", "lost", "{C1: start}", "{R2: start}",
        "{C1: 4 V}")  # fmt: skip


def taken(item: str) -> bool:
    """Whether some kind of problem can be asked for that."""
    for text, find in ASKED.values():
        try:
            read_problem_text(text.replace(find, f"find: [{item}]"), "asked.yml")
        except FaultyFile:
            continue
        return True
    return False


EVERY_WORD = sorted({*QUANTITY_WORDS, *ALONE_WORDS, "heat", "field", "area", "loss"})


@pytest.mark.parametrize("word", EVERY_WORD)
def test_what_can_be_asked_is_what_the_reader_takes(word: str) -> None:
    """A word that is completed before a colon, or alone, can be asked for; no other one can."""
    before_colon = any(taken(f"{word}: {end}") for end in ENDS)
    assert before_colon or word not in QUANTITY_WORDS
    assert word in (*QUANTITY_WORDS, *ALONE_WORDS) or not before_colon
    assert taken(word) or word not in ALONE_WORDS


def test_what_can_be_measured_is_what_the_reader_takes() -> None:
    """The words under measured: are the equivalent and what elements have."""
    assert set(MEASURED_WORDS) == {
        "equivalent", "charge", "voltage", "energy", "current", "power",
    }  # fmt: skip
    text = FILES["The chart lamp's lost label"]
    for word in ("current", "voltage", "power"):
        assert not faults_of(text.replace("current: {R1: 2 A}", f"{word}: {{R1: {_UNITS[word]}}}"))


_UNITS = {"current": "2 A", "voltage": "4 V", "power": "8 W"}


def test_the_examples_of_the_guide_hold_to_the_schema() -> None:
    """An editor underlines nothing in what the guide shows, whole or added to a problem."""
    shown = list(all_examples())
    assert len(shown) >= 25
    for text, shape in shown:
        assert errors(text, unit_schema() if shape is UnitShape else None) == [], text


def described(schema: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every key of a schema with what an editor knows of it."""
    for name, part in (("", schema), *schema.get("$defs", {}).items()):
        for key, about in part.get("properties", {}).items():
            yield f"{name}.{key}", about


@pytest.mark.parametrize("schema", [problem_schema(), unit_schema()], ids=["problem", "unit"])
def test_an_editor_can_explain_every_key(schema: dict[str, Any]) -> None:
    """Each key has a description in sentences and an example, in the schema as it is written."""
    keys = list(described(schema))
    assert len(keys) >= 6
    for key, about in keys:
        assert about["description"].endswith("."), key
        assert about["examples"], key


def test_every_example_of_a_key_holds_to_its_schema() -> None:
    """What an editor proposes is nothing that it would underline."""
    for schema in (problem_schema(), unit_schema()):
        for key, about in described(schema):
            validator = Draft202012Validator({**about, "$defs": schema.get("$defs", {})})
            for example in about["examples"]:
                assert validator.is_valid(example), (key, example)


@pytest.mark.parametrize("schema", [problem_schema(), unit_schema()], ids=["problem", "unit"])
def test_a_schema_needs_nothing_beside_it(schema: dict[str, Any]) -> None:
    """It has no address of its own and refers to itself alone, so it works from any folder."""

    def parts(part: Any) -> Iterator[dict[str, Any]]:
        if isinstance(part, dict):
            yield part
            for inner in part.values():
                yield from parts(inner)
        for inner in part if isinstance(part, list) else ():
            yield from parts(inner)

    for part in parts(schema):
        assert "$id" not in part
        assert str(part.get("$ref", "#/")).startswith("#/")


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.__name__)
def test_keys_that_do_not_exist_are_underlined(shape: type[ProblemShape]) -> None:
    """Only where names are free can other keys stand: elements, and what is kept in a range."""
    free = ("CircuitShape", "ItemShape", "KeepShape")
    assert (shape.model_config.get("extra") == "forbid") == (shape.__name__ not in free)


WRONG = [
    ("The foghorn", "The current of the foghorn", "kind: current", "kind: curent"),
    ("no relations", "The current of the foghorn", "relations:", "relation:"),
    ("an unknown key", "The current of the foghorn", "because:", "becuase:"),
    ("a quantity without value", "The current of the foghorn", "V: 12 V", "V: [12 V]"),
    ("a gap without unit", "A sheet slides in", "gap: 2 mm", "gap: 2"),
    ("a quoted gap without unit", "A sheet slides in", "gap: 2 mm", 'gap: "2"'),
    ("a battery word", "A sheet slides in", "battery: connected", "battery: on"),
    ("a filling key", "A sheet slides in", "kappa: 2.5", "kapa: 2.5"),
    ("no find", "A sheet slides in", "find:", "fin:"),
    ("a switch word", "The reserve joins in", "switch: closed", "switch: shut"),
    ("a stage key", "The reserve joins in", "close: S2}", "shut: S2}"),
    ("a charge without unit", "The reserve joins in", "charged: 6 V", "charged: 6"),
    ("one junction", "The reserve joins in", "[plus, top]", "[plus]"),
    ("a find word", "The reserve joins in", "energy: lost", "enrgy: lost"),
    ("two words in one item", "The reserve joins in", "- energy: lost", "  energy: lost"),
    ("a change key", "The lamp's memory fades", "{open: S1}", "{opens: S1}"),
    ("nothing changes", "The lamp's memory fades", "{open: S1}", "{}"),
    ("a method", "The charger and the battery share a lamp", "method: junctions", "method: guess"),
    ("an emf without unit", "The charger and the battery share a lamp", "emf: 16 V", "emf: 16"),
    ("a place", "The charger and the battery share a lamp", "left: [0, 1]", "left: [0]"),
    ("a measured word", "The chart lamp's lost label", "current: {R1: 2 A}", "amps: {R1: 2 A}"),
    ("unknown", "The chart lamp's lost label", "R2: unknown", "R2: {unknown: yes}"),
    ("an empty find", "The chart lamp's lost label", "find: [R2, {power: R2}]", "find: {R2: 1}"),
]


@pytest.mark.parametrize(
    ("title", "old", "new"), [row[1:] for row in WRONG], ids=[row[0] for row in WRONG]
)
def test_mistakes_of_form_are_underlined_in_every_kind(title: str, old: str, new: str) -> None:
    """A key that does not exist, a value without unit, a wrong word: editor and reader refuse."""
    assert old in FILES[title]
    text = FILES[title].replace(old, new, 1)
    assert errors(text)
    assert faults_of(text)


def test_a_problem_without_anything_given_is_underlined() -> None:
    """A file must have a circuit, equations or plates."""
    assert errors("title: Nothing\nfind: equivalent\n")
    assert errors("title: Half\nquantities: {V: 12 V, I: current}\nfind: I\n")


@pytest.mark.parametrize(
    "text",
    ["titel: U", "digits: 3", "title: U\nsymbols: din", "title: U\ndigits: many",
     "title: U\nobjectives: [a]", "title: U\npath: a", "title: U\nleave-out: [all]"],
)  # fmt: skip
def test_mistakes_of_form_in_a_unit_are_underlined(text: str) -> None:
    """Unknown keys, a missing title and wrong types in unit.yml are refused."""
    assert errors(text, unit_schema())
