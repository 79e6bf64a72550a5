"""Sets that grow value by value: the same as whole sets, with none forgotten."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from sympy import Rational

from builder.problem import read_problem
from builder.problem.fresh import renewed
from builder.quantity.names import Name
from builder.solution import solve
from builder.solution.fresh import growing
from builder.solution.fresh.best import Hunt, hunt_for
from builder.solution.fresh.exchanging import same_exchange
from builder.solution.fresh.growing import Growing
from builder.solution.fresh.sieve import Mesh, sift
from builder.solution.fresh.wanted import wanted_of

CONTENT = Path("content/problems")
SLUGS = ("flasher-reservoir", "two-batteries", "heater-cube", "lantern-spare-reservoir",
         "capacitor-without-a-mark", "bilge-sensor-layers", "bench-bridge")  # fmt: skip


def hunt_of(slug: str) -> Hunt:
    """What has to be looked through for a problem of the unit."""
    solution = solve(read_problem(CONTENT / f"{slug}.yml"))
    return hunt_for(solution, wanted_of(solution.problem))


def grown(hunt: Hunt) -> tuple[list[int], int]:
    """Where the sets that are found stand in the order of counting, and how many were seen."""
    counts: list[int] = []
    search = Growing(hunt.grid, hunt.course, Mesh(hunt.limits), seen=counts.append)
    parts = [hunt.grid.positions(found.places) for found in search.found()]
    return sorted(np.concatenate(parts).tolist()), sum(counts)


@pytest.mark.parametrize("chunk", [1 << 16, 50], ids=["at once", "in small chunks"])
@pytest.mark.parametrize("slug", SLUGS)
def test_growing_sets_are_the_whole_ones(
    slug: str, chunk: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Trying every set whole finds the same ones; every set is seen once."""
    hunt = hunt_of(slug)
    if chunk == 50 and hunt.grid.size > 20_000:
        chunk = 1000
    monkeypatch.setattr(growing, "CHUNK", chunk)
    places = hunt.grid.chunk(0, hunt.grid.size)
    whole = sift(hunt.grid, places, hunt.course, Mesh(hunt.limits))
    found, seen = grown(hunt)
    assert found == hunt.grid.positions(whole.places).tolist()
    assert found
    assert seen == hunt.grid.size


def test_a_sample_finds_some_of_them() -> None:
    """Whoever goes on with some of the combinations only finds nothing that is wrong."""
    hunt = hunt_of("flasher-reservoir")
    every, _ = grown(hunt)
    search = Growing(hunt.grid, hunt.course, Mesh(hunt.limits), lambda n: np.arange(0, n, 3))
    some = [p for f in search.found() for p in hunt.grid.positions(f.places).tolist()]
    assert 0 < len(some) < len(every)
    assert set(some) < set(every)


def test_another_plainest_exchange_is_seen_before_anything_is_solved() -> None:
    """The quick look says of each value of R1 whether the solution starts as it does."""
    first = solve(read_problem(CONTENT / "bench-bridge-astray.yml"))
    alike = same_exchange(first)
    name = Name("resistance", "R1")
    seen = set()
    for ohms in (10, 11, 12, 15, 20, 30, 90, 110):
        other = solve(renewed(first.problem, {name: f"{ohms} ohm"}))
        same = other.every_step[0].id == first.every_step[0].id
        assert alike({name: Rational(ohms)}) == same, ohms
        seen.add(same)
    assert seen == {True, False}
    assert same_exchange(solve(read_problem(CONTENT / "flasher-reservoir.yml")))({})
