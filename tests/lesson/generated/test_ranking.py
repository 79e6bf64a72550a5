"""Rankings say what the circuit's exact values say, and their reasons hold."""

from __future__ import annotations

import re
from itertools import combinations

import pytest
from hypothesis import given, settings

from builder.circuit.tree import Tree
from builder.lesson.generated.ranking import ranking_of
from builder.lesson.generated.view import View
from builder.lesson.questions.forms import RankingQuestion
from builder.problem import read_problem_text
from builder.problem.model import NestProblem
from tests.lesson.generated.by_numpy import branches_of, sign, solved
from tests.lesson.generated.views import named_in, view_of_nest, view_of_table
from tests.lesson.telling import asking, parallel, plain, series
from tests.strategies import problems

# Worked by hand. C1 = 10 µF behind C2 ∥ C3: Q1 = Q2 + Q3, and Q3 > Q2 at the same voltage.
# Three in one chain carry one charge. R1 and R4 in one chain round R2 ∥ R3: I1 = I4 = I2 + I3,
# and the smaller R2 takes more. C4 straight beside the chain C1, C2, C3: V4 = V1 + V2 + V3.
CASES = [
    (series("C1", parallel("C2", "C3")), "charge", [1, 3, 2],
     ["The charge on C₁ is shared out between branches, so C₂ and C₃ each get only a part of it.",
      "C₂ and C₃ share both junctions and have the same voltage. By Q = CV, the larger the "
      "capacitance, the larger the charge."]),
    (series("R1", parallel("R2", "R3"), "R4"), "current", [1, 2, 3, 1],
     ["The current that R₁ and R₄ have in common is shared out between branches, so R₂ and R₃ "
      "each get only a part of it.",
      "R₁ and R₄ lie in one chain: all that flows through one flows through the other as well, so "
      "they carry the same current.",
      "R₂ and R₃ share both junctions and have the same voltage. By I = V/R, the smaller the "
      "resistance, the larger the current."]),
    (parallel(series("C1", "C2", "C3"), "C4"), "voltage", [2, 3, 4, 1],
     ["C₁, C₂ and C₃ lie in one chain and have the same charge. By V = Q/C, the smaller the "
      "capacitance, the larger the voltage.",
      "C₁, C₂ and C₃ each have only a part of the voltage across C₄: the rest lies across the "
      "other elements of the same branch."]),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "quantity", "places", "reasons"), CASES)
def test_rankings_worked_by_hand(
    tree: Tree, quantity: str, places: list[int], reasons: list[str]
) -> None:
    """Ties share a place and no place is left out; each pair has its reason."""
    view = view_of_nest(asking(tree, "12 V"))
    question = ranking_of(view)
    assert question is not None
    assert f"by the {quantity} " in plain(question.ask, view.display)
    assert [item.place for item in question.items] == places
    assert [plain(reason.text, view.display) for reason in question.reasons] == reasons


ALL_ALIKE = [
    (series("C1", "C2", "C3"), {"charge", "voltage", "energy"}),
    (parallel("R1", "R2", "R3"), {"current", "voltage", "power"}),
]


@pytest.mark.parametrize(("tree", "quantities"), ALL_ALIKE)
def test_other_problems_are_asked_about_other_quantities(tree: Tree, quantities: set[str]) -> None:
    """By the name of the problem, never by its values."""
    asked = set()
    for number in range(40):
        view = view_of_nest(asking(tree, "12 V"), f"problem-{number}")
        question = ranking_of(view)
        assert question is not None
        (quantity,) = [
            one for one in quantities if f"the {one} " in plain(question.ask, view.display)
        ]
        asked.add(quantity)
        places = {item.place for item in question.items}
        shared = {"charge": series, "voltage": parallel}
        tie = (quantity == "charge") or (quantity == "voltage" and "R1" in str(tree))
        assert (places == {1}) == tie, (quantity, shared)
    assert asked == quantities


def test_the_order_is_told_in_one_line() -> None:
    """By the symbols of the quantity, not of the elements, which would be read as their sizes."""
    view = view_of_nest(asking(series("R1", parallel("R2", "R3"), "R4"), "12 V"))
    question = ranking_of(view)
    assert question is not None
    assert plain(question.order, view.display) == "I₁ = I₄ > I₂ > I₃"


LETTERS = """\
title: A chain of any size
circuit:
  source: V
  series:
    - C1: A
    - C2: B
    - C3: D
find: charge
"""


def test_letters_that_cannot_be_compared_are_not_ranked() -> None:
    """Of one chain only the charges are, which are equal whatever the letters stand for."""
    problem = read_problem_text(LETTERS, "letters.yml")
    assert isinstance(problem, NestProblem)
    view = view_of_nest(problem)
    question = ranking_of(view)
    assert question is not None
    assert "by the charge" in plain(question.ask, view.display)


def test_two_elements_or_no_source_are_no_ranking() -> None:
    """Nothing drives the circuit, or a choice between two is all there is."""
    assert ranking_of(view_of_nest(asking(series("C1", "C2"), "12 V"))) is None
    assert ranking_of(view_of_nest(asking(series("C1", "C2", "C3"), None))) is None


def test_a_bridge_is_not_ranked() -> None:
    """Only arithmetic could."""
    bridge = """
        V0: {emf: 12 V, between: [a, d]}
        R1: {resistance: 20 ohm, between: [a, b]}
        R2: {resistance: 10 ohm, between: [a, c]}
        R3: {resistance: 30 ohm, between: [b, d]}
        R4: {resistance: 20 ohm, between: [c, d]}
        R5: {resistance: 15 ohm, between: [b, c]}
    """
    assert ranking_of(view_of_table(bridge)) is None


@given(problem=problems(least=3, most=10))
@settings(max_examples=300)
def test_places_are_those_of_floating_point(problem: NestProblem) -> None:
    """Of any nest; every two have just one reason, and it claims nothing that is false."""
    view = view_of_nest(problem)
    question = ranking_of(view)
    if question is None:
        return
    members = named_in("".join(plain(item.what, view.display) for item in question.items))
    sizes = _sizes(view, question)
    for one, other in combinations(range(len(members)), 2):
        right = question.items[one].place - question.items[other].place
        assert (right < 0) - (right > 0) == sign(sizes[members[one]], sizes[members[other]])
    pairs = [tuple(sorted(pair)) for reason in question.reasons for pair in reason.pairs]
    assert sorted(pairs) == list(combinations(range(len(members)), 2))
    for reason in question.reasons:
        _holds(plain(reason.text, view.display), view)


def _sizes(view: View, question: RankingQuestion) -> dict[str, float]:
    """What is ranked, by element, from numpy."""
    found = solved(branches_of(view.network, view.law))
    assert found is not None
    (noun,) = re.findall(r"by the (\w+) ", plain(question.ask, view.display))
    return {
        name: {"charge": flow, "current": flow, "voltage": drop}.get(noun, flow * drop)
        for name, (flow, drop) in found.items()
    }


def _holds(text: str, view: View) -> None:
    """Every claim of a reason against the values from numpy."""
    found = solved(branches_of(view.network, view.law))
    assert found is not None
    flows = {name: abs(flow) for name, (flow, _) in found.items()}
    drops = {name: abs(drop) for name, (_, drop) in found.items()}
    named = named_in(text)
    if "the same voltage" in text:
        assert _alike(drops, named)
    elif "the same charge" in text or "the same current" in text:
        assert _alike(flows, named)
    elif "is shared out" in text:
        wholes, parts = map(named_in, text.split("is shared out"))
        assert parts
        assert all(flows[whole] > flows[part] for whole in wholes for part in parts)
    else:
        parts, wholes = map(named_in, text.split("only a part of the voltage"))
        assert wholes
        assert all(drops[whole] > drops[part] for whole in wholes for part in parts)
    rule = re.search(r"By (.*), the (larger|smaller) the \w+, the larger the (\w+)\.", text)
    if rule:
        law, which, noun = rule.groups()
        values = {name: float(view.network.element(name).value) for name in named}
        sizes = {name: {"charge": flows, "current": flows, "voltage": drops}[noun][name]
                 if noun not in ("energy", "power") else flows[name] * drops[name]
                 for name in named}  # fmt: skip
        for one, other in combinations(named, 2):
            grows = sign(values[one], values[other])
            assert sign(sizes[one], sizes[other]) == (grows if which == "larger" else -grows), law


def _alike(sizes: dict[str, float], names: list[str]) -> bool:
    return all(sign(sizes[name], sizes[names[0]]) == 0 for name in names)
