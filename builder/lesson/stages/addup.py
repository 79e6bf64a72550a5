"""The checks in words: what must hold, and its numbers."""

from __future__ import annotations

from builder.lesson.checked import Shows, and_more, shows
from builder.lesson.prose import Prose, capitalised, say
from builder.lesson.stages.display import StagesDisplay
from builder.quantity.formula import Formula, Negative, Product, Quotient, Square, Sum, names_in
from builder.solution.check import Check
from builder.solution.stages.checks import StagesCheck

MOST_OF_A_KIND = 3
MOST_TERMS = 9
_QUANTITIES = {
    StagesCheck.ISLAND: "charge",
    StagesCheck.LOOP: "voltage",
    StagesCheck.HEAT: "energy",
    StagesCheck.LOSS: "energy",
}


def add_up(display: StagesDisplay) -> tuple[tuple[Shows, ...], Prose]:
    """The checks worth telling, and a sentence on those that hold but are not told."""
    told: list[Shows] = []
    left_out = 0
    counts: dict[str, int] = {}
    for check in display.solution.checks:
        if not _worth_telling(check, display):
            continue
        counts[check.kind] = counts.get(check.kind, 0) + 1
        if counts[check.kind] > MOST_OF_A_KIND:
            left_out += 1
            continue
        told.append(shows(check, _says(check, display), _quantity(check), display))
    return tuple(told), and_more(left_out)


def _quantity(check: Check) -> str:
    return _QUANTITIES[StagesCheck(check.kind)]


def _worth_telling(check: Check, display: StagesDisplay) -> bool:
    if check.kind is StagesCheck.LOSS:
        return False
    if check.kind is StagesCheck.HEAT:
        asked = {name.quantity for name in display.solution.problem.find}
        few = len(list(names_in(check.right))) <= MOST_TERMS
        return "energy" in asked and few
    if check.kind is StagesCheck.LOOP:
        return len(check.about) > 2 or not display.solution.problem.network.sources
    return True


def _says(check: Check, display: StagesDisplay) -> Prose:
    stage, *names = check.about
    when = capitalised(display.after(int(stage)))
    whose = display.elements(tuple(name for name in display.members if name in names))
    if check.kind is StagesCheck.ISLAND:
        return say("{when}, the joined plates of {whose} hold together what they held before:",
                   when=when, whose=whose)  # fmt: skip
    if check.kind is StagesCheck.LOOP:
        if _equates_two(check):
            opposite = isinstance(check.left, Negative) or isinstance(check.right, Negative)
            return say("{when}, the same voltage is across {whose}{signs}:", when=when, whose=whose,
                       signs=", counted with opposite signs" if opposite else "")  # fmt: skip
        return say("{when}, the voltages of the loop through {whose} agree:",
                   when=when, whose=whose)  # fmt: skip
    if _is_closed_form(check.right):
        return say("{when}, the heat is what the two capacitors in series would store at the "
                   "difference of their voltages{signs}:", when=when,
                   signs=", a sum where they have opposite signs"
                   if _adds_voltages(check.right) else "")  # fmt: skip
    each = whose if len(names) == 1 else "each capacitor"
    return say("{when}, the heat is what {each} would store at the change of its voltage:",
               when=when, each=each)  # fmt: skip


def _equates_two(check: Check) -> bool:
    """Whether a check just says that two voltages are equal."""
    return len(list(names_in(check.left))) == len(list(names_in(check.right))) == 1


def _is_closed_form(heat: Formula) -> bool:
    """Whether it is ½ · C₁C₂/(C₁ + C₂) · (V₁ − V₂)²."""
    return isinstance(heat, Product) and any(isinstance(f, Quotient) for f in heat.factors)


def _adds_voltages(heat: Formula) -> bool:
    """Whether the two voltages in it add up, since unlike plates were joined."""
    bases = [f.base for f in heat.factors if isinstance(f, Square)] if isinstance(
        heat, Product) else []  # fmt: skip
    return any(isinstance(base, Sum) and not any(isinstance(t, Negative) for t in base.terms)
               for base in bases)  # fmt: skip
