"""The question what a change would do, its answer found by solving the changed circuit exactly."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sympy import Integer

from builder.circuit.law import Law
from builder.circuit.network import Network
from builder.lesson.by_name import place, turn
from builder.lesson.generated.view import View
from builder.lesson.generated.what_if.changes import Change, changed, supposed
from builder.lesson.generated.what_if.reasons import reason, temptation, what_is_seen
from builder.lesson.generated.what_if.spots import Spot, Why, spots
from builder.lesson.network.what_if import solved
from builder.lesson.prose import say, sentences
from builder.lesson.questions.forms import ChoiceQuestion, Option
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.quantity.symbolic import sign_of
from builder.solution.nodal import by_nodes

_TELLING = (Why.BALANCED, Why.HELD, Why.SOURCE, Why.BRANCH, Why.CHAIN, Why.HELD_SELF,
            Why.PUSHED)  # fmt: skip
"""The reasons against which a common idea stands; they are asked about where there are any."""
_TWICE = (Why.BALANCED, Why.HELD)
"""Nothing changes, against all expectation: asked about more often."""


def what_if_of(view: View) -> ChoiceQuestion | None:
    """The question what a change would do, or None where the circuit alone answers none."""
    spot = chosen(view)
    return None if spot is None else question(spot, view)


def chosen(view: View) -> Spot | None:
    """The change to ask about: one that tells against a common idea, if there is any."""
    by_reason: dict[Why, list[Spot]] = {}
    for spot in spots(view):
        if spot.why is not Why.CHAIN or _upstream(spot, view):
            by_reason.setdefault(spot.why, []).append(spot)
    telling = [why for why in _TELLING if why in by_reason]
    telling += [why for why in _TWICE if why in by_reason]
    rest = [why for why in by_reason if why not in telling]
    first = [turn(view.slug, "what if", some) for some in (telling, rest) if some]
    for why in dict.fromkeys((*first, *telling, *rest)):
        for spot in _shuffled(by_reason[why], view.slug):
            if _holds(spot, view):
                return spot
    return None


def _upstream(spot: Spot, view: View) -> bool:
    """Whether the change comes after what is looked at, which is thought not to feel it."""
    return view.members.index(spot.seen.of) < view.members.index(spot.change.of)


def _shuffled(found: Iterable[Spot], slug: str) -> list[Spot]:
    """In an order that depends on names alone."""

    def key(spot: Spot) -> int:
        told = f"{slug}/{spot.change.how.value}/{spot.change.of}/{spot.seen.key}"
        return place(told)

    return sorted(found, key=key)


def _holds(spot: Spot, view: View) -> bool:
    """Whether the changed circuit does what the structure says, and something is left to see."""
    return truth(spot.change, spot.seen, view.network, view.law) == spot.grows


def truth(change: Change, seen: Name, network: Network, law: Law) -> int | None:
    """1, 0 or −1 as the size of a quantity grows, stays or falls, by solving the circuit exactly.

    Returns:
        None if the changed circuit has no solution, if nothing is left of the quantity, or if it
        depends on what letters stand for.
    """
    before = _size(seen, network, law)
    after = _size(seen, changed(network, law, change), law)
    if before is None or after is None:
        return None
    return sign_of(after - before)


def _size(seen: Name, network: Network, law: Law) -> Exact | None:
    """The size of a quantity that is not zero."""
    if seen.of == TOTAL:
        found: Mapping[Name, Exact] = by_nodes(network, law)
    else:
        found = solved(network, law)
    value = found.get(seen, Integer(0))
    sign = sign_of(value)
    return None if not sign else sign * value


def question(spot: Spot, view: View) -> ChoiceQuestion:
    """The question of one change."""
    why = reason(spot, view)
    options = tuple(
        Option(
            say(text), spot.grows == grows,
            sentences(say("Yes.") if spot.grows == grows else temptation(spot, grows, view), why),
        )
        for text, grows in (("It becomes larger", 1), ("It becomes smaller", -1),
                            ("It stays the same", 0))
    )  # fmt: skip
    ask = say("{supposed} What would become of {seen}?", supposed=supposed(spot.change, view),
              seen=what_is_seen(spot, view))  # fmt: skip
    return ChoiceQuestion(ask, options, None)
