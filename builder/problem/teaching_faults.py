"""Faults with all that helps their reader: the line, the word in it, and an example."""

from __future__ import annotations

from dataclasses import replace

from pydantic import BaseModel

from builder.errors import Fault, FaultyFile
from builder.problem.composing import compose
from builder.problem.gathering import LINE_END, Faults
from builder.problem.located import Map
from builder.problem.right_form import RightForms, width_at
from builder.problem.shape import ProblemShape


def shown_in(text: str, error: FaultyFile, shape: type[BaseModel] = ProblemShape) -> FaultyFile:
    """The same faults, each with its line and, where its form is wrong, with the right one.

    Args:
        text: of the file.
        error: its faults; what they know of their lines already is kept.
        shape: of the file.
    """
    lines = LINE_END.split(text.removeprefix("\ufeff"))
    root = _root(text)
    forms = RightForms(root, shape) if root is not None else None
    return FaultyFile(tuple(_shown(fault, lines, root, forms) for fault in error.faults))


def _root(text: str) -> Map | None:
    try:
        return compose(text, Faults(""))
    except FaultyFile:
        return None


def _shown(fault: Fault, lines: list[str], root: Map | None, forms: RightForms | None) -> Fault:
    if not fault.line:
        return fault
    if not fault.source and fault.line <= len(lines):
        width = width_at(root, fault.line, fault.column) if root is not None else 1
        fault = replace(fault, source=lines[fault.line - 1], width=width)
    if not fault.right and forms is not None:
        fault = replace(fault, right=forms.at(fault.line, fault.column))
    return fault
