"""What a teacher says at each step: its goal, the reason it is allowed, what to notice."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from builder.circuit.law import PARALLEL, SERIES
from builder.circuit.tree import Group
from builder.lesson.display import Display
from builder.lesson.prose import Prose, Written, number_word, say
from builder.lesson.vocabulary import Vocabulary, vocabulary
from builder.quantity.formula import Sum
from builder.quantity.names import TOTAL, Name
from builder.solution import Step, StepKind


@dataclass(frozen=True)
class Words:
    """The words of one step.

    Attributes:
        goal: what the step is for; its heading.
        reason: why the move is allowed.
        remark: what to notice in the result; may be empty.
    """

    goal: Prose
    reason: Prose
    remark: Prose = ()


def narrate(step: Step, display: Display) -> Words:
    """The words of a step, with the author's own where there are any."""
    words = _NARRATORS[step.kind](step, display)
    own = display.solution.problem.words.get(step.id)
    if own is None:
        return words
    return Words(
        goal=(Written(own.goal),) if own.goal else words.goal,
        reason=(Written(own.reason),) if own.reason else words.reason,
        remark=() if own.reason else words.remark,
    )


def _merge(step: Step, display: Display) -> Words:
    group = _group_of(step)
    voc = vocabulary(display.solution.problem.law)
    members = tuple(part.id for part in group.parts)
    named = display.elements(members)
    ways = "which share both junctions" if group.connection == PARALLEL else "which form one chain"
    last = group.id == TOTAL and not _first_merge(step, display)
    goal = say("Merge what is left, {named}" if last else "Merge {named}, {ways}",
               named=named, ways=ways)  # fmt: skip
    if _told_before(step, display):
        reason = _same_again
    else:
        reason = _parallel_reason if group.connection == PARALLEL else _series_reason
    return Words(goal, reason(members, display, voc), _size_remark(group, display, voc))


def _first_merge(step: Step, display: Display) -> bool:
    first = next(s for s in display.solution.steps if s.kind is StepKind.MERGE)
    return first.id == step.id


def _told_before(step: Step, display: Display) -> bool:
    """Whether an earlier merge had the same reason."""
    for other in display.solution.steps:
        if other.id == step.id:
            return False
        if other.kind is StepKind.MERGE and _group_of(other).connection == (
            _group_of(step).connection
        ):
            return True
    return False


def _same_again(members: tuple[str, ...], display: Display, voc: Vocabulary) -> Prose:
    """The reason in short, for a kind of merge whose reason was told in full before."""
    group = next(
        _group_of(s)
        for s in display.solution.steps
        if s.kind is StepKind.MERGE and tuple(p.id for p in _group_of(s).parts) == members
    )
    adds = group.connection == display.solution.problem.law.adds_in
    what = f"the {voc.value}s" if adds else f"the reciprocals of the {voc.value}s"
    if group.connection == PARALLEL:
        return say("{named} begin and end at the same two junctions as each other. As before, "
                   "they have one voltage, and {what} add up.",
                   named=display.elements(members), what=what)  # fmt: skip
    return say("{named} follow one another with nothing joined on between. As before, they carry "
               "one {flow}, and {what} add up.",
               named=display.elements(members), flow=voc.flow, what=what)  # fmt: skip


def _parallel_reason(members: tuple[str, ...], display: Display, voc: Vocabulary) -> Prose:
    both = "both" if len(members) == 2 else f"all {number_word(len(members))}"
    adds = display.solution.problem.law.adds_in == PARALLEL
    follows = (
        f"their {voc.flow}s add up, and so their {voc.value}s add up as well"
        if adds
        else f"their {voc.flow}s add up, and since each {voc.flow} is voltage over "
        f"{voc.value}, the reciprocals of the {voc.value}s add up"
    )
    return say(
        "{named} begin at the same junction and end at the same junction, so {both} have the "
        "same voltage. Within the group, {follows}.",
        named=display.elements(members), both=both, follows=follows,
    )  # fmt: skip


def _series_reason(members: tuple[str, ...], display: Display, voc: Vocabulary) -> Prose:
    adds = display.solution.problem.law.adds_in == SERIES
    follows = (
        f"The voltages add up, and so the {voc.value}s add up as well"
        if adds
        else f"The voltages add up, and since each voltage is {voc.flow} over "
        f"{voc.value}, the reciprocals of the {voc.value}s add up"
    )
    each = "both" if len(members) == 2 else f"all {number_word(len(members))}"
    return say(
        "Nothing else is joined on between {named}, so {each} carry the same {flow}: {why}. "
        "{follows}.",
        named=display.elements(members), each=each, flow=voc.flow,
        why=voc.shared_in_series, follows=follows,
    )  # fmt: skip


def _size_remark(group: Group, display: Display, voc: Vocabulary) -> Prose:
    grows = group.connection == display.solution.problem.law.adds_in
    two = len(group.parts) == 2
    compared = {
        (True, True): "more than either of the two",
        (True, False): f"more than any of the {number_word(len(group.parts))}",
        (False, True): "less than the smaller of the two",
        (False, False): f"less than the smallest of the {number_word(len(group.parts))}",
    }[grows, two]
    return say(
        "That is {compared}, as it must be for {ones}s {way}.",
        compared=compared, ones=voc.one,
        way="in series" if group.connection == SERIES else "in parallel",
    )  # fmt: skip


def _drive(step: Step, display: Display) -> Words:
    problem = display.solution.problem
    voc, source = vocabulary(problem.law), problem.network.source
    assert source is not None
    root = display.naming.root
    alone = root != TOTAL
    one = display.element(root)
    if source.quantity == problem.law.drop:
        goal = (
            say("Find the {flow} of {one}", flow=voc.flow, one=one)
            if alone
            else say("Find the {flow} that the source delivers", flow=voc.flow)
        )
        left = (
            say("{one} sits straight across the source, so it has the source's whole voltage.",
                one=one)
            if alone
            else say("Only {one} is left, straight across the source, and it has the source's "
                     "whole voltage.", one=one)
        )  # fmt: skip
        return Words(goal, say("{left} Its {flow} follows from {law}.", left=left, flow=voc.flow,
                               law=voc.flow_law))  # fmt: skip
    goal = say("Find the voltage across {one}" if alone else "Find the voltage across the source",
               one=one)  # fmt: skip
    reason = say(
        "{all} of the source passes to {one}, so its voltage follows from {law}.",
        all=f"The whole {voc.flow}", one=one, law=voc.drop_law,
    )  # fmt: skip
    return Words(goal, reason)


def _open(step: Step, display: Display) -> Words:
    group = _group_of(step)
    problem = display.solution.problem
    voc = vocabulary(problem.law)
    known = {name.of for name in step.found}
    members = tuple(part.id for part in group.parts if part.id in known)
    named = display.elements(members)
    shared = problem.law.drop if group.connection == PARALLEL else problem.law.flow
    carried_over = display.naming.drop(group.id) if shared == problem.law.drop else (
        display.naming.flow(group.id)
    )  # fmt: skip
    merged = any(s.id == f"merge-{group.id}" for s in display.solution.steps)
    if group.id == TOTAL and not merged:
        goal = say("Start at the source with {named}", named=named)
        straight = _straight_across if group.connection == PARALLEL else _straight_through
        reason = straight(members, display, voc)
    else:
        goal = say("Walk back to {named}", named=named)
        reason = _handed_on(group, members, carried_over, display, voc)
    return Words(goal, say("{reason}{then}", reason=reason, then=_then(step, display, voc)))


def _straight_across(members: tuple[str, ...], display: Display, voc: Vocabulary) -> Prose:
    if len(members) == 1:
        return say("{named} sits straight across the source, so it has the source's whole "
                   "voltage, whatever hangs beside it.", named=display.elements(members))  # fmt: skip
    both = "both" if len(members) == 2 else "all"
    return say("{named} sit straight across the source, so {both} have the source's whole "
               "voltage. No merging is needed for that.",
               named=display.elements(members), both=both)  # fmt: skip


def _straight_through(members: tuple[str, ...], display: Display, voc: Vocabulary) -> Prose:
    return say("The whole {flow} of the source passes through {named}: there is no other way "
               "round. No merging is needed for that.",
               named=display.elements(members), flow=voc.flow)  # fmt: skip


def _handed_on(
    group: Group, members: tuple[str, ...], carried: Name, display: Display, voc: Vocabulary
) -> Prose:
    stands_for = display.element(group.id)
    number = display.number(carried)
    named = display.elements(members)
    if group.connection == SERIES:
        whose = "each of them" if len(members) > 1 else "it"
        return say(
            "{stands_for} stood for a chain, and along a chain the {flow} is the same "
            "everywhere. What {stands_for} {verb}, {whose} {verb}: {number}.",
            stands_for=stands_for, flow=voc.flow, verb=voc.flow_verb, whose=whose, number=number,
        )  # fmt: skip
    tells = "have" if len(members) > 1 else "has"
    return say(
        "{named} {tells} the same two junctions as {stands_for} had, so the voltage is the "
        "same: {number}.",
        stands_for=stands_for, named=named, tells=tells, number=number,
    )  # fmt: skip


def _then(step: Step, display: Display, voc: Vocabulary) -> Prose:
    """What follows for each member after what they share."""
    law = display.solution.problem.law
    computed = {line.name.quantity for line in step.lines if not line.carries}
    number = sum(not line.carries for line in step.lines)
    if not computed:
        return ()
    noun, relation = (
        ("voltage", voc.drop_law) if law.drop in computed else (voc.flow, voc.flow_law)
    )
    follow = f"The {noun} then follows" if number == 1 else f"The {noun}s then follow"
    return say(" {follow} from {relation}.", follow=follow, relation=relation)


def _work(step: Step, display: Display) -> Words:
    voc = vocabulary(display.solution.problem.law)
    named = display.elements(tuple(name.of for name in step.found))
    if voc.work == "energy":
        return Words(
            say("Find the energy stored in {named}", named=named),
            say("While a capacitor charges, its voltage climbs from zero to its final value, so "
                "the charge moves across half of it on average. That is where the ½ comes from."),
        )  # fmt: skip
    return Words(
        say("Find the power in {named}", named=named),
        say("A resistor turns energy into heat at the rate of its voltage times its current."),
    )


def _total(step: Step, display: Display) -> Words:
    law = display.solution.problem.law
    voc = vocabulary(law)
    (line,) = step.lines
    added = isinstance(line.formula, Sum)
    if line.name.quantity == law.flow:
        return Words(
            say("Add up what the source delivers"),
            say("At the source's terminal the {flow}s of all branches come together, so the "
                "source delivers their sum.", flow=voc.flow),
        )  # fmt: skip
    goal = say("Find the {work} of the whole circuit", work=voc.work)
    if added:
        stored = "what each capacitor stores" if voc.work == "energy" else "what each one takes"
        return Words(goal, say("Nothing is counted twice, so we add up {stored}.", stored=stored))
    if voc.work == "energy":
        reason = ("Seen from the source the whole circuit is one capacitor, so its energy follows "
                  "as for a single one, with the same ½.")  # fmt: skip
    else:
        reason = ("Seen from the source the whole circuit is one resistor, so its power follows "
                  "as for a single one.")  # fmt: skip
    return Words(goal, say(reason))


def _group_of(step: Step) -> Group:
    assert step.group is not None
    return step.group


_NARRATORS: dict[StepKind, Callable[[Step, Display], Words]] = {
    StepKind.MERGE: _merge,
    StepKind.DRIVE: _drive,
    StepKind.OPEN: _open,
    StepKind.WORK: _work,
    StepKind.TOTAL: _total,
}
