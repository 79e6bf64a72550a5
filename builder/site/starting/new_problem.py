"""A new problem in a unit: in its place as a whole, or not at all."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from builder.errors import Fault, FaultyFile
from builder.problem import read_unit
from builder.problem.model import Unit
from builder.problem.unit_of import UNIT_FILE
from builder.site.schema_files import HOME, schema_files
from builder.site.starting.draft import Draft
from builder.site.starting.names import good_name
from builder.site.whole_files import write_together

FOLDER = "problems"


@dataclass(frozen=True)
class Place:
    """Where a new problem goes.

    Attributes:
        folder: of the unit.
        unit: what its ``unit.yml`` says.
        slug: the problem's name.
    """

    folder: Path
    unit: Unit
    slug: str

    @property
    def file(self) -> Path:
        """The problem's file."""
        return self.folder / FOLDER / f"{self.slug}.yml"


def place_for(name: str, folder: Path, *, force: bool = False) -> Place:
    """The place of a new problem.

    Args:
        name: as typed, with or without ``.yml``.
        folder: of the unit.
        force: whether a file of that name may be overwritten.

    Raises:
        FaultyFile: if the name is no good one, if there is no unit, or if the place is taken.
    """
    slug = good_name(name)
    if not (folder / UNIT_FILE).is_file():
        found = f"no {UNIT_FILE} in it" if folder.is_dir() else "no such folder"
        raise _fault(folder, found, f"the folder of a unit, which holds {UNIT_FILE}",
                     "Name it with --unit, or make a new unit with stepwell start.")  # fmt: skip
    place = Place(folder, read_unit(folder / UNIT_FILE), slug)
    if not force:
        _refuse_taken(place)
    return place


def _refuse_taken(place: Place) -> None:
    """Refuse a name that a file has already, in small letters or large ones."""
    home = place.file.parent
    for other in sorted(home.iterdir()) if home.is_dir() else ():
        if other.name.casefold() == place.file.name:
            raise _fault(other, "a file that is there already", "a name that is free",
                         "Choose another name, or overwrite the file with --force.")  # fmt: skip


def write_problem(draft: Draft, place: Place) -> Path:
    """Write a problem into its place, and for editors the schemas that its first line names.

    Raises:
        FaultyFile: if it cannot be written; nothing is then.
    """
    home = place.folder / HOME
    contents = {home / name: content for name, content in schema_files().items()}
    contents = {path: content for path, content in contents.items() if not _holds(path, content)}
    contents[place.file] = draft.text.encode()
    try:
        for path in contents:
            path.parent.mkdir(exist_ok=True)
        write_together(contents)
    except OSError as error:
        raise _fault(place.file, f"a place that cannot be written ({error.strerror})",
                     "a folder of yours", "Look at its permissions.") from error  # fmt: skip
    return place.file


def _holds(path: Path, content: bytes) -> bool:
    return path.is_file() and path.read_bytes() == content


def _fault(path: Path, found: str, expected: str, advice: str) -> FaultyFile:
    return FaultyFile((Fault(str(path), 0, 0, found, expected, advice),))
