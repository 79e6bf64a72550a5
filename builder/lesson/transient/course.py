"""The whole course of a voltage, for a curve and for a table beside it."""

from __future__ import annotations

from dataclasses import dataclass

from sympy import Integer, exp

from builder.lesson.prose import NumberOf, Prose, SymbolOf, Told, say
from builder.lesson.transient.display import TransientDisplay
from builder.problem.transient.moments import CONSTANT, END, START, at
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.show import show

MULTIPLES = (1, 2, 3, 5)
"""The times in the table, in time constants: after five, less than 1 % is left."""


@dataclass(frozen=True)
class CourseRow:
    """The voltage at one time.

    Attributes:
        time: in seconds, for the order of rows.
        when: the time in words.
        voltage: the voltage then.
        left: what is left of the way.
    """

    time: float
    when: Prose
    voltage: Prose
    left: Prose


@dataclass(frozen=True)
class Course:
    """How a voltage goes from its first value to its last.

    Attributes:
        store: what is charged.
        start, end, constant: the quantities that decide the curve.
        moments: the times that are asked about or asked for.
        rows: the table, in order of time.
        says: what the curve shows, in a sentence or two.
    """

    store: Prose
    start: Name
    end: Name
    constant: Name
    moments: tuple[Name, ...]
    rows: tuple[CourseRow, ...]
    says: Prose


def course_of(display: TransientDisplay) -> Course | None:
    """The course of what is charged, or None if it keeps its voltage or has no single one."""
    solution = display.solution
    values, store = solution.values, solution.store.id
    start, end = at("voltage", store, START), at("voltage", store, END)
    if CONSTANT not in values or values[start] == values[end]:
        return None
    problem = solution.problem
    reached = [name for name in values if name.quantity == "time" and ">" in name.of]
    moments = (*(Name("time", when) for when in problem.times), *reached)
    rows = [*_multiples(display), *(_moment(name, display) for name in moments)]
    return Course(
        store=display.store,
        start=start,
        end=end,
        constant=CONSTANT,
        moments=moments,
        rows=tuple(sorted(rows, key=lambda row: row.time)),
        says=_says(display, start, end),
    )


def _multiples(display: TransientDisplay) -> list[CourseRow]:
    tau = SymbolOf(CONSTANT)
    first = CourseRow(0.0, say("0"), (NumberOf(at("voltage", display.solution.store.id, START)),),
                      say("100\u00a0%"))  # fmt: skip
    rows = [first]
    for count in MULTIPLES:
        time = count * display.solution.values[CONSTANT]
        told = show(time, "time", display.digits)
        times = say("{tau}", tau=tau) if count == 1 else say("{n}{tau}", n=str(count), tau=tau)
        when = say("{times} {sign} {time}", times=times, sign=told.sign, time=Told(told))
        rows.append(_row(time, when, display))
    return rows


def _moment(name: Name, display: TransientDisplay) -> CourseRow:
    shown = display.shown(name)
    when = say("{symbol} {sign} {time}", symbol=SymbolOf(name), sign=shown.sign,
               time=NumberOf(name))  # fmt: skip
    return _row(display.solution.values[name], when, display)


def _row(time: Exact, when: Prose, display: TransientDisplay) -> CourseRow:
    values, store = display.solution.values, display.solution.store.id
    start, end = (values[at("voltage", store, moment)] for moment in (START, END))
    left = exp(-time / values[CONSTANT])
    volts = show(end + (start - end) * left, "voltage", display.digits)
    return CourseRow(float(time), when, (Told(volts),), say(_percent(float(left))))


def _percent(left: float) -> str:
    """A share as a percentage with three digits at most: 36.8 %, 0.674 %."""
    return f"{left * 100:.3g}\u00a0%"


def _says(display: TransientDisplay, start: Name, end: Name) -> Prose:
    values = display.solution.values
    if values[end] == 0:
        return say("The voltage across {store} falls from {start}, fast at first and ever more "
                   "slowly. In every {tau} it falls to 37\u00a0% of what it was.",
                   store=display.store, start=NumberOf(start), tau=SymbolOf(CONSTANT))  # fmt: skip
    verb = "climbs" if values[end] > values[start] else "falls"
    first = "0\u00a0V" if values[start] == Integer(0) else NumberOf(start)
    return say("The voltage across {store} {verb} from {start} towards {end}, fast at first and "
               "ever more slowly. In every {tau} it covers 63\u00a0% of what is left.",
               store=display.store, verb=verb, start=first, end=NumberOf(end),
               tau=SymbolOf(CONSTANT))  # fmt: skip
