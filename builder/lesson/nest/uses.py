"""What the problems of a unit make use of, so that reference pages show that and no more."""

from __future__ import annotations

from builder.circuit.tree import groups
from builder.problem.model import NestProblem

SOURCE = "source"
TERMINALS = "terminals"
NESTED = "nested"
ASKED = "asked-"


def uses(problem: NestProblem) -> frozenset[str]:
    """Words for all that occurs in a problem.

    The kind of element (``capacitor``), each connection alone and with its element (``series``,
    ``capacitor-series``), the kinds of quantity, and how the circuit is driven: ``source`` with
    ``voltage-source``, ``current-source`` or ``charge-source``, and ``terminals`` where no
    symbol stands for the source. ``nested`` tells of a group in a group, ``asked-charge`` that
    a charge is to be found.
    """
    law, source = problem.law, problem.network.source
    found = {law.element}
    for group in groups(problem.tree):
        found |= {group.connection, f"{law.element}-{group.connection}"}
    found |= {f"{ASKED}{name.quantity}" for name in problem.find}
    found |= {NESTED} if sum(1 for _ in groups(problem.tree)) > 1 else set()
    if source is None:
        return frozenset({*found, law.value, TERMINALS})
    found |= {*law.quantities, SOURCE, f"{source.quantity}-{SOURCE}"}
    return frozenset(found | ({TERMINALS} if source.quantity == "charge" else set()))
