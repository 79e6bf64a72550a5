"""Mistakes with plates: what stays and what changes, and which way the parts lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sympy import Integer

from builder.lesson.mistake_sources import GUISASOLA, PRACTICE, TGB
from builder.lesson.prose import Prose, SymbolOf, number_word, say
from builder.lesson.relations.altered import values_by
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.relations.wrong_rules.factors import differing
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on, step_finding
from builder.problem.relations.model import PlatePart, Plates, Relation
from builder.quantity.exact import Exact
from builder.quantity.formula import Ref
from builder.quantity.names import Name
from builder.quantity.show import unit_power


def _swapped(display: RelationsDisplay) -> Iterator[Wrong]:
    """The voltage kept where the charge stays, and the other way round."""
    plates = display.solution.problem.plates
    if plates is None or not plates.battery:
        return
    kept, other = ("Q", "V") if plates.battery == "removed" else ("V", "Q")
    before = {of: Ref(display.named(of)) for of in (kept, other, f"{kept}0", f"{other}0")}

    def alter(relation: Relation) -> Relation:
        if (relation.left, relation.right) == (before[kept], before[f"{kept}0"]):
            return replace(relation, left=before[other], right=before[f"{other}0"])
        return relation

    noun = {"Q": "charge", "V": "voltage"}
    happens = say("keeping the {other} instead of the {kept}", other=noun[other], kept=noun[kept])
    yield from differing(values_by(display, alter), happens, display)


def _swapped_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    plates = display.solution.problem.plates
    if plates is not None and plates.battery == "removed":
        return say("A battery holds its voltage, and one easily goes on as if it were still there. "
                   "But plates that are cut off can only keep their charge.")  # fmt: skip
    return say("That charge stays on plates is true of plates that are cut off. Here the battery "
               "is still there, holds its voltage and brings more charge.")  # fmt: skip


def _with_capacitance(value: Exact, happens: Prose, display: RelationsDisplay) -> Iterator[Wrong]:
    """Another capacitance, and all that follows from it."""
    name = display.named("C")
    step = step_finding(name, display.solution)
    if step is not None:
        yield from carried_on(display, step, {name: value}, happens)


def _by_voltage(display: RelationsDisplay) -> Iterator[Wrong]:
    """The capacitance taken to change with the voltage or the charge."""
    plates = display.solution.problem.plates
    if plates is None or plates.battery != "removed":
        return
    before, filled = (display.solution.values[display.named(of)] for of in ("C0", "C"))
    happens = say("letting the capacitance shrink with the voltage")
    yield from _with_capacitance(before * before / filled, happens, display)


def _by_voltage_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    return say("Capacitance is charge per voltage, so it looks as if it followed them. But it is "
               "built in: area, gap and filling set it, and the voltage follows.")  # fmt: skip


def _turned(display: RelationsDisplay) -> Iterator[Wrong]:
    """Layers taken for slabs side by side with the same shares, and the other way round."""
    plates = display.solution.problem.plates
    if plates is None or plates.arrangement not in ("layers", "slabs"):
        return
    layers = plates.arrangement == "layers"
    happens = (
        say("taking the layers for slabs side by side")
        if layers
        else say("taking the slabs for layers on one another")
    )
    yield from _with_capacitance(_turned_capacitance(plates, display), happens, display)


def _turned_capacitance(plates: Plates, display: RelationsDisplay) -> Exact:
    values = display.solution.values
    area, gap, eps0 = (values[display.named(of)] for of in ("A", "d", "eps0"))
    layers = plates.arrangement == "layers"
    whole = gap if layers else area

    def kappa(part: PlatePart) -> Exact:
        return values[display.named(part.kappa)] if part.kappa else Integer(1)

    shares = [(values[display.named(part.size)] / whole, kappa(part)) for part in plates.parts]
    mean = (
        sum(share * one for share, one in shares)
        if layers
        else 1 / sum(share / one for share, one in shares)
    )
    return mean * eps0 * area / gap


def _turned_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    return say("Both pictures show a gap that is filled in parts, and the shares look alike. Ask "
               "what the parts have in common: layers carry the same charge, slabs side by side "
               "have the same voltage.")  # fmt: skip


def _last_reciprocal(display: RelationsDisplay) -> Iterator[Wrong]:
    """The capacitances of layers added."""
    plates = display.solution.problem.plates
    if plates is None or plates.arrangement != "layers":
        return
    total = sum(_of_parts(plates, display), Integer(0))
    happens = say("adding the capacitances of the layers")
    yield from _with_capacitance(total, happens, display)


def _of_parts(plates: Plates, display: RelationsDisplay) -> list[Exact]:
    """The capacitance of each part, in farads."""
    values = display.solution.values
    return [values[display.named(f"C{part.number}")] for part in plates.parts]


def _last_reciprocal_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    return say("Layers lie together, and together sounds like adding. But the charge has to pass "
               "them one after the other, so their reciprocals add, and {what} is less than the "
               "smallest of them.", what=SymbolOf(display.named("C")))  # fmt: skip


def _never_inverted(display: RelationsDisplay) -> Iterator[Wrong]:
    """The sum of the layers' reciprocals, in the unit in which the first of them is told."""
    plates = display.solution.problem.plates
    if plates is None or plates.arrangement != "layers":
        return
    shown = display.shown(display.named("C1"))
    unit = Integer(10) ** (unit_power(shown.unit, "capacitance") or 0)
    total = sum((unit / one for one in _of_parts(plates, display)), Integer(0)) * unit
    happens = say("stopping at the sum of the reciprocals of the layers")
    yield from _with_capacitance(total, happens, display)


def _never_inverted_why(_wrong: Wrong, _display: RelationsDisplay) -> Prose:
    return say("After all that work with fractions the sum looks like the answer. It is one over "
               "the capacitance, so it still has to be turned over.")  # fmt: skip


def _parts_driven(display: RelationsDisplay) -> Plates | None:
    """The plates, if a voltage across layers is divided between them."""
    plates = display.solution.problem.plates
    if plates is None or plates.arrangement != "layers":
        return None
    first = Name("voltage", "V1")
    return plates if step_finding(first, display.solution) is not None else None


def _field_everywhere(display: RelationsDisplay) -> Iterator[Wrong]:
    """The same field in each layer: the voltage divided by thickness."""
    plates = _parts_driven(display)
    if plates is None:
        return
    values = display.solution.values
    field = values[display.named("V")] / values[display.named("d")]
    shares = [field * values[display.named(part.size)] for part in plates.parts]
    happens = say("letting the field be the same in all layers")
    yield from _with_shares(shares, plates, happens, display)


def _with_shares(
    shares: list[Exact], plates: Plates, happens: Prose, display: RelationsDisplay
) -> Iterator[Wrong]:
    """Other voltages across the layers, and what follows from them."""
    step = step_finding(Name("voltage", "V1"), display.solution)
    names = [Name("voltage", f"V{part.number}") for part in plates.parts]
    if step is not None:
        altered = dict(zip(names, shares, strict=True))
        yield from carried_on(display, step, altered, happens)


def _field_everywhere_why(_wrong: Wrong, _display: RelationsDisplay) -> Prose:
    return say("Between plates the field is said to be the same everywhere, and so it is in one "
               "material. But each layer weakens it to 1/κ of its own: what is the same in all of "
               "them is the charge.")  # fmt: skip


def _equal_voltages(display: RelationsDisplay) -> Iterator[Wrong]:
    plates = _parts_driven(display)
    if plates is not None:
        count = len(plates.parts)
        share = display.solution.values[display.named("V")] / count
        happens = say("sharing the voltage equally between the {count} layers",
                      count=number_word(count))  # fmt: skip
        yield from _with_shares([share] * count, plates, happens, display)


def _equal_voltages_why(_wrong: Wrong, _display: RelationsDisplay) -> Prose:
    return say("Equal shares look fair. But what is equal for all layers is the charge, so the "
               "layer with the smallest capacitance gets the largest voltage.")  # fmt: skip


PLATE_RULES: tuple[WrongRule, ...] = (
    WrongRule("kept-the-wrong-one", GUISASOLA, "Keeping the wrong quantity", _swapped_why,
              _swapped),
    WrongRule("capacitance-by-voltage", f"University Physics Volume 2 (OpenStax), section 8.1, "
              f"conceptual questions; {GUISASOLA}", "Letting the capacitance follow the voltage",
              _by_voltage_why, _by_voltage),
    WrongRule("layers-for-slabs", PRACTICE, "Taking layers for slabs side by side",
              _turned_why, _turned),
    WrongRule("field-everywhere", PRACTICE, "Letting the field be the same in all layers",
              _field_everywhere_why, _field_everywhere),
    WrongRule("layers-added", PRACTICE, "Adding layers", _last_reciprocal_why, _last_reciprocal),
    WrongRule("equal-voltages", f"{TGB}; {GUISASOLA}, for capacitors in a chain",
              "Sharing the voltage equally between layers", _equal_voltages_why, _equal_voltages),
    WrongRule("never-inverted", PRACTICE, "Forgetting the last reciprocal",
              _never_inverted_why, _never_inverted),
)  # fmt: skip
