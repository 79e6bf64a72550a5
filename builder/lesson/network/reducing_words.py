"""What a teacher says when a network is made simpler: bridges, symmetry, triangles, stars."""

from __future__ import annotations

from builder.circuit.law import SERIES
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import Prose, listed, number_word, say, sentences
from builder.lesson.vocabulary import vocabulary
from builder.lesson.words import Words
from builder.solution.network.step import NetworkStep


def dropping(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for taking out what carries nothing."""
    voc = vocabulary(display.law)
    named = display.elements(step.dropped)
    one = len(step.dropped) == 1
    goal = say("{named} {carry} nothing: take {it} out", named=named,
               carry="carries" if one else "carry", it="it" if one else "them")  # fmt: skip
    if step.telling.get("because") == "loop":
        return Words(goal, say(
            "Both ends of {named} lie at one junction, so there is no voltage across {it}, and "
            "without a voltage there is no {flow}.",
            named=named if one else say("each of {named}", named=named), it="it",
            flow=voc.flow))  # fmt: skip
    return Words(goal, say(
        "{named} {hang} on the rest of the circuit at a single junction. Whatever went in there "
        "would have no way back, so no {flow} goes in.",
        named=named, hang="hangs" if one else "hang", flow=voc.flow))  # fmt: skip


def balancing(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for a balanced bridge."""
    assert step.balance is not None
    bridge, voc = step.balance, vocabulary(display.law)
    ends = display.junctions(bridge.ends)
    sides = [display.elements(arms) for arms in bridge.arms]
    same = say("{first} divide a voltage in the same ratio as {second}, so {ends} are at the same "
               "potential.", first=sides[0], second=sides[1], ends=ends)  # fmt: skip
    if not bridge.middle:
        return Words(
            say("{ends} are at the same potential: join them", ends=_upper(ends)),
            sentences(same, say("A wire between them would carry nothing, so we may put one "
                                "there.")))  # fmt: skip
    middle = display.element(bridge.middle)
    nothing = say("Between them there is no voltage, and so {flows} {middle}.",
                  flows="no current flows through" if voc.flow == "current"
                  else "no charge gathers on", middle=middle)  # fmt: skip
    remark = say("The value of {middle} does not matter at all. With the same right we could have "
                 "joined its two ends by a wire: where there is no voltage, a gap and a wire are "
                 "all the same.", middle=middle)  # fmt: skip
    if step.telling.get("then") == "join":
        return Words(say("Nothing flows through {middle}: join its ends", middle=middle)
                     if voc.flow == "current"
                     else say("Nothing gathers on {middle}: join its ends", middle=middle),
                     sentences(same, nothing, say("A wire may take its place.")))  # fmt: skip
    goal = (say("Nothing flows through {middle}: take it out", middle=middle)
            if voc.flow == "current"
            else say("Nothing gathers on {middle}: take it out", middle=middle))  # fmt: skip
    without = say("The rest of the circuit does not notice when it is taken out.")
    return Words(goal, sentences(same, nothing, without), remark)


def _upper(prose: Prose) -> Prose:
    first, *rest = prose
    return (first[:1].upper() + first[1:], *rest) if isinstance(first, str) else prose


def joining(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for junctions that are alike by symmetry."""
    sets = joined_sets(step)
    half = step.telling.get("half", "")
    goal = _goal_of_joining(sets, half=bool(half) and len(sets) == 1)
    if not joined_sets(step):
        goal = say("Cut {named} in half", named=_cut(step, display))
    return Words(goal, sentences(_why_alike(step, display), _halves(step, display),
                                 _wire(step, display)),
                 _what_joining_shows(step, display))  # fmt: skip


def joined_sets(step: NetworkStep) -> tuple[tuple[str, ...], ...]:
    """The sets of several junctions that a step joins."""
    return tuple(names for names in step.joined.values() if len(names) > 1)


def _cut(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return display.elements(tuple(halved.equivalent for halved in step.halved))


def _halves(step: NetworkStep, display: NetworkDisplay) -> Prose:
    """Elements that lie across the mirror, whose middles are halfway too."""
    if not step.halved:
        return ()
    one = len(step.halved) == 1
    halves = "half the resistance" if display.law.value == "resistance" else "twice the capacitance"
    return say("{named} {lies} across the mirror, so the middle of {it} is at half the voltage "
               "as well: see {it} as two in a chain, each with {halves}.",
               named=_cut(step, display), lies="lies" if one else "lie",
               it="it" if one else "each", halves=halves)  # fmt: skip


def _goal_of_joining(sets: tuple[tuple[str, ...], ...], *, half: bool) -> Prose:
    """What is joined; several sets with a semicolon between them, as each holds commas."""
    if not sets:
        return ()
    if len(sets) == 1:
        return say("Junctions {names} {are}: join them", names=listed(sets[0]),
                   are="lie halfway" if half else "are alike")  # fmt: skip
    row: Prose = ()
    for names in sets:
        row = say("{row}; {names}", row=row, names=listed(names)) if row else listed(names)
    return say("Join the junctions that are alike: {row}", row=row)


def _why_alike(step: NetworkStep, display: NetworkDisplay) -> Prose:
    symmetry = step.telling.get("symmetry", "alike")
    several = len(joined_sets(step)) > 1
    whom = "the junctions of each set" if several else "these junctions"
    if symmetry == "half":
        middle = say("Swap the two terminals, and the circuit looks the same as before, only with "
                     "+ and − exchanged. What is its own mirror image can then only be at half the "
                     "voltage, and so all of it is at one potential.")  # fmt: skip
        if not several:
            return middle
        return sentences(middle, say("The junctions of each other set are alike: exchange them, "
                                     "and nobody would notice."))  # fmt: skip
    if symmetry == "same-distance":
        return say("All the {ones}s are equal, and {whom} are equally many {ones}s away from + "
                   "and equally many from −. Nothing tells one from the other, so they are at the "
                   "same potential.", ones=display.one, whom=whom)  # fmt: skip
    if symmetry == "ratio":
        return say("On the way from + to −, {whom} divide the voltage in the same ratio, so they "
                   "are at the same potential.", whom=whom)  # fmt: skip
    return say("Exchange {whom} with one another, and the circuit is the same as before: they "
               "meet equal {ones}s that lead to the same places. Nothing tells one from the "
               "other, so they are at the same potential.", whom=whom,
               ones=display.one)  # fmt: skip


def _wire(step: NetworkStep, display: NetworkDisplay) -> Prose:
    voc = vocabulary(display.law)
    joined = say("A wire between points of the same potential carries nothing, so we may join "
                 "them.")  # fmt: skip
    if not joined_sets(step):
        return ()
    if not step.dropped:
        return joined
    one = len(step.dropped) == 1
    return say("{joined} {named} then {begin} and {end} at one junction, {carry} no {flow}, and "
               "may go.", joined=joined, named=display.elements(step.dropped),
               begin="begins" if one else "begin", end="ends" if one else "end",
               carry="carries" if one else "carry", flow=voc.flow)  # fmt: skip


def _what_joining_shows(step: NetworkStep, display: NetworkDisplay) -> Prose:
    side_by_side = any(
        first.name != second.name and set(first.between) == set(second.between)
        for first in step.network.elements
        for second in step.network.elements
    )
    if not side_by_side:
        return ()
    return say("Now there are {ones}s side by side that shared only one junction before.",
               ones=display.one)  # fmt: skip


def star_for_triangle(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for a triangle that becomes a star."""
    assert step.star is not None
    voc, shape = vocabulary(display.law), step.star
    goal = say(
        "Replace the triangle {sides} by a star",
        sides=display.elements(display.in_turn(shape.sides)),
    )
    if step.mirrored is not None:
        sides, others = (display.elements(display.in_turn(one.sides), "with")
                         for one in (shape, step.mirrored))  # fmt: skip
        goal = say("Replace the triangles {sides} and {others} by stars", sides=sides,
                   others=others)  # fmt: skip
    stuck = say("No two {ones}s are in series or in parallel here, so nothing can be merged. But a "
                "triangle between three junctions may give way to a star between the same three, "
                "if the star is made so that the rest of the circuit cannot tell.",
                ones=voc.one)  # fmt: skip
    rule = (
        say("Each leg of the star is the product of the two sides that meet at its corner, over "
            "the sum of all three sides.")
        if display.law.adds_in == SERIES
        else say("For capacitors, each leg of the star is the sum of the three products of two "
                 "sides, over the side that lies opposite.")
    )  # fmt: skip
    remark = _new_chains(step, display)
    if not _first_of(step, display):
        return Words(goal, say("Again nothing can be merged, so again a star takes the place of a "
                               "triangle."), remark)  # fmt: skip
    return Words(goal, sentences(stuck, rule), remark)


def _new_chains(step: NetworkStep, display: NetworkDisplay) -> Prose:
    """The legs that now lie in a chain with the only other element at their corner."""
    assert step.star is not None
    network = step.network
    free = [
        leg
        for corner, leg in zip(step.star.corners, step.star.legs, strict=True)
        if sum(corner in element.between for element in network.elements) == 2
        and corner not in network.terminals
    ]
    if not free:
        return ()
    one = len(free) == 1
    return say("The star has a new junction in its middle, {point}. {legs} now {lies} in a chain "
               "with what hung on the {corner}.", point=step.star.point,
               legs=display.elements(tuple(free)) if one
               else say("Its legs {legs}", legs=display.elements(tuple(free))),
               lies="lies" if one else "lie",
               corner="corner" if one else "corners")  # fmt: skip


def _first_of(step: NetworkStep, display: NetworkDisplay) -> bool:
    return all(other.kind is not step.kind for other in display.before(step))


def triangle_for_star(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for a star that becomes a triangle."""
    assert step.star is not None
    voc, shape = vocabulary(display.law), step.star
    goal = say(
        "Replace the star {legs} by a triangle", legs=display.elements(display.in_turn(shape.legs))
    )
    if step.mirrored is not None:
        legs, others = (display.elements(display.in_turn(one.legs), "with")
                        for one in (shape, step.mirrored))  # fmt: skip
        goal = say("Replace the stars {legs} and {others} by triangles", legs=legs,
                   others=others)  # fmt: skip
    if not _first_of(step, display):
        return Words(goal, say("Again nothing can be merged, so again a triangle takes the place "
                               "of a star."))  # fmt: skip
    stuck = say("No two {ones}s are in series or in parallel here, so nothing can be merged. But a "
                "star that ends at three junctions may give way to a triangle between the same "
                "three, if the triangle is made so that the rest of the circuit cannot tell.",
                ones=voc.one)  # fmt: skip
    rule = (
        say("Each side of the triangle is the sum of the three products of two legs, over the leg "
            "that lies opposite.")
        if display.law.adds_in == SERIES
        else say("For capacitors, each side of the triangle is the product of the two legs that "
                 "end at its corners, over the sum of all three legs.")
    )  # fmt: skip
    remark = say("The junction {point} in the middle is gone, and the new sides may lie beside "
                 "what was there already.", point=shape.point)  # fmt: skip
    return Words(goal, sentences(stuck, rule), remark)


def spreading_evenly(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for a network whose junctions are all alike."""
    voc = vocabulary(display.law)
    count = int(step.telling["junctions"])
    goal = say("Let the {flow} spread evenly, twice", flow=voc.flow)
    into = say("All {count} junctions are alike. Send a {flow} in at the + terminal and let equal "
               "shares of it leave at all {count}: by symmetry it divides evenly.",
               count=number_word(count), flow=voc.flow)  # fmt: skip
    # fmt: off
    out = say("Then let the same shares come in everywhere and leave at the − terminal. Added "
              "together the shares cancel, and what is left enters at + and leaves at −.")
    # fmt: on
    return Words(goal, sentences(into, out, _shares(step, display)))


def _shares(step: NetworkStep, display: NetworkDisplay) -> Prose:
    """What the elements on one way from + to − carry of both flows."""
    flow = vocabulary(display.law).flow
    first, second = (
        listed([
            say("{one} carries {share}", one=display.element(one), share=share.strip())
            for one, share in zip(step.members, step.telling[which].split(","), strict=True)
        ])
        for which in ("entering", "leaving")
    )  # fmt: skip
    way = "its voltage is" if len(step.members) == 1 else "their voltages add up to"
    return say("Of the first {flow} {first}; of the second, {second}; and {way} that from + to −.",
               flow=flow, first=first, second=second, way=way)  # fmt: skip
