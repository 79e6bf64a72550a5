"""Generated questions on circuits that charge, or that change stage by stage."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from builder.circuit.network import Element
from builder.lesson.generated.switched.picking import pick_of_charging, pick_of_stages
from builder.lesson.generated.switched.ranking import ranking_of_charging
from builder.lesson.generated.switched.what_if import (
    Supposed,
    what_if_of_charging,
    what_if_of_stages,
)
from builder.lesson.generated.switched.what_if import (
    _of_charging as charging_supposed,
)
from builder.lesson.generated.switched.what_if import (
    _of_stages as stages_supposed,
)
from builder.lesson.questions.forms import ChoiceQuestion
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.transient.display import TransientDisplay
from builder.problem import read_problem
from builder.problem.model import StagesProblem, TransientProblem
from builder.problem.transient.moments import CONSTANT
from builder.solution.stages.solve import solve_stages
from builder.solution.transient.solve import solve_transient
from tests.lesson.generated.by_numpy import Branch, sign, solved
from tests.lesson.generated.views import named_in
from tests.lesson.telling import options_of, plain
from tests.solution.transient.circuits import random_circuit

PROBLEMS = Path(__file__).parents[3] / "content" / "problems"
LOWERED = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")


def _charging(slug: str) -> TransientDisplay:
    problem = read_problem(PROBLEMS / f"{slug}.yml")
    assert isinstance(problem, TransientProblem)
    return TransientDisplay(solve_transient(problem))


def _stages(slug: str) -> StagesDisplay:
    problem = read_problem(PROBLEMS / f"{slug}.yml")
    assert isinstance(problem, StagesProblem)
    return StagesDisplay(solve_stages(problem))


def _told(supposed: list[Supposed], display: TransientDisplay | StagesDisplay) -> dict[str, int]:
    """Change and what is looked at, with what comes of it."""
    return {f"{plain(one.change, display)} {plain(one.seen, display)}": one.grows
            for one in supposed if one.holds}  # fmt: skip


# By hand: 6 kΩ and 3 kΩ divide 12 V, so that C1 ends at 4 V whatever it and R3 are; it sees
# 2 + 1 kΩ. At first it is a wire: the currents do not depend on its size.
SMOOTHER = {
    "Suppose C₁ were twice as large. the voltage across C₁ long after the change": 0,
    "Suppose C₁ were twice as large. the current through R₁ at the first instant": 0,
    "Suppose C₁ were twice as large. the current through R₂ at the first instant": 0,
    "Suppose C₁ were twice as large. the current through R₃ at the first instant": 0,
    "Suppose R₁ were twice as large. the time constant": 1,
    "Suppose R₂ were twice as large. the time constant": 1,
    "Suppose R₃ were twice as large. the time constant": 1,
    "Suppose R₃ were twice as large. the voltage across C₁ long after the change": 0,
    "Suppose the voltage of V₀ were twice as large. the time constant": 0,
}


def test_changes_of_a_circuit_that_charges() -> None:
    """All that can be asked of it, worked by hand."""
    display = _charging("tide-gauge-smoother")
    assert _told(list(charging_supposed(display)), display) == SMOOTHER


def test_what_changes_nothing_is_asked_about_first() -> None:
    """Of four circuits that charge each is asked for something that stays the same."""
    for slug in ("reservoir-through-a-resistor", "bleeder-of-the-strobe", "tide-gauge-smoother",
                 "lantern-switched-over"):  # fmt: skip
        display = _charging(slug)
        question = what_if_of_charging(display)
        assert question is not None
        assert options_of(question, display)[2] == "It stays the same *"


def test_once_a_capacitor_is_full_no_current_flows_through_what_leads_to_it() -> None:
    """R1 and R2 carry 12 V/9 kΩ for ever, R3 and C1 nothing."""
    display = _charging("tide-gauge-smoother")
    question = pick_of_charging(display)
    assert question is not None
    assert [item.id for item in question.items if item.right] == ["R1", "R2"]
    ranked = ranking_of_charging(display)
    assert ranked is not None
    assert [item.place for item in ranked.items] == [1, 1, 2]
    assert plain(ranked.order, display) == "I₁(∞) = I₂(∞) > I₃(∞)"
    assert plain(ranked.reasons[1].text, display) == (
        "No current flows through R₃ then: every loop through it has a gap in it, at a capacitor "
        "or at an open switch."
    )


def test_a_full_capacitor_has_the_whole_voltage() -> None:
    """Nothing flows through R1 then, so that it keeps no voltage."""
    display = _charging("reservoir-through-a-resistor")
    question = pick_of_charging(display)
    assert question is not None
    assert [item.id for item in question.items if item.right] == ["C1"]


def _branches(problem: TransientProblem, held: float | None) -> dict[str, Branch]:
    """The circuit after its change, its capacitor a source of that voltage, or a gap."""
    circuit = problem.circuit
    found = {r.name: Branch(r.between, 1 / float(r.value)) for r in circuit.resistors}
    for source in circuit.sources:
        driven = source.quantity == "voltage"
        size = float(source.value)
        found[source.name] = Branch(source.between, None, size if driven else None, size)
    for switch in circuit.closed(after=True):
        found[switch.name] = Branch(switch.between, None, 0.0)
    if held is not None:
        (store,) = circuit.capacitors
        found["store"] = Branch(store.between, None, held)
    return found


def _course(problem: TransientProblem) -> tuple[float, float, dict[str, float]]:
    """The time constant, the last voltage, and the first currents of an empty capacitor."""
    (store,) = problem.circuit.capacitors
    empty, full = (solved(_branches(problem, volts)) for volts in (0.0, 1.0))
    assert empty is not None
    assert full is not None
    into, slope = -empty["store"][0], empty["store"][0] - full["store"][0]
    seen = -1 / slope
    currents = {r.name: empty[r.name][0] for r in problem.circuit.resistors}
    return seen * float(store.value), into * seen, currents


def _changed(problem: TransientProblem, text: str) -> TransientProblem:
    """The problem with what a sentence supposes."""
    name = re.sub(r"^Suppose (?:the \w+ of )?(\S+) (?:were|had).*", r"\1", text).translate(LOWERED)
    circuit = problem.circuit

    if "had been charged" in text:
        return problem
    resistors = tuple(_twice(one, name) for one in circuit.resistors)
    capacitors = tuple(_twice(one, name) for one in circuit.capacitors)
    sources = tuple(replace(one, value=one.value * 2) if one.name == name else one
                    for one in circuit.sources)  # fmt: skip
    return replace(problem, circuit=replace(
        circuit, resistors=resistors, capacitors=capacitors, sources=sources))  # fmt: skip


def _twice(part: Element, name: str) -> Element:
    return replace(part, value=part.value * 2) if part.name == name else part


@pytest.mark.parametrize("seed", range(120))
def test_random_circuits_that_charge_do_what_is_said(seed: int) -> None:
    """Every change that could be asked about, by numpy."""
    problem = replace(random_circuit(seed), find=(CONSTANT,))
    display = TransientDisplay(solve_transient(problem))
    if len(display.solution.stores) != 1:
        return
    laid = display.solution.problem
    before = _course(laid)
    for one in charging_supposed(display):
        if not one.holds:
            continue
        after = _course(_changed(laid, plain(one.change, display)))
        seen = plain(one.seen, display)
        if seen == "the time constant":
            sizes = after[0], before[0]
        elif seen.startswith("the voltage across C₁"):
            sizes = after[1], before[1]
        else:
            (name,) = named_in(seen)
            sizes = after[2][name], before[2][name]
        assert sign(*sizes) == one.grows, (seed, plain(one.change, display), seen)
    _rest_is_right(display)


def _rest_is_right(display: TransientDisplay) -> None:
    """What is ranked and picked in the end, by numpy with the capacitor taken out."""
    ranked, picked = ranking_of_charging(display), pick_of_charging(display)
    if ranked is None and picked is None:
        return
    found = solved(_branches(display.solution.problem, _course(display.solution.problem)[1]))
    assert found is not None
    most = max(abs(flow) for flow, _ in found.values()) or 1.0
    sizes = {name: 0.0 if abs(found[name][0]) < 1e-9 * most else abs(found[name][0])
             for name in display.resistors}  # fmt: skip
    if ranked is not None:
        for one, its in zip(ranked.items, display.resistors, strict=True):
            for two, other in zip(ranked.items, display.resistors, strict=True):
                less = (one.place < two.place) - (one.place > two.place)
                assert sign(sizes[its], sizes[other]) == less
    if picked is not None and "still flow" in plain(picked.ask, display):
        assert {i.id for i in picked.items if i.right} == {n for n, size in sizes.items() if size}


# 24 V · 30 µF = 720 µC stay on both plates whatever C2 is, and 720 µC/(30 + 20) µF < 720/(30 + 10).
# The battery charges C1 to 9 V whatever its size.
STAGES = {
    "lantern-spare-reservoir": {
        "Suppose C₂ were twice as large. the charge on C₁ and C₂ together after S₁ is closed": 0,
        "Suppose C₂ were twice as large. the voltage that C₁ and C₂ share after S₁ is closed": -1,
    },
    "bench-crossed-leads": {},
}


@pytest.mark.parametrize(("slug", "told"), STAGES.items())
def test_changes_of_a_circuit_in_stages(slug: str, told: dict[str, int]) -> None:
    """All that can be asked of it, worked by hand."""
    display = _stages(slug)
    assert _told(list(stages_supposed(display)), display) == told


def test_a_battery_holds_its_voltage_whatever_hangs_on_it() -> None:
    """And an empty capacitor takes no charge away from those it is joined with."""
    display = _stages("tide-gauge-bucket")
    told = _told(list(stages_supposed(display)), display)
    assert told["Suppose C₁ were twice as large. the voltage across C₁ after S₁ is closed"] == 0
    question = what_if_of_stages(display)
    assert isinstance(question, ChoiceQuestion)
    assert options_of(question, display)[2] == "It stays the same *"


def test_what_no_loop_leads_through_keeps_its_charge() -> None:
    """When S1 is closed the battery reaches C1, not yet C2; where all can change, none is asked."""
    question = pick_of_stages(_stages("tide-gauge-bucket"))
    assert question is not None
    assert [(item.id, item.right) for item in question.items] == [("C1", True), ("C2", False)]
    assert pick_of_stages(_stages("lantern-spare-reservoir")) is None
