"""Systems of equations: collected numbers behind a brace, in three ways of writing."""

from __future__ import annotations

import re
from fractions import Fraction
from xml.etree import ElementTree

import pytest

from builder.lesson.equations import Stated
from builder.lesson.linear_system import LinearSystem, linear_system
from builder.quantity.formula import Num, Ref, Solved, System
from builder.site.markup import Writer
from builder.site.mathml import MathWriter
from builder.site.plain_text import worked_solution
from builder.site.spoken import Speaker
from tests.lesson.network.networks import LESSONS, lesson_of


def _system(called: str, step: str) -> LinearSystem:
    lesson = lesson_of(*LESSONS[called])
    (taught,) = (one for one in lesson.steps if one.step.id == step)
    (system,) = (one for one in taught.equations if isinstance(one, LinearSystem))
    return system


# R1 A + R3 (A − B) = E1 is 26 A − 25 B = 14; R2 B + R3 (B − A) = −E2 is −25 A + 25.5 B = −12.
# At b: (b − 14)/1 + (b − 12)/0.5 + b/25 = 0 is 3.04 b = 38, or 76 b = 950, or 2 b = 25.
# At b: 9 (b − 12) + 3 b + 6 (b − c) = 0 is 18 b − 6 c = 108; at c 12 c − 6 b = 24.
COLLECTED = [
    ("batteries", "loops", ((26, -25), (-50, 51)), ("14 A", "−24 A")),
    ("batteries-by-junctions", "junctions", ((1,),), ("12.5 V",)),
    ("charges-by-junctions", "junctions", ((3, -1), (-1, 2)), ("18 V", "4 V")),
]


@pytest.mark.parametrize(("called", "step", "rows", "right"), COLLECTED)
def test_numbers_are_collected_to_the_smallest_whole_ones(
    called: str, step: str, rows: tuple[tuple[int, ...], ...], right: tuple[str, ...]
) -> None:
    """Worked by hand in the comment; the signs stay those of the equations."""
    system = _system(called, step)
    assert system.rows == rows
    assert tuple(shown.text for shown in system.right) == right


def test_equations_stand_in_symbols_then_in_numbers_then_collected() -> None:
    """And the values of the unknowns come last."""
    lesson = lesson_of(*LESSONS["batteries"])
    written = lesson.steps[0].equations
    assert [type(one).__name__ for one in written] == [
        "Stated", "Stated", "Stated", "Stated", "LinearSystem", "Equation", "Equation",
    ]  # fmt: skip
    assert [bool(one.known) for one in written if isinstance(one, Stated)] == [
        False, False, True, True,
    ]  # fmt: skip


def test_a_system_is_written_as_text() -> None:
    """A brace before each line, and no sign before the first term but a minus."""
    lines = [line.strip() for line in worked_solution(lesson_of(*LESSONS["batteries"])).split("\n")]
    assert "{ 26 I_A − 25 I_B = 14 A" in lines
    assert "{ −50 I_A + 51 I_B = −24 A" in lines


def test_a_system_is_written_as_mathematics() -> None:
    """One brace, and each unknown in a column of its own."""
    lesson = lesson_of(*LESSONS["batteries"])
    maths = MathWriter(Writer(lesson.display))
    html = str(maths.equations(lesson.steps[0].equations))
    first, second = re.findall(r"<math.*?</math>", html)
    root = ElementTree.fromstring(first)
    assert sum(node.text == "{" for node in root.iter("mo")) == 1
    (system,) = (node for node in root.iter("mtable") if node.get("class") == "sw-system")
    rows = ["".join(row.itertext()).replace("\u2062", "") for row in system]
    assert rows == ["26IA−25IB=14A", "−50IA+51IB=−24A"]
    assert len({len(list(row)) for row in system}) == 1
    assert "I" in "".join(ElementTree.fromstring(second).itertext())


def test_a_single_equation_needs_no_brace() -> None:
    """One unknown: its equation stands alone."""
    lesson = lesson_of(*LESSONS["batteries-by-junctions"])
    html = str(MathWriter(Writer(lesson.display)).equations(lesson.steps[0].equations))
    assert "{" not in html


def test_a_system_is_said() -> None:
    """In words that need no eye for columns."""
    lesson = lesson_of(*LESSONS["charges-by-junctions"])
    said = Speaker(lesson.display).equations([_system("charges-by-junctions", "junctions")])
    assert said == (
        "together, 3 times phi sub b minus phi sub c equals 18 volts, "
        "minus phi sub b plus 2 times phi sub c equals 4 volts."
    )


def test_a_system_that_nothing_is_found_from_is_not_written() -> None:
    """Without unknowns of one kind there is no unit for the right side."""
    display = lesson_of(*LESSONS["batteries"]).display
    (line, *_) = lesson_of(*LESSONS["batteries"]).steps[0].step.lines
    assert isinstance(line.formula, Solved)
    strange = System(((Num(Fraction(1)),),), (Ref(line.name),))
    assert list(linear_system(strange, display)) == []
