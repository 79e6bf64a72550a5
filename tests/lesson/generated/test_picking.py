"""Picking in the figure: what is right holds whatever the values are, and the reasons fit."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any, cast

import pytest
from hypothesis import given, settings

from builder.circuit.tree import Tree
from builder.lesson.generated.picking import in_one_chain, pick_of
from builder.lesson.generated.view import View
from builder.lesson.questions.forms import PickQuestion
from builder.problem.model import NestProblem
from tests.lesson.generated.by_numpy import Branch, branches_of, sign, solved
from tests.lesson.generated.views import view_of_nest, view_of_table
from tests.lesson.telling import asking, parallel, plain, series
from tests.strategies import problems

BANK = series("C1", parallel("C2", "C3"))
LOOP = series("R1", parallel("R2", "R3"), "R4")
SIDE = parallel(series("R1", "R2"), "R3", "R4")
BRIDGE = """
    V0: {emf: 12 V, between: [a, d]}
    R1: {resistance: 20 ohm, between: [a, b]}
    R2: {resistance: 10 ohm, between: [a, c]}
    R3: {resistance: 30 ohm, between: [b, d]}
    R4: {resistance: 20 ohm, between: [c, d]}
    R5: {resistance: 15 ohm, between: [b, c]}
"""


def _asked(tree: Tree, source: str | None = "12 V") -> dict[str, tuple[PickQuestion, View]]:
    """The questions that problems of many names ask of one circuit, by their words."""
    found = {}
    for number in range(60):
        view = view_of_nest(asking(tree, source), f"problem-{number}")
        question = pick_of(view)
        if question is not None:
            found[plain(question.ask, view.display)] = (question, view)
    return found


def _told(question: PickQuestion, view: View) -> list[str]:
    """Each element with its reason, a star before what is to be picked."""
    return [("* " if item.right else "") + plain(item.why, view.display)
            for item in question.items]  # fmt: skip


WORKED = [
    (BANK, "Which capacitors share both junctions with C₂? Pick them in the figure.",
     ["C₁ shares only one junction with C₂.", "* C₃ shares both junctions with C₂."]),
    (LOOP, "Which resistors must carry the same current as R₁, whatever their resistances are? "
     "Pick them in the figure.",
     ["Between R₁ and R₂ current can branch off or join.",
      "Between R₁ and R₃ current can branch off or join.",
      "* All that flows through R₁ must flow through R₄ as well."]),
    (LOOP, "Which resistors share both junctions with R₃? Pick them in the figure.",
     ["R₁ shares only one junction with R₃.", "* R₂ shares both junctions with R₃.",
      "R₄ shares only one junction with R₃."]),
    (SIDE, "Which resistors must have the whole voltage of the source across them, whatever the "
     "values are? Pick them in the figure.",
     ["Only one end of R₁ is joined to a pole of the source by wire alone.",
      "Only one end of R₂ is joined to a pole of the source by wire alone.",
      "* R₃ lies straight between the two poles of the source.",
      "* R₄ lies straight between the two poles of the source."]),
    (parallel(series("C1", "C2"), "C3"),
     "Which capacitors must carry the same charge as C₁, whatever their capacitances are? Pick "
     "them in the figure.",
     ["* What C₁ takes up, C₂ must take up as well: the charge has no other way.",
      "Between C₁ and C₃ charge can branch off or join."]),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "ask", "told"), WORKED)
def test_picking_worked_by_hand(tree: Tree, ask: str, told: list[str]) -> None:
    """Each question that some problem asks of the circuit, with every reason."""
    question, view = _asked(tree)[ask]
    assert _told(question, view) == told


def test_what_is_asked_about_is_not_among_what_can_be_picked() -> None:
    """Its junctions can be traced."""
    for question, view in _asked(BANK).values():
        names = [item.id for item in question.items]
        assert question.about not in names
        if question.about:
            assert question.traced == view.network.element(question.about).between


def test_a_bridge_is_asked_for_single_junctions() -> None:
    """No two share both; the figure names the junctions, and so do the reasons."""
    view = view_of_table(BRIDGE)
    question = pick_of(view)
    assert question is not None
    ask = plain(question.ask, view.display)
    assert ask.startswith("Which resistors share a junction with R")
    assert any("at junction" in each for each in _told(question, view))
    assert any("shares no junction" in each for each in _told(question, view))


def test_a_circuit_of_two_has_nothing_to_pick() -> None:
    """There would be one box to tick."""
    assert pick_of(view_of_nest(asking(series("C1", "C2"), "12 V"))) is None


@given(problem=problems(least=3, most=10))
@settings(max_examples=300)
def test_what_must_carry_the_same_does_whatever_the_values(problem: NestProblem) -> None:
    """With three sets of random values by numpy; what need not carry the same then does not."""
    view = View("a-circuit", cast("Any", None), problem.law, problem.network, problem.tree)
    partners = in_one_chain(view)
    assert partners is not None
    chance = random.Random(len(problem.network.elements))
    always = {one: set(view.members) - {one} for one in view.members}
    for _ in range(3):
        branches = branches_of(view.network, view.law)
        for name in view.members:
            branches[name] = replace(branches[name], weight=chance.uniform(1, 3))
        flows = _flows(branches)
        for one, others in always.items():
            others -= {other for other in others if sign(flows[other], flows[one])}
    assert {one: set(names) for one, names in partners.items()} == always


def _flows(branches: dict[str, Branch]) -> dict[str, float]:
    found = solved(branches)
    assert found is not None
    return {name: flow for name, (flow, _) in found.items()}


@given(problem=problems(least=3, most=10))
@settings(max_examples=150)
def test_every_question_has_something_right_and_a_reason_for_all(problem: NestProblem) -> None:
    """Of any nest; its right elements are those that the network's junctions say."""
    view = view_of_nest(problem)
    question = pick_of(view)
    if question is None:
        return
    right = {item.id for item in question.items if item.right}
    assert right
    assert all(plain(item.why, view.display).endswith(".") for item in question.items)
    ends = {one.name: set(one.between) for one in problem.network.elements}
    ask = plain(question.ask, view.display)
    if "share both junctions" in ask:
        like = ends[question.about]
        assert right == {n for n, at in ends.items() if at == like} - {question.about}
    elif "whole voltage" in ask:
        poles = set(problem.network.sources[0].between)
        assert right == {n for n, at in ends.items() if at == poles}
    else:
        assert "must carry the same" in ask
