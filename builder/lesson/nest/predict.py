"""One question that needs no arithmetic, asked before the solution is opened."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.circuit.law import PARALLEL, SERIES
from builder.circuit.tree import Group, Leaf, groups
from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import Relation, capitalised, say, sentences
from builder.lesson.questions import ChoiceQuestion, Option
from builder.lesson.vocabulary import vocabulary
from builder.quantity.exact import Exact
from builder.quantity.symbolic import ratios

MOST_TO_COMPARE = 5


def predict(display: NestDisplay) -> ChoiceQuestion:
    """The question that fits what is asked: who takes more, or where the equivalent lies."""
    law = display.solution.problem.law
    asked = {display.naming.resolve(name).quantity for name in display.solution.problem.find}
    if display.solution.problem.network.source is None:
        return _where_lies(display)
    candidates: list[ChoiceQuestion] = [
        *(_more_voltage(display) if law.drop in asked else ()),
        *(_more_flow(display) if law.flow in asked else ()),
        *_more_flow(display),
        *_more_voltage(display),
    ]
    if candidates:
        return candidates[0]
    if isinstance(display.solution.problem.tree, Leaf):
        return _doubled(display)
    return _where_lies(display)


def _leaf_groups(display: NestDisplay, connection: str) -> Iterator[tuple[Group, list[Exact]]]:
    """Groups of single elements of which one stands out as the largest and one as the smallest.

    Values with symbols are compared where their ratios are numbers.
    """
    naming, values = display.naming, display.solution.values
    for group in groups(display.solution.problem.tree):
        if group.connection != connection or not all(isinstance(p, Leaf) for p in group.parts):
            continue
        sizes = ratios(values[naming.value(part.id)] for part in group.parts)
        if sizes is None:
            continue
        alone = sizes.count(max(sizes)) == sizes.count(min(sizes)) == 1
        if alone and len(sizes) <= MOST_TO_COMPARE:
            yield group, sizes


def _more_voltage(display: NestDisplay) -> Iterator[ChoiceQuestion]:
    voc = vocabulary(display.solution.problem.law)
    for group, sizes in _leaf_groups(display, SERIES):
        compared = _Compared(
            "form one chain", "gets", "get", "voltage", voc.flow, voc.drop_law,
            f"they carry the same {voc.flow}", wants_large=display.naming.law.adds_in == SERIES,
        )  # fmt: skip
        yield _who(compared, group, sizes, display)


def _more_flow(display: NestDisplay) -> Iterator[ChoiceQuestion]:
    voc = vocabulary(display.solution.problem.law)
    for group, sizes in _leaf_groups(display, PARALLEL):
        compared = _Compared(
            "share both junctions", "carries", "carry", voc.flow, "voltage", voc.flow_law,
            "they have the same voltage", wants_large=display.naming.law.adds_in == PARALLEL,
        )  # fmt: skip
        yield _who(compared, group, sizes, display)


@dataclass(frozen=True)
class _Compared:
    """What the members of a group are compared in.

    Attributes:
        how: how they are joined.
        one, all: the verb for one member, and for all.
        what: the noun for what differs.
        shared: the noun for what they share.
        law: by which it differs.
        why: the clause that tells what they share.
        wants_large: whether the largest value gets the most.
    """

    how: str
    one: str
    all: str
    what: str
    shared: str
    law: Relation
    why: str
    wants_large: bool


def _who(
    compared: _Compared, group: Group, sizes: list[Exact], display: NestDisplay
) -> ChoiceQuestion:
    two, value = len(sizes) == 2, vocabulary(display.solution.problem.law).value
    large, small = ("larger", "smaller") if two else ("largest", "smallest")
    most, least = (max(sizes), min(sizes))[:: 1 if compared.wants_large else -1]
    tells = say("by {law} the {size} {value} {gets} the {large} {what}", law=compared.law,
                size=large if compared.wants_large else small, value=value, gets=compared.one,
                large=large, what=compared.what)  # fmt: skip
    because = say("{why}, and {tells}.", why=compared.why, tells=tells)
    right = sentences(say("Yes."), capitalised(because))
    between = say("Not this one: {because}", because=because)
    opposite = (
        say("It is the other way round: {because}", because=because)
        if compared.wants_large
        else say("A large {value} sounds like a large share. But {because}",
                 value=value, because=because)
    )  # fmt: skip
    replies = {most: right, least: opposite}
    options = [
        Option((display.element(part.id),), size == most, replies.get(size, between))
        for part, size in zip(group.parts, sizes, strict=True)
    ]
    same = say("{all} {carry} the same", all="Both" if two else "They all", carry=compared.all)
    share = say("What they share is the {shared}, not the {what}.",
                shared=compared.shared, what=compared.what)  # fmt: skip
    options.append(Option(same, False, sentences(share, capitalised(say("{tells}.", tells=tells)))))
    ask = say("{named} {how}. Which of them {gets} the {large} {what}?",
              named=display.elements(tuple(part.id for part in group.parts)), how=compared.how,
              gets=compared.one, large=large, what=compared.what)  # fmt: skip
    return ChoiceQuestion(ask, tuple(options), None)


def _where_lies(display: NestDisplay) -> ChoiceQuestion:
    voc = vocabulary(display.solution.problem.law)
    group = next(iter(groups(display.solution.problem.tree)))
    grows = group.connection == display.naming.law.adds_in
    two = len(group.parts) == 2
    any_one, all_of = ("either", "both") if two else ("any", "all")
    why = {
        (PARALLEL, True): f"Side by side they hold more {voc.flow} than {any_one} of them alone "
        f"would at the same voltage.",
        (PARALLEL, False): f"Each branch is one more way for the {voc.flow}, so together they "
        f"hinder it less than {any_one} of them alone.",
        (SERIES, True): f"The {voc.flow} has to pass {all_of} of them, one after another.",
        (SERIES, False): f"Each has only a part of the voltage, so the chain takes less "
        f"{voc.flow} than {any_one} of them would alone.",
    }[group.connection, grows]
    sizes = {display.solution.values[display.naming.value(part.id)] for part in group.parts}
    above, between, below = _places(two, alike=len(sizes) == 1)
    options = (
        Option(say(above), grows, say("{verdict} {why}", verdict="Yes." if grows else "No.",
                                      why=why)),
        Option(say(between), False,
               say("That would be their average, and an equivalent is no average. {why}",
                   why=why)),
        Option(say(below), not grows, say("{verdict} {why}", verdict="No." if grows else "Yes.",
                                          why=why)),
    )  # fmt: skip
    members = display.elements(tuple(part.id for part in group.parts))
    way = "in series" if group.connection == SERIES else "in parallel"
    ask = say("{members} are joined {way}. Where will the {value} of their equivalent lie?",
              members=members, way=way, value=voc.value)  # fmt: skip
    return ChoiceQuestion(ask, options, None)


def _places(two: bool, *, alike: bool) -> tuple[str, str, str]:
    """Above, between and below the members; members that are all alike have no between."""
    if alike:
        shared = "the value that they share"
        return f"Above {shared}", f"At {shared}", f"Below {shared}"
    if two:
        return (
            "Above the larger of the two",
            "Somewhere between the two",
            "Below the smaller of the two",
        )
    return "Above the largest of them", "Somewhere among them", "Below the smallest of them"


def _doubled(display: NestDisplay) -> ChoiceQuestion:
    voc = vocabulary(display.solution.problem.law)
    source = display.solution.problem.network.source
    assert source is not None
    driven = source.quantity == display.naming.law.drop
    cause, effect = ("voltage", voc.flow) if driven else (voc.flow, "voltage")
    law = voc.flow_law if driven else voc.drop_law
    why = say("By {law} the {effect} grows in step with the {cause}.",
              law=law, effect=effect, cause=cause)  # fmt: skip
    options = (
        Option(say("It stays the same"), False, say("No. {why}", why=why)),
        Option(say("It doubles"), True, say("Yes. {why}", why=why)),
        Option(say("It becomes four times as large"), False,
               say("That is true of the {work}, not of the {effect}. {why}",
                   work=voc.work, effect=effect, why=why)),
    )  # fmt: skip
    ask = say("Suppose the {cause} of the source were doubled. What would happen to the {effect}?",
              cause=cause, effect=effect)  # fmt: skip
    return ChoiceQuestion(ask, options, None)
