"""Kill many builds of a unit: ``python -m tests.killing --builds 50 --seed 1``.

The unit has a problem of most kinds; with ``--whole`` it is the project's own, which takes long.
"""

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
_SETTINGS = (
    "site_name: A small unit\ndocs_dir: content\nuse_directory_urls: false\n"
    "theme: {name: material, font: false}\nplugins:\n  - search\n  - offline\n  - stepwell:\n"
    "nav: [{Home: index.md}]\nvalidation: {nav: {omitted_files: ignore}}\n"
)
_CHOSEN = ("bench-bridge", "capacitor-without-a-mark", "flasher-any-size", "lantern-ladder",
           "lantern-spare-reservoir", "tide-gauge", "two-batteries")  # fmt: skip


def write_unit(folder: Path, *, whole: bool, fresh: bool) -> None:
    """A unit in a folder, with one more problem that is renamed now and then.

    Args:
        folder: empty.
        whole: whether it is the project's own unit, or a few of its problems.
        fresh: whether its pages offer other numbers.
    """
    content = folder / "content"
    settings = _SETTINGS
    if whole:
        shutil.copytree(ROOT / "content", content)
        settings = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
    else:
        (content / "problems").mkdir(parents=True)
        for slug in _CHOSEN:
            shutil.copy(ROOT / "content" / "problems" / f"{slug}.yml", content / "problems")
        (content / "index.md").write_text("# A small unit\n", encoding="utf-8")
        described = (ROOT / "content" / "unit.yml").read_text(encoding="utf-8")
        without_path = described.partition("path:")[0]
        (content / "unit.yml").write_text(without_path, encoding="utf-8")
    shutil.copy(ROOT / "content" / "problems" / "flasher-reservoir.yml", folder / _LAST)
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
    asked.add_argument("--whole", action="store_true", help="of the project's own unit")
    asked.add_argument("--fresh", action="store_true", help="with other numbers, which takes long")
    given = asked.parse_args()
    wrong = 0
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home) / "killed"
        folder.mkdir()
        write_unit(folder, whole=given.whole, fresh=given.fresh)
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
