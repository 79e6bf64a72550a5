"""What a check finds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from builder.errors import Fault, Oddity

UNIT, PAGE, STRAY = "unit", "lesson page", "other file"


@dataclass(frozen=True)
class Solved:
    """What is told of a problem that could be solved.

    Attributes:
        kind: the kind of problem, one word: ``nest``.
        called: the same in a teacher's words.
        steps: how many steps its solution shows.
        answers: how many quantities it asks for.
    """

    kind: str
    called: str
    steps: int
    answers: int


@dataclass(frozen=True)
class About:
    """What a unit must know of its problems to see what is odd about all of them together."""

    title: str
    objectives: tuple[str, ...]


@dataclass(frozen=True)
class Checked:
    """One file, checked.

    Attributes:
        path: as it was named.
        solved: of a problem whose two solutions agree; None of what is no problem, too.
        about: of a problem that could be read.
        faults: what a build would refuse, in the order of the file.
        oddities: what is allowed and hardly meant, likewise.
        broke: why Stepwell itself failed at a sound file; mostly empty.
        part: what it is if it is no problem: ``unit``, ``lesson page`` or ``other file``.
    """

    path: str
    solved: Solved | None = None
    about: About | None = None
    faults: tuple[Fault, ...] = ()
    oddities: tuple[Oddity, ...] = ()
    broke: str = ""
    part: str = ""

    @property
    def wrong(self) -> int:
        """How many things keep it from being published."""
        return len(self.faults) + bool(self.broke)

    @property
    def verdict(self) -> str:
        """One word for machines: ``agree``, or ``sound`` of what is no problem; else what is not.

        That is ``odd``, ``faulty`` or ``broken``.
        """
        if self.broke:
            return "broken"
        if self.faults:
            return "faulty"
        if self.oddities:
            return "odd"
        return "sound" if self.part else "agree"

    def with_oddities(self, more: Iterable[Oddity]) -> Checked:
        """The same with more oddities, in the order of the file."""
        return replace(self, oddities=tuple(sorted((*self.oddities, *more))))


@dataclass(frozen=True)
class Report:
    """All that was checked.

    Attributes:
        files: units, their lesson pages and their problems, in this order.
    """

    files: tuple[Checked, ...]

    @property
    def problems(self) -> tuple[Checked, ...]:
        """The problems among them."""
        return tuple(one for one in self.files if not one.part)

    @property
    def faults(self) -> int:
        """How many things keep files from being published."""
        return sum(one.wrong for one in self.files)

    @property
    def oddities(self) -> int:
        """How many things are odd."""
        return sum(len(one.oddities) for one in self.files)
