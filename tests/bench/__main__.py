"""Measure and print what is found: ``python -m tests.bench``, or one of them by ``--only NAME``."""

from __future__ import annotations

import argparse
import os
import time
from collections.abc import Callable, Iterator, Mapping

from tests.bench.building import measure_building, measure_fresh
from tests.bench.checking import measure_checking
from tests.bench.grids import measure_grids
from tests.bench.kinds import measure_kinds
from tests.bench.numbers import measure_numbers
from tests.bench.solving import measure_solving
from tests.bench.weighing import measure_pages

MEASUREMENTS: Mapping[str, Callable[[], Iterator[str]]] = {
    "check": measure_checking,
    "building": measure_building,
    "fresh": measure_fresh,
    "solving": measure_solving,
    "kinds": measure_kinds,
    "grids": measure_grids,
    "numbers": measure_numbers,
    "pages": measure_pages,
}
"""Each yields lines to print as soon as it knows them."""


def main() -> None:
    """Print every measurement, or the one that is asked for, one line each."""
    asked = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    asked.add_argument("--only", choices=MEASUREMENTS, help="run this measurement alone")
    only = asked.parse_args().only
    start = time.perf_counter()
    print(_machine(), flush=True)
    for name, measure in MEASUREMENTS.items():
        if only in (None, name):
            for line in measure():
                print(line, flush=True)
    print(f"all of this took {(time.perf_counter() - start) / 60:.1f} min", flush=True)


def _machine() -> str:
    """What is measured on: others at work make all times longer, and the work little."""
    busy = (
        f"; {os.getloadavg()[0]:.1f} programs at work on them" if hasattr(os, "getloadavg") else ""
    )
    return f"measured with {os.cpu_count()} processors{busy}"


if __name__ == "__main__":
    main()
