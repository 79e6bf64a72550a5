"""A folder of finished work: whole entries or none, whatever happens."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from multiprocessing import get_context
from pathlib import Path

import pytest

from builder.site.kept.store import Store

TEXTS = {"opening": "<p>Ω µ 𝄞</p>", "solution": "x" * 5000}


def test_what_is_put_is_got(tmp_path: Path) -> None:
    """Under its own key alone, in a folder that is made when it is needed."""
    store = Store(tmp_path / "a" / "b")
    assert store.get("one") is None
    assert store.put("one", TEXTS)
    assert store.get("one") == TEXTS
    assert store.get("other") is None


@pytest.mark.parametrize("spoil", [
    lambda whole: b"",
    lambda whole: whole[:-1],
    lambda whole: whole[: len(whole) // 2],
    lambda whole: whole[:80] + bytes([whole[80] ^ 1]) + whole[81:],
    lambda whole: b"0" * 64 + whole[64:],
    lambda whole: whole + b"more",
])  # fmt: skip
def test_a_spoilt_entry_counts_as_none(spoil: Callable[[bytes], bytes], tmp_path: Path) -> None:
    """Cut, changed or lengthened, it is not used, and can be put again."""
    store = Store(tmp_path)
    store.put("one", TEXTS)
    (entry,) = tmp_path.iterdir()
    entry.write_bytes(spoil(entry.read_bytes()))
    assert store.get("one") is None
    assert store.put("one", TEXTS)
    assert store.get("one") == TEXTS


def test_where_nothing_can_be_kept_a_build_goes_on(tmp_path: Path) -> None:
    """A folder that cannot be made is told by False, not by an error."""
    (tmp_path / "file").write_text("in the way")
    store = Store(tmp_path / "file" / "folder")
    assert not store.put("one", TEXTS)
    assert store.get("one") is None
    store.tidy()


def _put_often(folder: str) -> None:
    for _ in range(200):
        Store(Path(folder)).put("one", TEXTS)


def test_two_at_once_leave_a_whole_entry(tmp_path: Path) -> None:
    """While two processes write the same entry, it is always whole."""
    store = Store(tmp_path)
    store.put("one", TEXTS)
    context = get_context("spawn")
    writers = [context.Process(target=_put_often, args=(str(tmp_path),)) for _ in range(2)]
    for writer in writers:
        writer.start()
    seen = 0
    while any(writer.is_alive() for writer in writers):
        assert store.get("one") == TEXTS
        seen += 1
    assert seen > 0
    assert [path.name for path in tmp_path.iterdir()] == ["one.kept"]


def test_what_was_left_for_a_month_is_thrown_away(tmp_path: Path) -> None:
    """Old entries and old pieces of killed builds go; what is used stays, and so do other files."""
    store = Store(tmp_path)
    store.put("old", TEXTS)
    store.put("new", TEXTS)
    store.put("read", TEXTS)
    (tmp_path / ".aside-killed").write_bytes(b"half")
    (tmp_path / "notes.txt").write_text("not ours")
    past = time.time() - 40 * 24 * 3600
    for name in ("old.kept", "read.kept", ".aside-killed", "notes.txt"):
        os.utime(tmp_path / name, (past, past))
    assert store.get("read") == TEXTS
    store.tidy()
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "new.kept",
        "notes.txt",
        "read.kept",
    ]
