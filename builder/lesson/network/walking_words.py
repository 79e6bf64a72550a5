"""What a teacher says on the way back from the equivalent to every element."""

from __future__ import annotations

from collections.abc import Callable

from builder.circuit.law import SERIES
from builder.lesson.display import LONGEST_LIST
from builder.lesson.network.display import POTENTIAL, NetworkDisplay
from builder.lesson.prose import Prose, listed, number_word, say, sentences
from builder.lesson.vocabulary import vocabulary
from builder.lesson.words import Words
from builder.quantity.formula import Negative, Ref, Sum, names_in
from builder.quantity.names import TOTAL, Name
from builder.solution.network.renaming import part_of
from builder.solution.network.step import NetworkMove, NetworkStep


def driving(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for the source that meets the element that is left."""
    voc = vocabulary(display.law)
    one = display.element(step.marked[0] if step.marked else TOTAL)
    (source,) = step.network.sources
    named = display.element(source.name)
    several = len(display.network.sources) > 1
    found = {name.quantity for name in step.found}
    if source.quantity == display.law.drop:
        reason = say("Only {one} is left, straight across the source, and it has the source's "
                     "whole voltage.", one=one)  # fmt: skip
        if voc.flow in found:
            reason = sentences(reason, say("Its {flow} follows from {law}.", flow=voc.flow,
                                           law=voc.flow_law))  # fmt: skip
        return Words(say("Find the {flow} that {source} delivers", flow=voc.flow,
                         source=named if several else "the source"), reason)  # fmt: skip
    reason = say("Only {one} is left, and it carries the whole {flow} of the source, so its "
                 "voltage follows from {law}.", one=one, flow=voc.flow,
                 law=voc.drop_law)  # fmt: skip
    return Words(say("Find the voltage across the whole circuit"), reason)


def opening(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for a move that is undone."""
    found = tuple(
        dict.fromkeys(part_of(name)[0].of for name in step.found if name.quantity != POTENTIAL)
    )
    found = display.in_turn(found)
    goal = say("Walk back to {named}", named=_named(found, display))
    reason = _UNDOING.get(step.undone, _plainly)(step, display)
    return Words(goal, sentences(reason, _turned(step, display), _taken_apart(step),
                                 _by_laws(step, display)),
                 meaning_of_minus(step.found, display))  # fmt: skip


def _turned(step: NetworkStep, display: NetworkDisplay) -> Prose:
    """What is said where something is handed on with its sign turned."""
    turned = tuple(
        dict.fromkeys(
            part_of(line.name)[0].of
            for line in step.lines
            if isinstance(line.formula, Negative) and isinstance(line.formula.term, Ref)
        )
    )
    if not turned:
        return ()
    if len(turned) > LONGEST_LIST:
        return say("Where a {one} is counted against its equivalent, a minus comes in.",
                   one=display.one)  # fmt: skip
    one = len(turned) == 1
    return say("{named} {is_} counted the other way round, so a minus comes in.",
               named=display.elements(turned), is_="is" if one else "are")  # fmt: skip


def _taken_apart(step: NetworkStep) -> Prose:
    """What is said of junctions that are parted again along the way."""
    if step.undone is NetworkMove.JOIN or not step.joined:
        return ()
    return say("The joined junctions are taken apart again; as nothing flowed between them, that "
               "changes nothing.")  # fmt: skip


def _named(found: tuple[str, ...], display: NetworkDisplay) -> Prose:
    """The elements by name; many of them by number, as “back to R₁ to R₆” is hard to read."""
    if len(found) <= LONGEST_LIST:
        return display.elements(found)
    if set(found) >= set(display.members):
        return say("every {one}", one=display.one)
    return say("{count} of the {ones}s", count=number_word(len(found)), ones=display.one)


def _from_merge(step: NetworkStep, display: NetworkDisplay) -> Prose:
    voc = vocabulary(display.law)
    several = len(step.merged) > 1
    group = step.merged[0]
    if group.connection == SERIES:
        if several:
            return say("Each of these equivalents stood for a chain, and along a chain the {flow} "
                       "is the same everywhere.", flow=voc.flow)  # fmt: skip
        return say("{stood} stood for a chain, and along a chain the {flow} is the same "
                   "everywhere.", stood=display.element(group.equivalent),
                   flow=voc.flow)  # fmt: skip
    if several:
        return say("The members of each group have the same two junctions as their equivalent "
                   "had, so the voltage is the same.")  # fmt: skip
    told = {part_of(name)[0].of for name in step.found}
    members = tuple(member for member in group.members if member in told)
    return say("{named} {have} the same two junctions as {stood} had, so the voltage is the same.",
               named=display.elements(members), have="has" if len(members) == 1 else "have",
               stood=display.element(group.equivalent))  # fmt: skip


def _from_star(step: NetworkStep, display: NetworkDisplay) -> Prose:
    assert step.star is not None
    if step.undone is NetworkMove.STAR:
        return say("The three corners {corners} have kept their potentials, whether a star or a "
                   "triangle lies between them. Each side of the triangle has the difference "
                   "between two corners, which we find by going along two legs of the star.",
                   corners=listed(list(step.star.corners)))  # fmt: skip
    return say("What the two sides that meet at a corner carry away together is what the leg of "
               "the star carries that ended there.")  # fmt: skip


def _from_halves(step: NetworkStep, display: NetworkDisplay) -> Prose:
    voc = vocabulary(display.law)
    named = display.elements(tuple(halved.equivalent for halved in step.halved))
    return say("{named} {is_} whole again. Both halves carried the same {flow}, and so does the "
               "whole.", named=named, is_="is" if len(step.halved) == 1 else "are",
               flow=voc.flow)  # fmt: skip


def _from_spread(step: NetworkStep, display: NetworkDisplay) -> Prose:
    voc = vocabulary(display.law)
    return say("Each {one} carries two shares of the whole {flow}: one of the {flow} that comes in "
               "at + and one of the {flow} that goes out at −. They add up where they run the same "
               "way, and the one is taken from the other where they do not.",
               one=display.one, flow=voc.flow)  # fmt: skip


def _plainly(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("We undo the move and carry over what is known.")


_UNDOING: dict[NetworkMove | None, Callable[[NetworkStep, NetworkDisplay], Prose]] = {
    NetworkMove.MERGE: _from_merge,
    NetworkMove.STAR: _from_star,
    NetworkMove.TRIANGLE: _from_star,
    NetworkMove.JOIN: _from_halves,
    NetworkMove.SPREAD: _from_spread,
}


def _by_laws(step: NetworkStep, display: NetworkDisplay) -> Prose:
    """What follows from the law of an element, after what is handed on."""
    law, voc = display.law, vocabulary(display.law)
    computed = [
        line.name
        for line in step.lines
        if not line.carries
        and {part_of(name)[0].of for name in names_in(line.formula)} == {part_of(line.name)[0].of}
        and law.value in {name.quantity for name in names_in(line.formula)}
    ]
    flows = [name for name in computed if name.quantity == law.flow]
    drops = [name for name in computed if name.quantity == law.drop]
    if flows and drops:
        return say("The rest follows from {flow_law} and {drop_law}.", flow_law=voc.flow_law,
                   drop_law=voc.drop_law)  # fmt: skip
    if not flows and not drops:
        return ()
    noun, relation = (voc.flow, voc.flow_law) if flows else ("voltage", voc.drop_law)
    one = len(flows or drops) == 1
    return say("The {noun} then {follow} from {relation}." if one
               else "The {noun}s then {follow} from {relation}.", noun=noun,
               follow="follows" if one else "follow", relation=relation)  # fmt: skip


def meaning_of_minus(found: tuple[Name, ...], display: NetworkDisplay) -> Prose:
    """What the negative flows among quantities mean; nothing if there are none."""
    voc = vocabulary(display.law)
    values = display.solution.values
    flows = [name for name in found if name.quantity == display.law.flow
             and name.of in display.members and values[name] < 0]  # fmt: skip
    if not flows:
        return ()
    symbols = listed([display.flow(name.of) for name in flows])
    one = len(flows) == 1
    if voc.flow == "charge":
        first, second = display.between(flows[0].of)
        return say("{symbols} {is_} negative: the plate at {first} is the negative one, the plate "
                   "at {second} the positive one.", symbols=symbols, is_="is", first=first,
                   second=second) if one else say(
            "{symbols} are negative: their plates are charged the other way round than we "
            "assumed.", symbols=symbols)  # fmt: skip
    if one:
        return say("{symbols} is negative: the current really flows {back}, against the direction "
                   "in which we count it.", symbols=symbols,
                   back=display.way_back(flows[0].of))  # fmt: skip
    if len(flows) > LONGEST_LIST:
        return say("{count} of the currents are negative: they really flow against the direction "
                   "in which we count them.",
                   count=number_word(len(flows)).capitalize())  # fmt: skip
    return say("{symbols} are negative: these currents really flow against the direction in which "
               "we count them.", symbols=symbols)  # fmt: skip


def between_points(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for voltages between junctions, and for potentials that no equation gave."""
    first = step.found[0]
    if first.quantity == POTENTIAL:
        goal = say("Find the {what}", what="potential that is asked for" if len(step.found) == 1
                   else "potentials that are asked for")  # fmt: skip
    else:
        goal = say("Find {what}", what=display.asks_for(first))
    return Words(goal, say("Go from the one junction to the other by any way, and add up the "
                           "voltages that are passed, each with its sign."))  # fmt: skip


def working(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for energy or power of single elements and sources."""
    voc = vocabulary(display.law)
    sources = tuple(name.of for name in step.found if display.source(name.of))
    elements = tuple(name.of for name in step.found if not display.source(name.of))
    named = display.elements(elements) if elements else ()
    if not elements:
        return _of_sources(sources, step, display)
    if voc.work == "energy":
        goal = say("Find the energy stored in {named}", named=named)
        reason = say("While a capacitor charges, its voltage climbs from zero to its final value, "
                     "so the charge moves across half of it on average. That is where the ½ comes "
                     "from.")  # fmt: skip
    else:
        goal = say("Find the power in {named}", named=named)
        reason = say("A resistor turns energy into heat at the rate of its voltage times its "
                     "current.")  # fmt: skip
    return Words(goal, sentences(reason, _about_signs(elements, display)))


def _about_signs(elements: tuple[str, ...], display: NetworkDisplay) -> Prose:
    values, law = display.solution.values, display.law
    if not any(values.get(Name(law.flow, one), 0) < 0 for one in elements):
        return ()
    return say("Where a minus stands before the {flow} it stands before the voltage too, so the "
               "{work} is positive whichever way it flows.", flow=law.flow,
               work=law.work)  # fmt: skip


def _of_sources(sources: tuple[str, ...], step: NetworkStep, display: NetworkDisplay) -> Words:
    voc = vocabulary(display.law)
    named = display.elements(sources)
    goal = say("Find the {work} that {named} {deliver}", work=voc.work, named=named,
               deliver="delivers" if len(sources) == 1 else "deliver")  # fmt: skip
    reason = say("A source delivers its voltage times the current that leaves its + side.")
    charged = [name for name in step.found if display.solution.values[name] < 0]
    remark = say("A minus means that the source takes energy in: it is being charged.")
    return Words(goal, reason, remark if charged else ())


def totalling(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for a quantity of the whole network."""
    law, voc = display.law, vocabulary(display.law)
    line = step.lines[-1]
    if line.name.quantity == law.value:
        return Words(
            say("Find the equivalent {value}", value=voc.value),
            say("Seen from the two terminals the whole network is one {one}: its {value} follows "
                "from the voltage across it and the {flow} that goes in.",
                one=voc.one, value=voc.value, flow=voc.flow))  # fmt: skip
    if line.name.quantity == law.flow:
        return Words(
            say("Add up what the source delivers"),
            say("At the source's terminal the {flow}s of all branches come together, so the "
                "source delivers their sum.", flow=voc.flow))  # fmt: skip
    goal = say("Find the {work} of the whole circuit", work=voc.work)
    if isinstance(line.formula, Sum):
        part = "stores" if voc.work == "energy" else "turns into heat"
        return Words(goal, say("Nothing is counted twice, so we add up what each {one} {part}.",
                               one=voc.one, part=part))  # fmt: skip
    return Words(goal, say(
        "Seen from the source the whole circuit is one {one}, so its {work} follows as for a "
        "single one{half}.", one=voc.one, work=voc.work,
        half=", with the same ½" if voc.work == "energy" else ""))  # fmt: skip
