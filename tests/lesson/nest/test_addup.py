"""Which checks are told, in which words and with which numbers."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings

from builder.circuit.tree import Tree
from builder.lesson import Lesson
from builder.lesson.nest.addup import MOST_OF_A_KIND
from builder.problem.model import NestProblem
from builder.quantity.formula import evaluate
from builder.quantity.measure import read_measure
from tests.lesson.telling import asking, lesson_of, parallel, plain, series, taught_problems
from tests.solution.written import written

PATH = "Along the path through {}, the voltages add up to the source's:"
CHAIN = "Along the whole chain, the voltages add up to the source's:"
ENERGIES = "The energies of all capacitors make up the energy of the whole:"
POWERS = "The powers of all resistors make up what the source delivers:"

# Elements have 10, 20, 30 … µF or ohms by number. On 12 V:
# chain of C1, C2: 20/3 µF, 80 µC, ½ · 80 · 12 = 480 µJ.
# chain of R1, R2, R3: 60 Ω, 200 mA, 2.4 W.
# bank of C1, C2: 30 µF, 360 µC, 2.16 mJ; bank of R1, R2: 1.2 + 0.6 = 1.8 A, 21.6 W.
# C1 behind C2 ∥ C3: 25/3 µF, 100 µC, 600 µJ.
# R1 behind R2 ∥ R3 = 12 Ω: 22 Ω, 6/11 A = 545 mA, 72/11 = 6.55 W.
# C1 ∥ C2 (30 µF) before C3 ∥ C4 (70 µF): 21 µF, 252 µC, 1.512 mJ.
TOLD: list[tuple[Tree, str | None, list[tuple[str, str, str]]]] = [
    (series("C1", "C2"), "12 V", [
        ("The charge of the equivalent is the charge on C₁, next to the source's + terminal:",
         "C(total)·V(V0) = Q(C1)", "80.0 µC = 80.0 µC"),
        (CHAIN, "V(V0) = V(C1) + V(C2)", "12.0 V = 12.0 V"),
        (ENERGIES, "U(C1) + U(C2) = ½·Q(total)·V(V0)", "480 µJ = 480 µJ"),
    ]),
    (series("R1", "R2", "R3"), "12 V", [
        ("The current of the equivalent is the current through R₁, next to the source's + "
         "terminal:", "V(V0)/R(total) = I(R1)", "200 mA = 200 mA"),
        (CHAIN, "V(V0) = V(R1) + V(R2) + V(R3)", "12.0 V = 12.0 V"),
        (POWERS, "P(R1) + P(R2) + P(R3) = V(V0)·I(total)", "2.40 W = 2.40 W"),
    ]),
    (parallel("C1", "C2"), "12 V", [
        ("The charge of the equivalent is what C₁ and C₂ hold together:",
         "C(total)·V(V0) = Q(C1) + Q(C2)", "360 µC = 360 µC"),
        (ENERGIES, "U(C1) + U(C2) = ½·Q(total)·V(V0)", "2.16 mJ = 2.16 mJ"),
    ]),
    (parallel("R1", "R2"), "12 V", [
        ("The current of the equivalent is what R₁ and R₂ carry together:",
         "V(V0)/R(total) = I(R1) + I(R2)", "1.80 A = 1.80 A"),
        (POWERS, "P(R1) + P(R2) = V(V0)·I(total)", "21.6 W = 21.6 W"),
    ]),
    (series("C1", parallel("C2", "C3")), "12 V", [
        ("Where C₁ meets C₂ and C₃, the charges on both sides match:",
         "Q(C1) = Q(C2) + Q(C3)", "100 µC = 100 µC"),
        (PATH.format("C₁ and C₂"), "V(V0) = V(C1) + V(C2)", "12.0 V = 12.0 V"),
        (PATH.format("C₁ and C₃"), "V(V0) = V(C1) + V(C3)", "12.0 V = 12.0 V"),
        (ENERGIES, "U(C1) + U(C2) + U(C3) = ½·Q(total)·V(V0)", "600 µJ = 600 µJ"),
    ]),
    (series("R1", parallel("R2", "R3")), "12 V", [
        ("What comes in through R₁ goes out through R₂ and R₃:",
         "I(R1) = I(R2) + I(R3)", "545 mA = 545 mA"),
        (PATH.format("R₁ and R₂"), "V(V0) = V(R1) + V(R2)", "12.0 V = 12.0 V"),
        (PATH.format("R₁ and R₃"), "V(V0) = V(R1) + V(R3)", "12.0 V = 12.0 V"),
        (POWERS, "P(R1) + P(R2) + P(R3) = V(V0)·I(total)", "6.55 W = 6.55 W"),
    ]),
    (series(parallel("C1", "C2"), parallel("C3", "C4")), "12 V", [
        ("The charge of the equivalent is what C₁ and C₂ hold together:",
         "C(total)·V(V0) = Q(C1) + Q(C2)", "252 µC = 252 µC"),
        ("Where C₁ and C₂ meet C₃ and C₄, the charges on both sides match:",
         "Q(C1) + Q(C2) = Q(C3) + Q(C4)", "252 µC = 252 µC"),
        (PATH.format("C₁ and C₃"), "V(V0) = V(C1) + V(C3)", "12.0 V = 12.0 V"),
        (PATH.format("C₂ and C₃"), "V(V0) = V(C2) + V(C3)", "12.0 V = 12.0 V"),
        (PATH.format("C₁ and C₄"), "V(V0) = V(C1) + V(C4)", "12.0 V = 12.0 V"),
        (ENERGIES, "U(C1) + U(C2) + U(C3) + U(C4) = ½·Q(total)·V(V0)", "1.51 mJ = 1.51 mJ"),
    ]),
    (series("C1", "C2"), "12 uC", [
        # 12 µC on 20/3 µF: 1.8 V, ½ · 12 · 1.8 = 10.8 µJ.
        ("The charge of the equivalent is the charge on C₁, next to the source's + terminal:",
         "C(total)·V(total) = Q(C1)", "12.0 µC = 12.0 µC"),
        (CHAIN, "V(total) = V(C1) + V(C2)", "1.80 V = 1.80 V"),
        (ENERGIES, "U(C1) + U(C2) = ½·Q(Q0)·V(total)", "10.8 µJ = 10.8 µJ"),
    ]),
    (series("C1", "C2"), None, [
        ("The equivalent is less than its smallest part:",
         "C(total) < C(C1)", "6.67 µF < 10.0 µF"),
    ]),
    (series("R1", parallel("R2", "R3")), None, [
        ("The equivalent is more than its largest part:",
         "R(total) > R(R23)", "22.0 Ω > 12.0 Ω"),
    ]),
]  # fmt: skip


def _written(lesson: Lesson) -> list[tuple[str, str, str]]:
    return [
        (
            plain(check.says, lesson.display),
            f"{written(check.left)} {check.relation} {written(check.right)}",
            f"{check.left_number.text} {check.relation} {check.right_number.text}",
        )
        for check in lesson.checks
    ]


@pytest.mark.parametrize(("tree", "source", "told"), TOLD)
def test_what_adds_up_is_told(
    tree: Tree, source: str | None, told: list[tuple[str, str, str]]
) -> None:
    """Chains, banks and nests; without a source only how the equivalent compares."""
    lesson = lesson_of(asking(tree, source))
    assert _written(lesson) == told
    assert lesson.checks_rest == ()


def test_a_single_element_has_nothing_to_add_up() -> None:
    """Nothing is told, and nothing is said to be left out."""
    lesson = lesson_of(asking("C1", "12 V"))
    assert (lesson.checks, lesson.checks_rest) == ((), ())


def test_a_comparison_that_rounding_hides_is_not_told() -> None:
    """A thousandth of an ohm behind one ohm is no more at three digits."""
    typed = {"R1": "1 ohm", "R2": "1 mohm"}
    assert lesson_of(asking(series("R1", "R2"), None, values=typed)).checks == ()


@pytest.mark.parametrize(
    ("chains", "paths", "rest"),
    [
        (4, 4, ""),
        (5, 4, "One more like these holds as well."),
        (6, 4, "Two more like these hold as well."),
        (20, 4, "16 more like these hold as well."),
    ],
)
def test_at_most_four_of_a_kind_are_told(chains: int, paths: int, rest: str) -> None:
    """A sentence counts the rest."""
    pairs = [series(f"R{2 * n - 1}", f"R{2 * n}") for n in range(1, chains + 1)]
    lesson = lesson_of(asking(parallel(*pairs), "12 V"))
    told = [plain(check.says, lesson.display) for check in lesson.checks]
    assert sum(text.startswith("Along the path") for text in told) == paths
    assert plain(lesson.checks_rest, lesson.display) == rest


@given(problem=taught_problems())
@settings(max_examples=60)
def test_the_numbers_of_a_check_are_its_sides(problem: NestProblem) -> None:
    """Both sides are equal by the nodal method, and shown so; no kind is told too often."""
    lesson = lesson_of(problem)
    known = {
        lesson.display.naming.resolve(name): value for name, value in lesson.solution.second.items()
    }
    values = {**{name: lesson.solution.values[name] for name in lesson.solution.givens}, **known}
    for check in lesson.checks:
        left, right = evaluate(check.left, values), evaluate(check.right, values)
        shown = [check.left_number.text, check.right_number.text]
        if check.relation == "=":
            assert left == right
            assert shown[0] == shown[1]
        else:
            assert bool(left < right) == (check.relation == "<")
            assert shown[0] != shown[1]
        for side, text in zip((left, right), shown, strict=True):
            assert abs(read_measure(text).value - side) <= abs(side) / 10 ** (problem.digits - 1)
    starts = Counter(plain(check.says, lesson.display).split(" ")[0] for check in lesson.checks)
    assert starts["Along"] <= MOST_OF_A_KIND
    assert starts["Where"] + starts["What"] <= MOST_OF_A_KIND
