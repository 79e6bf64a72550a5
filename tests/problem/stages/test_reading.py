"""Good forms of problems in stages."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.circuit.switching import Stage
from builder.problem import read_problem_text
from builder.problem.model import StagesProblem
from builder.quantity.names import Name

CIRCUIT = """\
title: A transfer
circuit:
  branches:
    V0: {emf: 12 V, between: [p, g]}
    C1: {capacitance: 4 uF, between: [a, g]}
    C2: {capacitance: 2 uF, charged: 6 V, between: [b, g]}
    S1: {switch: open, between: [p, a]}
    S2: {switch: closed, between: [b, d]}
    S3: {switch: open, between: [a, d]}
"""
STAGES = """\
stages:
  - close: S1
  - open: S1
    close: S3
  - turn: C2
  - open: [S2, S3]
"""


def read(text: str) -> StagesProblem:
    """A problem in stages from the text of its file."""
    problem = read_problem_text(text, "transfer.yml")
    assert isinstance(problem, StagesProblem)
    return problem


def test_stages_are_read_in_order() -> None:
    """Each item closes, opens or turns what it names; one name needs no brackets."""
    problem = read(f"{CIRCUIT}{STAGES}find: charge\n")
    assert problem.stages == (
        Stage(close=("S1",)),
        Stage(close=("S3",), open=("S1",)),
        Stage(turn=("C2",)),
        Stage(open=("S2", "S3")),
    )
    assert [(s.name, s.closed) for s in problem.switches] == [
        ("S1", False), ("S2", True), ("S3", False)
    ]  # fmt: skip


def test_a_charge_may_be_stated_as_a_voltage_or_as_a_charge() -> None:
    """``charged`` keeps what the author wrote."""
    told = read(f"{CIRCUIT}{STAGES}find: charge\n").charged["C2"]
    assert (told.quantity, told.value, told.shown.text) == ("voltage", 6, "6 V")
    told = read(f"{CIRCUIT.replace('6 V', '12 uC')}{STAGES}find: charge\n").charged["C2"]
    assert (told.quantity, told.value) == ("charge", Fraction(12, 10**6))


FORMS = [
    ("charge", [("charge", "C1"), ("charge", "C2")]),
    ("[voltage: C1]", [("voltage", "C1")]),
    ("[{charge: {C1: after 1, C2: before}}]", [("charge", "C1@1"), ("charge", "C2@0")]),
    ("[{voltage: {all: after 2}}]", [("voltage", "C1@2"), ("voltage", "C2@2")]),
    ("[{energy: lost}, {energy: total}]", [("energy", "lost"), ("energy", "total")]),
    ("[{energy: {lost: in stage 2}}]", [("energy", "lost@2")]),
    ("[{energy: {total: before}}]", [("energy", "total@0")]),
    ("[{charge: V0}, {energy: {V0: in 1}}]", [("charge", "V0"), ("energy", "V0@1")]),
]


@pytest.mark.parametrize(("asked", "names"), FORMS)
def test_quantities_are_asked_at_the_end_or_after_a_stage(
    asked: str, names: list[tuple[str, str]]
) -> None:
    """A name alone means the end; a moment after it means just that."""
    problem = read(f"{CIRCUIT}{STAGES}find: {asked}\n")
    assert problem.find == tuple(Name(*name) for name in names)


def test_places_of_junctions_are_kept() -> None:
    """An author may say where junctions stand in the figure."""
    text = f"{CIRCUIT}  place: {{p: [0, 1], g: [0, 0], a: [1, 1], b: [3, 1], d: [2, 1]}}\n"
    problem = read(f"{text}{STAGES}find: charge\n")
    assert problem.place["b"] == (Fraction(3), Fraction(1))
