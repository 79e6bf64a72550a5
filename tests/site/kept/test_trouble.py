"""A folder of finished work on a bad disk, under a wrong clock, and after killed builds."""

from __future__ import annotations

import os
import random
import resource
import shutil
import signal
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing import get_context
from pathlib import Path

import pytest

from builder.site.finished import Making
from builder.site.kept import KeptPages, Store
from tests.site.kept.test_store import TEXTS
from tests.site.pages import UNIT, problem_of

PLAIN = Making(UNIT)
HOUR = 3600.0


@contextmanager
def files_of_at_most(size: int) -> Iterator[None]:
    """No file may become larger, as on a full disk."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


@contextmanager
def as_somebody_without_rights() -> Iterator[None]:
    """The user of these tests may be root, whom no permission stops."""
    before = os.geteuid()
    if before == 0:
        os.seteuid(65534)
    try:
        yield
    finally:
        if before == 0:
            os.seteuid(before)


def test_a_full_disk_keeps_no_half_entry(tmp_path: Path) -> None:
    """What does not fit is told by False and leaves nothing; what was kept stays."""
    store = Store(tmp_path)
    assert store.put("one", TEXTS)
    with files_of_at_most(20):
        assert not store.put("one", {"other": "text"})
        assert not store.put("two", TEXTS)
    assert [path.name for path in tmp_path.iterdir()] == ["one.kept"]
    assert store.get("one") == TEXTS


def test_pages_are_made_on_a_full_disk(tmp_path: Path) -> None:
    """A build that can keep nothing holds what it made until its end."""
    problems = [problem_of(farads) for farads in (33, 34)]
    pages = KeptPages(PLAIN, Store(tmp_path))
    with files_of_at_most(20):
        made = pages.prepare(problems)
        parts = [pages.parts(one, own=True) for one in problems]
    assert list(tmp_path.iterdir()) == []
    assert KeptPages(PLAIN, Store(None)).prepare(problems) == made
    assert parts == [KeptPages(PLAIN, Store(None)).parts(one, own=True) for one in problems]


def test_a_folder_that_may_only_be_read_is_read() -> None:
    """What is kept is used, nothing is kept anew, and nothing is thrown away."""
    folder = Path(tempfile.mkdtemp())
    try:
        Store(folder).put("one", TEXTS)
        (folder / ".aside-killed").write_bytes(b"half")
        os.utime(folder / ".aside-killed", (0, 0))
        (folder / "one.kept").chmod(0o444)
        folder.chmod(0o555)
        with as_somebody_without_rights():
            store = Store(folder)
            store.tidy()
            assert store.get("one") == TEXTS
            assert not store.put("two", TEXTS)
        assert {path.name for path in folder.iterdir()} == {"one.kept", ".aside-killed"}
    finally:
        folder.chmod(0o755)
        shutil.rmtree(folder)


def test_no_flipped_byte_is_ever_read(tmp_path: Path) -> None:
    """Of 200 entries, each with a byte or some changed anywhere, none is used."""
    store, dice = Store(tmp_path), random.Random(6)
    for number in range(200):
        assert store.put(f"{number}", {**TEXTS, "number": str(number) * dice.randrange(1, 500)})
    for number in range(200):
        entry = tmp_path / f"{number}.kept"
        content = bytearray(entry.read_bytes())
        for at in dice.sample(range(len(content)), dice.choice((1, 1, 5))):
            content[at] ^= dice.randrange(1, 256)
        entry.write_bytes(content)
    assert [store.get(f"{number}") for number in range(200)] == [None] * 200


def test_pages_are_right_over_spoilt_entries(tmp_path: Path) -> None:
    """Heads and parts that are spoilt are made anew, whichever of the two it is."""
    problems = [problem_of(farads) for farads in (33, 34, 35)]
    first = KeptPages(PLAIN, Store(tmp_path))
    made = first.prepare(problems)
    parts = [dict(first.parts(one, own=True)) for one in problems]
    entries = sorted(tmp_path.iterdir())
    for spoilt in (entries[:3], entries[3:], entries[::2]):
        for entry in spoilt:
            entry.write_bytes(entry.read_bytes()[:-3] + b"\0\0\0")
        again = KeptPages(PLAIN, Store(tmp_path))
        assert again.prepare(problems) == made
        assert [again.parts(one, own=True) for one in problems] == parts


def test_pages_of_another_program_are_not_used(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After an update each page is made anew."""
    problem = problem_of(33)
    KeptPages(PLAIN, Store(tmp_path)).prepare([problem])
    before = {path.name for path in tmp_path.iterdir()}
    monkeypatch.setattr("builder.site.kept.pages.code_version", lambda: "another")
    KeptPages(PLAIN, Store(tmp_path)).prepare([problem])
    assert len({path.name for path in tmp_path.iterdir()} - before) == len(before) == 2


@pytest.mark.parametrize("wrong", [-50 * 365 * 24 * HOUR, 50 * 365 * 24 * HOUR])
def test_a_wrong_clock_spoils_nothing(
    wrong: float, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Fifty years off, a build may find nothing kept, but never anything wrong."""
    problem = problem_of(33)
    pages = KeptPages(PLAIN, Store(tmp_path))
    made, parts = pages.prepare([problem]), pages.parts(problem, own=True)
    now = time.time()
    monkeypatch.setattr("builder.site.kept.store.time.time", lambda: now + wrong)
    again = KeptPages(PLAIN, Store(tmp_path))
    assert again.prepare([problem]) == made
    assert again.parts(problem, own=True) == parts


def _long(number: int) -> dict[str, str]:
    """An entry that cannot be packed well, so that writing it takes its time."""
    return {**TEXTS, "number": random.Random(number).randbytes(300_000).hex()}


def _write_and_be_killed(folder: str) -> None:
    """Forty times, write the same entries without end, and be killed while one is written."""
    home, dice = Path(folder), random.Random(40)
    entries = {f"{number}": _long(number) for number in range(5)}
    for _ in range(40):
        before = set(home.glob(".aside-*"))
        writer = os.fork()
        if not writer:
            while True:
                for name, texts in entries.items():
                    Store(home).put(name, texts)
        time.sleep(dice.uniform(0.005, 0.06))
        late = time.monotonic() + 2
        while set(home.glob(".aside-*")) <= before and time.monotonic() < late:
            pass
        os.kill(writer, signal.SIGKILL)
        os.waitpid(writer, 0)


def test_an_entry_that_is_being_written_is_whole_or_none(tmp_path: Path) -> None:
    """Killed in the middle of writing, a build leaves pieces aside and no half entry."""
    # A process without threads may fork.
    killed = get_context("spawn").Process(target=_write_and_be_killed, args=(str(tmp_path),))
    killed.start()
    killed.join()
    assert killed.exitcode == 0
    left = [path for path in tmp_path.iterdir() if path.name.startswith(".aside-")]
    assert left
    entries = [path for path in tmp_path.iterdir() if path not in left]
    assert {path.stem for path in entries} <= {f"{number}" for number in range(5)}
    for entry in entries:
        found = Store(tmp_path).get(entry.stem)
        assert found == _long(int(entry.stem))
    for path in left:
        os.utime(path, (0, 0))
    Store(tmp_path).tidy()
    assert not [path for path in left if path.exists()]


def test_what_a_killed_build_left_is_thrown_away(tmp_path: Path) -> None:
    """After an hour; what another build may be writing just now stays."""
    store, now = Store(tmp_path), time.time()
    for name, age in ((".aside-killed", 1.1 * HOUR), (".aside-new", 0.9 * HOUR), ("notes", HOUR)):
        (tmp_path / name).write_bytes(b"half")
        os.utime(tmp_path / name, (now - age, now - age))
    store.tidy()
    assert {path.name for path in tmp_path.iterdir()} == {".aside-new", "notes"}
