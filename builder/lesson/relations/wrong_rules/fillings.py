"""Mistakes about what a filling between plates does."""

from __future__ import annotations

from collections.abc import Iterator

from builder.lesson.mistake_sources import PRACTICE
from builder.lesson.prose import Prose, say
from builder.lesson.relations.altered import values_with
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.relations.wrong_rules.factors import differing
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on, step_finding
from builder.problem.relations.model import PlatePart, Plates
from builder.quantity.names import Name


def _plates(display: RelationsDisplay, *arrangements: str) -> Plates | None:
    plates = display.solution.problem.plates
    return plates if plates is not None and plates.arrangement in arrangements else None


def _filled(plates: Plates) -> list[PlatePart]:
    """The parts that are neither empty nor metal."""
    return [part for part in plates.parts if part.kappa]


def _filling_forgotten(display: RelationsDisplay) -> Iterator[Wrong]:
    plates = _plates(display, "whole", "layers", "slabs")
    if plates is not None:
        values = display.solution.values
        kappas = [display.named(part.kappa) for part in _filled(plates)]
        empty = values_with(display, {name: values[name] / values[name] for name in kappas})
        if plates.arrangement == "layers":  # one field in all layers is a mistake of its own
            empty = {n: v for n, v in empty.items() if n.quantity not in ("voltage", "field")}
        yield from differing(empty, say("leaving out what lies between the plates"), display)


def _filling_forgotten_why(_wrong: Wrong, _display: RelationsDisplay) -> Prose:
    return say("The filling is an insulator, no charge passes it, so it seems to make no "
               "difference. But the charges inside it shift a little and weaken the field, so the "
               "plates take more charge for each volt.")  # fmt: skip


def _kappa_divided(display: RelationsDisplay) -> Iterator[Wrong]:
    plates = _plates(display, "whole", "layers", "slabs")
    if plates is not None:
        values = display.solution.values
        kappas = [display.named(part.kappa) for part in _filled(plates)]
        other = values_with(display, {name: 1 / values[name] for name in kappas})
        yield from differing(other, say("dividing by κ where it multiplies"), display)


def _kappa_divided_why(_wrong: Wrong, _display: RelationsDisplay) -> Prose:
    return say("The filling weakens the field, so it seems to make everything smaller. But a "
               "weaker field for the same charge is a smaller voltage, and charge per volt grows: "
               "the capacitance becomes κ times as large.")  # fmt: skip


def _filled_throughout(display: RelationsDisplay) -> Iterator[Wrong]:
    """A filling of a part of the gap, as if it filled all of it."""
    plates = _plates(display, "layers", "slabs")
    if plates is None or len(_filled(plates)) != 1 or len(plates.parts) < 2:
        return
    kappa, area, gap, eps0 = (display.solution.values[display.named(of)]
                              for of in (_filled(plates)[0].kappa, "A", "d", "eps0"))  # fmt: skip
    name = display.named("C")
    step = step_finding(name, display.solution)
    if step is not None:
        happens = say("letting the filling take up all of the gap")
        yield from carried_on(display, step, {name: kappa * eps0 * area / gap}, happens)


def _filled_throughout_why(_wrong: Wrong, _display: RelationsDisplay) -> Prose:
    return say("Only one κ is given, so it seems to count for the whole. But it counts where the "
               "filling is; the rest is air.")  # fmt: skip


def _metal_ignored(display: RelationsDisplay) -> Iterator[Wrong]:
    if _plates(display, "metal") is not None:
        thin = {display.named("t"): display.solution.values[display.named("t")] * 0}
        yield from differing(values_with(display, thin), say("leaving out the metal"), display)


def _metal_ignored_why(_wrong: Wrong, _display: RelationsDisplay) -> Prose:
    return say("The metal is joined to nothing and carries no charge of its own, so it seems to do "
               "nothing. But inside it there is no field, and the gap is as good as "
               "shorter.")  # fmt: skip


def _energy_kept(display: RelationsDisplay) -> Iterator[Wrong]:
    """The stored energy the same before and after."""
    plates = display.solution.problem.plates
    if plates is None or not plates.battery:
        return
    name = Name("energy", "U")
    step = step_finding(name, display.solution)
    if step is not None:
        before = display.solution.values[display.named("U0")]
        happens = say("letting the stored energy stay the same")
        yield from carried_on(display, step, {name: before}, happens)


def _energy_kept_why(_wrong: Wrong, display: RelationsDisplay) -> Prose:
    plates = display.solution.problem.plates
    if plates is not None and plates.battery == "removed":
        return say("Energy is conserved, and nothing is joined to the plates. But the field draws "
                   "the filling in, and what it spends on that is no longer stored.")  # fmt: skip
    return say("Energy is conserved, so what is stored seems to stay. But the battery is still "
               "there and delivers more, and the field spends some on drawing the filling "
               "in.")  # fmt: skip


FILLING_RULES: tuple[WrongRule, ...] = (
    WrongRule("filling-forgotten", PRACTICE, "Leaving out the filling", _filling_forgotten_why,
              _filling_forgotten),
    WrongRule("energy-kept", PRACTICE, "Keeping the energy", _energy_kept_why, _energy_kept),
    WrongRule("filled-throughout", PRACTICE, "Filling the whole gap", _filled_throughout_why,
              _filled_throughout),
    WrongRule("kappa-divided", PRACTICE, "Dividing by κ", _kappa_divided_why, _kappa_divided),
    WrongRule("metal-ignored", PRACTICE, "Leaving out the metal", _metal_ignored_why,
              _metal_ignored),
)  # fmt: skip
