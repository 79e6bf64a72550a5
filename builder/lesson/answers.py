"""The answers of a problem as plain data: the contract of ``stepwell solve --json``."""

from __future__ import annotations

from typing import Any

from builder.circuit.law import LAWS
from builder.lesson.kinds import display_of
from builder.quantity.exact import near_fraction
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL
from builder.quantity.symbolic import is_symbolic, plain
from builder.solution import Solution


def answers(solution: Solution) -> dict[str, Any]:
    """What is asked, with its answers in SI units.

    Returns:
        ``{"problem": slug, "agree": bool, "answers": [{"quantity", "of", "unit", "exact",
        "value", "shown"}, …]}``; ``quantity`` is ``equivalent`` for the equivalent of the
        whole circuit, whose ``of`` is ``total``.
    """
    display = display_of(solution)
    rows = []
    for asked in solution.problem.find:
        value = solution.value(asked)
        is_equivalent = asked.of == TOTAL and asked.quantity in LAWS
        rows.append(
            {
                "quantity": "equivalent" if is_equivalent else asked.quantity,
                "of": asked.of,
                "unit": KINDS[asked.quantity].unit,
                "exact": str(plain(value)),
                "value": None if is_symbolic(value) else float(near_fraction(value)),
                "shown": display.shown(asked).text,
            }
        )
    return {"problem": solution.problem.slug, "agree": solution.agree, "answers": rows}
