"""Whatever is done to a problem file, it is solved or told, in two seconds and two gigabytes."""

from __future__ import annotations

import signal

import pytest

from builder.errors import Fault
from tests.mutations.judging import BAD, FINE, REFUSED, Verdict, unfit
from tests.mutations.making import mutated
from tests.mutations.shrinking import shrunk
from tests.mutations.workers import Task, interrupt, judged, timed

SEED, COUNT = 6, 1_200


def test_mutated_files_are_solved_or_told() -> None:
    """No traceback, no hang, no disagreement, and each fault with its place.

    ``python -m tests.mutations --count 100000`` goes through as many as one likes.
    """
    found = list(judged(Task(n, SEED, page=n % 25 == 0) for n in range(COUNT)))
    assert [(one.task.key, one.verdict.told) for one in found if one.verdict.kind == BAD] == []
    kinds = [one.verdict.kind for one in found]
    assert len(found) == COUNT
    assert kinds.count(FINE) > COUNT // 5
    assert kinds.count(REFUSED) > COUNT // 5


def test_a_number_is_always_the_same_file() -> None:
    """Number and seed alone make a file, so that a bad one can be had again."""
    files = [mutated(n, SEED) for n in range(60)]
    assert files == [mutated(n, SEED) for n in range(60)]
    assert len(set(files)) > 55
    assert files != [mutated(n, SEED + 1) for n in range(60)]


def _hang() -> Verdict:
    while True:
        pass


def _hoard() -> Verdict:
    raise MemoryError


def test_what_hangs_is_stopped_and_bad() -> None:
    """Work without end is stopped by the clock of the processor, and where it was is told."""
    before = signal.signal(signal.SIGPROF, interrupt)
    try:
        verdict, seconds = timed(_hang)
    finally:
        signal.signal(signal.SIGPROF, before)
    assert verdict.kind == BAD
    assert verdict.told.startswith("takes more than 2.0 s")
    assert seconds < 3


def test_what_takes_too_much_memory_is_bad() -> None:
    """A process that may have no more memory tells so."""
    assert timed(_hoard)[0] == Verdict(BAD, "takes more memory than it may")


@pytest.mark.parametrize(
    ("fault", "told"),
    [
        (Fault("problem.yml", 0, 0, "x", "y", "Do z."), "a fault without a place"),
        (Fault("problem.yml", 1, 1, "x\u200b", "y", "Do z."), "a fault that cannot be read"),
        (Fault("problem.yml", 1, 1, "", "y", "Do z."), "a fault that cannot be read"),
        (Fault("problem.yml", 1, 1, "x", "y", "Do z"), "a fault whose advice has no end"),
    ],
)
def test_faults_that_nobody_can_use_are_bad(fault: Fault, told: str) -> None:
    """A fault needs its place, its three parts and signs that can be seen."""
    assert unfit(fault).startswith(told)
    assert unfit(Fault("problem.yml", 1, 1, "x", "y", "Do z.")) == ""


def test_a_file_that_is_fine_is_not_shortened() -> None:
    """Only a file that stays bad in the same way is a shorter case of it."""
    raw = b"title: x\nfind: y\n"
    assert shrunk(raw, "takes forever", page=False) == raw
