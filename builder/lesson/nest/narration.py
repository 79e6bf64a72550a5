"""What a teacher says at each step: its goal, the reason it is allowed, what to notice."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from builder.circuit.law import PARALLEL, SERIES
from builder.circuit.tree import Group
from builder.lesson.display import LONGEST_LIST
from builder.lesson.nest.display import NestDisplay
from builder.lesson.nest.merging_words import merging_words
from builder.lesson.prose import Prose, number_word, say, sentences
from builder.lesson.vocabulary import Vocabulary, vocabulary
from builder.lesson.words import Words
from builder.quantity.formula import Sum, names_in
from builder.quantity.names import TOTAL, Name
from builder.solution.nest.step import NestStep, StepKind


def narrate(step: NestStep, display: NestDisplay) -> Words:
    """The words of a step."""
    return _NARRATORS[step.kind](step, display)


def _drive(step: NestStep, display: NestDisplay) -> Words:
    problem = display.solution.problem
    voc, source = vocabulary(problem.law), problem.network.source
    assert source is not None
    root = display.naming.root
    found = {name.quantity for name in step.found}
    reason = _by_voltage if source.quantity == problem.law.drop else _by_flow
    return Words(_goal_of(step.found[-1], display), reason(root, found, display, voc))


def _goal_of(name: Name, display: NestDisplay) -> Prose:
    law = display.solution.problem.law
    if name.of != display.naming.root or name.of == TOTAL:
        return (
            say("Find the {flow} that the source delivers", flow=name.quantity)
            if name.quantity == law.flow
            else say("Find the voltage across the whole circuit")
        )
    word = "across" if name.quantity == law.drop else vocabulary(law).flow_word
    return say("Find the {noun} {word} {one}",
               noun=name.quantity, word=word, one=display.element(name.of))  # fmt: skip


def _by_voltage(root: str, found: set[str], display: NestDisplay, voc: Vocabulary) -> Prose:
    one = display.element(root)
    left = (
        say("Only {one} is left, straight across the source, and it has the source's whole "
            "voltage.", one=one)
        if root == TOTAL
        else say("{one} sits straight across the source, so it has the source's whole voltage.",
                 one=one)
    )  # fmt: skip
    if voc.flow not in found:
        return left
    return say("{left} Its {flow} follows from {law}.",
               left=left, flow=voc.flow, law=voc.flow_law)  # fmt: skip


def _by_flow(root: str, found: set[str], display: NestDisplay, voc: Vocabulary) -> Prose:
    carries = say("{one} carries the whole {flow} of the source",
                  one=display.element(root), flow=voc.flow)  # fmt: skip
    if "voltage" not in found:
        return say("{carries}.", carries=carries)
    return say("{carries}, so its voltage follows from {law}.", carries=carries, law=voc.drop_law)


def _open(step: NestStep, display: NestDisplay) -> Words:
    group = _group_of(step)
    voc = vocabulary(display.solution.problem.law)
    known = {name.of for name in step.found}
    members = tuple(part.id for part in group.parts if part.id in known)
    merged = any(s.id == f"merge-{group.id}" for s in display.solution.steps)
    if group.id == TOTAL and not merged:
        goal = say("Start at the source with {named}", named=display.elements(members))
        straight = _straight_across if group.connection == PARALLEL else _straight_through
        reason = straight(group, members, display, voc)
    else:
        goal = say("Walk back to {named}", named=_walked_to(group, members, display))
        again = _handed_on_before(step, display)
        reason = (_handed_on_again if again else _handed_on)(group, members, display, voc)
    return Words(goal, sentences(reason, _then(step, members, display, voc)))


def _walked_to(group: Group, members: tuple[str, ...], display: NestDisplay) -> Prose:
    """The members by name; many of them by number, as “back to C₁ to C₆” is hard to read."""
    if len(members) <= LONGEST_LIST:
        return display.elements(members)
    if len(members) == len(group.parts):
        return say(_all(members))
    return say("{some} of the {all}", some=number_word(len(members)),
               all=number_word(len(group.parts)))  # fmt: skip


def _straight_across(
    group: Group, members: tuple[str, ...], display: NestDisplay, voc: Vocabulary
) -> Prose:
    named = display.elements(members)
    if len(members) == 1:
        return say("{named} sits straight across the source, so it has the source's whole "
                   "voltage, whatever hangs beside it.", named=named)  # fmt: skip
    beside = ", whatever hangs beside them" if len(members) < len(group.parts) else ""
    across = say("{named} sit straight across the source, so {all} have the source's whole "
                 "voltage{beside}.", named=named, all=_all(members), beside=beside)  # fmt: skip
    return sentences(across, _unmerged(display))


def _straight_through(
    group: Group, members: tuple[str, ...], display: NestDisplay, voc: Vocabulary
) -> Prose:
    named = display.elements(members)
    if len(members) == 1:
        through = say("{named} carries the whole {flow} of the source, as everything in its chain "
                      "does.", named=named, flow=voc.flow)  # fmt: skip
    else:
        why = voc.shared_by_two if len(group.parts) == 2 else voc.shared_by_more
        through = say("{named} each carry the whole {flow} of the source: {why}.",
                      named=named, flow=voc.flow, why=why)  # fmt: skip
    return sentences(through, _unmerged(display))


def _unmerged(display: NestDisplay) -> Prose:
    merges = any(step.kind is StepKind.MERGE for step in display.solution.steps)
    return () if merges else say("No merging is needed for that.")


def _handed_on_before(step: NestStep, display: NestDisplay) -> bool:
    """Whether walking back into a group of the same kind was told in full already."""
    for other in display.solution.steps:
        if other.id == step.id:
            return False
        if other.kind is StepKind.OPEN and other.group is not None and step.group is not None:
            merged = any(s.id == f"merge-{other.group.id}" for s in display.solution.steps)
            if merged and other.group.connection == step.group.connection:
                return True
    return False


def _handed_on_again(
    group: Group, members: tuple[str, ...], display: NestDisplay, voc: Vocabulary
) -> Prose:
    stood, named = display.element(group.id), display.elements(members)
    one = len(members) == 1
    if group.connection == SERIES:
        return say("{stood} stood for a chain too, so {named} {carry} what it carried: {number}.",
                   stood=stood, named=named, carry=_carry(members),
                   number=display.number(display.naming.flow(group.id)))  # fmt: skip
    return say("{named} {sit} between the same two junctions as {stood} did, so {have} the same "
               "voltage: {number}.",
               named=named, sit="sits" if one else "sit", stood=stood,
               have="it has" if one else "they have",
               number=display.number(display.naming.drop(group.id)))  # fmt: skip


def _carry(members: tuple[str, ...]) -> str:
    return {1: "carries", 2: "both carry"}.get(len(members), "all carry")


def _handed_on(
    group: Group, members: tuple[str, ...], display: NestDisplay, voc: Vocabulary
) -> Prose:
    stood, named = display.element(group.id), display.elements(members)
    if group.connection == SERIES:
        return say(
            "{stood} stood for a chain, and along a chain the {flow} is the same everywhere. So "
            "{named} {carry} what {stood} carried: {number}.",
            stood=stood, flow=voc.flow, named=named, carry=_carry(members),
            number=display.number(display.naming.flow(group.id)),
        )  # fmt: skip
    return say(
        "{named} {tells} the same two junctions as {stood} had, so the voltage is the same: "
        "{number}.",
        stood=stood, named=named, tells="have" if len(members) > 1 else "has",
        number=display.number(display.naming.drop(group.id)),
    )  # fmt: skip


def _then(step: NestStep, members: tuple[str, ...], display: NestDisplay, voc: Vocabulary) -> Prose:
    """What follows for each member, or for some of them, after what they share."""
    computed = [line.name for line in step.lines if not line.carries]
    if not computed:
        return ()
    noun, word, relation = (
        ("voltage", "across", voc.drop_law)
        if computed[0].quantity == display.solution.problem.law.drop
        else (voc.flow, voc.flow_word, voc.flow_law)
    )
    some = display.elements(tuple(name.of for name in computed))
    whose = say(" {word} {some}", word=word, some=some) if len(computed) < len(members) else ()
    one = len(computed) == 1
    return say("The {noun}{whose} then {follow} from {relation}.",
               noun=noun if one else f"{noun}s", whose=whose,
               follow="follows" if one else "follow", relation=relation)  # fmt: skip


def _work(step: NestStep, display: NestDisplay) -> Words:
    voc = vocabulary(display.solution.problem.law)
    named = display.elements(tuple(name.of for name in step.found))
    if voc.work == "energy":
        goal = say("Find the energy stored in {named}", named=named)
        reason = say("While a capacitor charges, its voltage climbs from zero to its final value, "
                     "so the charge moves across half of it on average. That is where the ½ comes "
                     "from.")  # fmt: skip
    else:
        goal = say("Find the power in {named}", named=named)
        reason = say("A resistor turns energy into heat at the rate of its voltage times its "
                     "current.")  # fmt: skip
    return Words(goal, sentences(reason, _stands_in(step, display, voc)))


def _stands_in(step: NestStep, display: NestDisplay, voc: Vocabulary) -> Prose:
    """Which law replaces what is not known."""
    law = display.solution.problem.law
    used = {frozenset(name.quantity for name in names_in(line.formula)) for line in step.lines}
    if used == {frozenset((law.value, law.drop))}:
        known, missing, relation = "voltage", voc.flow, voc.flow_law
    elif used == {frozenset((law.value, law.flow))}:
        known, missing, relation = voc.flow, "voltage", voc.drop_law
    elif used == {frozenset((law.flow, law.drop))}:
        return ()
    else:
        return say("Where only the {flow} or only the voltage is known, {drop_law} or {flow_law} "
                   "stands in for the other.",
                   flow=voc.flow, drop_law=voc.drop_law, flow_law=voc.flow_law)  # fmt: skip
    return say("Here we know the {known}, so {relation} stands in for the {missing}.",
               known=known, relation=relation, missing=missing)  # fmt: skip


def _total(step: NestStep, display: NestDisplay) -> Words:
    law = display.solution.problem.law
    voc = vocabulary(law)
    (line,) = step.lines
    if line.name.quantity == law.flow:
        return Words(
            say("Add up what the source delivers"),
            say("At the source's terminal the {flow}s of all branches come together, so the "
                "source delivers their sum.", flow=voc.flow),
        )  # fmt: skip
    goal = say("Find the {work} of the whole circuit", work=voc.work)
    energy = voc.work == "energy"
    if isinstance(line.formula, Sum):
        part = "stores" if energy else "turns into heat"
        return Words(goal, say("Nothing is counted twice, so we add up what each {one} {part}.",
                               one=voc.one, part=part))  # fmt: skip
    return Words(
        goal,
        say("Seen from the source the whole circuit is one {one}, so its {work} follows as for a "
            "single one{half}.",
            one=voc.one, work=voc.work, half=", with the same ½" if energy else ""),
    )  # fmt: skip


def _all(members: tuple[str, ...]) -> str:
    return "both" if len(members) == 2 else f"all {number_word(len(members))}"


def _group_of(step: NestStep) -> Group:
    assert step.group is not None
    return step.group


_NARRATORS: dict[StrEnum, Callable[[NestStep, NestDisplay], Words]] = {
    StepKind.MERGE: merging_words,
    StepKind.DRIVE: _drive,
    StepKind.OPEN: _open,
    StepKind.WORK: _work,
    StepKind.TOTAL: _total,
}
