"""How long units of problems take to build, cold and after one edit, against the host alone.

The host alone gets the very same final pages as raw HTML in its Markdown, with the same theme and
the same other plugins. It then has to read formulas and figures, which Stepwell spares it; so a
second comparison gives it pages of headings and a word below each, the least there could be.
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from tests.bench.distinct import distinct_problems
from tests.bench.running import Ran, Runner
from tests.bench.units import change_one_number, pages_in, write_host, write_unit

FEW, MANY = 300, 1000
SAMPLE = 40
"""Pages with other numbers take seconds each, so that only so many are made."""
RUNS = 3
COLD_AIM, WARM_AIM = 1.5, 1.1
LINEAR = MANY / FEW


@dataclass(frozen=True)
class Built:
    """A unit of some size, built cold, after edits, and by the host alone with bare pages."""

    cold: Ran
    warm: Ran
    bare: Ran

    def __post_init__(self) -> None:
        assert self.warm.work < self.cold.work, "what was kept was not used"


def measure_building() -> Iterator[str]:
    """Build 300 and 1,000 problems without other numbers."""
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        run = Runner(home / "compiled")
        _warm_up(run, home / "first")
        few = _built(run, home, FEW)
        whole = run.build(write_host(home / "host", home / str(FEW), bare=False))
        pages = [pages_in(home / name) for name in (str(FEW), f"{FEW}-bare", "host")]
        assert len(set(pages)) == 1, pages
        yield from _against("cold build", few.cold, whole, few.bare, COLD_AIM)
        yield from _against(f"build after one edit (median of {RUNS})", few.warm, whole, few.bare,
                            WARM_AIM)  # fmt: skip
        for name in (str(FEW), f"{FEW}-bare", "host"):
            shutil.rmtree(home / name)
        many = _built(run, home, MANY)
        for kind, one, other in (("cold build", few.cold, many.cold),
                                 ("build after one edit", few.warm, many.warm)):  # fmt: skip
            grown = other.work / one.work
            yield (
                f"{kind} of {MANY:,} problems: {other}, {grown:.2f} times the work of {FEW} "
                f"({other.wall / one.wall:.2f} times as long; bare pages by the host alone "
                f"{many.bare.work / few.bare.work:.2f} times the work); "
                f"aim {LINEAR:.2f} at most: {_met(grown, LINEAR)}"
            )
        yield f"peak memory of the cold build of {MANY:,}, its processes together: " \
              f"{many.cold.peak:.0f} MiB; after one edit {many.warm.peak:.0f} MiB"  # fmt: skip


def measure_fresh() -> Iterator[str]:
    """Build a sample with other numbers on every page, cold and after one edit."""
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        run = Runner(home / "compiled")
        _warm_up(run, home / "first")
        unit = write_unit(home / "unit", distinct_problems(SAMPLE), fresh=True)
        cold = run.build(unit)
        host = run.build(write_host(home / "host", unit, bare=False))
        bare = _median([run.build(write_host(home / "bare", unit, bare=True)) for _ in range(RUNS)])
        warm = _median([_edited(run, unit) for _ in range(RUNS)])
        plain = write_unit(home / "plain", distinct_problems(SAMPLE), fresh=False)
        run.build(plain)
        without = _median([_edited(run, plain) for _ in range(RUNS)])
        each = cold.work / SAMPLE
        yield from _against(f"with other numbers, {SAMPLE} problems, cold build", cold, host, bare,
                            COLD_AIM)  # fmt: skip
        yield (
            f"with other numbers, scaled from {SAMPLE} problems: {each:.1f} s of processors a "
            f"problem, so some {FEW * each / 60:.0f} min of work for {FEW}, shared by all "
            f"processors"
        )
        yield from _against(f"with other numbers, {SAMPLE} problems, build after one edit (median "
                            f"of {RUNS})", warm, host, bare, WARM_AIM)  # fmt: skip
        yield (
            f"with other numbers, one edit takes {warm.work - without.work:+.1f} s of work and "
            f"{warm.wall - without.wall:+.1f} s of time against a page without them"
        )


def _built(run: Runner, home: Path, size: int) -> Built:
    unit = write_unit(home / str(size), distinct_problems(size), fresh=False)
    cold = run.build(unit)
    warm = _median([_edited(run, unit) for _ in range(RUNS)])
    bare = write_host(home / f"{size}-bare", unit, bare=True)
    return Built(cold, warm, _median([run.build(bare) for _ in range(RUNS)]))


def _edited(run: Runner, unit: Path) -> Ran:
    change_one_number(unit)
    return run.build(unit)


def _warm_up(run: Runner, folder: Path) -> None:
    """Have every module compiled, as it is from a user's second command on."""
    run.build(write_unit(folder, distinct_problems(SAMPLE // 2), fresh=False))


def _median(runs: list[Ran]) -> Ran:
    """The middle of each measure; the most memory of all."""
    return Ran(
        median(run.wall for run in runs),
        median(run.work for run in runs),
        max(run.peak for run in runs),
        0,
    )


def _against(kind: str, ours: Ran, host: Ran, bare: Ran, aim: float) -> Iterator[str]:
    """Ours beside the same pages by the host, and beside the least that the host could do."""
    told = kind if "problems" in kind else f"{kind} of {FEW} problems"
    ratio = ours.wall / host.wall
    yield (
        f"{told}: {ours}; the same pages by the host alone {host}; "
        f"{ratio:.2f} times as long ({ours.work / host.work:.2f} times the work), "
        f"aim {aim} at most: {_met(ratio, aim)}"
    )
    yield (
        f"{told}, beside pages of bare headings by the host alone, {bare}: "
        f"{ours.wall / bare.wall:.2f} times as long ({ours.work / bare.work:.2f} times the work)"
    )


def _met(found: float, aim: float) -> str:
    return "met" if found <= aim else "not met"
