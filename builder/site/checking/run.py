"""Checking all that there is to check, by all processors where there is much."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from builder.errors import Fault
from builder.problem.model import Unit
from builder.site.checking import FEWEST_FOR_HELP
from builder.site.checking.files import ToCheck
from builder.site.checking.one import Task, check_problem
from builder.site.checking.report import STRAY, Checked, Report
from builder.site.checking.unit import lesson_pages_in, odd_together, unit_in
from builder.site.workers import Crew, each_done


def check(
    found: ToCheck,
    seen: Callable[[], None] = lambda: None,
    fewest: int = FEWEST_FOR_HELP,
    crew: Crew | None = None,
) -> Report:
    """Check files, and what units say of themselves.

    Args:
        found: what there is to check.
        seen: called when a problem has been checked.
        fewest: problems from which on other processes help.
        crew: processes that help, if they were called already.
    """
    units = _units(found)
    files = list(found.files)
    tasks = [Task(str(file), _unit_of(file, found, units)) for file in files]
    checked: list[Checked] = []
    for one in each_done(check_problem, tasks, fewest, crew):
        checked.append(one)
        seen()
    before: list[Checked] = []
    for folder, (unit, of_unit) in units.items():
        if folder not in found.units:
            before += [of_unit] if of_unit.faults else []
            continue
        own = [at for at, file in enumerate(files) if found.files[file] == folder]
        pages, shown = lesson_pages_in(folder, [files[at].stem for at in own])
        odd = odd_together(folder, unit, [checked[at] for at in own], shown) if unit else {}
        before += [of_unit.with_oddities(odd.get(of_unit.path, ())), *pages]
        for at in own:
            checked[at] = checked[at].with_oddities(odd.get(checked[at].path, ()))
    return Report((*before, *_strays(found.strays), *checked))


def _units(found: ToCheck) -> dict[Path, tuple[Unit | None, Checked]]:
    """Each unit once, with what is wrong with its file."""
    folders = dict(found.units)
    for file, folder in found.files.items():
        if folder is not None:
            folders.setdefault(folder, file.absolute().parent.name)
    return {folder: unit_in(folder, problems) for folder, problems in folders.items()}


def _unit_of(
    file: Path, found: ToCheck, units: dict[Path, tuple[Unit | None, Checked]]
) -> Unit | None:
    folder = found.files[file]
    return units[folder][0] if folder is not None else None


def _strays(faults: Sequence[Fault]) -> list[Checked]:
    """The files that a build would refuse unread."""
    return [Checked(fault.path, part=STRAY, faults=(fault,)) for fault in faults]
