"""Solve and cross-check many problems, and gather what is wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

from builder.errors import Fault, FaultyFile, StepwellError
from builder.lesson import write_lesson
from builder.lesson.apart import telling_apart
from builder.problem import read_problem
from builder.problem.model import Unit
from builder.problem.unit_of import UNIT_FILE
from builder.solution import solve


def problem_files(paths: Iterable[Path]) -> list[Path]:
    """The problems' files that ``paths`` name, each once; a folder stands for all inside it.

    Raises:
        FaultyFile: if a path does not exist, or a folder holds no problem.
    """
    found: dict[Path, None] = {}
    for path in paths:
        if path.is_dir():
            inside = sorted(p for p in path.rglob("*.yml") if p.name != UNIT_FILE)
            if not inside:
                raise FaultyFile((Fault(str(path), 0, 0, "a folder without a problem",
                                        "files that end in .yml",
                                        "Name a folder that holds problems."),))  # fmt: skip
            found.update(dict.fromkeys(inside))
        elif path.is_file():
            found[path] = None
        else:
            raise FaultyFile((Fault(str(path), 0, 0, "no such file or folder",
                                    "a problem's file or a folder of them",
                                    "Check the path for typing mistakes."),))  # fmt: skip
    return list(found)


def check_all(files: Iterable[Path], unit_of: Callable[[Path], Unit | None]) -> list[str]:
    """One line a fault; nothing for what can be read, agrees and can be taught."""
    lines: list[str] = []
    for file in files:
        try:
            telling_apart(write_lesson(solve(read_problem(file, unit=unit_of(file)))))
        except StepwellError as error:
            lines.extend(str(error).splitlines())
    return lines
