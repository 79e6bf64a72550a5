"""Judges files in processes of their own, each file with a clock and all with bounded memory."""

from __future__ import annotations

import gc
import multiprocessing
import resource
import signal
import tempfile
import time
import traceback
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, partial
from multiprocessing.connection import Connection, wait
from pathlib import Path
from types import FrameType

from builder.problem import read_unit
from tests.mutations.judging import BAD, Verdict, judge
from tests.mutations.making import PROBLEMS, UNIT, mutated

MOST_SECONDS = 2.0
"""Of the processor's time: a machine that does something else besides makes no file slow."""
MOST_BYTES = 2 * 1024**3
_WAIT = 30.0
"""Seconds of any kind after which a process that cannot be interrupted is ended from outside."""
_FILES_A_PROCESS = 4_000


class TooSlow(BaseException):
    """Raised when a file has used up its seconds."""


@dataclass(frozen=True)
class Task:
    """One file to judge.

    Attributes:
        key: what the answer is known by.
        seed: with which the key is a number of a mutated file; None if ``raw`` is the file.
        raw: the file itself.
        page: whether its page is rendered too.
    """

    key: int
    seed: int | None = None
    raw: bytes = b""
    page: bool = False


@dataclass(frozen=True)
class Judged:
    """The verdict on one file, its seconds of the processor and the process's peak in bytes."""

    task: Task
    verdict: Verdict
    seconds: float = 0.0
    peak: int = 0


def judged(tasks: Iterator[Task], jobs: int = 1) -> Iterator[Judged]:
    """The verdicts on many files, as they come."""
    warm_up()
    workers: dict[Connection, Worker] = {}
    left = True
    while left or workers:
        while left and len(workers) < jobs:
            worker = Worker()
            left = worker.give(tasks)
            if left:
                workers[worker.line] = worker
            else:
                worker.end()
        ready = wait(list(workers), timeout=1.0)
        for line in list(workers):
            worker = workers[line]
            answer = worker.answer() if line in ready else worker.overdue()
            if answer is None:
                continue
            yield answer
            tired = worker.count >= _FILES_A_PROCESS or not worker.alive
            if tired or not worker.give(tasks):
                left = left and tired
                worker.end()
                del workers[line]


class Worker:
    """One process, and what it is at.

    Attributes:
        line: to the process.
        count: how many files it was given.
    """

    def __init__(self) -> None:
        context = multiprocessing.get_context("fork")
        self.line, theirs = context.Pipe()
        self._process = context.Process(target=_work, args=(theirs,), daemon=True)
        self._process.start()
        theirs.close()
        self._task: Task | None = None
        self._since = 0.0
        self.count = 0

    @property
    def alive(self) -> bool:
        """Whether the process runs."""
        return self._process.is_alive()

    def give(self, tasks: Iterator[Task]) -> bool:
        """Hand it the next file; False if there is none."""
        self._task = next(tasks, None)
        if self._task is None:
            return False
        self._since = time.monotonic()
        self.count += 1
        self.line.send(self._task)
        return True

    def answer(self) -> Judged:
        """What it says, or what its death means."""
        assert self._task is not None
        try:
            found = self.line.recv()
        except (EOFError, OSError):
            self._process.join()
            code = self._process.exitcode
            return Judged(self._task, Verdict(BAD, f"the process died with code {code}"))
        assert isinstance(found, Judged)
        return found

    def patient_answer(self) -> Judged:
        """What it says, however long that takes, up to the time at which it is ended."""
        while not self.line.poll(1.0):
            if (late := self.overdue()) is not None:
                return late
        return self.answer()

    def overdue(self) -> Judged | None:
        """A verdict on a file that cannot be interrupted, or None while there is time."""
        assert self._task is not None
        if time.monotonic() - self._since < _WAIT:
            return None
        self._process.kill()
        self._process.join()
        return Judged(self._task, Verdict(BAD, "hangs where nothing can interrupt it"), _WAIT)

    def end(self) -> None:
        """Stop the process."""
        self.line.close()
        self._process.join(5)
        if self._process.is_alive():
            self._process.kill()


def _work(line: Connection) -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    signal.signal(signal.SIGPROF, interrupt)
    unit = read_unit(UNIT)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "problem.yml"
        while True:
            try:
                task = line.recv()
            except EOFError:
                return
            raw = task.raw if task.seed is None else mutated(task.key, task.seed)
            file.write_bytes(raw)
            verdict, seconds = timed(partial(judge, file, unit, page=task.page))
            peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
            line.send(Judged(task, verdict, seconds, peak))


@cache
def warm_up() -> None:
    """Load what is loaded once, before processes part, so that it counts to no file."""
    unit = read_unit(UNIT)
    for source in sorted(PROBLEMS.glob("*.yml"))[::3]:
        judge(source, unit, page=True)
    gc.collect()
    gc.freeze()


def interrupt(number: int, frame: FrameType | None) -> None:
    """Stop what is done; for the signal of the processor's clock."""
    raise TooSlow


def timed(work: Callable[[], Verdict]) -> tuple[Verdict, float]:
    """A verdict and its seconds; work that takes too long is stopped and bad."""
    before = time.process_time()
    try:
        signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)
        try:
            verdict = work()
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)
    except TooSlow as stopped:
        told = f"takes more than {MOST_SECONDS} s in {_busy(stopped)}"
        verdict = Verdict(BAD, told, _trace(stopped))
    except MemoryError:
        verdict = Verdict(BAD, "takes more memory than it may")
    seconds = time.process_time() - before
    if seconds > MOST_SECONDS and verdict.kind != BAD:  # within one call that nothing interrupts
        verdict = Verdict(BAD, f"takes more than {MOST_SECONDS} s in one call")
    return verdict, seconds


def _trace(stopped: BaseException) -> str:
    return "".join(traceback.format_exception(stopped)[-40:])


def _busy(stopped: BaseException) -> str:
    """What the product was at: the way from its door, as far as it tells one cause from another."""
    frames = [frame for frame in traceback.extract_tb(stopped.__traceback__)
              if "/builder/" in frame.filename]  # fmt: skip
    names = [frame.filename.rpartition("/builder/")[2] for frame in frames]
    return " > ".join(dict.fromkeys(names[:5]))
