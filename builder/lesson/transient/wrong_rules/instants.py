"""Mistakes about the first instant and about the end."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer

from builder.lesson.mistake_sources import CEG, MS, PRACTICE, TGB
from builder.lesson.prose import Prose, say
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on, found_names, step_finding
from builder.problem.transient.moments import END, START, at, moment_of
from builder.quantity.exact import Exact
from builder.quantity.formula import names_in
from builder.quantity.names import TOTAL, Name
from builder.solution.transient.second import currents_while


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


def _ends(display: TransientDisplay) -> dict[Name, Exact]:
    """The last voltage of each store, by its name, where the steps find it."""
    names = [at("voltage", store.id, END) for store in display.solution.stores]
    return {name: display.solution.values[name] for name in names
            if step_finding(name, display.solution) is not None}  # fmt: skip


def _ending_at(
    other: dict[Name, Exact], happens: Prose, display: TransientDisplay, *, go_on: bool = True
) -> Iterator[Wrong]:
    """Other last voltages of the stores, and what follows from them.

    Args:
        other: the voltages, in volts; none leads to nothing.
        happens: what was done.
        display: of the solution.
        go_on: whether the way there follows from where it ends.
    """
    step = step_finding(next(iter(other)), display.solution) if other else None
    if step is None:
        return
    for wrong in carried_on(display, step, other, happens):
        if go_on or moment_of(wrong.name)[1] == END:
            yield wrong


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
    less = {name: value * (1 - kept) for name, value in _ends(display).items()}
    yield from _ending_at(less, happens, display)


def _share_kept_why(_wrong: Wrong, display: TransientDisplay) -> Prose:
    return say("A resistor on the way does take voltage while current flows, so it seems that less "
               "is left for {store}. But long after no current flows to {store}, and a resistor "
               "without current takes none: it only makes it all slower.",
               store=display.store)  # fmt: skip


def _whole_voltage(display: TransientDisplay) -> Iterator[Wrong]:
    """The end as if the whole voltage of the only source had to be across the capacitor."""
    sources = display.solution.problem.circuit.sources
    if len(sources) != 1 or sources[0].quantity != "voltage":
        return
    whole = sources[0].value
    other = {name: whole if value > 0 else -whole for name, value in _ends(display).items()
             if value != 0}  # fmt: skip
    happens = say("letting {store} charge up to all of {source}", store=display.store,
                  source=display.element(sources[0].name))  # fmt: skip
    yield from _ending_at(other, happens, display)


def _whole_voltage_why(_wrong: Wrong, display: TransientDisplay) -> Prose:
    return say("With nothing but one resistor before it, a capacitor does end at the full voltage "
               "of the battery. But here some current goes on for ever beside {store}, and takes "
               "its part of the voltage on the way.", store=display.store)  # fmt: skip


def _no_current_no_voltage(display: TransientDisplay) -> Iterator[Wrong]:
    happens = say("taking no current for no voltage")
    none = {name: Integer(0) for name, value in _ends(display).items() if value != 0}
    yield from _ending_at(none, happens, display, go_on=False)


def _no_current_no_voltage_why(_wrong: Wrong, display: TransientDisplay) -> Prose:
    return say("In a resistor, no current means no voltage. But long after, no current flows to "
               "{store} just because of the voltage there: it holds back whatever would still "
               "flow.", store=display.store)  # fmt: skip


def _gap_at_once(display: TransientDisplay) -> Iterator[Wrong]:
    """The first instant, as if it were long after."""
    values = display.solution.values
    happens = say("taking {store} for {gap} from the first instant on", store=display.store,
                  gap="a gap" if len(display.solution.stores) == 1 else "gaps")  # fmt: skip
    for quantity in ("current", "voltage", "power"):
        for name, step in found_names(display):
            of, when = moment_of(name)
            last = at(quantity, of, END)
            whose = of in display.resistors or of == TOTAL
            if whose and (name.quantity, when) == (quantity, START) and last in values:
                yield Wrong(name, values[last], step.id, happens)


def _gap_at_once_why(_wrong: Wrong, display: TransientDisplay) -> Prose:
    return say("There is a gap between the plates, and long after, it does stop the current to "
               "{store}. But at first charge moves as freely as the resistors let it: it is only "
               "what piles up that stops it.", store=display.store)  # fmt: skip


def _start_forgotten(display: TransientDisplay) -> Iterator[Wrong]:
    """From empty plates, although they hold something and go on to something else."""
    values = display.solution.values
    held = [at("voltage", store.id, START) for store in display.solution.stores]
    empty = {name: Integer(0) for name in held if values[name] != 0}
    if not empty or all(value == 0 for value in _ends(display).values()):
        return
    use = next((step for step in display.solution.steps
                if set(step.found) & set(empty) or any(set(names_in(line.formula)) & set(empty)
                                                       for line in step.lines)), None)  # fmt: skip
    if use is not None:
        yield from carried_on(display, use, empty, say("starting from empty plates"))


def _start_forgotten_why(_wrong: Wrong, display: TransientDisplay) -> Prose:
    return say("Charging is mostly told from empty plates on. But there is something on {store} "
               "when it begins, and only the rest of the way is still to go.",
               store=display.store)  # fmt: skip


INSTANT_RULES: tuple[WrongRule, ...] = (
    WrongRule("wire-for-ever", TGB, "Leaving a wire in place of the capacitor",
              _wire_for_ever_why, _wire_for_ever),
    WrongRule("share-kept", TGB, "Letting a resistor change where it ends",
              _share_kept_why, _share_kept),
    WrongRule("gap-at-once", PRACTICE, "Taking the capacitor for a gap at once",
              _gap_at_once_why, _gap_at_once),
    WrongRule("whole-voltage", MS, "Giving the capacitor the battery's whole voltage",
              _whole_voltage_why, _whole_voltage),
    WrongRule("no-current-no-voltage", CEG, "No current, so no voltage",
              _no_current_no_voltage_why, _no_current_no_voltage),
    WrongRule("start-forgotten", PRACTICE, "Forgetting what is there at first",
              _start_forgotten_why, _start_forgotten),
)  # fmt: skip
