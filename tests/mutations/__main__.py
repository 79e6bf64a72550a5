"""``python -m tests.mutations``: judge many mutated files and tell the bad ones."""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from tests.mutations.judging import BAD
from tests.mutations.making import mutated
from tests.mutations.shrinking import shrunk
from tests.mutations.workers import Judged, Task, judged


def main() -> int:
    """Judge, print a tally and every distinct defect, and write their files."""
    asked = _asked()
    tally: Counter[str] = Counter()
    bad: dict[str, Judged] = {}
    slowest, peak, started = (0.0, 0), 0, time.monotonic()
    numbers = range(asked.first, asked.first + asked.count)
    tasks = (Task(n, asked.seed, page=n % asked.pages == 0) for n in numbers)
    for at, one in enumerate(judged(tasks, asked.jobs), 1):
        tally[one.verdict.kind] += 1
        slowest = max(slowest, (one.seconds, one.task.key))
        peak = max(peak, one.peak)
        if one.verdict.kind == BAD and one.verdict.told not in bad:
            bad[one.verdict.told] = one
            _say(f"BAD {one.task.key}: {one.verdict.told}")
        if at % 1000 == 0:
            _say(f"{at} files, {time.monotonic() - started:.0f} s: {dict(tally)}; slowest "
                 f"{slowest[0]:.2f} s (file {slowest[1]}), peak {peak // 2**20} MiB")  # fmt: skip
    for one in bad.values():
        _tell(one, asked.seed, asked.into, shrink=not asked.whole)
    _say(f"{sum(tally.values())} files with seed {asked.seed}: {tally['fine']} fine, "
         f"{tally['refused']} refused, {tally[BAD]} bad ({len(bad)} distinct); slowest "
         f"{slowest[0]:.2f} s (file {slowest[1]}), peak {peak // 2**20} MiB, "
         f"{time.monotonic() - started:.0f} s in all.")  # fmt: skip
    return 1 if bad else 0


def _say(text: str) -> None:
    sys.stdout.write(f"{text}\n")
    sys.stdout.flush()


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutations", description=__doc__)
    parser.add_argument("--count", type=int, default=1500, help="how many files")
    parser.add_argument("--seed", type=int, default=6, help="another seed gives other files")
    parser.add_argument("--first", type=int, default=0, help="the number of the first file")
    parser.add_argument("--jobs", type=int, default=1, help="processes at once")
    parser.add_argument("--pages", type=int, default=25, help="render the page of each n-th file")
    parser.add_argument("--whole", action="store_true", help="do not shorten bad files")
    into = Path(tempfile.gettempdir()) / "stepwell-mutations"
    parser.add_argument("--into", type=Path, default=into,
                        help="the folder for bad files")  # fmt: skip
    return parser.parse_args()


def _tell(one: Judged, seed: int, into: Path, *, shrink: bool) -> None:
    """Write a bad file, as short as can be, and print it with where it goes wrong."""
    raw = mutated(one.task.key, seed)
    if shrink:
        raw = shrunk(raw, one.verdict.told, page=one.task.page)
    into.mkdir(parents=True, exist_ok=True)
    file = into / f"{seed}-{one.task.key}.yml"
    file.write_bytes(raw)
    _say(f"\n{'=' * 8} {file}: {one.verdict.told}\n{one.verdict.trace[-1800:]}")
    _say(raw[:1500].decode("utf-8", "backslashreplace"))


if __name__ == "__main__":
    sys.exit(main())
