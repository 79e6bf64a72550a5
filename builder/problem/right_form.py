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

from builder.problem.gathering import Mark
from builder.problem.in_yaml import in_yaml
from builder.problem.located import Items, Map, Node, Text
from builder.problem.schema import problem_schema, unit_schema
from builder.problem.shape import ProblemShape, UnitShape

Path = tuple[str | int, ...]
"""The keys, and places in lists from 0, that lead from the top of a file to a place in it."""

_SCHEMAS = {ProblemShape: problem_schema, UnitShape: unit_schema}
_BY_LETTER = {"C": "10 uF", "R": "100 ohm", "V": "12 V", "I": "2 A"}
"""What is likely as the value of an element, by the first letter of its name."""
_ALIKE = "10 uF"


class Places:
    """What starts where in one file.

    Args:
        root: the whole file.
        shape: what it should look like.
    """

    def __init__(self, root: Node, shape: type[BaseModel]) -> None:
        self._shape = shape
        self._wrong = _wrong_places(root, shape)
        self._found: dict[tuple[int, int], tuple[Path, int]] = {}
        for path, at in _places(root):
            self._found.setdefault((at.line, at.column), (path, at.width))

    def width(self, line: int, column: int) -> int:
        """How many characters of its line the key, value or item at a place takes."""
        return self._found.get((line, column), ((), 1))[1]

    def example(self, line: int, column: int) -> str:
        """An example of what should stand at a place; empty if its form is right."""
        path, _ = self._found.get((line, column), ((), 1))
        if not path or not any(_leads_to(path, wrong) for wrong in self._wrong):
            return ""
        return example_of(path, self._shape)


def _wrong_places(root: Node, shape: type[BaseModel]) -> tuple[Path, ...]:
    try:
        shape.model_validate(plain(root))
    except ValidationError as error:
        return tuple(each["loc"] for each in error.errors(include_url=False, include_input=False))
    return ()


def _leads_to(path: Path, wrong: Path) -> bool:
    """Whether a wrong place lies at a path or below: its own steps stand among names of types."""
    rest = iter(wrong)
    return all(step in rest for step in path)


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
    allowed = [schema]
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
