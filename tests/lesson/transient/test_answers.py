"""The answers of a circuit that charges, as programs read them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.lesson.answers import answers
from builder.problem import read_problem
from builder.solution import solve

PROBLEMS = Path(__file__).parents[3] / "content" / "problems"


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        (
            "bleeder-of-the-strobe",
            [
                ("time-constant", "total", "s", "10", 10.0, "10.0 s"),
                ("current", "R1@start", "A", "3/2000", 0.0015, "1.50 mA"),
                # 10 s · ln(300/30), and 300 V · e^(−3).
                ("time", "C1>1", "s", "10*log(10)", 23.025850929940457, "23.0 s"),
                ("voltage", "C1@t1", "V", "300*exp(-3)", 14.936120510359183, "14.9 V"),
                ("energy", "C1@start", "J", "9/4", 2.25, "2.25 J"),
            ],
        ),
        (
            "lantern-switched-over",
            [
                ("voltage", "C1@start", "V", "6", 6.0, "6.00 V"),
                ("voltage", "C1@end", "V", "2", 2.0, "2.00 V"),
                ("current", "R2@start", "A", "3/1000", 0.003, "3.00 mA"),
                ("time-constant", "total", "s", "1/5", 0.2, "200 ms"),
                # 2 V + 4 V · e^(−2), and 0.2 s · ln(4/1).
                ("voltage", "C1@t1", "V", "4*exp(-2) + 2", 2.5413411329464508, "2.54 V"),
                ("time", "C1>1", "s", "log(4)/5", 0.2772588722239781, "277 ms"),
            ],
        ),
    ],
)
def test_an_answer_has_its_exact_expression_and_its_value(
    name: str, expected: list[tuple[str, str, str, str, float, str]]
) -> None:
    """Exponentials and logarithms stand in ``exact``, their value as a float in ``value``."""
    found: Any = answers(solve(read_problem(PROBLEMS / f"{name}.yml")))
    assert found["agree"] is True
    told = [
        (a["quantity"], a["of"], a["unit"], a["exact"], a["value"], a["shown"])
        for a in found["answers"]
    ]
    assert [row[:4] + row[5:] for row in told] == [row[:4] + row[5:] for row in expected]
    assert [row[4] for row in told] == pytest.approx([row[4] for row in expected], rel=1e-15)
