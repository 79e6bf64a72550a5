"""Made and shipped files on their way into MkDocs."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel


def add_pages(files: Files, config: MkDocsConfig, made: Mapping[str, str]) -> None:
    """Add pages of Markdown, outside the navigation; one that an author has written stays.

    Args:
        files: of the site.
        config: of the site.
        made: the Markdown by source path.
    """
    for path, markdown in made.items():
        if files.get_file_from_path(path) is None:
            page = File.generated(config, path, content=markdown)
            page.inclusion = InclusionLevel.NOT_IN_NAV
            files.append(page)


def add_files(files: Files, config: MkDocsConfig, made: Mapping[str, Path | str | bytes]) -> None:
    """Add other files.

    Args:
        files: of the site.
        config: of the site.
        made: what each holds, or the file to copy, by its path in the site.
    """
    for path, content in made.items():
        if isinstance(content, Path):
            files.append(File.generated(config, path, abs_src_path=str(content)))
        else:
            files.append(File.generated(config, path, content=content))
