"""Mistakes about what the members of a group share and what they divide."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer

from builder.circuit.law import PARALLEL, SERIES
from builder.circuit.tree import Group, groups
from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import Prose, number_word, say
from builder.lesson.vocabulary import vocabulary
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.solution import Step


def _group_with(id: str, display: NestDisplay) -> Group | None:
    for group in groups(display.solution.problem.tree):
        if any(part.id == id for part in group.parts):
            return group
    return None


def _found(
    display: NestDisplay, quantity: str, connection: str
) -> Iterator[tuple[Name, Step, Group]]:
    """Quantities of one kind that the steps find for members of series or parallel groups."""
    for name, step in found_names(display):
        group = _group_with(name.of, display) if name.quantity == quantity else None
        if group is not None and group.connection == connection:
            yield name, step, group


def _value(name: Name, display: NestDisplay) -> Exact:
    return display.solution.values[name]


def _equal_voltages(display: NestDisplay) -> Iterator[Wrong]:
    for name, step, group in _found(display, display.naming.law.drop, SERIES):
        share = _value(display.naming.drop(group.id), display) / len(group.parts)
        happens = say("sharing the voltage equally between the {count} in the chain",
                      count=number_word(len(group.parts)))  # fmt: skip
        yield Wrong(name, share, step.id, happens)


def _equal_voltages_why(wrong: Wrong, display: NestDisplay) -> Prose:
    voc = vocabulary(display.solution.problem.law)
    size = "smaller" if display.naming.law.adds_in == PARALLEL else "larger"
    return say("Equal shares look fair. But what is equal along a chain is the {flow}, and by "
               "{law} a {size} {value} then gets a larger voltage.",
               flow=voc.flow, law=voc.drop_law, size=size, value=voc.value)  # fmt: skip


def _whole_voltage(display: NestDisplay) -> Iterator[Wrong]:
    source = display.solution.problem.network.source
    if source is None or source.quantity != display.naming.law.drop:
        return
    for name, step in found_names(display):
        if name.quantity == display.naming.law.drop:
            yield Wrong(name, source.value, step.id,
                        say("taking the source's whole voltage for {one}",
                            one=display.element(name.of)))  # fmt: skip


def _whole_voltage_why(wrong: Wrong, display: NestDisplay) -> Prose:
    return say("The source's voltage is the only one in sight, so it is tempting to use it "
               "everywhere. But only what sits straight across the source has all of "
               "it.")  # fmt: skip


def _divided_the_wrong_way(display: NestDisplay) -> Iterator[Wrong]:
    naming = display.naming
    for name, step, group in _found(display, naming.law.drop, SERIES):
        weights = {
            part.id: naming.law.weight(_value(naming.value(part.id), display))
            for part in group.parts
        }
        share = weights[name.of] / sum(weights.values(), Integer(0))
        larger = "larger" if naming.law.adds_in == PARALLEL else "smaller"
        happens = say("expecting the larger voltage at the {larger} {value}",
                      larger=larger, value=vocabulary(naming.law).value)  # fmt: skip
        yield Wrong(name, _value(naming.drop(group.id), display) * share, step.id, happens)


def _divided_the_wrong_way_why(wrong: Wrong, display: NestDisplay) -> Prose:
    law = vocabulary(display.solution.problem.law).drop_law
    if display.naming.law.adds_in == PARALLEL:
        return say("A chain of resistors divides its voltage in proportion, and it is tempting to "
                   "do the same here. But with equal charge, {law} gives the larger voltage to "
                   "the smaller capacitor.", law=law)  # fmt: skip
    return say("What is easy to pass sounds as if it kept more for itself. But with the same "
               "current all along, {law} gives the larger voltage to the larger resistor.",
               law=law)  # fmt: skip


def _equal_flows(display: NestDisplay) -> Iterator[Wrong]:
    naming = display.naming
    for name, step, group in _found(display, naming.law.flow, PARALLEL):
        share = _value(naming.flow(group.id), display) / len(group.parts)
        happens = say("splitting the {flow} equally between the {count} branches",
                      flow=vocabulary(naming.law).flow,
                      count=number_word(len(group.parts)))  # fmt: skip
        yield Wrong(name, share, step.id, happens)


def _equal_flows_why(wrong: Wrong, display: NestDisplay) -> Prose:
    voc = vocabulary(display.solution.problem.law)
    return say("A fork looks like an even split. But branches in parallel share their voltage, "
               "and the {flow} of each then follows from {law}.",
               flow=voc.flow, law=voc.flow_law)  # fmt: skip


def _group_for_one(display: NestDisplay) -> Iterator[Wrong]:
    naming = display.naming
    for name, step, group in _found(display, naming.law.flow, PARALLEL):
        happens = say("taking the whole {flow} of the group for {one}",
                      flow=vocabulary(naming.law).flow, one=display.element(name.of))  # fmt: skip
        yield Wrong(name, _value(naming.flow(group.id), display), step.id, happens)


def _group_for_one_why(wrong: Wrong, display: NestDisplay) -> Prose:
    voc = vocabulary(display.solution.problem.law)
    return say("What was found for an equivalent is easily carried too far. Along a chain the "
               "{flow} stays the same, but at a fork it divides.", flow=voc.flow)  # fmt: skip


def _chain_charges_added(display: NestDisplay) -> Iterator[Wrong]:
    naming, tree = display.naming, display.solution.problem.tree
    if naming.law.flow != "charge" or not isinstance(tree, Group) or tree.connection != SERIES:
        return
    for name, step in found_names(display):
        if name == naming.flow(TOTAL):
            count = len(tree.parts)
            happens = say("adding up the charges of the {count} along the chain",
                          count=number_word(count))  # fmt: skip
            yield Wrong(name, _value(name, display) * count, step.id, happens)


def _chain_charges_added_why(wrong: Wrong, display: NestDisplay) -> Prose:
    return say("Every capacitor of the chain does carry that charge, but the source delivers it "
               "only once: the inner plates just trade charge with each other.")  # fmt: skip


_TGB = "Thacker, Ganiel and Boys, Am. J. Phys. 67, S25 (1999), from memory"
_MS = "McDermott and Shaffer, Am. J. Phys. 60, 994 (1992), from memory"
_G = "Guisasola et al., Science & Education 11, 247 (2002), from memory"

SHARING_RULES: tuple[WrongRule, ...] = (
    WrongRule("equal-voltages", f"{_TGB}; {_G}", "Sharing the voltage equally along a chain",
              _equal_voltages_why, _equal_voltages),
    WrongRule("equal-flows", f"{_MS}; {_G}", "Splitting equally at a fork",
              _equal_flows_why, _equal_flows),
    WrongRule("whole-voltage", _MS, "Giving every element the source's voltage",
              _whole_voltage_why, _whole_voltage),
    WrongRule("divided-the-wrong-way", "common practice, no source",
              "Dividing the voltage the wrong way round",
              _divided_the_wrong_way_why, _divided_the_wrong_way),
    WrongRule("group-for-one", "common practice, no source", "Taking the group for one of it",
              _group_for_one_why, _group_for_one),
    WrongRule("chain-charges-added", _G, "Adding the charges along a chain",
              _chain_charges_added_why, _chain_charges_added),
)  # fmt: skip
