"""What a teacher says where a network is solved by equations: of junctions and of loops."""

from __future__ import annotations

from builder.lesson.network.display import POTENTIAL, NetworkDisplay
from builder.lesson.network.walking_words import meaning_of_minus
from builder.lesson.prose import Prose, SymbolOf, listed, say, sentences
from builder.lesson.vocabulary import vocabulary
from builder.lesson.words import Words
from builder.quantity.formula import names_in
from builder.quantity.names import Name
from builder.solution.network.step import NetworkStep


def balancing_junctions(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for junction equations."""
    voc = vocabulary(display.law)
    about = tuple(dict.fromkeys(one.about for one in step.statements if one.about))
    at = display.junctions(about) if about else say("every junction")
    charges = voc.flow == "charge"
    goal = say("Balance the {flow}s at {at}", flow=voc.flow, at=at)
    zero = (
        say("Only differences of potential matter, so we may call the potential of junction "
            "{reference} zero.", reference=step.reference) if step.reference else ()
    )  # fmt: skip
    balance = (
        say(
            "The plates that meet at a junction, with the wire between them, touch nothing else: "
            "no charge can come or go, so their charges add up to zero."
        )
        if charges
        else say("No charge piles up at a junction: what flows in flows out.")
    )
    whose = "the one unknown potential" if len(about) == 1 else (
        "each junction whose potential is unknown"
    )  # fmt: skip
    unknown = say("Each {flow} follows from the potentials at its two ends, by {law}, so there is "
                  "one equation for {whose}.", flow=voc.flow, law=voc.flow_law,
                  whose=whose)  # fmt: skip
    return Words(goal, sentences(zero, balance, unknown), _of_potentials(step, display))


def _of_potentials(step: NetworkStep, display: NetworkDisplay) -> Prose:
    values = display.solution.values
    below = [name for name in step.found if name.quantity == POTENTIAL and values[name] < 0]
    if not below or not step.reference:
        return ()
    one = len(below) == 1
    return say("A minus is nothing to worry about: junction {names} {lies} lower than junction "
               "{reference}." if one else
               "A minus is nothing to worry about: junctions {names} {lies} lower than junction "
               "{reference}.", names=listed([name.of for name in below]),
               lies="lies" if one else "lie", reference=step.reference)  # fmt: skip


def going_round_loops(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for loop equations."""
    voc = vocabulary(display.law)
    names = [loop.name for loop in step.loops]
    one = len(names) == 1
    goal = say("Go round loop {names}" if one else "Go round loops {names}", names=listed(names))
    choose = (
        say("Choose a direction for the {flow} of the loop.", flow=voc.flow)
        if one
        else say("Choose a {flow} for each loop and a direction for each, without caring yet "
                 "whether it is the right one.", flow=voc.flow)
    )  # fmt: skip
    rule = say("Whoever goes once round a loop comes back to the same potential, so the voltages "
               "across its {ones}s add up to what its sources lift.", ones=voc.one)  # fmt: skip
    shared = _shared(step, display)
    return Words(goal, sentences(choose, rule, shared), _wrong_guesses(step, display))


def _shared(step: NetworkStep, display: NetworkDisplay) -> Prose:
    """The elements that two loops pass, where both currents count."""
    voc = vocabulary(display.law)
    counts: dict[str, int] = {}
    for loop in step.loops:
        for of, _ in loop.path:
            counts[of] = counts.get(of, 0) + 1
    both = tuple(of for of, count in counts.items() if count > 1 and of in display.members)
    if not both:
        return ()
    which = "two loops" if len(step.loops) > 2 else "both loops"
    carry = "carries" if len(both) == 1 else "carry"
    passed = "pass it" if len(both) == 1 else "pass them"
    return say("{named} {carry} the {flow} of one loop less that of the other, as {which}."
               if _against(step, both) else
               "{named} {carry} the {flow}s of both loops together, as {which}.",
               named=display.elements(both), carry=carry, flow=voc.flow,
               which=f"{which} {passed}")  # fmt: skip


def _against(step: NetworkStep, shared: tuple[str, ...]) -> bool:
    ways: dict[str, set[bool]] = {}
    for loop in step.loops:
        for of, along in loop.path:
            ways.setdefault(of, set()).add(along)
    return all(len(ways[of]) > 1 for of in shared)


def _wrong_guesses(step: NetworkStep, display: NetworkDisplay) -> Prose:
    values, voc = display.solution.values, vocabulary(display.law)
    wrong = [name for name in step.found if values[name] < 0]
    if not wrong:
        return ()
    named = listed([SymbolOf(name) for name in wrong])
    if len(wrong) == 1:
        return say("{named} comes out negative: it really runs the other way round than we chose. "
                   "Nothing has to be done again, the minus says it all.",
                   named=named)  # fmt: skip
    return say("{named} come out negative: these {flow}s really run the other way round than we "
               "chose. Nothing has to be done again, the minus says it all.", named=named,
               flow=voc.flow)  # fmt: skip


def spreading(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for the way from potentials or loop currents to each element."""
    voc = vocabulary(display.law)
    used = {name.quantity for line in step.lines for name in names_in(line.formula)}
    by_loops = POTENTIAL not in used
    goal = say("Find the {flow} {word} each {one}", flow=voc.flow, word=voc.flow_word,
               one=voc.one)  # fmt: skip
    reason = (
        say("What lies in one loop carries the {flow} of that loop. Where two loops meet, both "
            "count, each with its direction.", flow=voc.flow)
        if by_loops
        else say("The voltage across each {one} is the potential at its first junction less that "
                 "at its second. Its {flow} follows from {law}.", one=voc.one, flow=voc.flow,
                 law=voc.flow_law)
    )  # fmt: skip
    return Words(goal, reason, sentences(meaning_of_minus(step.found, display),
                                         charged_sources(step.found, display)))  # fmt: skip


def charged_sources(found: tuple[Name, ...], display: NetworkDisplay) -> Prose:
    """Which sources take energy in, if the flow of any is negative."""
    values = display.solution.values
    charged = tuple(
        source.name
        for source in display.network.sources
        if source.quantity == display.law.drop
        and values.get(Name(display.law.flow, source.name), 0) < 0
        and _tells(source.name, found, display)
    )
    if not charged or display.law.work == "energy":
        return ()
    return say("Current enters {named} at the + side: {it} being charged.",
               named=display.elements(charged),
               it="it is" if len(charged) == 1 else "they are")  # fmt: skip


def _tells(source: str, found: tuple[Name, ...], display: NetworkDisplay) -> bool:
    """Whether a step finds the flow of a source, or of an element in one chain with it."""
    flow = display.law.flow
    if Name(flow, source) in found:
        return True
    values = display.solution.values
    chain = [
        element.name
        for element in display.network.elements
        if set(element.between) & set(display.between(source))
        and abs(values[Name(flow, element.name)]) == abs(values[Name(flow, source)])
    ]
    return any(Name(flow, name) in found for name in chain)
