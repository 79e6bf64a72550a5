"""Mistakes with bridges, triangles and stars."""

from __future__ import annotations

from collections.abc import Iterator

from builder.circuit.law import SERIES
from builder.lesson.network.bridges import bridge_of
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.what_if import solved, without
from builder.lesson.prose import Prose, say
from builder.lesson.vocabulary import vocabulary
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.solution.network.step import NetworkMove, StarAndTriangle


def _middle_ignored(display: NetworkDisplay) -> Iterator[Wrong]:
    bridge = bridge_of(display.network)
    if bridge is None or not display.network.sources:
        return
    (source,) = display.network.sources
    flow = Name(display.law.flow, bridge.middle)
    if display.solution.values.get(flow) == 0:
        return
    values = dict(solved(without(display.network, bridge.middle), display.law))
    if source.quantity == display.law.drop:
        total = values[Name(display.law.flow, source.name)]
        values[Name(display.law.flow, TOTAL)] = total
        weight = total / source.value
        values[Name(display.law.value, TOTAL)] = display.law.weight(weight)
    for name, step in found_names(display):
        if name in values:
            yield Wrong(name, values[name], step.id,
                        say("leaving out {middle} as if the bridge were balanced",
                            middle=display.element(bridge.middle)))  # fmt: skip


def _middle_ignored_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    bridge = bridge_of(display.network)
    assert bridge is not None
    middle = display.element(bridge.middle)
    first, second = (display.elements(arms) for arms in bridge.arms)
    return say("Without {middle} two plain chains are left, and that is tempting. But {middle} may "
               "only go if there is no voltage across it, and {first} do not divide the voltage "
               "in the same ratio as {second}.", middle=middle, first=first,
               second=second)  # fmt: skip


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
        for position, one in enumerate(made):
            other = "the way back" if law.adds_in == SERIES else "resistors"
            happens = say("using the rule that belongs to {other}", other=other)
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
    WrongRule("bridge-ignored", "inferred from the rule, no source",
              "Leaving out the middle of a bridge that is not balanced", _middle_ignored_why,
              _middle_ignored),
    WrongRule("exchange-mixed-up", "a published web page has this error for capacitors; for "
              "resistors common practice, no source",
              "Mixing up the rules for triangle and star", _exchange_why,
              _exchange_of_the_other_kind),
)  # fmt: skip
