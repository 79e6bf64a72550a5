"""Results that an author's texts tell are found, so that other numbers do not contradict them."""

from __future__ import annotations

import pytest

from builder.problem import read_problem_text
from builder.quantity.names import Name
from builder.solution.fresh import fresh_solutions
from builder.solution.solve import solve
from builder.solution.spelled import spelled_results
from tests.problem.fresh.files import FILES, problem_in

LAMPS = """\
title: Two lamps
scenario: SAID
circuit:
  source: 12 V
  series:
    - R1: 1 ohm
    - R2: 6 ohm
find: [{current: R1}, {voltage: [R1, R2]}]
"""
CURRENT = Name("current", "total")
FIRST, SECOND = Name("voltage", "R1"), Name("voltage", "R2")


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("The lamps glow.", ()),
        ("A battery of 12 V feeds {R1} and {R2}.", ()),  # those are given
        ("About 1.7 A flows.", ("current",)),  # 12/7 A
        ("About 1.71 A, no less.", ("current",)),
        ("More than 1.70 A flows.", ()),
        ("A fuse of 2 A protects them.", ("current",)),
        ("The other lamp gets 10.3 V.", (SECOND,)),
        ("The other lamp gets 10300 mV.", ()),
        ("The other lamp gets 10.286V.", (SECOND,)),
        ("One gets 12/7 V.", (FIRST,)),
    ],
)
def test_a_text_tells_a_result_as_far_as_its_digits_go(
    said: str, told: tuple[str | Name, ...]
) -> None:
    """A rounded number tells the value too; another one does not, nor does what is given."""
    problem = read_problem_text(LAMPS.replace("SAID", f'"{said}"'), "lamps.yml")
    found = spelled_results(solve(problem))
    assert {name.quantity if "current" in told else name for name in found} == set(told)


def test_the_problems_of_the_unit_tell_no_results() -> None:
    """None of them keeps itself from having other numbers."""
    assert [file.stem for file in FILES if spelled_results(solve(problem_in(file)))] == []


def test_such_a_problem_has_no_other_numbers_on_its_own() -> None:
    """Unless its author says with vary: that it may have them all the same."""
    told = LAMPS.replace("SAID", '"About 1.71 A flows."').replace("12 V", "24 V").replace(
        "1.71", "3.43"
    )  # fmt: skip
    assert list(fresh_solutions(solve(read_problem_text(told, "lamps.yml")), most=2)) == []
    asked = told + "vary: {R1: [1 ohm, 2 ohm, 6 ohm]}\n"
    assert list(fresh_solutions(solve(read_problem_text(asked, "lamps.yml")), most=2))
