"""Charged capacitors and switches against printed values and closed forms."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.problem import read_problem_text
from builder.quantity.exact import as_fraction
from builder.quantity.names import Name
from builder.solution import Solution, solve
from tests.published.row import Printed, rounded_as

HEAD = "title: As printed\ncircuit:\n  branches:\n"


def _solved(branches: str, stages: str, find: str) -> Solution:
    rows = "".join(f"    {line}\n" for line in branches.strip().splitlines())
    listed = "".join(f"  - {line}\n" for line in stages.strip().splitlines())
    return solve(read_problem_text(f"{HEAD}{rows}stages:\n{listed}find: {find}\n", "printed.yml"))


# University Physics Volume 2 (OpenStax), chapter 8, exercise fs-id1167131089215: 2.0 and 4.0 µF
# in series across 1.0 kV, then taken off and joined like to like.
CHAIN_TO_PAIR = (
    """
V0: {emf: 1.0 kV, between: [plus, minus]}
C1: {capacitance: 2.0 uF, between: [top, middle]}
C2: {capacitance: 4.0 uF, between: [low, minus]}
S1: {switch: open, between: [plus, top]}
S2: {switch: closed, between: [middle, low]}
S3: {switch: open, between: [top, low]}
S4: {switch: open, between: [middle, minus]}
""",
    "close: S1\nopen: [S1, S2]\nclose: [S3, S4]",
    "charge",
    (
        Printed("charge", "C1", "0.89 mC"),
        Printed("charge", "C2", "1.78 mC"),
        Printed("voltage", "C1", "444 V"),
        Printed("voltage", "C2", "444 V"),
    ),
)
# NCERT Physics for Class XII, part I, chapter 2, solved example: 900 pF at 100 V, then joined to
# an uncharged 900 pF (second value from memory).
HALF_LEFT = (
    """
C1: {capacitance: 900 pF, charged: 100 V, between: [a, g]}
C2: {capacitance: 900 pF, between: [b, g]}
S1: {switch: open, between: [a, b]}
""",
    "close: S1",
    "energy",
    (
        Printed("energy", "total@0", "4.5e-6 J"),
        Printed("energy", "total", "2.25e-6 J"),
    ),
)


@pytest.mark.parametrize(
    ("branches", "stages", "find", "printed"), [CHAIN_TO_PAIR, HALF_LEFT], ids=["C14", "C51"]
)
def test_a_published_example_is_reproduced_to_its_printed_digits(
    branches: str, stages: str, find: str, printed: tuple[Printed, ...]
) -> None:
    """Each answer, rounded to the digits of the book, is the printed one."""
    solution = _solved(branches, stages, find)
    assert solution.agree
    for answer in printed:
        value = as_fraction(solution.value(Name(answer.quantity, answer.of)))
        rounded, as_printed = rounded_as(answer, value)
        assert rounded == as_printed, answer


VOLTAGES = [(4, 2, 12, 6), (5, 7, 3, 11), (1, 9, 100, 1), (6, 6, 8, 3)]


@pytest.mark.parametrize(("c1", "c2", "v1", "v2"), VOLTAGES)
@pytest.mark.parametrize("like", [True, False], ids=["like", "unlike"])
def test_two_joined_capacitors_follow_the_closed_forms(
    c1: int, c2: int, v1: int, v2: int, like: bool
) -> None:
    """V = (C₁V₁ ± C₂V₂)/(C₁ + C₂), and ½·C₁C₂/(C₁ + C₂)·(V₁ ∓ V₂)² is lost."""
    ends = "[b, g]" if like else "[g, b]"
    solution = _solved(
        f"C1: {{capacitance: {c1} F, charged: {v1} V, between: [a, g]}}\n"
        f"C2: {{capacitance: {c2} F, charged: {v2} V, between: {ends}}}\n"
        "S1: {switch: open, between: [a, b]}",
        "close: S1",
        "energy",
    )
    other = v2 if like else -v2
    volts = Fraction(c1 * v1 + c2 * other, c1 + c2)
    assert solution.value(Name("voltage", "C1")) == volts
    assert solution.value(Name("voltage", "C2")) == (volts if like else -volts)
    lost = Fraction(1, 2) * Fraction(c1 * c2, c1 + c2) * (v1 - other) ** 2
    assert solution.value(Name("energy", "lost")) == lost


@pytest.mark.parametrize(("size", "volts"), [("10 F", 9), ("3 F", 12), ("1/7 F", 5)])
def test_a_battery_delivers_twice_what_a_capacitor_stores(size: str, volts: int) -> None:
    """CE² is delivered and half of it lost (University Physics Volume 2, OpenStax, 8.3)."""
    solution = _solved(
        f"V0: {{emf: {volts} V, between: [p, g]}}\n"
        f"C1: {{capacitance: {size}, between: [a, g]}}\n"
        "S1: {switch: open, between: [p, a]}",
        "close: S1",
        "energy",
    )
    delivered = Fraction(size.split(maxsplit=1)[0]) * volts**2
    assert solution.value(Name("energy", "V0")) == delivered
    assert solution.value(Name("energy", "total")) == delivered / 2
    assert solution.value(Name("energy", "lost")) == delivered / 2


@pytest.mark.parametrize("strokes", [1, 2, 5])
def test_a_bucket_fills_by_a_geometric_series(strokes: int) -> None:
    """After n strokes of a bucket C₁ between a battery E and C₂: V = E·(1 − (C₂/(C₁ + C₂))ⁿ).

    By hand: each stroke pours C₁·E into C₁ + C₂ beside the C₂·V that is there already.
    """
    stroke = ["{open: S1, close: S2}", "{open: S2, close: S1}"]
    stages = ["close: S1", *stroke * strokes]
    solution = _solved(
        "V0: {emf: 9 V, between: [p, g]}\nC1: {capacitance: 6 uF, between: [a, g]}\n"
        "C2: {capacitance: 3 uF, between: [b, g]}\nS1: {switch: open, between: [p, a]}\n"
        "S2: {switch: open, between: [a, b]}",
        "\n".join(stages[:-1]),
        "voltage",
    )
    assert solution.value(Name("voltage", "C2")) == 9 * (1 - Fraction(3, 9) ** strokes)
