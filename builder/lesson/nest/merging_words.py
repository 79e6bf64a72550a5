"""What a teacher says when a group is merged: in full the first time, in short after that."""

from __future__ import annotations

from builder.circuit.law import PARALLEL, SERIES
from builder.circuit.tree import Group
from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import Prose, number_word, say
from builder.lesson.vocabulary import Vocabulary, vocabulary
from builder.lesson.words import Words
from builder.quantity.names import TOTAL
from builder.solution.nest.step import NestStep, StepKind


def merging_words(step: NestStep, display: NestDisplay) -> Words:
    """The words of a merge."""
    group = step.group
    assert group is not None
    named = display.elements(tuple(part.id for part in group.parts))
    before = _merges_before(step, display)
    if before and group.id == TOTAL:
        goal = say("Merge what is left, {named}", named=named)
    else:
        ways = {PARALLEL: "share both junctions", SERIES: "form one chain"}[group.connection]
        goal = say("Merge {named}, which {ways}", named=named, ways=ways)
    alike = sum(other.connection == group.connection for other in before)
    tell = (_in_full, _again, _once_more)[min(alike, 2)]
    return Words(goal, tell(group, display), _remark(group, alike, display))


def _merges_before(step: NestStep, display: NestDisplay) -> list[Group]:
    before: list[Group] = []
    for other in display.solution.steps:
        if other.id == step.id:
            break
        if other.kind is StepKind.MERGE and other.group is not None:
            before.append(other.group)
    return before


def _in_full(group: Group, display: NestDisplay) -> Prose:
    voc = vocabulary(display.solution.problem.law)
    return (_parallel if group.connection == PARALLEL else _series)(group, display, voc)


def _parallel(group: Group, display: NestDisplay, voc: Vocabulary) -> Prose:
    follows = (
        f"Their {voc.flow}s add up at that one voltage, and so do their {voc.value}s"
        if _adds(group, display)
        else f"Their {voc.flow}s add up, and since each {voc.flow} is voltage over "
        f"{voc.value}, the reciprocals of the {voc.value}s add up"
    )
    return say(
        "{named} begin at the same junction and end at the same junction, so {all} have the same "
        "voltage. {follows}.",
        named=_named(group, display), all=_all(group), follows=follows,
    )  # fmt: skip


def _series(group: Group, display: NestDisplay, voc: Vocabulary) -> Prose:
    follows = (
        f"Their voltages add up, and so do their {voc.value}s"
        if _adds(group, display)
        else f"Their voltages add up, and since each voltage is {voc.flow} over "
        f"{voc.value}, the reciprocals of the {voc.value}s add up"
    )
    why = voc.shared_by_two if len(group.parts) == 2 else voc.shared_by_more
    return say(
        "{named} follow one another with nothing else joined on in between, so {all} carry the "
        "same {flow}: {why}. {follows}.",
        named=_named(group, display), all=_all(group), flow=voc.flow, why=why, follows=follows,
    )  # fmt: skip


def _again(group: Group, display: NestDisplay) -> Prose:
    voc = vocabulary(display.solution.problem.law)
    if group.connection == PARALLEL:
        return say("{named} share both junctions, so again they have the same voltage, and "
                   "{what} add up.",
                   named=_named(group, display), what=_what_adds(group, display))  # fmt: skip
    return say("{named} follow one another with nothing joined on in between, so again they "
               "carry the same {flow}, and {what} add up.", named=_named(group, display),
               flow=voc.flow, what=_what_adds(group, display))  # fmt: skip


def _once_more(group: Group, display: NestDisplay) -> Prose:
    ways = "share both junctions" if group.connection == PARALLEL else "form one chain"
    return say("The same once more: {named} {ways}, so {what} add up.",
               named=_named(group, display), ways=ways,
               what=_what_adds(group, display))  # fmt: skip


def _remark(group: Group, alike: int, display: NestDisplay) -> Prose:
    """How the equivalent compares with its members; nothing once that has been said twice."""
    if alike > 1:
        return ()
    two = len(group.parts) == 2
    compared = "{} than {}".format(
        "more" if _adds(group, display) else "less",
        "either of the two" if two else f"any of the {number_word(len(group.parts))}",
    )
    if alike:
        return say("Again, that is {compared}.", compared=compared)
    return say(
        "That is {compared}, as it must be for {ones}s {way}.",
        compared=compared, ones=vocabulary(display.solution.problem.law).one,
        way="in series" if group.connection == SERIES else "in parallel",
    )  # fmt: skip


def _adds(group: Group, display: NestDisplay) -> bool:
    return group.connection == display.solution.problem.law.adds_in


def _what_adds(group: Group, display: NestDisplay) -> str:
    values = f"{vocabulary(display.solution.problem.law).value}s"
    return f"their {values}" if _adds(group, display) else f"the reciprocals of their {values}"


def _named(group: Group, display: NestDisplay) -> Prose:
    return display.elements(tuple(part.id for part in group.parts))


def _all(group: Group) -> str:
    return "both" if len(group.parts) == 2 else f"all {number_word(len(group.parts))}"
