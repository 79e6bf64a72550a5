"""A page hangs on its problem alone, and on no order in which Python keeps its sets."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

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
