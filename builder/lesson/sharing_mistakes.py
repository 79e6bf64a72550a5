"""Mistakes about what the members of a group share and what they divide."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from sympy import Integer

from builder.lesson.mistake_sources import EB, GUISASOLA, MS, PRACTICE, TGB
from builder.lesson.opened_groups import (
    PARALLEL,
    SERIES,
    CircuitDisplay,
    OpenedGroup,
    asked_first,
    divided,
    drop_of,
    flow_of,
    law_of,
    lies_nowhere,
    named,
    only_voltage,
    opened_groups,
    step_of,
    together,
)
from builder.lesson.prose import Prose, say
from builder.lesson.vocabulary import vocabulary
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.symbolic import sign_of


def _capacitors(display: CircuitDisplay) -> bool:
    return law_of(display).adds_in == PARALLEL


def _shared_out(
    display: CircuitDisplay,
    connection: str,
    weights: Callable[[OpenedGroup], Iterable[Exact]],
    happens: Callable[[OpenedGroup], Prose],
) -> list[Wrong]:
    """What comes of it if groups of one connection divide by other weights."""
    found: list[Wrong] = []
    for group in opened_groups(display):
        if group.connection == connection:
            shares = divided(group, weights(group), display)
            found += _going_on(shares, happens(group), display)
    return asked_first(found, display)


def _going_on(
    altered: dict[Name, Exact], happens: Prose, display: CircuitDisplay
) -> Iterator[Wrong]:
    step = step_of(altered, display)
    if step is not None:
        yield from carried_on(display, step, altered, happens)


def _values(group: OpenedGroup, display: CircuitDisplay) -> list[Exact]:
    return [display.solution.values[part.value] for part in group.parts]


def _equal_voltages(display: CircuitDisplay) -> list[Wrong]:
    return _shared_out(
        display,
        SERIES,
        lambda group: [Integer(1) for _ in group.parts],
        lambda group: say("sharing the voltage equally between {members}",
                          members=named(group, display)),
    )  # fmt: skip


def _equal_voltages_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    voc = vocabulary(law_of(display))
    size = "smaller" if _capacitors(display) else "larger"
    return say("Equal shares look fair. But what is equal along a chain is the {flow}, and by "
               "{law} a {size} {value} then gets a larger voltage.",
               flow=voc.flow, law=voc.drop_law, size=size, value=voc.value)  # fmt: skip


def _divided_the_wrong_way(display: CircuitDisplay) -> list[Wrong]:
    law = law_of(display)
    way = "proportion" if _capacitors(display) else "inverse proportion"
    many = "capacitances" if _capacitors(display) else "resistances"
    return _shared_out(
        display,
        SERIES,
        lambda group: [law.weight(value) for value in _values(group, display)],
        lambda group: say("dividing the voltage between {members} in {way} to their {values}",
                          members=named(group, display), way=way, values=many),
    )  # fmt: skip


def _divided_the_wrong_way_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    law = vocabulary(law_of(display)).drop_law
    if _capacitors(display):
        return say("A chain of resistors divides its voltage in proportion, and it is tempting to "
                   "do the same here. But with equal charge, {law} gives the larger voltage to "
                   "the smaller capacitor.", law=law)  # fmt: skip
    return say("What is easy to pass sounds as if it kept more for itself. But with the same "
               "current all along, {law} gives the larger voltage to the larger resistor.",
               law=law)  # fmt: skip


def _equal_flows(display: CircuitDisplay) -> list[Wrong]:
    flow = vocabulary(law_of(display)).flow
    return _shared_out(
        display,
        PARALLEL,
        lambda group: [Integer(1) for _ in group.parts],
        lambda group: say("splitting the {flow} equally between {members}",
                          flow=flow, members=named(group, display)),
    )  # fmt: skip


def _equal_flows_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    """It serves any fork, since two ways that begin together need not end together."""
    voc = vocabulary(law_of(display))
    return say("A fork looks like an even split. But the ways on from it need not be alike: how "
               "much each of them takes follows from its own voltage and {value}, by {law}.",
               value=voc.value, law=voc.flow_law)  # fmt: skip


def _split_the_wrong_way(display: CircuitDisplay) -> list[Wrong]:
    law = law_of(display)
    way = "inverse proportion" if _capacitors(display) else "proportion"
    many = "capacitances" if _capacitors(display) else "resistances"
    return _shared_out(
        display,
        PARALLEL,
        lambda group: [1 / law.weight(value) for value in _values(group, display)],
        lambda group: say("splitting the {flow} between {members} in {way} to their {values}",
                          flow=law.flow, members=named(group, display), way=way, values=many),
    )  # fmt: skip


def _split_the_wrong_way_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    law = vocabulary(law_of(display)).flow_law
    if _capacitors(display):
        return say("Side by side, a larger resistor takes the smaller current, and it is tempting "
                   "to do the same here. But with equal voltage, {law} gives the larger charge "
                   "to the larger capacitor.", law=law)  # fmt: skip
    return say("The voltage along a chain divides in proportion, and it is tempting to do the same "
               "at a fork. But with equal voltage, {law} gives the larger current to the smaller "
               "resistor.", law=law)  # fmt: skip


def _group_for_one(display: CircuitDisplay) -> list[Wrong]:
    """A parallel group's flow for a member's, or the voltage of a chain within the circuit.

    What power or energy that leads to is told as factors that do not belong together.
    """
    source, law, found = only_voltage(display), law_of(display), list[Wrong]()
    for group in opened_groups(display):
        series = group.connection == SERIES
        whole = (drop_of if series else flow_of)(group.whole, display)
        if whole is None or (series and source is not None and whole == source.value):
            continue  # the source's own voltage for one element has a rule of its own
        for part in group.parts:
            name = part.drop if series else part.flow
            if sign_of(display.solution.values.get(name, Integer(0))) != 1:
                continue
            happens = say("taking the whole {kind} of {group} for {one}",
                          kind="voltage" if series else law.flow, group=together(group, display),
                          one=display.element(part.value.of))  # fmt: skip
            found += _going_on({name: whole}, happens, display)
    return asked_first((one for one in found if one.name.quantity != law.work), display)


def _group_for_one_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    flow = vocabulary(law_of(display)).flow
    return say("What was found for an equivalent is easily carried too far. Opened again, a chain "
               "divides the voltage, and a parallel group divides the {flow}.",
               flow=flow)  # fmt: skip


def _chain_charges_added(display: CircuitDisplay) -> list[Wrong]:
    found: list[Wrong] = []
    for group in opened_groups(display):
        flow, step = flow_of(group.whole, display), step_of([group.whole.flow], display)
        if group.connection != SERIES or not _capacitors(display) or flow is None or step is None:
            continue
        happens = say("adding up the charges of {members} along the chain",
                      members=named(group, display))  # fmt: skip
        found.append(Wrong(group.whole.flow, flow * len(group.parts), step.id, happens))
    return asked_first(found, display)


def _chain_charges_added_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    return say("Every capacitor of the chain does carry that charge, but only one such charge goes "
               "in at the front and comes out at the end: the inner plates just trade charge with "
               "each other.")  # fmt: skip


def _used_up(display: CircuitDisplay) -> list[Wrong]:
    """Along a chain of resistors, the current left in the same ratio as the voltage is."""
    found: list[Wrong] = []
    for group in opened_groups(display):
        flow = flow_of(group.whole, display)
        if group.connection != SERIES or _capacitors(display) or sign_of(flow or Integer(0)) != 1:
            continue
        values = _values(group, display)
        for at, part in enumerate(group.parts[1:], start=1):
            step = step_of([part.flow], display)
            if step is None or flow is None or sign_of(display.solution.values[part.flow]) != 1:
                continue
            left = flow * sum(values[at:], Integer(0)) / sum(values, Integer(0))
            before = tuple(one.value.of for one in group.parts[:at])
            if any(lies_nowhere(one, display) for one in before):
                continue
            happens = say("letting {before} use up {share} of the current",
                          before=display.elements(before),
                          share="its share" if at == 1 else "their shares")  # fmt: skip
            # Whoever thinks of currents as used up does not go on to voltages from there.
            found += (
                one
                for one in carried_on(display, step, {part.flow: left}, happens)
                if one.name.quantity == part.flow.quantity
            )
    return asked_first(found, display)  # fmt: skip


def _used_up_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    return say("A resistor takes energy out of the circuit, and it is tempting to let it take "
               "current as well. But what flows in must flow out again: along a chain the current "
               "is the same everywhere.")  # fmt: skip


def _inner_uncharged(display: CircuitDisplay) -> list[Wrong]:
    found: list[Wrong] = []
    for group in opened_groups(display):
        if group.connection != SERIES or not _capacitors(display):
            continue
        for part in group.parts[1:-1]:
            happens = say("leaving {one} uncharged because neither of its plates is wired to the "
                          "source", one=display.element(part.value.of))  # fmt: skip
            names = [part.flow] if step_of([part.flow], display) else []
            found += _going_on(dict.fromkeys(names, Integer(0)), happens, display)
    return asked_first(found, display)


def _inner_uncharged_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    return say("No charge crosses a gap, so it seems that none can get to the middle of a chain. "
               "But a charged plate drives as much off the plate across from it and on to the next "
               "capacitor, and so on down the chain: each of them gets the same "
               "charge.")  # fmt: skip


CHAIN_RULES: tuple[WrongRule, ...] = (
    WrongRule("inner-uncharged", TGB, "Leaving the middle of a chain without charge",
              _inner_uncharged_why, _inner_uncharged),
)  # fmt: skip
"""A family of its own: it fits few circuits, and is the more telling where it does."""
SHARING_RULES: tuple[WrongRule, ...] = (
    WrongRule("equal-voltages", f"for capacitors {TGB}, and {GUISASOLA}; for resistors {EB}",
              "Sharing the voltage equally along a chain", _equal_voltages_why, _equal_voltages),
    WrongRule("equal-flows", f"for resistors {MS}; for capacitors {GUISASOLA}",
              "Splitting equally at a fork", _equal_flows_why, _equal_flows),
    WrongRule("used-up", f"{MS}; {EB}, from memory", "Letting the current be used up on its way",
              _used_up_why, _used_up),
    WrongRule("divided-the-wrong-way", PRACTICE, "Dividing the voltage the wrong way round",
              _divided_the_wrong_way_why, _divided_the_wrong_way),
    WrongRule("split-the-wrong-way", PRACTICE, "Splitting at a fork the wrong way round",
              _split_the_wrong_way_why, _split_the_wrong_way),
    WrongRule("group-for-one", PRACTICE, "Taking the group for one of it",
              _group_for_one_why, _group_for_one),
    WrongRule("chain-charges-added", GUISASOLA, "Adding the charges along a chain",
              _chain_charges_added_why, _chain_charges_added),
)  # fmt: skip
