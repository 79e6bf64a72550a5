"""Mistakes about capacitors that a battery charges one behind the other."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from sympy import Integer

from builder.circuit.switching import moment, split_moment
from builder.lesson.mistake_sources import GUISASOLA, PRACTICE, TGB
from builder.lesson.prose import Prose, Relation, number_word, say
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.wrong_rules.sharing import sizes_of, steps_of
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.show import unit_power
from builder.solution.stages.step import StagesMove, StagesStep


def _merged_as(
    wrongly: Callable[[list[Exact]], Exact], happens: str, display: StagesDisplay
) -> Iterator[Wrong]:
    """The capacitance of a chain by a wrong rule for its members, told in the first one's unit."""
    for step in steps_of(StagesMove.CHAIN, display):
        sizes = sizes_of(step, display)
        first = display.shown(Name("capacitance", step.members[0])).unit
        unit = Integer(10) ** (unit_power(first, "capacitance") or 0)
        value = wrongly([size / unit for size in sizes.values()]) * unit
        told = say(happens + " {members}", members=display.elements(step.members))
        yield from carried_on(display, step, {step.found[0]: value}, told)


def _added_instead(display: StagesDisplay) -> Iterator[Wrong]:
    return _merged_as(lambda sizes: sum(sizes, Integer(0)), "adding", display)


def _added_instead_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Side by side capacitances do add, and so do resistances in a chain. But a chain "
               "of capacitors holds less charge for the same voltage, never more.")  # fmt: skip


def _never_inverted(display: StagesDisplay) -> Iterator[Wrong]:
    return _merged_as(lambda sizes: sum((1 / size for size in sizes), Integer(0)),
                      "stopping at the sum of the reciprocals of", display)  # fmt: skip


def _never_inverted_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("After all that work with fractions the sum looks like the answer. It is one over "
               "the capacitance, so it still has to be turned over.")  # fmt: skip


def _empty_chains(display: StagesDisplay) -> Iterator[tuple[StagesStep, Exact]]:
    """Steps that charge an empty chain from batteries, with the voltage across all of it."""
    solution = display.solution
    for step in steps_of(StagesMove.CHARGES, display):
        before = solution.story.charges[step.stage - 1] if step.stage else {}
        if step.direction and step.batteries and not any(before.get(n) for n in step.members):
            sizes = sizes_of(step, display)
            moved = abs(solution.story.charges[step.stage][step.members[0]])
            yield step, sum((moved / size for size in sizes.values()), Integer(0))


def _shares(step: StagesStep, shares: dict[str, Exact]) -> dict[Name, Exact]:
    """Voltages of a chain's members, counted as they are there."""
    return {Name("voltage", moment(name, step.stage)): share * step.direction[name]
            for name, share in shares.items()}  # fmt: skip


def _equal_voltages(display: StagesDisplay) -> Iterator[Wrong]:
    for step, volts in _empty_chains(display):
        equal = dict.fromkeys(step.members, volts / len(step.members))
        happens = say("sharing the voltage equally between the {count} in the chain",
                      count=number_word(len(step.members)))  # fmt: skip
        yield from carried_on(display, step, _shares(step, equal), happens)


def _equal_voltages_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Equal shares look fair. But what is equal along a chain is the charge, and by "
               "{law} a smaller capacitance then gets a larger voltage.",
               law=Relation("V = Q/C"))  # fmt: skip


def _divided_the_wrong_way(display: StagesDisplay) -> Iterator[Wrong]:
    for step, volts in _empty_chains(display):
        sizes = sizes_of(step, display)
        total = sum(sizes.values(), Integer(0))
        shares = {name: volts * size / total for name, size in sizes.items()}
        happens = say("expecting the larger voltage at the larger capacitance")
        yield from carried_on(display, step, _shares(step, shares), happens)


def _divided_the_wrong_way_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("A chain of resistors divides its voltage in proportion, and it is tempting to do "
               "the same here. But with equal charge, {law} gives the larger voltage to the "
               "smaller capacitor.", law=Relation("V = Q/C"))  # fmt: skip


def _inner_uncharged(display: StagesDisplay) -> Iterator[Wrong]:
    """What no wire joins to a battery is left without charge."""
    for step in display.solution.steps:
        if step.kind not in (StagesMove.CHARGES, StagesMove.EQUATIONS) or not step.stage:
            continue
        inner = _untouched(step, display)
        altered = {name: Integer(0) for name in step.found
                   if split_moment(name.of)[0] in inner}  # fmt: skip
        if altered:
            happens = say("leaving {inner} uncharged, as no plate there is joined to a battery",
                          inner=display.elements(inner))  # fmt: skip
            yield from carried_on(display, step, altered, happens)


def _untouched(step: StagesStep, display: StagesDisplay) -> tuple[str, ...]:
    """Members that hold nothing before and have no plate on a wire from a battery."""
    network, story = display.solution.problem.network, display.solution.story
    wiring, before = story.wirings[step.stage], story.charges[step.stage - 1]
    touched = {wiring.node[end] for battery in network.sources for end in battery.between}
    return tuple(
        element.name for element in network.elements
        if element.name in step.members and before[element.name] == 0 and touched
        and not touched & set(wiring.ends(element))
    )  # fmt: skip


def _inner_uncharged_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("No wire leads there from the battery, so no charge seems to arrive. But charge "
               "that piles up on one plate drives as much away from the other, and so on from "
               "gap to gap.")  # fmt: skip


def _chain_charges_added(display: StagesDisplay) -> Iterator[Wrong]:
    """What a battery moves, as the sum of what it moves onto each of a chain."""
    for step in steps_of(StagesMove.DELIVERED, display):
        chains = [other for other in steps_of(StagesMove.ROUND, display)
                  if other.stage == step.stage and len(other.members) > 1]  # fmt: skip
        if len(chains) != 1:
            continue
        count = len(chains[0].members)
        moved = {name: display.solution.values[name] * count for name in step.found
                 if name.quantity == "charge"
                 and split_moment(name.of)[0] in chains[0].batteries}  # fmt: skip
        happens = say("adding up the charges of the {count} along the chain",
                      count=number_word(count))  # fmt: skip
        yield from carried_on(display, step, moved, happens)


def _chain_charges_added_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Every capacitor of the chain does take that charge, but the battery moves it only "
               "once: the inner plates just trade charge with each other.")  # fmt: skip


CHAIN_RULES: tuple[WrongRule, ...] = (
    WrongRule("added-instead", PRACTICE, "Adding where reciprocals belong",
              _added_instead_why, _added_instead),
    WrongRule("equal-voltages", f"{TGB}; {GUISASOLA}", "Sharing the voltage equally along a chain",
              _equal_voltages_why, _equal_voltages),
    WrongRule("inner-uncharged", TGB, "Leaving the middle of a chain without charge",
              _inner_uncharged_why, _inner_uncharged),
    WrongRule("never-inverted", PRACTICE, "Forgetting the last reciprocal",
              _never_inverted_why, _never_inverted),
    WrongRule("divided-the-wrong-way", PRACTICE, "Dividing the voltage the wrong way round",
              _divided_the_wrong_way_why, _divided_the_wrong_way),
    WrongRule("chain-charges-added", GUISASOLA, "Adding the charges along a chain",
              _chain_charges_added_why, _chain_charges_added),
)  # fmt: skip
