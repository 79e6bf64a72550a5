"""What becomes of one file: it is solved and taught, refused with its place, or a defect."""

from __future__ import annotations

import re
import traceback
from dataclasses import dataclass
from pathlib import Path

from builder.errors import Fault, FaultyFile
from builder.lesson import write_lesson
from builder.lesson.apart import telling_apart
from builder.problem import read_problem
from builder.problem.model import Unit
from builder.site.page import PARTS, ProblemPage
from builder.solution import solve

FINE, REFUSED, BAD = "fine", "refused", "BAD"
_INNER = re.compile(
    r"\bNone\b|<[a-z_.]+ object|\b(?:Text|Map|Items|Entry|Mark|Unusable|Rational|Fraction|Name|Ref"
    r"|Product|Quotient|Traceback)\(|\b(?:KeyError|ValueError|TypeError|IndexError|NoneType"
    r"|NotImplemented|zoo)\b|tag:yaml|0x[0-9a-f]{6,}"
)


@dataclass(frozen=True)
class Verdict:
    """What became of a file.

    Attributes:
        kind: ``fine``, ``refused`` or ``BAD``.
        told: the faults, or what is bad: the same text for the same defect.
        trace: where an exception came from, for people.
    """

    kind: str
    told: str = ""
    trace: str = ""


def judge(file: Path, unit: Unit, *, page: bool = False) -> Verdict:
    """Send a file the way of a check, and of a page if that is wanted."""
    try:
        lesson = write_lesson(solve(read_problem(file, unit=unit, name="problem.yml")))
        telling_apart(lesson)
        if page:
            made = ProblemPage(lesson, unit, "problem")
            for part in PARTS:
                made.part(part)
        return Verdict(FINE)
    except FaultyFile as error:
        wrong = next(filter(None, map(unfit, error.faults)), "")
        text = str(error)
        raw = file.read_bytes().decode("utf-8", "replace")
        inner = _INNER.search(text)
        if inner and inner[0] not in raw:
            wrong = f"{inner[0]} in the text of a fault"
        return Verdict(BAD, wrong, text) if wrong else Verdict(REFUSED, text)
    except Exception as error:  # noqa: BLE001 - whatever it is, it is a defect
        return Verdict(BAD, _signature(error), "".join(traceback.format_exception(error)[-40:]))


def unfit(fault: Fault) -> str:
    """What a fault lacks; empty if nothing."""
    if fault.path != "problem.yml" or fault.line < 1 or fault.column < 1:
        return f"a fault without a place: {fault}"
    for part in (fault.found, fault.expected, fault.advice):
        readable = part.replace("\xa0", " ").isprintable() and len(part) <= 600
        if not part or part != part.strip() or not readable:
            return f"a fault that cannot be read: {part[:60]!r}"
    if fault.advice[-1] not in '.?!"”':
        return f"a fault whose advice has no end: {fault.advice[-60:]}"
    return ""


def _signature(error: BaseException) -> str:
    """An exception by its kind and the last places of the product that it went through."""
    frames = [frame for frame in traceback.extract_tb(error.__traceback__)
              if "/builder/" in frame.filename]  # fmt: skip
    places = [f"{frame.filename.rpartition('/builder/')[2]}:{frame.name}" for frame in frames[-2:]]
    return f"{type(error).__name__} in {' < '.join(reversed(places))}"
