"""The reference of all keys, made from the shapes that the reader itself goes by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

import yaml
from markupsafe import Markup
from pydantic import BaseModel

from builder.problem import shape
from builder.problem.schema import problem_schema, unit_schema
from builder.site.author_text import inline

KEYS_PAGE = "authors/keys.md"
_WIDTH = 56


@dataclass(frozen=True)
class Key:
    """One key of a file.

    Attributes:
        name: as it is typed.
        anchor: leads to it, such as ``circuit-source``.
        about: what it is.
        needed: whether a file, or this part of it, must have it.
        words: what may stand there, if it is one word of a few.
        several: whether it may be several of these.
        examples: each as YAML.
    """

    name: str
    anchor: str
    about: Markup
    needed: bool
    words: tuple[str, ...]
    several: bool
    examples: tuple[str, ...]


@dataclass(frozen=True)
class Section:
    """The keys of one part of a file.

    Attributes:
        anchor: leads to it.
        heading: what the part is.
        about: where it stands, in Markdown.
        keys: in the order of the shape.
    """

    anchor: str
    heading: str
    about: str
    keys: tuple[Key, ...]


PARTS: tuple[tuple[type[BaseModel], str, str, str], ...] = (
    (shape.ProblemShape, "problem", "A problem's file", "At the start of a line."),
    (shape.CircuitShape, "circuit", "Circuit", "Under `circuit:`. What has no name of these is an "
     "element with a name of its own."),
    (shape.ItemShape, "item", "Groups", "In the lists of `series:` and `parallel:`, beside "
     "elements."),
    (shape.ElementShape, "element", "Elements in their long form", "In place of a value in a "
     "group. `C1: 10 uF` says the same, and is shorter."),
    (shape.BranchShape, "branch", "Branches", "Under the name of a branch, in `branches:`."),
    (shape.StageShape, "stage", "Stages", "In each stage of `stages:`."),
    (shape.ChangeShape, "change", "A change", "Under `change:`."),
    (shape.QuantityShape, "quantity", "Quantities", "Under the name of a quantity, in "
     "`quantities:`, where more is said than a value or a kind."),
    (shape.RelationShape, "relation", "Relations", "In `relations:`, where an equation has a "
     "reason."),
    (shape.PlatesShape, "plates", "Plates", "Under `plates:`."),
    (shape.FillingShape, "filling", "What fills the gap", "Under `filling:`."),
    (shape.PartShape, "part", "Layers and slabs", "In `layers:` and `slabs:`."),
    (shape.StepWordsShape, "words", "Words of a step", "Under a step's name, in `words:`."),
    (shape.QuestionShape, "question", "Questions", "In each question of `questions:`."),
    (shape.ChoiceShape, "choice", "Choices", "In each option of `choices:`."),
    (shape.KeepShape, "keep", "What must stay so", "Under `keep:`. Besides these, what is asked "
     "for may have a range: `charge: 1 uC to 1 mC`."),
    (shape.UnitShape, "unit", "unit.yml", "At the start of a line in `unit.yml`, which holds what "
     "the whole unit shares."),
)  # fmt: skip
"""Each part of a file: its shape, its anchor, its heading, and where it stands."""


@cache
def sections() -> tuple[Section, ...]:
    """All keys, part by part."""
    whole = {"ProblemShape": problem_schema(), "UnitShape": unit_schema()}
    known = {**whole["ProblemShape"]["$defs"], **whole["UnitShape"].get("$defs", {}), **whole}
    return tuple(
        Section(anchor, heading, about, tuple(_keys(part, known[part.__name__], anchor)))
        for part, anchor, heading, about in PARTS
    )


def _keys(part: type[BaseModel], schema: dict[str, Any], anchor: str) -> Iterator[Key]:
    for name, described in zip(shape.keys_of(part), part.model_fields.values(), strict=True):
        yield Key(
            name=name,
            anchor=f"{anchor}-{name}",
            about=inline(described.description or "", lambda _: None),
            needed=described.is_required(),
            words=_words(schema["properties"][name]),
            several=schema["properties"][name].get("type") == "array",
            examples=tuple(_written(name, example) for example in described.examples or ()),
        )


def _words(schema: dict[str, Any]) -> tuple[str, ...]:
    """The words of which one must be chosen, wherever in the schema of a value they stand."""
    options = [schema, *schema.get("anyOf", ()), schema.get("items", {})]
    return next((tuple(option["enum"]) for option in options if "enum" in option), ())


class _AsTyped(yaml.SafeDumper):
    """Writes numbers and the words yes and no without quotes, as an author types them."""


_AsTyped.yaml_implicit_resolvers = {}


def _written(name: str, example: object) -> str:
    """An example as one would type it: in one line if it is short."""
    typed = _texts({name: example})
    if isinstance(example, dict | list):
        flat = _dump(typed, default_flow_style=True)[1:-2] + "\n"
        if len(flat) <= _WIDTH:
            return flat
        deep = any(isinstance(part, dict | list) for part in _members(example))
        return _dump(typed, default_flow_style=None if deep else False)
    return _dump(typed, default_flow_style=False)


def _members(example: dict[str, Any] | list[Any]) -> list[Any]:
    return list(example.values()) if isinstance(example, dict) else example


def _dump(typed: object, *, default_flow_style: bool | None) -> str:
    return yaml.dump(typed, Dumper=_AsTyped, default_flow_style=default_flow_style,
                     sort_keys=False, allow_unicode=True, width=1000)  # fmt: skip


def _texts(example: object) -> object:
    """An example whose numbers are texts."""
    if isinstance(example, dict):
        return {key: _texts(value) for key, value in example.items()}
    if isinstance(example, list):
        return [_texts(value) for value in example]
    return str(example)
