"""The answers of every set of a problem, as a table for a terminal and as plain data."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from builder.lesson import Lesson
from builder.lesson.answers import answers, as_data
from builder.problem.fresh import follows
from builder.problem.model import Unit
from builder.quantity.names import Name
from builder.site.fresh import FreshLesson, fresh_lessons
from builder.site.paper.sets import Sets

_GAP = "  "
_BAR = " │ "


@dataclass(frozen=True)
class Key:
    """A problem with all of its sets.

    Attributes:
        lesson: the problem as it is written.
        sets: the others, in order.
    """

    lesson: Lesson
    sets: tuple[FreshLesson, ...]

    @property
    def rows(self) -> tuple[FreshLesson, ...]:
        """All sets, the problem as it is written first, as set 0."""
        return (FreshLesson(0, self.lesson), *self.sets)

    @property
    def varied(self) -> tuple[Name, ...]:
        """The stated values that differ from set to set, in the author's order."""
        first = self.lesson.solution.givens
        others = [fresh.lesson.solution.givens for fresh in self.sets]
        return tuple(name for name in first if any(o[name] != first[name] for o in others))

    @property
    def told(self) -> Mapping[Name, tuple[Name, ...]]:
        """The varied values that need a column, each with those that always equal it."""
        followers = follows(self.lesson.solution.problem).items()
        equal = {name: follower.leader for name, follower in followers if follower.times == 1}
        columns: dict[Name, tuple[Name, ...]] = {}
        for name in self.varied:
            leader = equal.get(name, name)
            if leader == name:
                columns[name] = ()
        for name in self.varied:
            if equal.get(name) in columns:
                columns[equal[name]] = (*columns[equal[name]], name)
        return columns


def key_of(lesson: Lesson, unit: Unit, sets: Sets = fresh_lessons) -> Key:
    """All sets of a problem.

    Args:
        lesson: the problem as it is written.
        unit: the unit that it belongs to.
        sets: gives its sets.
    """
    return Key(lesson, sets(lesson, unit))


def key_data(key: Key) -> dict[str, Any]:
    """The sets with their values and answers, in SI units.

    Returns:
        ``{"problem": slug, "sets": [{"set": number, "values": […], "answers": […]}, …]}``; set 0
        is the problem as it is written, and each value and answer is as ``answers`` has it.
    """
    rows = []
    for row in key.rows:
        solution = row.lesson.solution
        rows.append({
            "set": row.number,
            "values": [as_data(solution, name) for name in key.varied],
            "answers": answers(solution)["answers"],
        })  # fmt: skip
    return {"problem": key.lesson.solution.problem.slug, "sets": rows}


def key_text(key: Key, width: int) -> str:
    """The table of a problem's sets.

    Args:
        key: the sets.
        width: of the terminal, in characters; a table that is wider goes on in a second one.
    """
    solution, display = key.lesson.solution, key.lesson.display
    lines = [f"{solution.problem.title} ({solution.problem.slug})"]
    asked = solution.problem.find
    values = [_Column(display.symbol(name).text, [
        row.lesson.display.shown(name).text for row in key.rows]) for name in key.told]  # fmt: skip
    results = [_Column(display.symbol(solution.resolve(name)).text, [
        row.lesson.display.shown(name).text for row in key.rows]) for name in asked]  # fmt: skip
    numbers = _Column("set", [str(row.number) for row in key.rows])
    for part in _parts(numbers, values, results, width):
        lines += ["", *_table(part)]
    lines += [""] if any(key.told.values()) else []
    for name, others in key.told.items():
        if others:
            also = ", ".join(display.symbol(other).text for other in others)
            lines.append(f"Always as {display.symbol(name).text}: {also}.")
    if not key.sets:
        lines += ["", "This problem has no other numbers."]
    return "\n".join(lines) + "\n"


@dataclass(frozen=True)
class _Column:
    """A column of a table.

    Attributes:
        head: what stands above it.
        cells: one for each set.
    """

    head: str
    cells: Sequence[str]

    @property
    def width(self) -> int:
        """How many places it takes."""
        return max(map(_places, (self.head, *self.cells)))


def _parts(
    numbers: _Column, values: Sequence[_Column], results: Sequence[_Column], width: int
) -> Iterable[list[list[_Column]]]:
    """Tables that are no wider than the terminal: groups of columns, the numbers first in each."""
    whole = [[numbers], list(values), list(results)]
    if _width(whole) <= width:
        yield whole
        return
    for group in (values, results):
        part: list[_Column] = []
        for column in group:
            if part and _width([[numbers], [*part, column]]) > width:
                yield [[numbers], part]
                part = []
            part.append(column)
        if part:
            yield [[numbers], part]


def _width(groups: Sequence[Sequence[_Column]]) -> int:
    full = [group for group in groups if group]
    inside = [sum(c.width for c in group) + len(_GAP) * (len(group) - 1) for group in full]
    return sum(inside) + len(_BAR) * (len(full) - 1)


def _table(groups: Sequence[Sequence[_Column]]) -> list[str]:
    full = [group for group in groups if group]
    rule = "─┼─".join("─" * _width([group]) for group in full)
    rows = range(len(full[0][0].cells))
    return [_line(full, None), rule, *(_line(full, row) for row in rows)]


def _line(groups: Sequence[Sequence[_Column]], row: int | None) -> str:
    """A row of the table, or its heads."""
    return _BAR.join(
        _GAP.join(_right(c.head if row is None else c.cells[row], c.width) for c in group)
        for group in groups
    ).rstrip()


def _right(text: str, width: int) -> str:
    return " " * (width - _places(text)) + text


def _places(text: str) -> int:
    """How many places a text takes in a terminal: marks above a letter take none, wide ones two."""
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
        for c in text
    )
