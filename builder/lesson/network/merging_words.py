"""What a teacher says when groups of a network are merged."""

from __future__ import annotations

from builder.circuit.law import PARALLEL
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import Prose, listed, number_word, say, sentences
from builder.lesson.vocabulary import Vocabulary, vocabulary
from builder.lesson.words import Words
from builder.quantity.names import TOTAL
from builder.solution.network.step import Merged, NetworkMove, NetworkStep

MOST_GROUPS = 3


def merging(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words of a merge: in full the first time, in short after that."""
    connection = step.telling.get("connection", step.merged[0].connection)
    earlier = [
        other
        for other in display.before(step)
        if other.kind is NetworkMove.MERGE and other.merged[0].connection == connection
    ]
    named = _groups_named(step.merged, display)
    if len(step.merged) == 1 and step.merged[0].equivalent == TOTAL and display.before(step):
        goal = say("Merge what is left, {named}", named=named)
    else:
        ways = "share both junctions" if connection == PARALLEL else "form one chain"
        goal = say("Merge {named}, which {ways}", named=named, ways=ways)
        if len(step.merged) > 1:
            goal = say("Merge {named}, which each {ways}", named=named, ways=ways)
        if len(step.merged) > 1 and not _all_pairs(step.merged):
            goal = say("Merge {count} groups that each {ways}: {named}",
                       count=number_word(len(step.merged)), ways=ways, named=named)  # fmt: skip
    tell = (_in_full, _again, _once_more)[min(len(earlier), 2)]
    return Words(goal, tell(step.merged, connection, display), _compared(step, earlier, display))


def _groups_named(merged: tuple[Merged, ...], display: NetworkDisplay) -> Prose:
    """``R₁ and R₂``; of pairs ``R₁ with R₂ and R₃ with R₄``, of others ``R₁ to R₃, R₄ to R₆``."""
    if len(merged) == 1:
        return display.elements(merged[0].members)
    if _all_pairs(merged):
        return listed([display.elements(group.members, "with") for group in merged], "and")
    row: Prose = ()
    for group in merged:
        ends = (group.members[0], group.members[-1])
        word = "to" if len(group.members) > 2 and display.in_order(group.members) else "and"
        named = display.elements(ends if word == "to" else group.members, word)
        row = say("{row}; {named}", row=row, named=named) if row else named
    return row


def _all_pairs(merged: tuple[Merged, ...]) -> bool:
    return len(merged) <= MOST_GROUPS and all(len(group.members) == 2 for group in merged)


def _in_full(merged: tuple[Merged, ...], connection: str, display: NetworkDisplay) -> Prose:
    voc = vocabulary(display.law)
    adds = connection == display.law.adds_in
    if connection == PARALLEL:
        start = _parallel_start(merged, display)
        why = f"since each {voc.flow} is voltage over {voc.value}"
        follows = f"Their {voc.flow}s add up, and "
    else:
        start = _series_start(merged, display, voc)
        why = f"since each voltage is {voc.flow} over {voc.value}"
        follows = "Their voltages add up, and "
    follows += f"so do their {voc.value}s." if adds else (
        f"{why}, the reciprocals of the {voc.value}s add up."
    )  # fmt: skip
    return sentences(start, say(follows))


def _parallel_start(merged: tuple[Merged, ...], display: NetworkDisplay) -> Prose:
    if len(merged) > 1:
        return say("The members of each group begin at the same junction and end at the same "
                   "junction, so they have the same voltage.")  # fmt: skip
    group = merged[0]
    return say("{named} begin at the same junction and end at the same junction, so {all} have "
               "the same voltage.", named=display.elements(group.members),
               all=_all(group))  # fmt: skip


def _series_start(merged: tuple[Merged, ...], display: NetworkDisplay, voc: Vocabulary) -> Prose:
    if len(merged) > 1:
        return say("The members of each group follow one another with nothing else joined on in "
                   "between, so they carry the same {flow}: {why}.", flow=voc.flow,
                   why=voc.shared_by_more)  # fmt: skip
    group = merged[0]
    why = voc.shared_by_two if len(group.members) == 2 else voc.shared_by_more
    return say("{named} follow one another with nothing else joined on in between, so {all} carry "
               "the same {flow}: {why}.", named=display.elements(group.members), all=_all(group),
               flow=voc.flow, why=why)  # fmt: skip


def _again(merged: tuple[Merged, ...], connection: str, display: NetworkDisplay) -> Prose:
    named = _subject(merged, display)
    if connection == PARALLEL:
        return say("{named} share both junctions, so again they have the same voltage, and {what} "
                   "add up.", named=named, what=_what_adds(connection, display))  # fmt: skip
    return say("{named} follow one another with nothing joined on in between, so again they carry "
               "the same {flow}, and {what} add up.", named=named,
               flow=vocabulary(display.law).flow,
               what=_what_adds(connection, display))  # fmt: skip


def _once_more(merged: tuple[Merged, ...], connection: str, display: NetworkDisplay) -> Prose:
    ways = "share both junctions" if connection == PARALLEL else "form one chain"
    return say("The same once more: {named} {ways}, so {what} add up.",
               named=_subject(merged, display, start=False), ways=ways,
               what=_what_adds(connection, display))  # fmt: skip


def _subject(merged: tuple[Merged, ...], display: NetworkDisplay, *, start: bool = True) -> Prose:
    if len(merged) == 1:
        return display.elements(merged[0].members)
    return say("The members of each group" if start else "the members of each group")


def _compared(step: NetworkStep, earlier: list[NetworkStep], display: NetworkDisplay) -> Prose:
    """How the equivalent compares with its members; nothing once that has been said twice."""
    group = step.merged[0]
    connection = group.connection
    alike = sentences(
        say("The groups are alike, so one sum does for all of them.")
        if len(step.merged) > 1 and step.telling.get("alike") == "yes"
        else ()
    )
    if len(earlier) > 1:
        return alike
    two = all(len(one.members) == 2 for one in step.merged)
    count = "either of the two" if two else (
        f"any of the {number_word(len(group.members))}" if len(step.merged) == 1 else
        "any of its members"
    )  # fmt: skip
    more = "more" if connection == display.law.adds_in else "less"
    if earlier:
        return sentences(alike, say("Again, that is {more} than {count}.", more=more, count=count))
    return sentences(alike, say("That is {more} than {count}, as it must be for {ones}s {way}.",
                                more=more, count=count, ones=display.one,
                                way=f"in {connection}"))  # fmt: skip


def _all(group: Merged) -> str:
    return "both" if len(group.members) == 2 else f"all {number_word(len(group.members))}"


def _what_adds(connection: str, display: NetworkDisplay) -> str:
    values = f"{vocabulary(display.law).value}s"
    return f"their {values}" if connection == display.law.adds_in else (
        f"the reciprocals of their {values}"
    )  # fmt: skip
