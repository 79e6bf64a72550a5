"""Whole commands in processes of their own: how long, how much work, and how much memory."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

EVERY = 0.1
"""Seconds between two looks at the memory."""


@dataclass(frozen=True)
class Ran:
    """What a command took.

    Attributes:
        wall: seconds from its start to its end.
        work: seconds of all processors that it and the processes it started took.
        peak: mebibytes that all its processes held together at most, as seen every tenth of a
            second; what several of them share counts for each.
        code: its exit code.
    """

    wall: float
    work: float
    peak: float
    code: int

    def __str__(self) -> str:
        return f"{self.wall:.1f} s ({self.work:.1f} s of processors)"


@dataclass(frozen=True)
class Runner:
    """Runs commands of this project as an installed copy of it would.

    Attributes:
        compiled: a folder for compiled modules, as users' Python keeps them, so that no command
            but the first has to compile.
    """

    compiled: Path

    def stepwell(self, *arguments: str | Path, fine: Sequence[int] = (0,)) -> Ran:
        """A ``stepwell`` command."""
        code = "from builder.cli import main; main()"
        return self._run([sys.executable, "-c", code, *map(str, arguments)], Path.cwd(), fine)

    def build(self, folder: Path) -> Ran:
        """A strict build of the site in a folder."""
        command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--strict"]
        return self._run(command, folder, (0,))

    def _run(self, command: list[str], folder: Path, fine: Sequence[int]) -> Ran:
        given = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
        given |= {"PYTHONPYCACHEPREFIX": str(self.compiled), "NO_MKDOCS_2_WARNING": "1"}
        given["PYTHONPATH"] = str(Path(__file__).parent.parent.parent)
        start = time.perf_counter()
        running = subprocess.Popen(command, cwd=folder, env=given, stdout=subprocess.DEVNULL)
        with _watched(running.pid) as peak:
            _, status, used = os.wait4(running.pid, 0)
        wall = time.perf_counter() - start
        running.returncode = os.waitstatus_to_exitcode(status)
        if running.returncode not in fine:
            raise RuntimeError(f"{' '.join(command)} ended with code {running.returncode}")
        most = max(peak[0], used.ru_maxrss / 1024)
        return Ran(wall, used.ru_utime + used.ru_stime, most, running.returncode)


@contextmanager
def _watched(pid: int) -> Iterator[list[float]]:
    """Looks at the memory of a process and its children until the end; the most, in mebibytes."""
    most = [0.0]
    over = threading.Event()

    def look() -> None:
        while not over.wait(EVERY):
            most[0] = max(most[0], _resident(pid))

    thread = threading.Thread(target=look, daemon=True)
    thread.start()
    try:
        yield most
    finally:
        over.set()
        thread.join()


def _resident(pid: int) -> float:
    """The memory of a process and all below it, where the system tells it; else nothing."""
    home = Path("/proc") / str(pid)
    try:
        told = (home / "status").read_text()
        below = [int(child) for task in (home / "task").iterdir()
                 for child in (task / "children").read_text().split()]  # fmt: skip
    except OSError:
        return 0.0
    own = next((int(line.split()[1]) for line in told.splitlines() if line[:6] == "VmRSS:"), 0)
    return own / 1024 + sum(map(_resident, below))
