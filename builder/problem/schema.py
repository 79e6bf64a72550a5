"""The JSON Schemas by which editors complete and check a unit's files."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

from builder.problem.shape import ProblemShape, UnitShape

_GIVEN = (("circuit",), ("quantities", "relations"), ("plates",))
"""What a problem gives: one of these must be in its file."""


def problem_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a problem's file, for editors.

    It has no ``$id`` and refers to itself alone, so that it can be read from any folder.
    """
    return {**_schema(ProblemShape), "anyOf": [{"required": list(keys)} for keys in _GIVEN]}


def unit_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of ``unit.yml``, for editors."""
    return _schema(UnitShape)


class _AsWritten(GenerateJsonSchema):
    """Keys in the order of the shapes, those of examples too, which authors read as YAML."""

    def sort(self, value: JsonSchemaValue, parent_key: str | None = None) -> JsonSchemaValue:
        return value


def _schema(shape: type[BaseModel]) -> dict[str, Any]:
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **_tidy(shape.model_json_schema(schema_generator=_AsWritten)),
    }


def _tidy(schema: Any) -> Any:
    """A schema without what a file cannot hold (null) or an editor would show twice (titles)."""
    if isinstance(schema, list):
        return [_tidy(part) for part in schema if part != {"type": "null"}]
    if not isinstance(schema, dict):
        return schema
    tidy = {key: _tidy(part) for key, part in schema.items() if part is not None}
    for described in (tidy.get("properties"), tidy.get("$defs")):
        for part in described.values() if isinstance(described, dict) else ():
            part.pop("title", None)
    options = tidy.get("anyOf")
    if isinstance(options, list) and len(options) == 1:
        tidy = {**tidy.pop("anyOf")[0], **tidy}
    return tidy
