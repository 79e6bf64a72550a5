"""A sheet with other numbers: the sets that the problems' pages offer, by the same numbers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from builder.errors import Fault, FaultyFile
from builder.lesson import Lesson
from builder.problem.model import Unit
from builder.site.fresh import FreshLesson, fresh_lessons
from builder.site.paper.choosing import Chosen

Sets = Callable[[Lesson, Unit], tuple[FreshLesson, ...]]


@dataclass(frozen=True)
class WithSet:
    """Problems of which those that can have other numbers.

    Attributes:
        chosen: the problems, with the numbers of the set.
        unchanged: the names of those that have no other numbers at all, and stay as they are.
    """

    chosen: Chosen
    unchanged: tuple[str, ...] = ()


def with_set(chosen: Chosen, number: int, sets: Sets = fresh_lessons) -> WithSet:
    """The same problems with the numbers of a set.

    Args:
        chosen: the problems as they are written.
        number: of the set, from 1 on; 0 leaves everything as it is written.
        sets: gives the sets of a problem.

    Raises:
        FaultyFile: if a problem has other numbers but no set of that number, or none has any.
    """
    if number == 0:
        return WithSet(chosen)
    lessons: list[tuple[Lesson, Unit]] = []
    unchanged: list[str] = []
    faults: list[Fault] = []
    for lesson, unit in chosen.lessons:
        slug = lesson.solution.problem.slug
        offered = {fresh.number: fresh.lesson for fresh in sets(lesson, unit)}
        if not offered:
            unchanged.append(slug)
        elif number not in offered:
            faults.append(Fault(
                "sheet", 0, 0, f"set {number} of {slug}",
                f"a set from 0 to {max(offered)}", f"See them all with stepwell key {slug}.",
            ))  # fmt: skip
        lessons.append((offered.get(number, lesson), unit))
    if not faults and len(unchanged) == len(lessons):
        faults.append(Fault("sheet", 0, 0, f"set {number} of problems without other numbers",
                            "at least one that can have others",
                            "Leave --set out, or choose other problems."))  # fmt: skip
    if faults:
        raise FaultyFile(tuple(faults))
    return WithSet(replace(chosen, lessons=tuple(lessons), number=number), tuple(unchanged))
