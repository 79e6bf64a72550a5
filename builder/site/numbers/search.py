"""The service behind ``stepwell numbers``: read, look, and say why nothing fits."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from builder.errors import Fault, FaultyFile
from builder.lesson import write_lesson
from builder.lesson.apart import telling_apart
from builder.problem import read_problem
from builder.problem.model import Problem, Unit
from builder.quantity.symbolic import is_symbolic
from builder.site.numbers.none_found import nothing_fits
from builder.site.numbers.wishes import Wishes, with_wishes
from builder.solution import solve
from builder.solution.fresh.best import Catch, Hunt, best_numbers, hunt_for
from builder.solution.fresh.wanted import wanted_of

LONG_SEARCH = 10_000_000
"""From so many sets on a search may take long enough to be watched."""
MOST_LOOKED_AT = 1_000_000_000
"""Mostly some seconds; several minutes where every number hangs on every value."""


@dataclass(frozen=True)
class Search:
    """What was looked for, and what was found.

    Attributes:
        path: the problem's file.
        raw: what stood in it.
        hunt: what was looked through.
        catch: what was found, at least one set.
    """

    path: Path
    raw: bytes
    hunt: Hunt
    catch: Catch


def prepare(path: Path, unit: Unit | None, wishes: Wishes, digits: int | None) -> Search:
    """Read a problem and find out what has to be looked through; nothing is found yet.

    Args:
        path: the problem's file.
        unit: as for ``read_problem``.
        wishes: which values may vary, and what must be so.
        digits: how many significant digits any number may need; None for what the problem says.

    Raises:
        FaultyFile: if the file or a wish has a fault, or if there is nothing to choose.
        Disagreement: if two methods differ for the problem's own values.
        CheckFailed: if a check does not hold of them.
    """
    raw = path.read_bytes() if path.is_file() else b""
    problem = read_problem(path, unit=unit)
    solution = solve(problem)
    if any(map(is_symbolic, solution.values.values())):
        raise _refused(problem, "letters instead of numbers", "values with units, such as 10 uF",
                       "A solution in letters holds for all numbers already. Type numbers first, "
                       "any that the problem can have, to look for better ones.")  # fmt: skip
    asked = with_wishes(problem, wishes)
    solution = replace(solution, problem=asked)
    tells = telling_apart(write_lesson(solution)) if asked.keep.apart else None
    wanted = wanted_of(asked, tells)
    # What the author says of the values in the file shall stay true, whatever varies.
    same_order = wanted.same_order or wanted_of(problem).same_order
    wanted = replace(wanted, digits=digits or wanted.digits, firm=None, same_order=same_order)
    hunt = hunt_for(solution, wanted)
    if not hunt.grid.axes:
        raise _refused(problem, "no value that may vary", "at least one value with choices",
                       "Name some: --series E12 for all elements, or --vary for single values, "
                       'such as --vary V0="6 V to 24 V step 3 V".')  # fmt: skip
    if hunt.grid.size > MOST_LOOKED_AT:
        raise _refused(problem, f"{hunt.grid.size:,} sets of values".replace(",", " "),
                       f"at most {MOST_LOOKED_AT:,}".replace(",", " "),
                       "Let fewer values vary, or take a coarser series, such as E6.")  # fmt: skip
    return Search(path, raw, hunt, Catch((), 0, 0))


def look(search: Search, best: int, seen: Callable[[int], None]) -> Search:
    """Look through all sets of values.

    Args:
        search: what was prepared.
        best: how many sets are wanted at most.
        seen: is told how many more sets were looked at, now and then.

    Raises:
        NoNumbers: if none fits.
        Disagreement: if two methods differ for a set.
        CheckFailed: if a check does not hold of a set.
    """
    catch = best_numbers(search.hunt, best=best, seen=seen)
    if not catch.numbers:
        raise nothing_fits(search.hunt, catch)
    return replace(search, catch=catch)


def _refused(problem: Problem, found: str, expected: str, advice: str) -> FaultyFile:
    return FaultyFile((Fault(problem.path, 0, 0, found, expected, advice),))
