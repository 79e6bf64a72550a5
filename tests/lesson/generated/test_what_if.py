"""What if: the verdict is that of the changed circuit, and the reason claims nothing false."""

from __future__ import annotations

import re
from typing import Any, cast

import pytest
from hypothesis import HealthCheck, assume, given, settings

from builder.circuit.law import Law
from builder.circuit.tree import Group, Tree, leaves
from builder.lesson.generated.view import View
from builder.lesson.generated.what_if import what_if_of
from builder.lesson.generated.what_if.asking import chosen, question, truth
from builder.lesson.generated.what_if.changes import Change, How, changed
from builder.lesson.generated.what_if.reasons import reason
from builder.lesson.generated.what_if.spots import Why, spots
from builder.problem.model import NestProblem
from builder.quantity.names import Name
from tests.lesson.generated.claims import by_numpy, claims_hold, nothing_flows
from tests.lesson.generated.views import view_of_nest, view_of_table
from tests.lesson.telling import asking, options_of, parallel, plain, series
from tests.solution.network.drawn import tables
from tests.solution.network.test_random_networks import problem_of
from tests.strategies import problems

CHAIN, PAIR = series("R1", parallel("R2", "R3")), parallel("R1", "R2")
CAPACITORS = series("C1", parallel("C2", "C3"))
BRIDGE = """
    V0: {emf: 12 V, between: [a, d]}
    R1: {resistance: 20 ohm, between: [a, b]}
    R2: {resistance: 10 ohm, between: [a, c]}
    R3: {resistance: 40 ohm, between: [b, d]}
    R4: {resistance: 20 ohm, between: [c, d]}
    R5: {resistance: 15 ohm, between: [b, c]}
"""

# Worked by hand with R1 = 10, R2 = 20, R3 = 30 Ω (µF) on 12 V. CHAIN: 10 + 12 = 22 Ω.
# R2 out: 40 Ω in all, the current falls from 0.545 to 0.3 A, V3 grows from 6.5 to 9 V.
# Another R2 beside it: 10 + 7.5 Ω, V2 falls from 6.5 to 5.1 V. R3 twice: 10 + 15 Ω, I1 falls.
# PAIR: what lies across the source keeps its 12 V. CAPACITORS: 10 behind 50 µF take 100 µC;
# C2 left out, 10 behind 30 µF take 90 µC at 3 V across C3 instead of 2 V.
WORKED = [
    (CHAIN, How.TAKEN_OUT, "R2", Name("current", "V0"), -1, (Why.SOURCE,
     "Then the current has one way less, so the whole circuit has more resistance. At the same "
     "voltage the source delivers less current.")),
    (CHAIN, How.TAKEN_OUT, "R2", Name("current", "R3"), 1, (Why.BRANCH,
     "Then the group with R₂ and R₃ in it has more resistance, so a larger voltage lies across "
     "it, and so across R₃. By I = V/R the current through R₃ becomes larger.")),
    (CHAIN, How.BESIDE, "R2", Name("voltage", "R3"), -1, (Why.BRANCH,
     "Then the group with R₂ and R₃ in it has less resistance, so a smaller voltage lies across "
     "it, and so across R₃.")),
    (CHAIN, How.DOUBLED, "R3", Name("current", "R1"), -1, (Why.CHAIN,
     "Then the whole circuit has more resistance, so less current flows through it, and so "
     "through R₁.")),
    (CHAIN, How.DOUBLED, "R1", Name("voltage", "R1"), 1, (Why.SHARE,
     "The voltage of a chain is divided between its parts, and a larger resistance takes a larger "
     "part of it.")),
    (PAIR, How.TAKEN_OUT, "R2", Name("current", "R1"), 0, (Why.HELD,
     "R₁ lies straight across the source, which holds its voltage whatever happens elsewhere. So "
     "nothing changes for R₁.")),
    (PAIR, How.DOUBLED, "R1", Name("voltage", "R1"), 0, (Why.HELD_SELF,
     "R₁ lies straight across the source, which holds its voltage whatever lies between its "
     "poles.")),
    (CAPACITORS, How.TAKEN_OUT, "C2", Name("charge", "V0"), -1, (Why.SOURCE,
     "Then there is less capacitance in one place and nowhere more, so the whole circuit has less "
     "capacitance. At the same voltage the source delivers less charge.")),
    (CAPACITORS, How.TAKEN_OUT, "C2", Name("charge", "C3"), 1, (Why.BRANCH,
     "Then the group with C₂ and C₃ in it has less capacitance, so a larger voltage lies across "
     "it, and so across C₃. By Q = CV the charge on C₃ becomes larger.")),
    (CAPACITORS, How.BESIDE, "C2", Name("voltage", "C1"), 1, (Why.CHAIN,
     "Then the whole circuit has more capacitance, so it takes up more charge, and so does C₁. By "
     "V = Q/C the voltage across C₁ becomes larger.")),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "how", "of", "seen", "grows", "why"), WORKED)
def test_changes_worked_by_hand(
    tree: Tree, how: How, of: str, seen: Name, grows: int, why: tuple[Why, str]
) -> None:
    """Verdict and reason of each kind."""
    kind, words = why
    view = view_of_nest(asking(tree, "12 V"))
    (spot,) = [one for one in spots(view) if one.change == Change(how, of) and one.seen == seen]
    assert (spot.why, spot.grows) == (kind, grows)
    assert truth(spot.change, seen, view.network, view.law) == grows
    assert plain(reason(spot, view), view.display) == words


def test_a_source_of_current_drives_the_same_through_a_chain() -> None:
    """What a voltage source is to branches, it is to what follows one another."""
    view = view_of_nest(asking(series("R1", "R2"), "2 A"))
    (spot,) = [one for one in spots(view) if one.change == Change(How.DOUBLED, "R2")
               and one.seen == Name("voltage", "R1")]  # fmt: skip
    assert (spot.why, spot.grows) == (Why.PUSHED, 0)
    assert truth(spot.change, spot.seen, view.network, view.law) == 0


def test_what_lies_across_a_balanced_bridge_is_noticed_by_nobody() -> None:
    """20 to 40 as 10 to 20: nothing flows through R5, and it is what the question is about."""
    view = view_of_table(BRIDGE)
    spot = chosen(view)
    assert spot is not None
    balanced = [one for one in spots(view) if one.why is Why.BALANCED]
    assert {one.change.of for one in balanced} == {"R5"}
    assert all(truth(one.change, one.seen, view.network, view.law) == 0 for one in balanced)


def test_the_question_is_written_out() -> None:
    """Three options, one of them right, each with the reason; a known idea is answered first."""
    view = view_of_nest(asking(CHAIN, "12 V"))
    (spot,) = [one for one in spots(view) if one.change == Change(How.TAKEN_OUT, "R3")
               and one.seen == Name("current", "V0")]  # fmt: skip
    asked = question(spot, view)
    assert plain(asked.ask, view.display) == (
        "Suppose R₃ were left out and its place stayed open. What would become of the current "
        "that the source delivers?"
    )
    assert options_of(asked, view.display) == [
        "It becomes larger", "It becomes smaller *", "It stays the same"]  # fmt: skip
    assert plain(asked.options[2].reply, view.display).startswith(
        "No: what this source holds is its voltage, not its current. Then the current has one way "
        "less"
    )


def test_the_choice_depends_on_the_name_of_the_problem_alone() -> None:
    """Other values, same question; other problems, other questions."""
    values = [{"R1": "10 ohm", "R2": "20 ohm", "R3": "30 ohm"},
              {"R1": "470 ohm", "R2": "3.3 ohm", "R3": "3.3 ohm"}]  # fmt: skip
    asked: dict[str, set[str]] = {}
    for number in range(30):
        for these in values:
            view = view_of_nest(asking(CHAIN, "12 V", values=these), f"problem-{number}")
            found = what_if_of(view)
            assert found is not None
            asked.setdefault(view.slug, set()).add(plain(found.ask, view.display))
    assert all(len(asks) == 1 for asks in asked.values())
    assert len(set.union(*asked.values())) > 8


@given(problem=problems(least=1, most=8))
@settings(max_examples=300, suppress_health_check=[HealthCheck.too_slow])
def test_the_structure_of_a_nest_says_what_floating_point_says(problem: NestProblem) -> None:
    """Of changes of every kind, whether they are asked about or not."""
    view = _bare(problem.law, problem)
    for spot in list(spots(view))[::5]:
        found = by_numpy(spot, view)
        assert found is None or found == spot.grows, spot


@given(problem=problems(least=2, most=8))
@settings(max_examples=300, suppress_health_check=[HealthCheck.too_slow])
def test_the_chosen_question_of_a_nest_is_right_and_claims_nothing_false(
    problem: NestProblem,
) -> None:
    """The verdict is the sign of the difference by numpy; so is everything its reason says."""
    view = view_of_nest(problem)
    spot = chosen(view)
    assert spot is not None
    (right,) = [o for o in question(spot, view).options if o.right]
    said = {"It becomes larger": 1, "It becomes smaller": -1, "It stays the same": 0}
    assert said[plain(right.text, view.display)] == by_numpy(spot, view)
    for other in [spot, *list(spots(view))[:12]]:
        if by_numpy(other, view) is not None:
            claims_hold(plain(reason(other, view), view.display), other, view)


@given(table=tables())
@settings(max_examples=300, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_what_is_asked_of_a_network_is_right(table: tuple[Law, str]) -> None:
    """Exactly what is asked about: one whose structure and whose changed circuit agree."""
    law, rows = table
    # Now and then a table is drawn without a source.
    assume(re.search(r"^ *[EJ]\d", rows, re.MULTILINE))
    problem = problem_of(law, rows)
    view = View("a-network", cast("Any", None), law, problem.network, None, True)
    spot = chosen(view)
    if spot is not None:
        assert by_numpy(spot, view) in (spot.grows, None)
    for other in spots(view):
        if other.why in (Why.SOURCE, Why.HELD, Why.HELD_SELF):
            found = by_numpy(other, view)
            assert found is None or found == other.grows or nothing_flows(other, view), other


def _bare(law: Law, problem: NestProblem) -> View:
    return View("a-circuit", cast("Any", None), law, problem.network, problem.tree)


def test_the_reader_of_claims_sees_a_false_one() -> None:
    """The check of reasons is no empty one."""
    view = view_of_nest(asking(CHAIN, "12 V"))
    (spot,) = [one for one in spots(view) if one.change == Change(How.TAKEN_OUT, "R2")
               and one.seen == Name("current", "R3")]  # fmt: skip
    text = plain(reason(spot, view), view.display)
    claims_hold(text, spot, view)
    for right, wrong in (("more resistance", "less resistance"), ("a larger", "a smaller")):
        with pytest.raises(AssertionError):
            claims_hold(text.replace(right, wrong), spot, view)


def test_a_changed_circuit_is_the_one_that_is_told() -> None:
    """Twice, half, out, a wire, one more beside, one more behind."""
    view = view_of_nest(asking(CHAIN, "12 V"))
    for how, value in ((How.DOUBLED, 40), (How.HALVED, 10), (How.BESIDE, 10), (How.BEHIND, 40)):
        assert changed(view.network, view.law, Change(how, "R2")).element("R2").value == value
    out = changed(view.network, view.law, Change(How.TAKEN_OUT, "R2"))
    assert [one.name for one in out.elements] == ["R1", "R3"]
    wired = changed(view.network, view.law, Change(How.WIRE, "R2"))
    assert [source.value for source in wired.sources] == [12, 0]
    assert isinstance(view.tree, Group)
    assert leaves(view.tree) == ("R1", "R2", "R3")
