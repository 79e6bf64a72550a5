"""Kill many builds of the project's own unit: ``python -m tests.killing --builds 50 --seed 1``."""

from __future__ import annotations

import argparse
import random
import shutil
import sys
import tempfile
from collections.abc import Iterable
from pathlib import Path

from tests.killing.series import Series, sums

ROOT = Path(__file__).parents[2]
_LAST = "content/problems/zz-last.yml"


def copy_of_the_unit(folder: Path, *, fresh: bool) -> None:
    """The project's own unit in a folder, with one more problem that is renamed now and then."""
    shutil.copytree(ROOT / "content", folder / "content")
    shutil.copy(ROOT / "content" / "problems" / "flasher-reservoir.yml", folder / _LAST)
    settings = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
    changed = settings.replace("- stepwell:\n", f"- stepwell:\n      fresh: {fresh}\n".lower())
    assert changed != settings
    (folder / "mkdocs.yml").write_text(changed, encoding="utf-8")


def told(faults: Iterable[str]) -> int:
    """Print what is wrong, and count it."""
    lines = list(faults)
    for line in lines:
        print(line, flush=True)
    return len(lines)


def main() -> int:
    """Kill builds, build, compare; the exit code is 1 if anything is wrong."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--builds", type=int, default=50, help="how many are killed")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--each", type=int, default=10, help="compare after so many")
    asked.add_argument("--fresh", action="store_true", help="with other numbers, which takes long")
    given = asked.parse_args()
    wrong = 0
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home) / "killed"
        folder.mkdir()
        copy_of_the_unit(folder, fresh=given.fresh)
        series = Series(folder, random.Random(given.seed))
        series.measure()
        print(", ".join(f"{kind} {took:.1f} s" for kind, took in series.whole.items()), flush=True)
        for done in range(0, given.builds, given.each):
            now = min(given.each, given.builds - done)
            wrong += told(series.kill(now))
            wrong += told(series.compare(Path(home) / "clean"))
            print(f"{done + now} builds killed: {dict(series.found)}; "
                  f"{len(sums(folder / 'site'))} files compared; "
                  f"{wrong} faults", flush=True)  # fmt: skip
        wrong += told(series.tidied())
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
