"""The same problem with other values: only their text in the file changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from builder.problem.fresh.following import with_followers
from builder.problem.model import Problem, Unit
from builder.problem.reader import read_problem_text
from builder.problem.varying.stated import StatedValue, stated_values
from builder.quantity.exact import read_number
from builder.quantity.measure import MeasureError, read_measure
from builder.quantity.names import Name


def rewritten(text: str, stated: Sequence[StatedValue], new: Mapping[Name, str]) -> str:
    """The text of a file with other values; everything else stays as it is, to the byte.

    Args:
        text: of the file.
        stated: the values that stand in it.
        new: what is to be typed in their places: ``4.7 uF``. What is left out stays.

    Raises:
        KeyError: if one of the names is none of what is stated.
        ValueError: if a new text is no value.
    """
    unknown = set(new) - {value.name for value in stated}
    if unknown:
        raise KeyError(next(iter(unknown)))
    for value in sorted(stated, key=lambda value: value.start, reverse=True):
        if value.name in new:
            typed = _checked(new[value.name])
            text = text[: value.start] + typed + text[value.end :]
    return text


def _checked(typed: str) -> str:
    """A text that stands for a value wherever YAML takes one, without or with quotes.

    Raises:
        ValueError: if it is no number, alone or with a unit, on one line.
    """
    if "\n" in typed or "\r" in typed:
        raise ValueError(f"{typed!r} is more than one line")
    try:
        read_number(typed)
    except ValueError:
        try:
            read_measure(typed)
        except MeasureError as error:
            raise ValueError(str(error)) from None
    return typed.strip()


def renewed(problem: Problem, new: Mapping[Name, str], unit: Unit | None = None) -> Problem:
    """The same problem with other values, read anew.

    Values that follow others (``follows``) change with them.

    Args:
        problem: read from a file.
        new: what is typed in the places of some of ``stated_values``.
        unit: as for ``read_problem``; without one, what the problem has from its unit stays.

    Raises:
        FaultyFile: if the problem cannot have these values.
        KeyError: if one of the names is none of ``stated_values``.
        ValueError: if a text is no value.
    """
    stated = stated_values(problem)
    text = rewritten(problem.text, stated, with_followers(problem, new))
    read = read_problem_text(text, problem.path, unit, with_wishes=False)
    read = replace(read, slug=problem.slug, vary=problem.vary, keep=problem.keep)
    if unit is not None:
        return read
    return replace(read, digits=problem.digits, leave_out=problem.leave_out)
