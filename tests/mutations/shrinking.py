"""A bad file becomes the shortest one found that is bad in the same way."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tests.mutations.judging import BAD
from tests.mutations.workers import Task, Worker, warm_up

MOST_TRIES = 250


def shrunk(raw: bytes, told: str, *, page: bool) -> bytes:
    """The shortest file found with the same verdict, by leaving out lines and parts of lines.

    Args:
        raw: a bad file.
        told: what is bad with it.
        page: whether its page has to be rendered for that.
    """
    warm_up()
    bench = Worker()

    def same(candidate: bytes) -> bool:
        nonlocal bench
        if not bench.alive:
            bench = Worker()
        bench.give(iter([Task(0, raw=candidate, page=page)]))
        found = bench.patient_answer()
        return found.verdict.kind == BAD and found.verdict.told == told

    try:
        return _smaller(raw, same)
    finally:
        bench.end()


def _smaller(raw: bytes, same: Callable[[bytes], bool]) -> bytes:
    tries = 0
    again = True
    while again:
        again = False
        for candidate in _candidates(raw):
            tries += 1
            if tries > MOST_TRIES:
                return raw
            if same(candidate):
                raw, again = candidate, True
                break
    return raw


def _candidates(raw: bytes) -> Iterator[bytes]:
    lines = raw.splitlines(keepends=True)
    size = len(lines) // 2
    while size:
        for at in range(0, len(lines), size):
            yield b"".join(lines[:at] + lines[at + size :])
        size //= 2
    for at, line in enumerate(lines):
        parts = line.split(b", ")
        for drop in range(len(parts) if len(parts) > 1 else 0):
            shorter = b", ".join(parts[:drop] + parts[drop + 1 :])
            yield b"".join([*lines[:at], shorter, *lines[at + 1 :]])
