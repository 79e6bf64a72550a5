"""A page hangs on its problem alone: on no order of Python's sets, and on no number of workers."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from tests.site.pages import FLASHER, LEFTOVERS, write_unit

ROOT = Path(__file__).parents[2]

EVERY_PAGE = """
import hashlib
from pathlib import Path
from builder.lesson import write_lesson
from builder.problem import read_problem, read_unit
from builder.site.page import PARTS, ProblemPage
from builder.solution import solve

unit = read_unit(Path("content/unit.yml"), folder="problems")
for path in sorted(Path("content/problems").glob("*.yml")):
    page = ProblemPage(write_lesson(solve(read_problem(path, unit=unit))), unit, path.stem)
    parts = "".join(str(page.part(part)) for part in PARTS)
    print(path.stem, hashlib.sha256(parts.encode()).hexdigest())
"""

BUILD_WITH = """
import sys
from mkdocs.commands.build import build
from mkdocs.config import load_config
from builder.site import workers

workers.processors = lambda: int(sys.argv[1])
build(load_config("mkdocs.yml", strict=True))
"""


def test_pages_are_the_same_whatever_the_order_of_sets() -> None:
    """Two processes that hash differently write each page of the unit alike."""
    running = [
        subprocess.Popen(
            [sys.executable, "-c", EVERY_PAGE],
            cwd=ROOT, env={**os.environ, "PYTHONHASHSEED": seed}, stdout=subprocess.PIPE, text=True,
        )
        for seed in ("1", "3")
    ]  # fmt: skip
    one, other = (process.communicate()[0].splitlines() for process in running)
    assert len(one) > 30
    assert one == other


def test_sites_are_the_same_however_many_processors_make_them(tmp_path: Path) -> None:
    """Cold builds by one process and by several, hashing differently, write the same files."""
    problems = {f"p{n}": LEFTOVERS.replace("33", f"{n}") + "vary: none\n" for n in range(33, 37)}
    running: list[subprocess.Popen[bytes]] = []
    for count in ("1", "3"):
        write_unit(tmp_path / count, {"flasher": FLASHER, **problems})
        # Dates in the list of pages would tell when a site was built.
        given = {**os.environ, "PYTHONHASHSEED": count, "SOURCE_DATE_EPOCH": "0"}
        given["PYTHONPATH"] = str(ROOT)
        command = [sys.executable, "-c", BUILD_WITH, count]
        running.append(subprocess.Popen(command, cwd=tmp_path / count, env=given))
    assert [process.wait() for process in running] == [0, 0]
    one, other = (
        {
            path.relative_to(site).as_posix(): path.read_bytes()
            for path in site.rglob("*")
            if path.is_file()
        }
        for site in (tmp_path / "1" / "site", tmp_path / "3" / "site")
    )
    assert len(one) > 20
    assert "data-fresh-next" in one["problems/flasher.html"].decode()
    assert one == other
