"""Steps written in one line each, so that a table can say what a solution must be."""

from __future__ import annotations

from collections.abc import Iterable

from builder.circuit.tree import leaves
from builder.quantity.formula import (
    Formula,
    Num,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Square,
    Sum,
)
from builder.quantity.names import Name, kind_letter
from builder.solution.nest.step import NestStep


def written_name(name: Name) -> str:
    """``Q(C2)`` for the charge of C2."""
    return f"{kind_letter(name.quantity)}({name.of})"


def written(formula: Formula) -> str:
    """A formula in one line: ``½·Q(C2)·V(C2)``."""
    match formula:
        case Ref(name):
            return written_name(name)
        case Num(value):
            return "½" if str(value) == "1/2" else str(value)
        case Sum(terms):
            return " + ".join(map(written, terms))
        case Product(factors):
            return "·".join(map(written, factors))
        case Quotient(over, under):
            below = written(under)
            return f"{written(over)}/({below})" if "·" in below else f"{written(over)}/{below}"
        case Square(base):
            return f"{written(base)}²"
        case ReciprocalSum(terms):
            return " ∥ ".join(map(written, terms))
        case _:
            raise AssertionError(f"nothing is agreed on how to write {formula}")


def written_steps(steps: Iterable[NestStep]) -> list[str]:
    """Each step as ``id: name = formula; … [circuit after it]``."""
    return [
        f"{step.id}: "
        + "; ".join(f"{written_name(line.name)} = {written(line.formula)}" for line in step.lines)
        + f" [{' '.join(leaves(step.circuit))}]"
        for step in steps
    ]
