"""Whatever became of the builds before it, the next build is right."""

from __future__ import annotations

import random
import shutil
from pathlib import Path

from tests.killing.processes import build, left_alive, start
from tests.killing.series import KEPT, Series, differences, sums
from tests.site.pages import CIRCUITS, FLASHER, write_unit

PROBLEMS = {**CIRCUITS, "zz-last": FLASHER}
"""As many as make it worth while to ask other processes."""


def _unit(folder: Path) -> None:
    write_unit(folder, PROBLEMS)
    settings = folder / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    plain = text.replace("stepwell]", "{stepwell: {fresh: false}}]")
    settings.write_text(plain, encoding="utf-8")


def test_after_killed_builds_the_next_one_is_right(tmp_path: Path) -> None:
    """Six builds are killed at moments spread over their time, with edits between them."""
    folder = tmp_path / "killed"
    _unit(folder)
    series = Series(folder, random.Random(6))
    series.measure()
    assert list(series.kill(6)) == []
    assert series.found.total() - series.found["ended before"] == 6
    assert list(series.compare(tmp_path / "clean")) == []
    assert (folder / "site" / "sitemap.xml.gz").is_file()
    assert list(series.tidied()) == []


def test_the_comparison_sees_what_differs(tmp_path: Path) -> None:
    """A page left over, one that is missing and one with another byte are each told."""
    one, other = tmp_path / "one", tmp_path / "other"
    for folder, names in ((one, ("a", "b", "c")), (other, ("b", "c", "d"))):
        folder.mkdir()
        for name in names:
            (folder / name).write_text(f"{name} of {folder.name if name == 'b' else 'both'}")
    assert list(differences(sums(one), sums(other))) == [
        "a is left from before",
        "b differs from a clean build",
        "d is missing",
    ]


def test_two_builds_at_once_share_what_is_kept(tmp_path: Path) -> None:
    """Both into folders of their own, with nothing kept at first: the same site twice."""
    folder = tmp_path / "unit"
    _unit(folder)
    both = [start(folder, "--site-dir", str(tmp_path / name)) for name in ("one", "two")]
    assert [process.wait() for process in both] == [0, 0]
    assert sum(path.suffix == ".kept" for path in (folder / KEPT).iterdir()) == 2 * len(PROBLEMS)
    shutil.rmtree(folder / KEPT)
    build(folder, "--site-dir", str(tmp_path / "three"))
    first = sums(tmp_path / "one")
    assert len(first) > 20
    for name in ("two", "three"):
        assert list(differences(sums(tmp_path / name), first)) == []
    assert [left_alive(process.pid) for process in both] == [[], []]


def test_a_build_over_spoilt_entries_is_right(tmp_path: Path) -> None:
    """Whatever lies where finished pages are kept, cut, changed or a folder, the site is right."""
    folder = tmp_path / "unit"
    _unit(folder)
    build(folder)
    before, dice = sums(folder / "site"), random.Random(7)
    for number, entry in enumerate(sorted((folder / KEPT).iterdir())):
        content = bytearray(entry.read_bytes())
        if number % 3 == 0:
            content[dice.randrange(len(content))] ^= 1
            entry.write_bytes(content)
        elif number % 3 == 1:
            entry.write_bytes(content[: dice.randrange(len(content))])
        else:
            entry.unlink()
            entry.mkdir()
    build(folder)
    assert list(differences(sums(folder / "site"), before)) == []
