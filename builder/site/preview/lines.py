"""A fault as a template shows it: each piece of it harmless, its line in three parts."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import PurePosixPath
from textwrap import dedent

from builder.errors import Fault, FaultyFile, StepwellError
from builder.pointing import around, harmless, visible


@dataclass(frozen=True)
class ShownFault:
    """One fault.

    Attributes:
        file: its file.
        line: from 1; 0 if it lies in none.
        column: from 1; 0 likewise.
        found, expected, advice: what it says.
        before, at, after: the line of the file round the place; all empty if there is none.
        right: the lines of the right form.
        mends: whether they are this very line, corrected, and not an example alone.
    """

    file: str
    line: int
    column: int
    found: str
    expected: str
    advice: str
    before: str
    at: str
    after: str
    right: tuple[str, ...]
    mends: bool

    @property
    def where(self) -> str:
        """The place in words."""
        return f"Line {self.line}, column {self.column}" if self.line else "The file as a whole"

    @property
    def quoted(self) -> bool:
        """Whether there is a line to show."""
        return bool((self.before + self.at + self.after).strip())


def shown(fault: Fault) -> ShownFault:
    """A fault as it is shown."""
    parts = around(fault.source, fault.column, fault.width) if fault.line else ("", "", "")
    right = tuple(map(visible, dedent(fault.right).split("\n"))) if fault.right else ()
    return ShownFault(
        harmless(fault.path),
        fault.line,
        fault.column,
        harmless(fault.found),
        harmless(fault.expected),
        harmless(fault.advice),
        *parts,
        right,
        fault.mends,
    )


@dataclass(frozen=True)
class Trouble:
    """What is wrong with one file.

    Attributes:
        name: the file's name.
        faults: what is wrong in it, for its author.
        ours: else what Stepwell says of itself; empty if the fault is the author's.
        address: of the page that tells all of it; empty if there is none.
    """

    name: str
    faults: tuple[ShownFault, ...] = ()
    ours: str = ""
    address: str = ""


def trouble_with(slug: str, error: StepwellError, address: str = "") -> Trouble:
    """What is wrong with the problem of that name."""
    name = f"{slug}.yml"
    if isinstance(error, FaultyFile):
        return Trouble(name, tuple(map(shown, error.faults)), address=address)
    return Trouble(name, ours=harmless(str(error)), address=address)


def troubles_of(faults: tuple[Fault, ...]) -> tuple[Trouble, ...]:
    """Faults of any files, by file."""
    paths = dict.fromkeys(fault.path for fault in faults)
    return tuple(
        Trouble(
            harmless(PurePosixPath(path).name),
            tuple(shown(fault) for fault in faults if fault.path == path),
        )
        for path in paths
    )
