"""Wrong rules that an author wants told from the right one with other numbers too."""

from __future__ import annotations

from collections.abc import Callable

from builder.errors import Fault, FaultyFile
from builder.lesson.kinds import write_lesson
from builder.lesson.lesson import Lesson
from builder.problem.faults.gathering import meant, one_of, quoted
from builder.problem.faults.teaching import shown_in
from builder.solution import Solution

_FEW = 12


def telling_apart(lesson: Lesson) -> Callable[[Solution], bool] | None:
    """Whether all rules of ``keep: {apart: …}`` lead to wrong numbers of their own in a solution.

    Args:
        lesson: of the problem as it is written.

    Returns:
        A test for solutions with other numbers; None if the author asks for none.

    Raises:
        FaultyFile: if a rule leads to no wrong number in the problem as it is written.
    """
    problem = lesson.solution.problem
    wanted = problem.keep.apart
    if not wanted:
        return None
    known = _told_apart(lesson)
    faults = tuple(
        Fault(
            problem.path,
            line,
            column,
            f"the wrong rule {quoted(id)}, which leads to no wrong number here",
            _expected(known),
            meant(id, known, "Name one of these, or delete it."),
        )
        for id, (line, column) in wanted.items()
        if id not in known
    )
    if faults:
        raise shown_in(problem.text, FaultyFile(faults))
    return lambda other: set(wanted) <= set(_told_apart(write_lesson(other)))


def _told_apart(lesson: Lesson) -> tuple[str, ...]:
    """The ids of the rules that lead to wrong numbers in a lesson."""
    return tuple(dict.fromkeys(id for slip in lesson.slips for id in slip.rules))


def _expected(known: tuple[str, ...]) -> str:
    few = known if len(known) <= _FEW else (*known[: _FEW - 1], "another rule of the page")
    return one_of(few) if few else "a rule that fits, of which there is none"
