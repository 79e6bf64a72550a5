"""What is told of plates beyond their relations: plan, prediction, breakdown, before and after."""

from __future__ import annotations

from builder.lesson.caution import Caution
from builder.lesson.lesson import Row, Table
from builder.lesson.prose import NumberOf, Prose, SymbolOf, say, sentences
from builder.lesson.questions import ChoiceQuestion, Option
from builder.lesson.relations.display import RelationsDisplay
from builder.problem.relations.model import Plates
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name
from builder.quantity.symbolic import sign_of

_STRENGTH = "the dielectric strength that this problem states"


def plan_of_plates(plates: Plates) -> Prose:
    """The plan where a filling is put in, or the gap is filled in parts."""
    inside = {
        "layers": "Take each layer for a capacitor of its own and join them in series.",
        "slabs": "Take each slab for a capacitor of its own and join them in parallel.",
        "metal": "Only the part of the gap that is not metal counts.",
        "whole": "The filling multiplies the capacitance by κ.",
    }.get(plates.arrangement, "Area and gap give the capacitance.")
    then = {
        "removed": "Cut off from the battery, the plates keep their charge; voltage and energy "
        "follow from that.",
        "connected": "The battery keeps the voltage; charge and energy follow from that.",
    }.get(plates.battery, "")
    return sentences(say(inside), say(then) if then else ())


_KEEPS = {
    "removed": ("The charge on the plates", "the plates are cut off, and their charge has nowhere "
                "to go"),
    "connected": ("The voltage across the plates", "the battery is still there and holds its "
                  "voltage"),
}  # fmt: skip


def predict_of_plates(plates: Plates) -> ChoiceQuestion | None:
    """What stays the same while a filling is put in?"""
    if not plates.battery:
        return None
    right, why = _KEEPS[plates.battery]
    replies = {
        "The charge on the plates": "No: the battery brings more charge as the capacitance grows.",
        "The voltage across the plates": "No: with the same charge, a larger capacitance needs "
        "less voltage.",
        "The energy that is stored": "No: one of charge and voltage changes, and the energy with "
        "it.",
        "The capacitance": "No: what is put in between the plates always makes it larger.",
    }
    options = tuple(
        Option(say(text), text == right, say(f"Yes: {why}." if text == right else reply))
        for text, reply in replies.items()
    )
    state = "removed before" if plates.battery == "removed" else "still connected while"
    ask = say("The battery is {state} the filling is put in. What stays as it was?", state=state)
    return ChoiceQuestion(ask, options, None)


def stands(name: Name, display: RelationsDisplay) -> Prose:
    """Whether what lies there stands a field strength; nothing where no strength is stated."""
    limit = _limit(name, display)
    if limit is None:
        return ()
    values = display.solution.values
    if sign_of(values[name] - values[limit]) == 1:
        return say("That is more than the {limit} that it stands: a spark would break through it.",
                   limit=NumberOf(limit))  # fmt: skip
    return say("That is less than the {limit} that it stands.", limit=NumberOf(limit))


def _limit(name: Name, display: RelationsDisplay) -> Name | None:
    """The strength of what a field strength is found in."""
    plates = display.solution.problem.plates
    if plates is None or name.quantity != "field":
        return None
    for part in plates.parts:
        own = f"E{part.number}" if plates.arrangement == "layers" else "E"
        if part.strength and name.of == own:
            return display.named(part.strength)
    return None


def breakdown(display: RelationsDisplay) -> Caution | None:
    """A caution where a field is stronger than what lies there stands."""
    values = display.solution.values
    for stated in display.solution.problem.quantities:
        limit = _limit(stated.name, display)
        if limit is not None and sign_of(values[stated.name] - values[limit]) == 1:
            says = say(
                "At {field} the filling, which stands {limit}, breaks down: a spark punches "
                "through it and discharges the plates at once. Never drive a capacitor beyond the "
                "voltage that is printed on it.",
                field=NumberOf(stated.name), limit=NumberOf(limit),
            )  # fmt: skip
            return Caution(says, _STRENGTH)
    return None


def tables_of_plates(display: RelationsDisplay) -> tuple[Table, ...]:
    """Before beside after, then everything else that is found."""
    every = [stated.name for stated in display.solution.problem.quantities]
    by_name = {name.of: name for name in every}
    pairs = [(by_name.get(f"{of}0"), by_name[of]) for of in ("C", "Q", "V", "E", "U")
             if of in by_name]  # fmt: skip
    told = {name for pair in pairs for name in pair}
    rows = tuple(
        Row(say("{noun}", noun=KINDS[after.quantity].noun.capitalize()), (before, after))
        for before, after in pairs
    )
    rest = tuple(
        Row(_label(name, display), (name,))
        for name in display.solution.problem.unknowns
        if name not in told
    )
    compared = Table((), "Quantity", ("Before", "After"), rows)
    others = Table(say("What else was found"), "Quantity", ("Value",), rest)
    return (compared, others) if rest else (compared,)


def _label(name: Name, display: RelationsDisplay) -> Prose:
    stated = display.stated(name)
    return say("{symbol}, {means}", symbol=SymbolOf(name),
               means=stated.means if stated and stated.means else
               KINDS[name.quantity].noun)  # fmt: skip
