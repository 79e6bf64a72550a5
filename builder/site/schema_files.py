"""The JSON Schemas as files: for a teacher's editor, and published with every site."""

from __future__ import annotations

import json
from pathlib import Path

from builder.problem import problem_schema, unit_schema
from builder.site.assets import BASE
from builder.site.whole_files import write_into

SCHEMAS = {"problem": problem_schema, "unit": unit_schema}
"""What makes each schema, by what it is of."""

HOME = ".schema"
"""The folder inside a unit's content that holds them; hosts of sites pass over such names."""


def schema_text(of: str) -> str:
    """The schema of a ``problem`` or a ``unit`` as JSON; same program, same bytes."""
    return json.dumps(SCHEMAS[of](), ensure_ascii=False, indent=2) + "\n"


def schema_name(of: str) -> str:
    """The name of a schema's file."""
    return f"{of}.schema.json"


def schema_files() -> dict[str, bytes]:
    """Both schemas by the names of their files."""
    return {schema_name(of): schema_text(of).encode() for of in SCHEMAS}


def published_schemas() -> dict[str, str]:
    """Both schemas by their addresses in a site."""
    return {f"{BASE}/{schema_name(of)}": schema_text(of) for of in SCHEMAS}


def modeline(of: str, up: str) -> str:
    """The comment by which editors find the schema of the file that it starts.

    That is an open convention of the YAML language server, which many editors use.

    Args:
        of: ``problem`` or ``unit``.
        up: the way from the file's folder to that of the unit: ``..`` or ``.``.
    """
    return f"# yaml-language-server: $schema={up}/{HOME}/{schema_name(of)}"


def write_schemas(folder: Path) -> tuple[Path, ...]:
    """Write both schemas into a folder, which is made if it is not there.

    Raises:
        FaultyFile: if they cannot be written; none is then.
    """
    contents = {folder / name: content for name, content in schema_files().items()}
    return write_into(folder, contents, "a folder for the schemas")
