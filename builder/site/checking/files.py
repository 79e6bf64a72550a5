"""What there is to check: whole units, the problems of one, or single files."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from builder.errors import Fault, FaultyFile
from builder.problem.faults.near_file import near_file
from builder.problem.unit_of import UNIT_FILE, home_of
from builder.site.sources import sources_and_faults

PROBLEMS = "problems"
_ENDING = ".yml"
_NO_PROBLEMS = (UNIT_FILE, "mkdocs.yml")


@dataclass
class ToCheck:
    """What there is to check.

    Attributes:
        files: the problems' files, each once, with the folder of the unit that it lies in.
        units: the folders of units that are checked whole, with the folder of their problems.
        strays: faults of files that a build would refuse unread.
    """

    files: dict[Path, Path | None] = field(default_factory=dict)
    units: dict[Path, str] = field(default_factory=dict)
    strays: list[Fault] = field(default_factory=list)


def to_check(paths: Iterable[Path]) -> ToCheck:
    """What files and folders name.

    A folder with a ``unit.yml``, or with a folder in it that has one, is a unit; the folder of a
    unit's problems stands for these, and any other folder for all problems inside it.

    Raises:
        FaultyFile: if a path does not exist, or a folder holds no problem.
    """
    found = ToCheck()
    for path in paths:
        if path.is_dir():
            _add_folder(path, found)
        elif path.is_file():
            found.files.setdefault(path, _unit_folder(path))
        else:
            advice = near_file(path) or "Check the path for typing mistakes."
            raise FaultyFile((Fault(str(path), 0, 0, "no such file or folder",
                                    "a problem's file or a folder of them", advice),))  # fmt: skip
    return found


def _add_folder(folder: Path, found: ToCheck) -> None:
    units = list(_units_in(folder))
    if units:
        for unit in units:
            _add_unit(unit, found)
        return
    of_unit = home_of(folder / "any")
    if (of_unit / UNIT_FILE).is_file():
        _add_sources(of_unit, folder, found)
        if found.files or found.strays:
            return
    inside = sorted(path for path in folder.rglob(f"*{_ENDING}") if _may_be_problem(path, folder))
    if not inside:
        raise FaultyFile((Fault(str(folder), 0, 0, "a folder without a problem",
                                "files that end in .yml",
                                "Name a folder that holds problems."),))  # fmt: skip
    for path in inside:
        found.files.setdefault(path, _unit_folder(path))


def _units_in(folder: Path) -> Iterator[Path]:
    """The folder itself if it is that of a unit, else those straight inside it that are."""
    if (folder / UNIT_FILE).is_file():
        yield folder
        return
    for inside in sorted(folder.iterdir()):
        if (inside / UNIT_FILE).is_file():
            yield inside


def _add_unit(unit: Path, found: ToCheck) -> None:
    folder = _folder_of_problems(unit)
    found.units[unit] = folder
    _add_sources(unit, unit / folder, found)


def _folder_of_problems(unit: Path) -> str:
    """Its usual name; where there is none of that name, the only folder with such files."""
    others = sorted({path.parent.name for path in unit.glob(f"*/*{_ENDING}")})
    return others[0] if not (unit / PROBLEMS).is_dir() and len(others) == 1 else PROBLEMS


def _add_sources(unit: Path, home: Path, found: ToCheck) -> None:
    """The problems in a folder of a unit, named as that folder is."""
    files, faults = sources_and_faults(unit, home.absolute().name)
    found.strays += faults
    for path in files:
        found.files.setdefault(home / path.name, unit)


def _unit_folder(file: Path) -> Path | None:
    """The folder of the unit that a problem's file lies in, if there is one."""
    home = home_of(file)
    return home if (home / UNIT_FILE).is_file() else None


def _may_be_problem(path: Path, folder: Path) -> bool:
    """Whether a file is no setting of another program, nor in a hidden folder."""
    inside = path.relative_to(folder)
    hidden = any(part.startswith(".") for part in inside.parts)
    return path.name not in _NO_PROBLEMS and not hidden and path.is_file()
