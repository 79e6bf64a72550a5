"""A report as lines of text: one for each fault and each oddity, and one that sums up."""

from __future__ import annotations

from collections.abc import Iterator

from builder.site.checking.report import PAGE, Checked, Report

_PLURALS = {"oddity": "oddities"}


def lines_of(report: Report, *, odd: bool = True) -> Iterator[str]:
    """A line for each fault and each oddity, in the order of the files.

    Args:
        report: of a check.
        odd: whether oddities are told.
    """
    for one in report.files:
        yield from map(str, one.faults)
        if one.broke:
            yield one.broke
        if odd:
            yield from map(str, one.oddities)


def told_of(report: Report, *, odd: bool = True) -> Iterator[str]:
    """The same for people: several lines each, with the line of the file that is meant."""
    for one in report.files:
        yield from (fault.told() for fault in one.faults)
        if one.broke:
            yield one.broke
        if odd:
            yield from (oddity.told() for oddity in one.oddities)


def summary(report: Report) -> str:
    """What was done and found, in a sentence or two."""
    problems = counted(len(report.problems), "problem")
    oddities = counted(report.oddities, "oddity")
    if report.faults:
        odd = f", {oddities}" if report.oddities else ""
        return f"{problems} read, {counted(report.faults, 'fault')}{odd}."
    pages = sum(one.part == PAGE for one in report.files)
    read = f", {counted(pages, 'lesson page')} read" if pages else ""
    odd = f" {oddities} to look at." if report.oddities else ""
    return f"{problems} solved twice{read}; everything agrees.{odd}"


def verdict(one: Checked) -> str:
    """What came out for a file, in a few words: ``agree``, ``2 faults, 1 oddity``."""
    said = []
    if one.solved and not one.faults:
        said.append("agree")
    if one.faults:
        said.append(counted(len(one.faults), "fault"))
    if one.broke:
        said.append("failed")
    if one.oddities:
        said.append(counted(len(one.oddities), "oddity"))
    return ", ".join(said)


def counted(number: int, noun: str) -> str:
    """``1 oddity``, ``2 oddities``."""
    return f"{number} {noun if number == 1 else _PLURALS.get(noun, noun + 's')}"
