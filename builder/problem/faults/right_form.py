"""What stands in a file where something else should: an example of the right form, as YAML.

The examples are those of the schema, so that an author reads the same in a fault, in an editor
and in the guide. Only where the form is wrong an example helps: of what has the right form, but
cannot be, the fault says what is the matter.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from pydantic import BaseModel, ValidationError

from builder.problem.faults.gathering import Mark
from builder.problem.schema import problem_schema, unit_schema
from builder.problem.shape import ProblemShape, UnitShape
from builder.problem.yaml_text.in_yaml import in_yaml
from builder.problem.yaml_text.located import Items, Map, Node, Text

Path = tuple[str | int, ...]
"""The keys, and places in lists from 0, that lead from the top of a file to a place in it."""

_SCHEMAS = {ProblemShape: problem_schema, UnitShape: unit_schema}
_BY_LETTER = {"C": "10 uF", "R": "100 ohm", "V": "12 V", "I": "2 A"}
"""What is likely as the value of an element, by the first letter of its name."""
_ALIKE = "10 uF"
_OTHER_KINDS = ("quantities", "relations", "plates", "stages", "change")
"""Keys of problems of which other things are asked than in the schema's example."""


class Places:
    """What starts where in one file.

    Args:
        root: the whole file.
        shape: what it should look like.
    """

    def __init__(self, root: Map, shape: type[BaseModel]) -> None:
        self._shape = shape
        keys = [entry.key.value for entry in root.entries]
        self._of_other_kind = any(key in keys for key in _OTHER_KINDS)
        self._wrong = _wrong_places(root, shape)
        self._found: dict[tuple[int, int], tuple[Path, int]] = {}
        for path, at in _places(root):
            self._found.setdefault((at.line, at.column), (path, at.width))

    def width(self, line: int, column: int) -> int:
        """How many characters of its line the key, value or item at a place takes."""
        return self._found.get((line, column), ((), 1))[1]

    def example(self, line: int, column: int) -> str:
        """An example of what should stand at a place; empty if its form is right."""
        path = self._path(line, column)
        wrong = any(_leads_to(path, loc) or _holds(loc, path, type) for loc, type in self._wrong)
        return self._example(path) if path and wrong else ""

    def example_of_lacking(self, key: str, line: int, column: int) -> str:
        """An example of a key that lacks beside, below or around what starts at a place."""
        path = self._path(line, column)
        around = [path, *(path[:end] for end in range(len(path) - 1, -1, -1)), ("circuit",)]
        at = next((each for each in around if _may_have(each, key, self._shape)), None)
        return "" if at is None else self._example((*at, key))

    def _example(self, path: Path) -> str:
        """The example for a place, if it is one for this kind of problem."""
        return "" if path[0] == "find" and self._of_other_kind else example_of(path, self._shape)

    def _path(self, line: int, column: int) -> Path:
        return self._found.get((line, column), ((), 1))[0]


def _wrong_places(root: Node, shape: type[BaseModel]) -> tuple[tuple[Path, str], ...]:
    """Where a file has not the form of its shape, each with the name of what is wrong there."""
    try:
        shape.model_validate(plain(root))
    except ValidationError as error:
        told = error.errors(include_url=False, include_input=False)
        return tuple((each["loc"], each["type"]) for each in told)
    return ()


def _leads_to(path: Path, wrong: Path) -> bool:
    """Whether a wrong place lies at a path or below: its own steps stand among names of types."""
    rest = iter(wrong)
    return all(step in rest for step in path)


def _holds(wrong: Path, path: Path, type: str) -> bool:
    """Whether a path leads into what is of the wrong type as a whole."""
    return type.endswith("_type") and path[: len(wrong)] == wrong


def _places(root: Node) -> Iterator[tuple[Path, Mark]]:
    """Every key, value and item of a file; of what starts at the same place, the key first."""
    waiting: list[tuple[Path, Node]] = [((), root)]
    while waiting:
        path, node = waiting.pop()
        if isinstance(node, Map):
            yield from (((*path, entry.key.value), entry.key.at) for entry in node.entries)
            waiting.extend(((*path, each.key.value), each.value) for each in node.entries)
        elif isinstance(node, Items):
            waiting.extend(((*path, at), item) for at, item in enumerate(node.items))
        if path:
            yield path, node.at


def plain(node: Node) -> Any:
    """A node as the data that it stands for, all values as text."""
    match node:
        case Text(value):
            return value
        case Map(entries):
            return {entry.key.value: plain(entry.value) for entry in entries}
        case Items(items):
            return [plain(item) for item in items]
    return None


def example_of(path: Path, shape: type[BaseModel]) -> str:
    """The example of the schema for a place, or of the nearest key around it that has one.

    At the top of a file it is a whole file.
    """
    schema = _schema_of(shape)
    if not path:
        return "".join(in_yaml(example) for example in schema.get("examples", [])[:1])
    found: list[list[Any]] = []
    allowed: list[dict[str, Any]] = [schema]
    for step in path:
        allowed = [one for each in allowed for one in _below(each, step, schema)]
        found.append([example for each in allowed for example in _examples(each, schema)])
    for step, examples in reversed(list(zip(path, found, strict=True))):
        if not examples:
            continue
        example = examples[0]
        if isinstance(step, int):
            return in_yaml([example])
        likely = _BY_LETTER.get(step[:1]) if example == _ALIKE else None
        return in_yaml({step: likely or example})
    return ""


def _may_have(path: Path, key: str, shape: type[BaseModel]) -> bool:
    """Whether a key is one of those that a place may have by name."""
    schema = _schema_of(shape)
    allowed: list[dict[str, Any]] = [schema]
    for step in path:
        allowed = [one for each in allowed for one in _below(each, step, schema)]
    options = (option for each in allowed for option in _options(each, schema))
    return any(key in option.get("properties", {}) for option in options)


@cache
def _schema_of(shape: type[BaseModel]) -> dict[str, Any]:
    return _SCHEMAS[shape]()


def _options(part: dict[str, Any], schema: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """A part of a schema, and every alternative in it."""
    yield part
    reference = part.get("$ref")
    if reference is not None:
        yield from _options(schema["$defs"][reference.rpartition("/")[2]], schema)
    for option in (*part.get("anyOf", ()), *part.get("oneOf", ()), *part.get("allOf", ())):
        yield from _options(option, schema)


def _below(
    part: dict[str, Any], step: str | int, schema: dict[str, Any]
) -> Iterator[dict[str, Any]]:
    """What is allowed one step further down."""
    for option in _options(part, schema):
        if isinstance(step, int):
            below = option.get("items")
        else:
            below = option.get("properties", {}).get(step, option.get("additionalProperties"))
        if isinstance(below, dict):
            yield below


def _examples(part: dict[str, Any], schema: dict[str, Any]) -> Iterator[Any]:
    for option in _options(part, schema):
        yield from option.get("examples", ())
