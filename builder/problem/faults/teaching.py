"""Faults with all that helps their reader: the line, the word in it, and an example."""

from __future__ import annotations

import re
from dataclasses import replace

from pydantic import BaseModel

from builder.errors import Fault, FaultyFile
from builder.problem.faults.gathering import LINE_END, Faults, Mark, fault_in
from builder.problem.faults.right_form import Places, example_of
from builder.problem.shape import ProblemShape
from builder.problem.yaml_text.composing import KEYS, compose

_LACKING = re.compile(r'no "([a-z-]+)"')
_LACKS = re.compile(r"([a-z-]+): ")
"""What is expected where a key lacks begins with that key."""
MOST_EXAMPLES = 30
"""How many faults of a file get an example; nobody reads more at once."""


def shown_in(text: str, error: FaultyFile, shape: type[BaseModel] = ProblemShape) -> FaultyFile:
    """The same faults, each with its line and, where its form is wrong, with the right one.

    Args:
        text: of the file.
        error: its faults; what they know of their lines already is kept.
        shape: of the file.
    """
    lines = LINE_END.split(text.removeprefix("\ufeff"))
    places = _places_in(text, shape)
    faults = [_in_its_line(fault, lines, places) for fault in error.faults]
    first = (_with_example(fault, places, shape) for fault in faults[:MOST_EXAMPLES])
    return FaultyFile((*first, *faults[MOST_EXAMPLES:]))


def _places_in(text: str, shape: type[BaseModel]) -> Places | None:
    try:
        return Places(compose(text, Faults("")), shape)
    except FaultyFile:
        return None


def _in_its_line(fault: Fault, lines: list[str], places: Places | None) -> Fault:
    if fault.source or not 0 < fault.line <= len(lines):
        return fault
    width = places.width(fault.line, fault.column) if places is not None else 1
    at = Mark(fault.line, fault.column, width)
    said = (fault.found, fault.expected, fault.advice)
    return fault_in(lines[fault.line - 1], fault.path, at, said)


def _with_example(fault: Fault, places: Places | None, shape: type[BaseModel]) -> Fault:
    if fault.expected == KEYS:
        return replace(fault, right=example_of((), shape))
    if fault.right or places is None or not fault.line:
        return fault
    lacking = _LACKING.fullmatch(fault.found) or _LACKS.match(fault.expected)
    if lacking:
        right = places.example_of_lacking(lacking[1], fault.line, fault.column)
        return replace(fault, right=right)
    return replace(fault, right=places.example(fault.line, fault.column))
