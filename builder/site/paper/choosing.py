"""Which problems go on a sheet: named ones, or those of a level or an objective."""

from __future__ import annotations

import difflib
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from builder.errors import Fault, FaultyFile
from builder.lesson import Lesson, write_lesson
from builder.problem import read_problem, read_unit
from builder.problem.model import LEVELS, Problem, Unit
from builder.problem.unit_of import UNIT_FILE
from builder.solution import solve

_NO_UNIT = Unit("")


@dataclass(frozen=True)
class Choice:
    """What a teacher asks for.

    Attributes:
        named: files of problems, or their names without .yml, in the order of the sheet.
        level: only problems of this level, or None.
        objective: only problems that train this objective, or None.
        command: what the teacher asked, for faults.
    """

    named: tuple[str, ...] = ()
    level: str | None = None
    objective: str | None = None
    command: str = "sheet"

    def fault(self, found: str, expected: str, advice: str) -> FaultyFile:
        """What is wrong with it."""
        return FaultyFile((Fault(self.command, 0, 0, found, expected, advice),))


@dataclass(frozen=True)
class Chosen:
    """Problems for a sheet, solved.

    Attributes:
        unit: the unit they come from; without a title if they come from none.
        lessons: at least one, in the order of the sheet, each with the unit of its file.
        number: of the set that their numbers are of; 0 for those that are written.
    """

    unit: Unit
    lessons: tuple[tuple[Lesson, Unit], ...]
    number: int = 0


def choose(content: Path, choice: Choice, folder: str = "problems") -> Chosen:
    """Read, solve and teach the chosen problems, and no others.

    Args:
        content: the folder of ``unit.yml``; need not be there if all problems are files.
        choice: which ones; without a name, the filters choose from the whole unit.
        folder: the folder of the problems inside the content.

    Raises:
        FaultyFile: if a problem or an objective is unknown, a file is faulty, or none is chosen.
        Disagreement, CheckFailed: if a solution cannot be trusted.
    """
    described = content / UNIT_FILE
    unit = read_unit(described, folder=folder) if described.is_file() else _NO_UNIT
    if not choice.named and choice.level is None and choice.objective is None:
        raise choice.fault("no problem",
                           "the names of one or more problems, a level or an objective",
                           "Try stepwell sheet --level intro.")  # fmt: skip
    if choice.objective is not None and choice.objective not in unit.objectives:
        advice = _suggest(choice.objective, unit.objectives, "Look there for its name.")
        raise choice.fault(
            f'the objective "{choice.objective[:60]}"', f"one of {described}", advice
        )
    available = {path.stem: path for path in sorted((content / folder).glob("*.yml"))}
    paths = _paths(choice, available) if choice.named else list(available.values())
    read = [_read(path, content, unit) for path in dict.fromkeys(paths)]
    kept = [(problem, of) for problem, of in read if _fits(problem, choice)]
    if not kept:
        found = f"{len(read)} problem{'' if len(read) == 1 else 's'} and none that fits"
        raise choice.fault(found, "one of that level and objective",
                           "Choose another level or objective.")  # fmt: skip
    if not choice.named:
        kept.sort(key=lambda pair: (LEVELS.index(pair[0].level), pair[0].slug))
    lessons = tuple((write_lesson(solve(problem)), of) for problem, of in kept)
    return Chosen(unit, lessons)


def _paths(choice: Choice, available: dict[str, Path]) -> list[Path]:
    """The file of each named problem."""
    paths = []
    for name in choice.named:
        if Path(name).is_file():
            paths.append(Path(name))
        elif name in available:
            paths.append(available[name])
        else:
            slug = Path(name).stem if name.endswith(".yml") else name
            advice = _suggest(slug, available, "Check it for typing mistakes.")
            raise choice.fault(f'"{name[:80]}"', "the file of a problem or its name without .yml",
                               advice)  # fmt: skip
    return paths


def _read(path: Path, content: Path, unit: Unit) -> tuple[Problem, Unit]:
    """A problem, with the unit that its file lies in."""
    home = path.resolve().parent.parent
    if home != content.resolve():
        described = home / UNIT_FILE
        inside = path.resolve().parent.name
        of = read_unit(described, folder=inside) if described.is_file() else None
        return read_problem(path, unit=of), of or _NO_UNIT
    return read_problem(path, unit=unit), unit


def _fits(problem: Problem, choice: Choice) -> bool:
    return (choice.level is None or problem.level == choice.level) and (
        choice.objective is None or choice.objective in problem.objectives
    )


def _suggest(name: str, known: Collection[str], otherwise: str) -> str:
    near = difflib.get_close_matches(name, list(known), n=1, cutoff=0.4)
    return f'Did you mean "{near[0]}"?' if near else otherwise
