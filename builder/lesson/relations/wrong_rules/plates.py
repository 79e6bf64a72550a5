"""Mistakes with plates: what stays and what changes, and which way the parts lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sympy import Integer

from builder.lesson.prose import Prose, SymbolOf, say
from builder.lesson.relations.altered import values_by
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.problem.relations.model import PlatePart, Plates, Relation
from builder.quantity.exact import Exact
from builder.quantity.formula import Ref
from builder.quantity.names import Name

_AFTER = ("Q", "V", "U", "E")


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

    values = values_by(display, alter)
    noun = {"Q": "charge", "V": "voltage"}
    happens = say("keeping the {other} instead of the {kept}", other=noun[other], kept=noun[kept])
    for name, step in found_names(display):
        if name.of in _AFTER and name in values:
            yield Wrong(name, values[name], step.id, happens)


def _swapped_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    plates = display.solution.problem.plates
    if plates is not None and plates.battery == "removed":
        return say("A battery holds its voltage, and one easily goes on as if it were still there. "
                   "But plates that are cut off can only keep their charge.")  # fmt: skip
    return say("That charge stays on plates is true of plates that are cut off. Here the battery "
               "is still there, holds its voltage and brings more charge.")  # fmt: skip


def _by_voltage(display: RelationsDisplay) -> Iterator[Wrong]:
    """The capacitance taken to change with the voltage or the charge."""
    plates = display.solution.problem.plates
    if plates is None or plates.battery != "removed":
        return
    values = display.solution.values
    volts, before = (values[display.named(of)] for of in ("V", "V0"))
    for name, step in found_names(display):
        if name.of == "C":
            wrong = values[display.named("C0")] * volts / before
            yield Wrong(name, wrong, step.id,
                        say("letting the capacitance shrink with the voltage"))  # fmt: skip


def _by_voltage_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    return say("Capacitance is charge per voltage, so it looks as if it followed them. But it is "
               "built in: area, gap and filling set it, and the voltage follows.")  # fmt: skip


def _turned(display: RelationsDisplay) -> Iterator[Wrong]:
    """Layers taken for slabs side by side with the same shares, and the other way round."""
    plates = display.solution.problem.plates
    if plates is None or plates.arrangement not in ("layers", "slabs"):
        return
    wrong = _turned_capacitance(plates, display)
    layers = plates.arrangement == "layers"
    happens = (
        say("taking the layers for slabs side by side")
        if layers
        else say("taking the slabs for layers on one another")
    )
    for name, step in found_names(display):
        if name.of == "C":
            yield Wrong(name, wrong, step.id, happens)


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
    parts: list[Name] = [display.named(f"C{part.number}") for part in plates.parts]
    total = sum((display.solution.values[name] for name in parts), Integer(0))
    for name, step in found_names(display):
        if name.of == "C":
            yield Wrong(name, total, step.id, say("adding the capacitances of the layers"))


def _last_reciprocal_why(wrong: Wrong, display: RelationsDisplay) -> Prose:
    return say("Layers lie together, and together sounds like adding. But the charge has to pass "
               "them one after the other, so their reciprocals add, and {what} is less than the "
               "smallest of them.", what=SymbolOf(wrong.name))  # fmt: skip


_G = "Guisasola et al., Science & Education 11, 247 (2002), from memory"
_UP2 = "University Physics Volume 2 (OpenStax), section 8.1, conceptual questions"

PLATE_RULES: tuple[WrongRule, ...] = (
    WrongRule("kept-the-wrong-one", _G, "Keeping the wrong quantity", _swapped_why, _swapped),
    WrongRule("capacitance-by-voltage", f"{_UP2}; {_G}",
              "Letting the capacitance follow the voltage", _by_voltage_why, _by_voltage),
    WrongRule("layers-for-slabs", "common practice, no source",
              "Taking layers for slabs side by side", _turned_why, _turned),
    WrongRule("layers-added", "common practice, no source", "Adding layers",
              _last_reciprocal_why, _last_reciprocal),
)  # fmt: skip
