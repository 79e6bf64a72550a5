"""Work by several processes: in order, and none of them is left over."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

from builder.site.workers import Crew, each_done


def square(number: int) -> int:
    """The square of a number."""
    return number * number


def stay(folder: str) -> None:
    """Note this process in a folder, and then take long."""
    (Path(folder) / str(os.getpid())).touch()
    time.sleep(60)


def die_once(task: tuple[str, int]) -> int:
    """The square of a number; the first process that comes here dies, as for want of memory."""
    folder, number = task
    try:
        (Path(folder) / "died").mkdir()
    except FileExistsError:
        return square(number)
    os.kill(os.getpid(), signal.SIGKILL)
    return 0


def _alive(process: int) -> bool:
    """Whether a process runs, and not only waits to be noted as ended."""
    try:
        state = Path(f"/proc/{process}/stat").read_text(encoding="ascii").rpartition(")")[2]
    except OSError:
        return False
    return state.split()[0] != "Z"


def test_a_crew_that_was_called_early_does_the_same() -> None:
    """Processes that are there already give the results in the order of the tasks."""
    with Crew(__name__) as crew:
        for many in (3, 100):
            found = list(each_done(square, range(many), crew=crew))
            assert found == [n * n for n in range(many)]


def test_results_come_in_the_order_of_the_tasks() -> None:
    """Many tasks by all processors, and few by this one, yield the same."""
    for many in (40, 3):
        assert list(each_done(square, range(many))) == [n * n for n in range(many)]


def test_what_a_dead_process_left_is_done_here(tmp_path: Path) -> None:
    """If a process dies, no result is missing and none comes twice."""
    tasks = [(str(tmp_path), number) for number in range(12)]
    assert list(each_done(die_once, tasks)) == [n * n for n in range(12)]
    assert (tmp_path / "died").is_dir()


def test_no_process_outlives_the_one_that_asked(tmp_path: Path) -> None:
    """If the first process is killed in the middle, the others end by themselves."""
    program = (
        "from tests.site.test_workers import stay\n"
        "from builder.site.workers import each_done\n"
        f"if __name__ == '__main__': list(each_done(stay, [{str(tmp_path)!r}] * 8))\n"
    )
    script = tmp_path / "asks.py"
    script.write_text(program, encoding="utf-8")
    root = Path(__file__).parents[2]
    first = subprocess.Popen(
        [sys.executable, str(script)], env=os.environ | {"PYTHONPATH": str(root)}
    )
    try:
        workers: set[int] = set()
        while not workers and first.poll() is None:
            workers = {int(path.name) for path in tmp_path.iterdir() if path.name.isdigit()}
            time.sleep(0.1)
        assert workers
        assert all(map(_alive, workers))
    finally:
        first.kill()
        first.wait()
    waited = 0.0
    while any(map(_alive, workers)) and waited < 10:
        time.sleep(0.1)
        waited += 0.1
    assert not any(map(_alive, workers))
