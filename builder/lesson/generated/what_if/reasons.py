"""Why a quantity becomes larger or smaller, or stays: told from the structure of the circuit."""

from __future__ import annotations

from builder.circuit.law import SERIES
from builder.circuit.tree import Leaf
from builder.lesson.generated.view import View
from builder.lesson.generated.what_if.changes import How
from builder.lesson.generated.what_if.spots import Spot, Why
from builder.lesson.prose import Prose, say
from builder.lesson.vocabulary import PREPOSITIONS
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL


def what_is_seen(spot: Spot, view: View) -> Prose:
    """The quantity that is looked at: ``the current through R₁``."""
    quantity, of = spot.seen
    noun = KINDS[quantity].noun
    if of == TOTAL:
        return say("the equivalent {noun}", noun=noun)
    if of not in view.members:
        if quantity == view.law.drop:
            return say("the voltage across the whole circuit")
        return say("the {noun} that the source delivers", noun=noun)
    return say("the {noun} {word} {one}", noun=noun, word=PREPOSITIONS[quantity],
               one=view.element(of))  # fmt: skip


def reason(spot: Spot, view: View) -> Prose:
    """One or two sentences that hold in every circuit of that structure."""
    return {
        Why.BALANCED: _balanced, Why.HELD: _held, Why.HELD_SELF: _held_self, Why.PUSHED: _pushed,
        Why.SOURCE: _source, Why.BRANCH: _branch, Why.CHAIN: _chain, Why.SHARE: _share,
        Why.SEEN: _seen, Why.EQUIVALENT: _equivalent,
    }[spot.why](spot, view)  # fmt: skip


def temptation(spot: Spot, grows: int, view: View) -> Prose:
    """What to say first to a wrong answer, where it comes from a known idea; else ``No.``.

    Sources of the ideas: the battery as a source of constant current (Engelhardt and Beichner
    2004), and reasoning about one place alone, as if nothing else felt it (Cohen, Eylon and
    Ganiel 1983).
    """
    if spot.why is Why.SOURCE and grows == 0 and spot.seen.quantity == view.law.flow:
        return say("No: what this source holds is its voltage, not its {flow}.", flow=view.voc.flow)
    if spot.why is Why.CHAIN and grows == 0:
        return say("No: every part of a chain has a say in what all of it takes.")
    if spot.why is Why.BRANCH and grows == 0:
        return say("No: the source does not hold the voltage across this group, so what lies "
                   "beside {one} matters to it.", one=view.element(spot.seen.of))  # fmt: skip
    return say("No.")


def _more(spot: Spot, view: View) -> str:
    return "more" if spot.change.more(view.law) else "less"


def _size(grows: int) -> str:
    return {1: "larger", -1: "smaller", 0: "no other"}[grows]


def _amount(grows: int) -> str:
    return "more" if grows > 0 else "less"


def _where(spot: Spot, view: View) -> Prose:
    """The group in which both meet."""
    if spot.whole:
        return say("the whole circuit")
    assert spot.group is not None
    what = "chain" if spot.group.connection == SERIES else "group"
    ids = tuple(id for id in view.members if id in (spot.seen.of, spot.change.of))
    return say("the {what} with {both} in it", what=what, both=view.display.elements(ids))


def _balanced(spot: Spot, view: View) -> Prose:
    nothing = "no current flows through it" if view.resistive else "no charge gathers on it"
    return say("Both ends of {one} are at the same potential, so {nothing}, whatever stands in its "
               "place. Nothing else notices it.", one=view.element(spot.change.of),
               nothing=nothing)  # fmt: skip


def _held(spot: Spot, view: View) -> Prose:
    assert spot.seen.of != spot.change.of
    one = view.element(spot.seen.of)
    direct = spot.group is None or Leaf(spot.seen.of) in spot.group.parts
    if direct:
        return say("{one} lies straight across the source, which holds its voltage whatever "
                   "happens elsewhere. So nothing changes for {one}.", one=one)  # fmt: skip
    return say("{one} lies in a branch straight across the source, which holds its voltage. "
               "Nothing in this branch feels what happens in another.", one=one)  # fmt: skip


def _held_self(spot: Spot, view: View) -> Prose:
    return say("{one} lies straight across the source, which holds its voltage whatever lies "
               "between its poles.", one=view.element(spot.change.of))  # fmt: skip


def _pushed(spot: Spot, view: View) -> Prose:
    if view.resistive:
        return say("The source drives the same current through the whole chain, whatever lies in "
                   "it. So nothing changes in the part where {one} lies.",
                   one=view.element(spot.seen.of))  # fmt: skip
    return say("The charge is given, and every part of the chain takes up the same, whatever its "
               "capacitance. So nothing changes in the part where {one} lies.",
               one=view.element(spot.seen.of))  # fmt: skip


def _source(spot: Spot, view: View) -> Prose:
    voc, more = view.voc, _more(spot, view)
    then = say("{start}, so the whole circuit has {more} {value}.", start=_start(spot, view),
               more=more, value=voc.value)  # fmt: skip
    if spot.seen.quantity == view.law.flow:
        return say("{then} At the same voltage the source delivers {amount} {flow}.", then=then,
                   amount=_amount(spot.grows), flow=voc.flow)  # fmt: skip
    return say("{then} The {flow} is given, so the voltage becomes {size}.", then=then,
               flow=voc.flow, size=_size(spot.grows))  # fmt: skip


def _start(spot: Spot, view: View) -> Prose:
    """What the change means in its own place."""
    more = _more(spot, view)
    ways = {How.BESIDE: "more", How.TAKEN_OUT: "less"}
    if view.resistive and spot.change.how in ways:
        return say("Then the current has one way {ways}", ways=ways[spot.change.how])
    other = "less" if more == "more" else "more"
    if view.resistive:
        return say("Then the current is hindered {more} in one place and nowhere {other}",
                   more=more, other=other)  # fmt: skip
    return say("Then there is {more} capacitance in one place and nowhere {other}", more=more,
               other=other)  # fmt: skip


def _branch(spot: Spot, view: View) -> Prose:
    one, voc = view.element(spot.seen.of), view.voc
    start = say("Then {where} has {more} {value}, so a {size} voltage lies across it, and so "
                "across {one}.", where=_where(spot, view), more=_more(spot, view),
                value=voc.value, size=_size(spot.grows), one=one)  # fmt: skip
    if spot.seen.quantity == view.law.drop:
        return start
    return say("{start} By {law} the {flow} {word} {one} becomes {size}.", start=start,
               law=voc.flow_law, flow=voc.flow, word=voc.flow_word, one=one,
               size=_size(spot.grows))  # fmt: skip


def _chain(spot: Spot, view: View) -> Prose:
    one, voc, amount = view.element(spot.seen.of), view.voc, _amount(spot.grows)
    takes = (
        say("{amount} current flows through it, and so through {one}", amount=amount, one=one)
        if view.resistive
        else say("it takes up {amount} charge, and so does {one}", amount=amount, one=one)
    )
    start = say("Then {where} has {more} {value}, so {takes}.", where=_where(spot, view),
                more=_more(spot, view), value=voc.value, takes=takes)  # fmt: skip
    if spot.seen.quantity == view.law.flow:
        return start
    return say("{start} By {law} the voltage across {one} becomes {size}.", start=start,
               law=voc.drop_law, one=one, size=_size(spot.grows))  # fmt: skip


def _share(spot: Spot, view: View) -> Prose:
    grown = "larger" if spot.change.how is How.DOUBLED else "smaller"
    return say("The voltage of a chain is divided between its parts, and a {grown} {value} takes a "
               "{size} part of it.", grown=grown, value=view.voc.value,
               size=_size(spot.grows))  # fmt: skip


def _seen(spot: Spot, view: View) -> Prose:
    grown = "larger" if spot.change.how is How.DOUBLED else "smaller"
    return say("Seen from {one}, all the rest is one source with an inner resistance. A {grown} "
               "resistance takes a {size} part of its voltage.", one=view.element(spot.change.of),
               grown=grown, size=_size(spot.grows))  # fmt: skip


def _equivalent(spot: Spot, view: View) -> Prose:
    return say("{start}, so the whole has {more} {value} as well.", start=_start(spot, view),
               more=_more(spot, view), value=view.voc.value)  # fmt: skip
