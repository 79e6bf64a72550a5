"""How long ``stepwell check`` takes for a thousand distinct problems that it has never seen."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.bench.distinct import distinct_problems, unit_text
from tests.bench.running import Runner

PROBLEMS = 1000
AIM = 10.0
"""Seconds on two processors."""


def measure_checking() -> Iterator[str]:
    """Check a folder of problems of all kinds, once: nothing of it is kept from run to run."""
    with tempfile.TemporaryDirectory() as folder:
        content = Path(folder) / "content"
        problems = content / "problems"
        problems.mkdir(parents=True)
        (content / "unit.yml").write_text(unit_text(), encoding="utf-8")
        run = Runner(Path(folder) / "compiled")
        texts = distinct_problems(PROBLEMS)
        slug, text = next(iter(texts.items()))
        (problems / f"{slug}.yml").write_text(text, encoding="utf-8")
        run.stepwell("check", problems)  # has every module compiled
        one = run.stepwell("check", problems)
        for slug, text in texts.items():
            (problems / f"{slug}.yml").write_text(text, encoding="utf-8")
        # Numbers that nobody confirmed may make a problem that cannot be: code 1 tells of faults.
        ran = run.stepwell("check", problems, fine=(0, 1))
        ended = "without a fault" if ran.code == 0 else "with faults"
        yield f"check of one problem: {one}"
        yield (
            f"cold check of {PROBLEMS:,} distinct problems of all kinds, {ended}: {ran}; "
            f"aim {AIM:.0f} s on 2 processors: {'met' if ran.wall <= AIM else 'not met'}"
        )
        yield f"peak memory of that check, its processes together: {ran.peak:.0f} MiB"
