"""One question that needs no arithmetic, asked before the solution is opened."""

from __future__ import annotations

from collections.abc import Iterator

from builder.circuit.law import PARALLEL, SERIES
from builder.circuit.tree import Group, Leaf, groups
from builder.lesson.display import Display
from builder.lesson.prose import Prose, say
from builder.lesson.questions import ChoiceQuestion, Option
from builder.lesson.vocabulary import vocabulary
from builder.quantity.exact import Exact


def predict(display: Display) -> ChoiceQuestion:
    """The question that fits what is asked: who takes more, or where the equivalent lies."""
    law = display.solution.problem.law
    asked = {display.naming.resolve(name).quantity for name in display.solution.problem.find}
    if display.solution.problem.network.source is None:
        return _where_lies(display)
    candidates = [
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


def _leaf_groups(display: Display, connection: str) -> Iterator[tuple[Group, list[Exact]]]:
    """Groups of single elements of which one stands out as the largest and one as the smallest."""
    naming, values = display.naming, display.solution.values
    for group in groups(display.solution.problem.tree):
        if group.connection != connection or not all(isinstance(p, Leaf) for p in group.parts):
            continue
        sizes = [values[naming.value(part.id)] for part in group.parts]
        if sizes.count(max(sizes)) == 1 and sizes.count(min(sizes)) == 1:
            yield group, sizes


def _more_voltage(display: Display) -> Iterator[ChoiceQuestion]:
    voc = vocabulary(display.solution.problem.law)
    wants_large = display.naming.law.adds_in == SERIES
    for group, sizes in _leaf_groups(display, SERIES):
        winner = sizes.index(max(sizes) if wants_large else min(sizes))
        which = "largest" if len(sizes) > 2 else "larger"
        size = {True: which, False: "smallest" if len(sizes) > 2 else "smaller"}[wants_large]
        because = say(
            "They carry the same {flow}, and by {law} the {size} {value} takes the {which} "
            "voltage.",
            flow=voc.flow, law=voc.drop_law, size=size, value=voc.value, which=which,
        )  # fmt: skip
        named = display.elements(tuple(part.id for part in group.parts))
        ask = say("{named} form one chain. Which of them takes the {which} voltage?",
                  named=named, which=which)  # fmt: skip
        yield _who(ask, group, winner, because, "They all take the same", display)


def _more_flow(display: Display) -> Iterator[ChoiceQuestion]:
    voc = vocabulary(display.solution.problem.law)
    wants_large = display.naming.law.adds_in == PARALLEL
    for group, sizes in _leaf_groups(display, PARALLEL):
        winner = sizes.index(max(sizes) if wants_large else min(sizes))
        which = "largest" if len(sizes) > 2 else "larger"
        size = {True: which, False: "smallest" if len(sizes) > 2 else "smaller"}[wants_large]
        because = say(
            "They have the same voltage, and by {law} the {size} {value} takes the {which} "
            "{flow}.",
            flow=voc.flow, law=voc.flow_law, size=size, value=voc.value, which=which,
        )  # fmt: skip
        named = display.elements(tuple(part.id for part in group.parts))
        ask = say("{named} share both junctions. Which of them takes the {which} {flow}?",
                  named=named, which=which, flow=voc.flow)  # fmt: skip
        yield _who(ask, group, winner, because, "They all take the same", display)


def _who(
    ask: Prose, group: Group, winner: int, because: Prose, same: str, display: Display
) -> ChoiceQuestion:
    if len(group.parts) == 2:
        same = same.replace("They all", "Both")
    options = [
        Option(
            (display.element(part.id),),
            position == winner,
            say("Yes. {because}" if position == winner else "Not this one. {because}",
                because=because),
        )
        for position, part in enumerate(group.parts)
    ]  # fmt: skip
    options.append(Option(say(same), False, say("They would if their values were equal. {because}",
                                                because=because)))  # fmt: skip
    return ChoiceQuestion(ask, tuple(options), None)


def _where_lies(display: Display) -> ChoiceQuestion:
    voc = vocabulary(display.solution.problem.law)
    group = next(iter(groups(display.solution.problem.tree)))
    grows = group.connection == display.naming.law.adds_in
    two = len(group.parts) == 2
    members = display.elements(tuple(part.id for part in group.parts))
    way = "in series" if group.connection == SERIES else "in parallel"
    why = {
        (PARALLEL, True): f"Side by side they take more {voc.flow} than any of them alone would "
        f"at the same voltage.",
        (PARALLEL, False): f"Each branch is one more way for the {voc.flow}, so together they "
        f"hinder it less than any of them alone.",
        (SERIES, True): f"The {voc.flow} has to pass all of them, one after another.",
        (SERIES, False): f"Each has only a part of the voltage, so the chain takes less "
        f"{voc.flow} than any of them would alone.",
    }[group.connection, grows]
    above = say("More than the larger of the two" if two else "More than the largest of them")
    below = say("Less than the smaller of the two" if two else "Less than the smallest of them")
    options = (
        Option(above, grows, say("{verdict} {why}", verdict="Yes." if grows else "No.", why=why)),
        Option(say("Somewhere between them"), False,
               say("That would be an average, and an equivalent is none. {why}", why=why)),
        Option(below, not grows,
               say("{verdict} {why}", verdict="No." if grows else "Yes.", why=why)),
    )  # fmt: skip
    ask = say("{members} are joined {way}. Where will the {value} of their equivalent lie?",
              members=members, way=way, value=voc.value)  # fmt: skip
    return ChoiceQuestion(ask, options, None)


def _doubled(display: Display) -> ChoiceQuestion:
    voc = vocabulary(display.solution.problem.law)
    source = display.solution.problem.network.source
    assert source is not None
    driven = source.quantity == display.naming.law.drop
    cause, effect = ("voltage", voc.flow) if driven else (voc.flow, "voltage")
    law = voc.flow_law if driven else voc.drop_law
    why = f"By {law} the {effect} grows in step with the {cause}."
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
