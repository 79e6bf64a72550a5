"""Pick elements of a circuit whose switches change: what flows in the end, where charge moves."""

from __future__ import annotations

from builder.circuit.switching import blocks
from builder.lesson.by_name import turn
from builder.lesson.generated.switched.rest import AtRest, at_rest
from builder.lesson.prose import Prose, say
from builder.lesson.questions.forms import Pickable, PickQuestion
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.transient.display import TransientDisplay


def in_the_end(display: TransientDisplay) -> str:
    """The moment at which all has settled; the figure shows the circuit before its change."""
    changes = display.solution.problem.circuit.flipped
    return "long after the change" if changes else "once nothing changes any more"


def pick_of_charging(display: TransientDisplay) -> PickQuestion | None:
    """What still carries current in the end, or what then has the whole voltage."""
    rest = at_rest(display)
    found = [one for one in (_still_flows(rest), _has_it_all(rest)) if one is not None]
    return turn(display.solution.problem.slug, "pick", found) if found else None


def _still_flows(rest: AtRest) -> PickQuestion | None:
    display = rest.display
    flowing = {name for name in display.resistors if rest.current(name) != 0}
    cut_off = {name for name in display.resistors if name in rest.idle}
    if not flowing or flowing | cut_off != set(display.resistors):
        return None
    items = tuple(
        Pickable(id, say("{one}", one=display.element(id)), id in flowing,
                 _flows(id, id in flowing, display))
        for id in display.members
    )  # fmt: skip
    ask = say("Through which elements does a current still flow {then}? Pick them in the figure.",
              then=in_the_end(display))  # fmt: skip
    return PickQuestion(ask, "", items, (), (), None)


def _flows(id: str, flows: bool, display: TransientDisplay) -> Prose:
    one = display.element(id)
    if flows:
        return say("{one} lies in a loop with a source and without any gap.", one=one)
    if id in display.capacitors:
        return say("{one} takes up no more charge then: it is like a gap.", one=one)
    return say("Every loop through {one} has a gap in it then, at a capacitor or at an open "
               "switch.", one=one)  # fmt: skip


def _has_it_all(rest: AtRest) -> PickQuestion | None:
    display = rest.display
    circuit, points = display.solution.problem.circuit, rest.points
    if len(circuit.sources) != 1 or circuit.sources[0].quantity != "voltage":
        return None
    poles = {points[end] for end in circuit.sources[0].between}
    whole = {id for id in display.members if id not in rest.idle
             and {points[end] for end in circuit.element(id).between} == poles}  # fmt: skip
    if not whole or len(poles) != 2 or len(whole) == len(display.members):
        return None
    items = tuple(
        Pickable(id, say("{one}", one=display.element(id)), id in whole,
                 _has(id, id in whole, rest))
        for id in display.members
    )  # fmt: skip
    ask = say("Which elements have the whole voltage of the source across them {then}? Pick them "
              "in the figure.", then=in_the_end(display))  # fmt: skip
    return PickQuestion(ask, "", items, (), (), None)


def _has(id: str, whole: bool, rest: AtRest) -> Prose:
    one = rest.display.element(id)
    if whole and rest.idle:
        return say("Between {one} and the poles of the source there are only wires, and resistors "
                   "that carry no current and so keep no voltage.", one=one)  # fmt: skip
    if whole:
        return say("Between {one} and the poles of the source there are only wires.", one=one)
    if id in rest.idle:
        return say("{one} carries no current then, so no voltage lies across it.", one=one)
    return say("{one} shares the voltage with other elements.", one=one)


def pick_of_stages(display: StagesDisplay) -> PickQuestion | None:
    """On which capacitors charge can change when the first thing is done."""
    solution = display.solution
    wiring, elements = solution.story.wirings[1], solution.problem.network.elements
    moving = {one.name for block in blocks(wiring, elements) for one in block}
    turned = set(solution.problem.stages[0].turn)
    if turned or not moving or moving == set(display.members):
        return None
    items = tuple(
        Pickable(id, say("{one}", one=display.element(id)), id in moving,
                 _moves(id, id in moving, display))
        for id in display.members
    )  # fmt: skip
    ask = say("On which capacitors can the charge change when {done}? Pick them in the figure.",
              done=display.done(1))  # fmt: skip
    return PickQuestion(ask, "", items, (), (), None)


def _moves(id: str, moving: bool, display: StagesDisplay) -> Prose:
    one = display.element(id)
    if moving:
        return say("{one} lies in a closed loop then, so charge can go round.", one=one)
    return say("No closed loop leads through {one} yet: what is on its plates stays there.",
               one=one)  # fmt: skip
