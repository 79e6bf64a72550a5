"""What the curve of a lesson on charging or discharging shows, in the units of its axes."""

from __future__ import annotations

from fractions import Fraction

from builder.figure.plot import MOST_CONSTANTS, Moment, Plot, symbol_runs
from builder.figure.words import spoken
from builder.lesson.transient.course import Course
from builder.lesson.transient.display import TransientDisplay
from builder.quantity.exact import Exact, near_fraction
from builder.quantity.names import Name
from builder.quantity.numerals import unit_power
from builder.quantity.show import show


def plot_of(course: Course, display: TransientDisplay) -> Plot:
    """The curve, in units whose numbers are short at the axes."""
    values = display.solution.values
    highest = max(abs(values[course.start]), abs(values[course.end]))
    volts = show(highest, "voltage").unit
    seconds = show(5 * values[course.constant], "time").unit
    symbol = display.symbol(course.end)
    return Plot(
        quantity=type(symbol)(symbol.letter, symbol.index),
        unit=volts,
        time_unit=seconds,
        start=_in(values[course.start], volts, "voltage"),
        end=_in(values[course.end], volts, "voltage"),
        constant=_in(values[course.constant], seconds, "time"),
        end_symbol=symbol,
        moments=tuple(
            Moment(_in(values[name], seconds, "time"), symbol_runs(display.symbol(name)))
            for name in course.moments
        ),
    )


def described(course: Course, display: TransientDisplay) -> str:
    """The curve in words: where it starts and ends, and where it is at each marked time."""
    shown = display.shown
    volts = spoken(display.symbol(course.end))
    plot = plot_of(course, display)
    told = [
        f"A curve of the voltage from {shown(course.start).text} at time zero, fast at first and "
        f"ever more slowly, towards {shown(course.end).text}, which is marked as {volts}.",
        f"The time constant, {shown(course.constant).text}, is marked where "
        f"{'37 % are left' if plot.end == 0 else '63 % of the way are done'}.",
    ]
    there = [name for name in course.moments if _shown(name, course, display)]
    if there:
        marks = ", ".join(f"{spoken(display.symbol(n))}, {shown(n).text}" for n in there)
        told.append(f"Also marked: {marks}.")
    return " ".join((*told, "The table has the numbers."))


def _shown(name: Name, course: Course, display: TransientDisplay) -> bool:
    values = display.solution.values
    return float(values[name]) <= MOST_CONSTANTS * float(values[course.constant])


def _in(value: Exact, unit: str, kind: str) -> float:
    """A value in a prefixed unit of its kind."""
    power = unit_power(unit, kind)
    assert power is not None
    return float(near_fraction(value) / Fraction(10) ** power)
