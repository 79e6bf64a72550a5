"""Made and shipped files on their way into MkDocs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel

from builder.pointing import harmless


def leading_out(files: Files, config: MkDocsConfig) -> Iterator[str]:
    """The files of the content that are links to somewhere outside the unit.

    What lies there would be published with the unit, whether or not its author knows. The unit is
    the folder of mkdocs.yml and that of the content, which may lie elsewhere.
    """
    homes = (Path(config.config_file_path or ".").resolve().parent, Path(config.docs_dir).resolve())
    for file in files:
        if file.abs_src_path and file.src_dir == config.docs_dir:
            path = Path(file.abs_src_path)
            if not any(path.resolve().is_relative_to(home) for home in homes):
                yield (f"{harmless(str(path))}: found a link that leads out of the unit; expected "
                       "a file of the unit. Put what it leads to in its place.")  # fmt: skip


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
