"""What was found, as a table for people and as data for programs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from builder.lesson.answers import answers
from builder.lesson.kinds import display_of
from builder.problem.faults.gathering import all_of
from builder.problem.fresh import stated_values
from builder.quantity.names import Name
from builder.site.numbers.search import Search
from builder.site.plain_text import plain_prose
from builder.solution import Solution
from builder.solution.fresh.best import Numbers
from builder.solution.fresh.wanted import asked_of
from builder.solution.spelled import spelled_results

WIDTH = 88
_GAP = "  "


def table(search: Search) -> str:
    """The sets that were found, best first: their values, their answers, their digits."""
    catch, hunt = search.catch, search.hunt
    looked, seemed = (f"{n:,}".replace(",", " ") for n in (catch.looked, catch.seemed))
    give = f"{seemed} give" if catch.seemed > 1 else "one gives"
    best = f"The best {len(catch.numbers)}" if len(catch.numbers) > 1 else "The best one"
    lines = [
        f"Of {looked} sets of values, {give} clean numbers in every step.",
        f"{best}, solved exactly by both methods:",
        "",
    ]
    rows = [_row(numbers, search) for numbers in catch.numbers]
    for block in _blocks([list(rows[0]), *(list(row.values()) for row in rows)]):
        lines += [*block, ""]
    lines.append("Digits: how many significant digits the worst number of the steps needs.")
    lines += _following(search)
    if hunt.unclean:
        display = display_of(hunt.first)
        symbols = ", ".join(display.symbol(name).text for name in hunt.unclean)
        lines.append(f"Not counted, since no values make them clean: {symbols}.")
    told = _told(hunt.first)
    if told:
        display = display_of(hunt.first)
        what = all_of(plain_prose(display.asks_for(name), display) for name in told)
        lines.append(f"A text of the file tells {what} in numbers: read it again.")
    return "\n".join(lines) + "\n"


def as_data(search: Search, written: int | None) -> dict[str, Any]:
    """The same as plain data.

    Returns:
        ``{"problem": slug, "looked": …, "digits": …, "uncounted": ["voltage:C1@t1"], "told":
        ["current:R1"], "written": 1 or null, "sets": [{"values": {"C1": "12 uF"}, "digits": 2,
        "answers": […]}, …]}``; ``told`` is what texts of the file tell in numbers, the answers
        are those of ``stepwell solve --json``.
    """
    hunt = search.hunt
    called = {value.name: value.called for value in stated_values(hunt.first.problem)}
    return {
        "problem": hunt.first.problem.slug,
        "looked": search.catch.looked,
        "digits": hunt.wanted.digits,
        "uncounted": [name.key for name in hunt.unclean],
        "told": [name.key for name in _told(hunt.first)],
        "written": written,
        "sets": [
            {
                "values": {called[name]: typed for name, typed in _typed(numbers).items()},
                "digits": numbers.worst,
                "answers": answers(numbers.solution)["answers"],
            }
            for numbers in search.catch.numbers
        ],
    }


def _told(solution: Solution) -> tuple[Name, ...]:
    """The answers that own texts tell in numbers, else one other result that they tell."""
    results = spelled_results(solution)
    asked = asked_of(solution)
    return tuple(name for name in results if name in asked) or results[:1]


def _typed(numbers: Numbers) -> dict[Name, str]:
    """The values that vary, those that follow others included, as they stand in the text."""
    problem = numbers.solution.problem
    return {v.name: problem.text[v.start : v.end] for v in stated_values(problem)
            if v.name in numbers.varied}  # fmt: skip


def _following(search: Search) -> Iterator[str]:
    """What stands in no column, since it follows another value."""
    called = {value.name: value.called for value in stated_values(search.hunt.first.problem)}
    for axis in search.hunt.grid.axes:
        names = [called[name] for name in axis.followers]
        if names:
            verb = "changes" if len(names) == 1 else "change"
            yield f"{all_of(names)} {verb} with {called[axis.name]}."


def _row(numbers: Numbers, search: Search) -> dict[str, str]:
    """The cells of a set by their headings."""
    solution = numbers.solution
    leaders = {axis.name for axis in search.hunt.grid.axes}
    cells = {value.called: value.measure.shown.text for value in stated_values(solution.problem)
             if value.name in leaders}  # fmt: skip
    cells["digits"] = str(numbers.worst)
    for heading, name in _headings(search.hunt.first):
        shown = display_of(solution).shown(name)
        cells[heading] = shown.text if shown.exact else f"≈ {shown.text}"
    return cells


def _headings(solution: Solution) -> Iterator[tuple[str, Name]]:
    """What is asked, each with a heading of its own."""
    display = display_of(solution)
    taken: set[str] = set()
    for name in asked_of(solution):
        symbol = display.symbol(name).text
        heading = symbol if symbol not in taken else plain_prose(display.asks_for(name), display)
        taken.add(heading)
        yield heading, name


def _blocks(rows: list[list[str]]) -> Iterator[list[str]]:
    """A table as lines, in parts that are no wider than a page; each starts with the numbers."""
    numbers = ["", *(str(n) for n in range(1, len(rows)))]
    first = max(map(len, numbers))
    columns = [list(column) for column in zip(*rows, strict=True)]
    part: list[list[str]] = []
    width = first
    for column in columns:
        wide = len(_GAP) + max(map(len, column))
        if part and width + wide > WIDTH:
            yield _lines(numbers, part)
            part, width = [], first
        part.append(column)
        width += wide
    yield _lines(numbers, part)


def _lines(numbers: list[str], columns: list[list[str]]) -> list[str]:
    widths = [max(map(len, column)) for column in columns]
    first = max(map(len, numbers))
    return [
        _GAP.join([numbers[n].rjust(first), *(column[n].ljust(width)
                   for column, width in zip(columns, widths, strict=True))]).rstrip()
        for n in range(len(numbers))
    ]  # fmt: skip
