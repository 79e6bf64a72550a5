"""Wrong rules of networks: where they stay silent, and what holds of all that they say."""

from __future__ import annotations

import re

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from builder.circuit.law import Law
from builder.errors import FaultyFile
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.wrong_rules import RULES
from builder.lesson.slips import Slip, slips_of
from builder.lesson.wrong_rule import SIGNED, WrongRule
from builder.problem import read_problem_text
from builder.quantity.symbolic import sign_of
from builder.solution import solve
from builder.solution.network.solve import NetworkSolution
from tests.lesson.nest.test_wrong_rules import SOURCES
from tests.lesson.network.networks import (
    BATTERIES,
    BRIDGE,
    CHARGES,
    CUBE,
    LESSONS,
    PANEL,
    display_of,
    lesson_of,
)
from tests.lesson.telling import plain
from tests.lesson.test_sentences import Kind, blemishes
from tests.solution.network.drawn import tables

BY_ID = {rule.id: rule for rule in RULES}


def _display(called: str) -> NetworkDisplay:
    return display_of(*LESSONS[called])


APART = PANEL | {"E2": "18 V d c", "R2": "3 ohm b c"}
"""The battery turned round: its + side lies at the other's − side."""
SILENT = [
    ("bridge-ignored", _display("balanced")),
    ("bridge-ignored", _display("cube")),
    ("bridge-ignored", _display("batteries")),
    ("bridge-joined", _display("balanced")),
    ("bridge-joined", _display("panel")),
    ("exchange-mixed-up", _display("balanced")),
    ("equal-flows", _display("cube")),
    ("one-loop-only", _display("bridge")),
    ("others-forgotten", _display("bridge")),
    ("emfs-added", _display("bridge")),
    ("emfs-added", display_of(APART, "current")),
    ("emfs-averaged", _display("bridge")),
    ("emfs-averaged", display_of(APART, "current, voltage")),
    ("source-turned", _display("bridge")),
    ("source-turned", _display("panel")),
    ("inner-forgotten", _display("batteries")),
    ("drop-taken-wrong", _display("panel")),
    ("potentials-added", _display("batteries-by-junctions")),
    ("potentials-added", _display("batteries")),
    ("signs-dropped", _display("batteries")),
    ("powers-added", _display("batteries-by-junctions")),
    ("no-current-no-voltage", _display("bridge")),
    ("open-voltage-kept", _display("two-points")),
    ("quarter-forgotten", _display("bridge")),
    ("whole-voltage", _display("by-current")),
    ("whole-voltage", _display("batteries")),
    ("first-alone", _display("star")),
    ("wrong-pair", _display("panel")),
    ("added-instead", _display("batteries")),
]


@pytest.mark.parametrize(("rule", "display"), SILENT)
def test_a_rule_is_silent_where_it_does_not_fit(rule: str, display: NetworkDisplay) -> None:
    """No bridge, a balanced one, no second source, another method, or opposite sides."""
    assert slips_of(display, [BY_ID[rule]]) == ()


def test_wrong_rules_know_which_sources_lie_side_by_side() -> None:
    """In a ring of two batteries the chain of each ends where they meet, in order from +."""
    ring = {"E1": "9 V a b", "R1": "1 ohm a c", "E2": "3 V c d", "R2": "2 ohm d b"}
    display = display_of(ring, "current", "  method: loops\n")
    found = {slip.rule.id for slip in slips_of(display, RULES)}
    assert "emfs-added" not in found
    assert "emfs-averaged" not in found


def test_rules_are_told_apart() -> None:
    """Each has an id and a heading of its own."""
    assert len(BY_ID) == len(RULES) == len({rule.called for rule in RULES})


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_rule_names_its_source(rule: WrongRule) -> None:
    """A paper with volume, page and year, a page that has the error, or plainly none."""
    sources = (*SOURCES, r"Phys\. Rev\. ST-PER \d+, \d+ \(\d{4}\)", "a published web page has")
    assert any(re.search(source, rule.source) for source in sources)


@pytest.mark.parametrize("rows", [BATTERIES, PANEL, {"V0": "24 V a d", **BRIDGE}, CHARGES])
def test_a_wrong_number_never_equals_the_right_one(rows: dict[str, str]) -> None:
    """At the shown digits every mistake can be told from the truth."""
    more = "" if any(name[0] in "EV" for name in rows) else "  across: [a, d]\n"
    display = display_of(rows, "current" if more == "" else "equivalent", more)
    for slip in slips_of(display, RULES):
        assert slip.shown.text != display.shown(slip.wrong.name).text


WARNED = [
    ("bridge", ["bridge-ignored", "equal-flows", "bridge-joined", "whole-voltage",
                "exchange-mixed-up"]),
    ("batteries", ["one-loop-only", "emfs-averaged", "drop-taken-wrong", "others-forgotten",
                   "emfs-added"]),
    ("panel", ["one-loop-only", "powers-added", "added-instead", "others-forgotten",
               "reciprocals-instead"]),
    ("sensor", ["no-current-no-voltage", "quarter-forgotten", "added-instead", "used-up",
                "open-voltage-kept"]),
]  # fmt: skip


@pytest.mark.parametrize(("called", "rules"), WARNED)
def test_what_a_network_alone_can_get_wrong_is_warned_of(called: str, rules: list[str]) -> None:
    """Five at most, each rule once, the mistakes of bridges and of several sources first."""
    lesson = lesson_of(*LESSONS[called])
    assert [slip.rule.id for slip in lesson.warnings] == rules


def test_many_members_are_called_a_group() -> None:
    """Nobody shares anything with “R₄ to R₉ together”."""
    display = display_of({"V0": "15 V a g", **CUBE}, "current", "  method: symmetry\n")
    told = {plain(slip.sentence, display) for slip in slips_of(display, [BY_ID["group-for-one"]])}
    assert "Taking the whole current of the group for R₄ gives I₄ = 3.00 A." in told


@given(drawn=tables(), method=st.sampled_from(("", "junctions", "loops", "superposition")))
@settings(max_examples=40, phases=(Phase.explicit, Phase.reuse, Phase.generate))
def test_slips_of_any_network_hold(drawn: tuple[Law, str], method: str) -> None:
    """They differ from the truth, have a sign that can be, lead to a step and read well."""
    law, rows = drawn
    asked = f"{law.flow}, {law.drop}, {law.work}"
    beside = f"  method: {method}\n" if method else ""
    text = f"title: A network\ncircuit:\n{beside}  branches:\n{rows}\nfind: [{asked}]\n"
    try:
        solution = solve(read_problem_text(text, "a.yml"))
    except FaultyFile:
        return  # the method does not fit: some networks have one source, or no unknown potential
    if not isinstance(solution, NetworkSolution):
        return  # some of them are nests
    display = NetworkDisplay(solution)
    for rule in RULES:
        for slip in slips_of(display, [rule]):
            _holds(slip, display)


def _holds(slip: Slip, display: NetworkDisplay) -> None:
    wrong, solution = slip.wrong, display.solution
    found = {name for step in solution.steps for name in step.found}
    assert wrong.step in {step.id for step in solution.steps}
    assert wrong.name in found
    assert slip.shown.text != display.shown(wrong.name).text
    backwards = wrong.name.quantity in SIGNED or sign_of(solution.values[wrong.name]) == -1
    assert sign_of(wrong.value) in ((1, 0, -1) if backwards else (1, 0))
    for prose in (slip.sentence, slip.tempting):
        # A junction may be called a, and a name is no article.
        told = re.sub(r"\b(junction|between|and) [aA]\b", r"\1 x", plain(prose, display))
        assert blemishes(told, Kind.SENTENCES) == [], told
