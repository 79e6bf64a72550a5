"""The answers of a problem as plain data: the contract of ``stepwell solve --json``."""

from __future__ import annotations

from typing import Any

from builder.circuit.law import LAWS
from builder.lesson.kinds import display_of
from builder.quantity.exact import near_fraction
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name
from builder.quantity.symbolic import is_symbolic, plain
from builder.solution import Solution


def answers(solution: Solution) -> dict[str, Any]:
    """What is asked, with its answers in SI units.

    Returns:
        ``{"problem": slug, "agree": bool, "answers": [{"quantity", "of", "unit", "exact",
        "value", "shown"}, …]}``; ``quantity`` is ``equivalent`` for the equivalent of the
        whole circuit, whose ``of`` is ``total``.
    """
    rows = [as_data(solution, asked) for asked in solution.problem.find]
    return {"problem": solution.problem.slug, "agree": solution.agree, "answers": rows}


def as_data(solution: Solution, name: Name) -> dict[str, Any]:
    """One quantity of a solution, as ``answers`` lists it."""
    value = solution.value(name)
    is_equivalent = name.of == TOTAL and name.quantity in LAWS
    return {
        "quantity": "equivalent" if is_equivalent else name.quantity,
        "of": name.of,
        "unit": KINDS[name.quantity].unit,
        "exact": str(plain(value)),
        "value": None if is_symbolic(value) else float(near_fraction(value)),
        "shown": display_of(solution).shown(name).text,
    }
