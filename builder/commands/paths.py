"""What a command takes for the path of a file or a folder."""

from __future__ import annotations

import errno
import os
from pathlib import Path
from typing import Any

import click

from builder.pointing import harmless

_SHOWN = 60
_IMPOSSIBLE = (errno.ENAMETOOLONG, errno.EINVAL)


class FilePath(click.Path):
    """A path that a file could have, whether or not one is there; else the call was wrong."""

    def __init__(self, path_type: type[Path] | type[str] = Path, *, dash: bool = False) -> None:
        super().__init__(path_type=path_type, allow_dash=dash)

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The path as it was typed."""
        try:
            os.lstat(value)
        except (ValueError, OSError) as error:
            if isinstance(error, ValueError) or error.errno in _IMPOSSIBLE:
                short = f"{value[:_SHOWN]}…" if len(value) > _SHOWN else value
                self.fail(f'No file can have the name "{harmless(short)}".', param, ctx)
        return super().convert(value, param, ctx)
