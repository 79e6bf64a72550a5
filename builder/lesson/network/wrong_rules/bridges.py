"""Mistakes with bridges, triangles and stars."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.circuit.law import SERIES
from builder.lesson.mistake_sources import PRACTICE
from builder.lesson.network.bridges import Bridge, bridge_of
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.what_if import looked_into, with_wire, without
from builder.lesson.opened_groups import asked_first
from builder.lesson.prose import Prose, say
from builder.lesson.vocabulary import vocabulary
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.network.step import NetworkMove, StarAndTriangle


def _bridge_off_balance(display: NetworkDisplay) -> Bridge | None:
    """The bridge of a network, unless its middle element carries nothing."""
    bridge = bridge_of(display.network)
    if bridge is None:
        return None
    flow = display.solution.values.get(Name(display.law.flow, bridge.middle))
    return None if flow == 0 else bridge


def _as_if(values: Mapping[Name, Exact], happens: Prose, display: NetworkDisplay) -> list[Wrong]:
    """What the steps find, as another network would have it."""
    found = [
        Wrong(name, values[name], step.id, happens)
        for name, step in found_names(display)
        if name in values
    ]
    return asked_first(found, display)


def _middle_ignored(display: NetworkDisplay) -> list[Wrong]:
    bridge = _bridge_off_balance(display)
    if bridge is None:
        return []
    values = looked_into(without(display.network, bridge.middle), display.law)
    happens = say("leaving out {middle} as if the bridge were balanced",
                  middle=display.element(bridge.middle))  # fmt: skip
    return _as_if(values, happens, display)


def _middle_ignored_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    bridge = bridge_of(display.network)
    assert bridge is not None
    middle = display.element(bridge.middle)
    first, second = (display.elements(arms) for arms in bridge.arms)
    return say("Without {middle} two plain chains are left, and that is tempting. But {middle} may "
               "only go if there is no voltage across it, and {first} do not divide the voltage "
               "in the same ratio as {second}.", middle=middle, first=first,
               second=second)  # fmt: skip


def _ends_joined(display: NetworkDisplay) -> list[Wrong]:
    """The arms seen as two parallel pairs, as they would be with a wire in the middle."""
    bridge = _bridge_off_balance(display)
    if bridge is None:
        return []
    values = looked_into(with_wire(display.network, bridge.middle), display.law)
    pairs = [display.elements(pair, "with") for pair in zip(*bridge.arms, strict=True)]
    happens = say("merging {first} and {second} in parallel", first=pairs[0],
                  second=pairs[1])  # fmt: skip
    return _as_if(values, happens, display)


def _ends_joined_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    bridge = _bridge_off_balance(display)
    assert bridge is not None
    return say("On the drawing they stand side by side, and that is tempting. But in parallel they "
               "would have to share both junctions, and between {one} and {other} there is no "
               "wire, only {middle}.", one=bridge.ends[0], other=bridge.ends[1],
               middle=display.element(bridge.middle))  # fmt: skip


def _exchange_of_the_other_kind(display: NetworkDisplay) -> Iterator[Wrong]:
    """The formula that belongs to the other kind of element, or to the way back."""
    values, law = display.solution.values, display.law
    for step in display.solution.steps:
        if step.star is None or step.kind not in (NetworkMove.STAR, NetworkMove.TRIANGLE):
            continue
        to_star = step.kind is NetworkMove.STAR
        made, gone = _sides_and_legs(step.star, to_star=to_star)
        within = display.within(step)
        old = [values[within.element(one).name] for one in gone]
        # Resistors: legs are products over the sum; capacitors: sides are.
        products_over_sum = to_star != (law.adds_in == SERIES)
        other = "for the way back" if law.adds_in == SERIES else "for resistors"
        shape = "star" if to_star else "triangle"
        happens = say("turning {gone} into a {shape} by the rule {other}",
                      gone=within.elements(within.in_turn(gone)), shape=shape,
                      other=other)  # fmt: skip
        for position, one in enumerate(made):
            yield Wrong(within.element(one).name,
                        _exchanged(old, position, products_over_sum=products_over_sum),
                        step.id, happens)  # fmt: skip


def _sides_and_legs(
    shape: StarAndTriangle, *, to_star: bool
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What is made and what is given up."""
    return (shape.legs, shape.sides) if to_star else (shape.sides, shape.legs)


def _exchanged(old: list[Exact], position: int, *, products_over_sum: bool) -> Exact:
    """One new value from three old ones; the one of the same position lies opposite."""
    opposite = old[position]
    first, second = (value for at, value in enumerate(old) if at != position)
    if products_over_sum:
        return first * second / (first + second + opposite)
    return (first * second + second * opposite + opposite * first) / opposite


def _exchange_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    voc = vocabulary(display.law)
    if voc.flow == "charge":
        return say("The rule that everybody knows, product over sum, turns a triangle of resistors "
                   "into a star. Capacitances add where reciprocals of resistances do, so for "
                   "capacitors the two rules change places.")  # fmt: skip
    return say("The two rules look alike and are easily mixed up. A side of the triangle has a "
               "second way beside it, so it has to be larger than the two legs of the star that "
               "it stands for together.")  # fmt: skip


BRIDGE_RULES: tuple[WrongRule, ...] = (
    WrongRule("bridge-ignored", PRACTICE,
              "Leaving out the middle of a bridge that is not balanced", _middle_ignored_why,
              _middle_ignored),
    WrongRule("bridge-joined", PRACTICE, "Seeing parallel pairs in a bridge", _ends_joined_why,
              _ends_joined),
    WrongRule("exchange-mixed-up", f"a published web page has this error for capacitors; for "
              f"resistors {PRACTICE}",
              "Mixing up the rules for triangle and star", _exchange_why,
              _exchange_of_the_other_kind),
)  # fmt: skip
