"""Work on many things at once: by all processors where that pays, in order, and clean to stop."""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from importlib import import_module
from typing import TypeVar

Task = TypeVar("Task")
Result = TypeVar("Result")


class Crew:
    """Other processes that were called before there is work: they load what they need meanwhile."""

    def __init__(self, module: str) -> None:
        """Start as many as there are processors.

        Args:
            module: what they load, by its full name; it need not be loaded here.
        """
        self.size = processors()
        self._pool = _pool(self.size, _load, module)
        # A process is started when something is handed to it.
        for _ in range(self.size):
            self._pool.submit(_ready)

    def __enter__(self) -> Crew:
        return self

    def __exit__(self, *_: object) -> None:
        self._pool.shutdown(wait=True, cancel_futures=True)

    def results(self, work: Callable[[Task], Result], tasks: Sequence[Task]) -> Iterator[Result]:
        """What ``work`` makes of each task, in their order."""
        return _shared_out(self._pool, work, tasks, self.size)


def each_done(
    work: Callable[[Task], Result], tasks: Sequence[Task], fewest: int = 4, crew: Crew | None = None
) -> Iterator[Result]:
    """What ``work`` makes of each task, in their order.

    Args:
        work: a function of a module, so that another process finds it by its name.
        tasks: what can be handed to another process.
        fewest: tasks from which on another process pays; starting one takes a second.
        crew: processes that are there already; by default they are started and ended here.

    Where other processes die, as for want of memory, the rest is done by this one.
    """
    workers = min(processors(), 2 * len(tasks) // fewest)
    done = 0
    if len(tasks) >= fewest and workers > 1:
        by_all = crew.results(work, tasks) if crew else _by_all(work, tasks, workers)
        try:
            for result in by_all:
                yield result
                done += 1
        except BrokenProcessPool:
            pass
    for task in tasks[done:]:
        yield work(task)


def processors() -> int:
    """How many processors this process may use, which can be fewer than there are."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _by_all(
    work: Callable[[Task], Result], tasks: Sequence[Task], workers: int
) -> Iterator[Result]:
    pool = _pool(workers, _stand_by, work)
    try:
        yield from _shared_out(pool, work, tasks, workers)
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _shared_out(
    pool: ProcessPoolExecutor, work: Callable[[Task], Result], tasks: Sequence[Task], workers: int
) -> Iterator[Result]:
    chunk = max(1, min(16, len(tasks) // (4 * workers)))
    return pool.map(work, tasks, chunksize=chunk)


def _pool(workers: int, begin: Callable[..., None], what: object) -> ProcessPoolExecutor:
    # A forked process would share the locks of the host's threads.
    context = multiprocessing.get_context("spawn")
    return ProcessPoolExecutor(workers, mp_context=context, initializer=begin, initargs=(what,))


def _load(module: str) -> None:
    import_module(module)
    _stand_by()


def _ready() -> None:
    """What a process of a crew is handed so that it starts."""


def _stand_by(_work: object = None) -> None:
    """Let the first process alone answer to Ctrl-C, and end when it ends, however it does.

    A process that waits for tasks would otherwise wait for ever if the first one is killed.

    Args:
        _work: what will be done here; to hand it over loads all that it needs.
    """
    # What is loaded by now stays, and is most of what there is: without this, a tenth of the time
    # would go by looking through it for garbage.
    gc.freeze()
    gc.set_threshold(50_000, 20, 20)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_the_first, daemon=True).start()


def _end_with_the_first() -> None:
    first = multiprocessing.parent_process()
    if first is not None:
        first.join()
        os._exit(1)
