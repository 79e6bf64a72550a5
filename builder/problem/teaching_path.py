"""The path of a unit: its lesson pages and problems in the order in which they are taught."""

from __future__ import annotations

from pathlib import Path

from builder.problem.faults.gathering import Faults, meant, quoted
from builder.problem.typed import as_items, as_text
from builder.problem.yaml_text.located import Entry, Text

LESSON_ENDING = ".md"


def read_path(entry: Entry, content: Path, folder: str, faults: Faults) -> tuple[str, ...]:
    """The stops of the path, each a lesson page (``sharing-a-junction.md``) or a problem's name.

    Args:
        entry: ``path:`` with its list.
        content: the folder of the unit's file, in which lesson pages are looked up.
        folder: the folder of the problems in it.
        faults: takes names that stand for nothing, and names that stand twice.
    """
    listed = as_items(entry.value, "a list of lesson pages and problems", faults)
    pages = sorted(
        page.relative_to(content).as_posix() for page in content.rglob(f"*{LESSON_ENDING}")
    )
    slugs = sorted(file.stem for file in (content / folder).glob("*.yml"))
    stops: dict[str, None] = {}
    for item in listed.items if listed else ():
        text = as_text(item, "a lesson page or the name of a problem", faults)
        if text is None:
            continue
        if text.value in stops:
            faults.add(text.at, f"{quoted(text.value)} a second time in the path",
                       "each lesson page and problem once", "Delete one of the two.")  # fmt: skip
        stops[text.value] = None
        _check_stop(text, pages, slugs, folder, faults)
    return tuple(stops)


def _check_stop(
    text: Text, pages: list[str], slugs: list[str], folder: str, faults: Faults
) -> None:
    """Note a fault if a stop is none of the unit's lesson pages or problems."""
    if text.value.endswith(LESSON_ENDING):
        if text.value not in pages:
            faults.add(text.at, f"the page {quoted(text.value)}",
                       "a lesson page in the folder of this file",
                       meant(text.value, pages, "Write the page, or take it out of "
                             "the path."))  # fmt: skip
        return
    if text.value not in slugs:
        faults.add(text.at, f"the problem {quoted(text.value)}",
                   f"the name of a file in {folder}/ without its .yml, or a page that ends in "
                   f"{LESSON_ENDING}",
                   meant(text.value, slugs, "Write the problem, or take it out of "
                         "the path."))  # fmt: skip
