"""``stepwell schema``: the JSON Schemas by which editors complete and check files."""

from __future__ import annotations

from pathlib import Path

import click

from builder.commands.paths import FilePath
from builder.commands.telling import kilobytes, named, stop, tell
from builder.errors import StepwellError
from builder.site.schema_files import SCHEMAS, schema_text, write_schemas


@click.command()
@click.argument("of", default="problem", type=click.Choice(tuple(SCHEMAS)),
                metavar="[problem|unit]")  # fmt: skip
@click.option("--out", type=FilePath(),
              help="Write both schemas into this folder instead.")  # fmt: skip
def schema(of: str, out: Path | None) -> None:
    """Print the JSON Schema of a problem's file, or of unit.yml.

    With it editors complete keys, explain them, and underline mistakes. A unit that stepwell
    start has made has both in content/.schema, and every site in assets/stepwell.

    Example: stepwell schema --out content/.schema
    """
    if out is None:
        tell(schema_text(of), end="")
        return
    try:
        written = write_schemas(out)
    except StepwellError as error:
        stop(error)
    for path in written:
        tell(f"{named(path)} ({kilobytes(path.stat().st_size)})")
