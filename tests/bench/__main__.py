"""Run every measurement and print what it found: ``python -m tests.bench``."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tests.bench.building import measure_building
from tests.bench.grids import measure_grids
from tests.bench.kinds import measure_kinds
from tests.bench.numbers import measure_numbers
from tests.bench.solving import measure_solving
from tests.bench.weighing import measure_pages

MEASUREMENTS: tuple[Callable[[], Iterator[str]], ...] = (
    measure_solving,
    measure_kinds,
    measure_grids,
    measure_numbers,
    measure_building,
    measure_pages,
)
"""Each yields lines to print as soon as it knows them."""


def main() -> None:
    """Print every measurement, one line each."""
    for measure in MEASUREMENTS:
        for line in measure():
            print(line, flush=True)


if __name__ == "__main__":
    main()
