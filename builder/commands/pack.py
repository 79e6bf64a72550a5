"""``stepwell pack``: the whole unit in one zip that needs no network."""

from __future__ import annotations

from pathlib import Path

import click

from builder.commands.paths import FilePath
from builder.commands.telling import counted, kilobytes, named, stop, tell
from builder.errors import StepwellError
from builder.site.pack import pack as pack_unit


@click.command()
@click.option("--site", type=FilePath(),
              help="A site that is built already; by default one is built.")  # fmt: skip
@click.option("--config", default="mkdocs.yml", type=FilePath(), show_default=True,
              help="What to build.")  # fmt: skip
@click.option("--out", default="unit.zip", type=FilePath(), show_default=True,
              help="The zip to write.")  # fmt: skip
@click.option("--force", is_flag=True, help="Overwrite a file that is no packed unit.")
def pack(site: Path | None, config: Path, out: Path, *, force: bool) -> None:
    """Put the whole unit into one zip that opens from any folder, without a network.

    Whoever unpacks it opens START-HERE.html. Nothing is written if a page asks for anything
    outside the zip, or if a link leads nowhere.

    Example: stepwell pack --out harbour-lights.zip
    """
    try:
        packed = pack_unit(out, site=site, config=config, force=force)
    except StepwellError as error:
        stop(error)
    tell(f"{named(packed.path)}: {counted(packed.files, 'file')}, {kilobytes(packed.unpacked)}, "
         f"zipped {kilobytes(packed.zipped)}; asks nothing of any other host.")  # fmt: skip
