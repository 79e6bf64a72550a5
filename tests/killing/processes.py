"""Builds in processes of their own, killed at a moment, and whatever of them is still alive."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

DAY = "1767225600"
"""The moment that all builds take for now: the site map tells the day of the build."""
_LOOKED = 0.005


def start(folder: Path, *options: str) -> subprocess.Popen[bytes]:
    """Start to build the site of a unit, as the first process of a group of its own."""
    return subprocess.Popen(
        [sys.executable, "-W", "ignore", "-m", "mkdocs", "build", "--quiet", *options],
        cwd=folder,
        env=os.environ | {"NO_MKDOCS_2_WARNING": "1", "SOURCE_DATE_EPOCH": DAY},
        start_new_session=True,
    )


def build(folder: Path, *options: str) -> float:
    """Build a site to its end; seconds.

    Raises:
        CalledProcessError: if it does not build.
    """
    begun = time.perf_counter()
    process = start(folder, *options)
    if process.wait():
        raise subprocess.CalledProcessError(process.returncode, process.args)
    return time.perf_counter() - begun


def build_killed(
    folder: Path, reached: Callable[[float], bool], *, whole_group: bool = True
) -> int:
    """Build a site and kill it.

    Args:
        folder: of the unit.
        reached: whether the moment has come; takes the seconds from the start of the build.
        whole_group: whether all its processes are killed, or the first alone.

    Returns:
        Its group; 0 if it had ended before.
    """
    begun = time.perf_counter()
    process = start(folder)
    while not reached(time.perf_counter() - begun):
        if process.poll() is not None:
            return 0
        time.sleep(_LOOKED)
    if whole_group:
        os.killpg(process.pid, signal.SIGKILL)
    else:
        process.kill()
    process.wait()
    return process.pid


def left_alive(group: int) -> list[int]:
    """The processes of a group that still run."""
    found = []
    for path in Path("/proc").iterdir():
        if path.name.isdigit():
            with contextlib.suppress(OSError):
                state, _, of_group = (
                    (path / "stat").read_text(encoding="ascii", errors="replace")
                    .rpartition(")")[2].split()[:3]
                )  # fmt: skip
                if int(of_group) == group and state != "Z":
                    found.append(int(path.name))
    return found


def wait_until_gone(group: int, seconds: float = 60) -> list[int]:
    """The processes of a group that still run after some seconds.

    One that is still starting ends once it has started, which takes long on a busy machine.
    """
    end = time.perf_counter() + seconds
    while (alive := left_alive(group)) and time.perf_counter() < end:
        time.sleep(0.05)
    return alive
