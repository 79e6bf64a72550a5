"""The steps that a question needs, and no others."""

from __future__ import annotations

import pytest

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.circuit.tree import Leaf, Tree, in_parallel, in_series, leaves
from builder.problem.model import NestProblem
from builder.quantity.names import TOTAL, Name
from builder.solution.nest.solve import solve_nest
from builder.solution.nest.step import StepKind
from builder.solution.nest.stepwise import naming_of
from tests.solution.written import written_steps
from tests.strategies import SOURCE_NAMES, problem_of


def _series(*parts: Tree | str) -> Tree:
    return in_series("", *(Leaf(part) if isinstance(part, str) else part for part in parts))


def _parallel(*parts: Tree | str) -> Tree:
    return in_parallel("", *(Leaf(part) if isinstance(part, str) else part for part in parts))


def _asking(tree: Tree, source: str | None, *asked: str) -> NestProblem:
    """A circuit of 10, 20, 30 … microfarads or ohms of which ``quantity:element`` are asked."""
    law = CAPACITORS if leaves(tree)[0].startswith("C") else RESISTORS
    unit = "uF" if law is CAPACITORS else "ohm"
    values = {name: f"{10 * (n + 1)} {unit}" for n, name in enumerate(sorted(leaves(tree)))}
    find = tuple(Name(*name.split(":")) for name in asked)
    return problem_of(tree, law, values, source, find)


CHAIN = _series("C1", "C2")
PAIR = _parallel("C1", "C2")
MIXED = _series("C1", _parallel("C2", "C3"))
LAMPS = _parallel("R1", _series("R2", "R3"))

SLICED: dict[str, tuple[Tree, str | None, list[str], list[str]]] = {
    "straight across the source needs no merging": (
        PAIR, "12 V", ["charge:C1"],
        ["open-total: V(C1) = V(V0); Q(C1) = C(C1)·V(C1) [C1 C2]"],
    ),
    "a total with all branches asked is their sum": (
        PAIR, "12 V", ["charge:C1", "charge:C2", "charge:total"],
        [
            "open-total: V(C1) = V(V0); V(C2) = V(V0); "
            "Q(C1) = C(C1)·V(C1); Q(C2) = C(C2)·V(C2) [C1 C2]",
            "charge-total: Q(total) = Q(C1) + Q(C2) [C1 C2]",
        ],
    ),
    "a total alone goes by the equivalent": (
        PAIR, "12 V", ["charge:total"],
        [
            "merge-total: C(total) = C(C1) + C(C2) [total]",
            "charge: Q(total) = C(total)·V(V0) [total]",
        ],
    ),
    "an equivalent that is asked is used for the total": (
        PAIR, "12 V", ["capacitance:total", "charge:C1", "charge:C2", "charge:total"],
        [
            "merge-total: C(total) = C(C1) + C(C2) [total]",
            "charge: Q(total) = C(total)·V(V0) [total]",
            "open-total: V(C1) = V(V0); V(C2) = V(V0); "
            "Q(C1) = C(C1)·V(C1); Q(C2) = C(C2)·V(C2) [C1 C2]",
        ],
    ),
    "series needs the merge, then the flow": (
        CHAIN, "12 V", ["voltage:C1"],
        [
            "merge-total: C(total) = C(C1) ∥ C(C2) [total]",
            "charge: Q(total) = C(total)·V(V0) [total]",
            "open-total: Q(C1) = Q(total); V(C1) = Q(C1)/C(C1) [C1 C2]",
        ],
    ),
    "a given charge goes into a chain unmerged": (
        CHAIN, "6 uC", ["voltage:C1"],
        ["open-total: Q(C1) = Q(Q0); V(C1) = Q(C1)/C(C1) [C1 C2]"],
    ),
    "only the equivalent": (
        MIXED, None, ["capacitance:total"],
        [
            "merge-C23: C(C23) = C(C2) + C(C3) [C1 C23]",
            "merge-total: C(total) = C(C1) ∥ C(C23) [total]",
        ],
    ),
    "down to one inner element": (
        MIXED, "12 V", ["charge:C2"],
        [
            "merge-C23: C(C23) = C(C2) + C(C3) [C1 C23]",
            "merge-total: C(total) = C(C1) ∥ C(C23) [total]",
            "charge: Q(total) = C(total)·V(V0) [total]",
            "open-total: Q(C23) = Q(total); V(C23) = Q(C23)/C(C23) [C1 C23]",
            "open-C23: V(C2) = V(C23); Q(C2) = C(C2)·V(C2) [C1 C2 C3]",
        ],
    ),
    "an outer element leaves the group inside closed": (
        MIXED, "12 V", ["voltage:C1"],
        [
            "merge-C23: C(C23) = C(C2) + C(C3) [C1 C23]",
            "merge-total: C(total) = C(C1) ∥ C(C23) [total]",
            "charge: Q(total) = C(total)·V(V0) [total]",
            "open-total: Q(C1) = Q(total); V(C1) = Q(C1)/C(C1) [C1 C23]",
        ],
    ),
    "a branch across the source leaves the other branch alone": (
        LAMPS, "12 V", ["current:R1"],
        ["open-total: V(R1) = V(V0); I(R1) = V(R1)/R(R1) [R1 R2 R3]"],
    ),
    "only the branch that is asked about is merged": (
        LAMPS, "12 V", ["current:R2"],
        [
            "merge-R23: R(R23) = R(R2) + R(R3) [R1 R23]",
            "open-total: V(R23) = V(V0); I(R23) = V(R23)/R(R23) [R1 R23]",
            "open-R23: I(R2) = I(R23) [R1 R2 R3]",
        ],
    ),
    "branch currents add up to the total": (
        LAMPS, "12 V", ["current:R1", "current:R2", "current:total"],
        [
            "merge-R23: R(R23) = R(R2) + R(R3) [R1 R23]",
            "open-total: V(R1) = V(V0); V(R23) = V(V0); "
            "I(R1) = V(R1)/R(R1); I(R23) = V(R23)/R(R23) [R1 R23]",
            "open-R23: I(R2) = I(R23) [R1 R2 R3]",
            "current-total: I(total) = I(R1) + I(R23) [R1 R2 R3]",
        ],
    ),
    "three in parallel are merged in one step": (
        _parallel("R1", "R2", "R3"), None, ["resistance:total"],
        ["merge-total: R(total) = R(R1) ∥ R(R2) ∥ R(R3) [total]"],
    ),
    "three in series are merged in one step": (
        _series("R1", "R2", "R3"), None, ["resistance:total"],
        ["merge-total: R(total) = R(R1) + R(R2) + R(R3) [total]"],
    ),
    "one element alone": (
        Leaf("C1"), "12 V", ["charge:C1"],
        ["charge: V(C1) = V(V0); Q(C1) = C(C1)·V(C1) [C1]"],
    ),
    "one element alone, asked as the whole": (
        Leaf("R1"), "2 A", ["voltage:total"],
        ["current: I(R1) = I(I0); V(R1) = R(R1)·I(R1) [R1]"],
    ),
    "energy by the shared voltage": (
        PAIR, "12 V", ["energy:C1"],
        [
            "open-total: V(C1) = V(V0) [C1 C2]",
            "energy: U(C1) = ½·C(C1)·V(C1)² [C1 C2]",
        ],
    ),
    "energy by the shared charge": (
        CHAIN, "6 uC", ["energy:C1"],
        [
            "open-total: Q(C1) = Q(Q0) [C1 C2]",
            "energy: U(C1) = Q(C1)²/(2·C(C1)) [C1 C2]",
        ],
    ),
    "energy by charge and voltage where both are asked": (
        PAIR, "12 V", ["energy:C1", "charge:C1"],
        [
            "open-total: V(C1) = V(V0); Q(C1) = C(C1)·V(C1) [C1 C2]",
            "energy: U(C1) = ½·Q(C1)·V(C1) [C1 C2]",
        ],
    ),
    "power by the shared current": (
        _series("R1", "R2"), "12 V", ["power:R1"],
        [
            "merge-total: R(total) = R(R1) + R(R2) [total]",
            "current: I(total) = V(V0)/R(total) [total]",
            "open-total: I(R1) = I(total) [R1 R2]",
            "power: P(R1) = R(R1)·I(R1)² [R1 R2]",
        ],
    ),
    "power by the shared voltage, though a current drives": (
        _parallel("R1", "R2"), "2 A", ["power:R1"],
        [
            "merge-total: R(total) = R(R1) ∥ R(R2) [total]",
            "current: V(total) = R(total)·I(I0) [total]",
            "open-total: V(R1) = V(total) [R1 R2]",
            "power: P(R1) = V(R1)²/R(R1) [R1 R2]",
        ],
    ),
    "power by current and voltage where both are asked": (
        Leaf("R1"), "12 V", ["current:R1", "voltage:R1", "power:R1"],
        [
            "current: V(R1) = V(V0); I(R1) = V(R1)/R(R1) [R1]",
            "power: P(R1) = V(R1)·I(R1) [R1]",
        ],
    ),
    "energy of the whole from its equivalent": (
        CHAIN, "12 V", ["energy:total"],
        [
            "merge-total: C(total) = C(C1) ∥ C(C2) [total]",
            "energy-total: U(total) = ½·C(total)·V(V0)² [total]",
        ],
    ),
    "energy of the whole from all parts where they are asked": (
        PAIR, "12 V", ["energy:C1", "energy:C2", "energy:total"],
        [
            "open-total: V(C1) = V(V0); V(C2) = V(V0) [C1 C2]",
            "energy: U(C1) = ½·C(C1)·V(C1)²; U(C2) = ½·C(C2)·V(C2)² [C1 C2]",
            "energy-total: U(total) = U(C1) + U(C2) [C1 C2]",
        ],
    ),
}  # fmt: skip


@pytest.mark.parametrize(("tree", "source", "asked", "steps"), SLICED.values(), ids=list(SLICED))
def test_only_what_is_asked_is_in_the_steps(
    tree: Tree, source: str | None, asked: list[str], steps: list[str]
) -> None:
    """The steps are those that a teacher would take for what is asked, and no more."""
    assert written_steps(solve_nest(_asking(tree, source, *asked)).steps) == steps


def test_what_each_step_marks() -> None:
    """A merge marks its equivalent, the drive what is left, an opening the members."""
    steps = solve_nest(_asking(MIXED, "12 V", "charge:C2", "energy:C2")).steps
    assert [(step.kind, step.marked) for step in steps] == [
        (StepKind.MERGE, ("C23",)),
        (StepKind.MERGE, ("total",)),
        (StepKind.DRIVE, ("total",)),
        (StepKind.OPEN, ("C1", "C23")),
        (StepKind.OPEN, ("C2", "C3")),
        (StepKind.WORK, ()),
    ]


def test_a_branch_that_is_not_merged_is_not_marked() -> None:
    """Where a group stays open, its equivalent is not in the circuit and cannot be marked."""
    (step,) = solve_nest(_asking(LAMPS, "12 V", "current:R1")).steps
    assert (step.marked, leaves(step.circuit)) == (("R1",), ("R1", "R2", "R3"))


def test_lines_that_carry_a_value_over_are_known() -> None:
    """The same charge or voltage is carried; a computed value is not."""
    (step,) = solve_nest(_asking(PAIR, "12 V", "charge:C1")).steps
    assert [(line.name.key, line.carries) for line in step.lines] == [
        ("voltage:C1", True),
        ("charge:C1", False),
    ]
    assert step.found == (Name("voltage", "C1"), Name("charge", "C1"))


@pytest.mark.parametrize(("source", "quantity"), [("12 V", "voltage"), ("6 uC", "charge")])
def test_the_sources_own_quantity_stands_for_the_whole(source: str, quantity: str) -> None:
    """What the source gives is asked of the whole circuit under the source's name."""
    problem = _asking(CHAIN, source, "energy:total")
    naming = naming_of(problem)
    assert naming.resolve(Name(quantity, TOTAL)) == Name(quantity, SOURCE_NAMES[quantity])
    assert naming.resolve(Name("energy", TOTAL)) == Name("energy", TOTAL)
    assert naming.resolve(Name(quantity, "C1")) == Name(quantity, "C1")


def test_every_quantity_is_computed_whatever_is_asked() -> None:
    """The results table can show each element's quantities though one was asked."""
    solution = solve_nest(_asking(MIXED, "12 V", "capacitance:total"))
    for element in ("C1", "C2", "C3"):
        for quantity in CAPACITORS.quantities:
            assert Name(quantity, element) in solution.values
    assert tuple(solution.givens) == (
        Name("capacitance", "C1"),
        Name("capacitance", "C2"),
        Name("capacitance", "C3"),
        Name("voltage", "V0"),
    )
    assert solution.agree
