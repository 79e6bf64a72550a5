"""Mistakes about the first instant and about the end."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer

from builder.lesson.prose import Prose, say
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.problem.transient.moments import END, at, moment_of
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.transient.second import currents_while

_TGB = "Thacker, Ganiel and Boys, Am. J. Phys. 67, S25 (1999), from memory"


def _wire_for_ever(display: TransientDisplay) -> Iterator[Wrong]:
    """Currents long after, worked out with a wire in the place of each capacitor."""
    solution = display.solution
    held: dict[tuple[str, str], Exact] = {store.ends: Integer(0) for store in solution.stores}
    currents = currents_while(solution.problem.circuit, held)
    happens = say("leaving a wire in place of {store}", store=display.store)
    for name, step in found_names(display):
        of, when = moment_of(name)
        if when != END or of not in currents:
            continue
        if name.quantity == "current":
            yield Wrong(name, currents[of], step.id, happens)
        elif name.quantity == "voltage":
            volts = currents[of] * solution.values[Name("resistance", of)]
            yield Wrong(name, volts, step.id, happens)
        elif name.quantity == "power":
            watts = currents[of] ** 2 * solution.values[Name("resistance", of)]
            yield Wrong(name, watts, step.id, happens)


def _wire_for_ever_why(_wrong: Wrong, display: TransientDisplay) -> Prose:
    return say("At the first instant current does flow to the plates, and it seems to flow on "
               "through the gap. But it only piles up charge there; long after, the voltage of "
               "{store} holds it back for good.", store=display.store)  # fmt: skip


def _share_kept(display: TransientDisplay) -> Iterator[Wrong]:
    """The end as if resistors that carry nothing kept their share of the voltage."""
    values = display.solution.values
    on_the_way = {one for step in display.solution.every_step if step.when == END
                  for one in step.path}  # fmt: skip
    idle = tuple(one for one in display.resistors if one in on_the_way
                 and values.get(at("current", one, END)) == 0)  # fmt: skip
    if not idle or len(idle) == len(display.resistors):
        return
    resistances = {one: values[Name("resistance", one)] for one in display.resistors}
    kept = sum((resistances[one] for one in idle), Integer(0)) / sum(
        resistances.values(), Integer(0)
    )
    happens = say("letting {idle} keep a share of the voltage long after",
                  idle=display.elements(idle))  # fmt: skip
    for name, step in found_names(display):
        of, when = moment_of(name)
        if when == END and of in display.capacitors:
            power = 2 if name.quantity == "energy" else 1
            yield Wrong(name, values[name] * (1 - kept) ** power, step.id, happens)


def _share_kept_why(_wrong: Wrong, display: TransientDisplay) -> Prose:
    return say("A resistor on the way does take voltage while current flows, so it seems that less "
               "is left for {store}. But long after no current flows to {store}, and a resistor "
               "without current takes none: it only makes it all slower.",
               store=display.store)  # fmt: skip


INSTANT_RULES: tuple[WrongRule, ...] = (
    WrongRule("wire-for-ever", _TGB, "Leaving a wire in place of the capacitor",
              _wire_for_ever_why, _wire_for_ever),
    WrongRule("share-kept", _TGB, "Letting a resistor change where it ends",
              _share_kept_why, _share_kept),
)  # fmt: skip
