"""The ways to all flows and drops of a network, and which of them a teacher would take."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, field, replace
from functools import cached_property

from builder.circuit.law import Law
from builder.circuit.network import Network
from builder.problem.model import REDUCTIONS
from builder.solution.network.chains import Branches, branches_of
from builder.solution.network.ground import ground_of
from builder.solution.network.junctions import junction_equations, levels_of
from builder.solution.network.loops import loop_branches, loop_equations, loops_of
from builder.solution.network.reductions.route import route, route_by
from builder.solution.network.spreading import by_potentials
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.network.windows import independent_loops

JUNCTIONS, LOOPS = "junctions", "loops"
WORTH_REDUCING = 6
"""A reduction of more effort than this gives way to equations."""
LARGEST_REDUCED = 20
"""In networks of more elements triangles and stars are tried only if an author asks for them."""
FEW_UNKNOWNS = 2
"""Up to so many unknown potentials junction equations are taken."""
Steps = tuple[NetworkStep, ...]


@dataclass(frozen=True)
class Task:
    """A network to be solved.

    Attributes:
        network: connected.
        law: of its elements.
        reference: the junction that an author takes as 0 V, or None.
        keep: junctions at which chains have to end: those that are asked for.
        show_ground: whether the potential of the reference is asked for as well.
    """

    network: Network
    law: Law
    reference: str | None = None
    keep: frozenset[str] = field(default_factory=frozenset)
    show_ground: bool = False

    @cached_property
    def ground(self) -> str:
        """The junction that counts as 0 V."""
        return ground_of(self.network, self.reference)

    @cached_property
    def branches(self) -> Branches:
        """Its chains, with an end at every junction that is asked for."""
        return branches_of(self.network, self.law, {*self.keep, self.ground})


def unknown_potentials(task: Task) -> int:
    """How many junction equations there are."""
    levels = levels_of(task.branches, task.ground)
    return len({level.base for level in levels.values()} - {None})


def by_junctions(task: Task) -> Steps | None:
    """Junction equations; None if there is not one unknown potential."""
    branches, ground = task.branches, task.ground
    levels = levels_of(branches, ground)
    if not any(level.base for level in levels.values()):
        return None
    return (
        junction_equations(branches, levels, ground, show_reference=task.show_ground),
        by_potentials(branches, levels),
    )


def by_loops(task: Task) -> Steps:
    """Loop equations."""
    loops = loops_of(branches_of(task.network, task.law, {task.ground}))
    steps = (loop_equations(loops), loop_branches(loops))
    return steps if loops.free else steps[1:]


def by_reduction(task: Task, method: str | None = None) -> Steps | None:
    """Merging, balance, symmetry, triangle and star.

    Args:
        task: with one source at its terminals, or none.
        method: the one that has to be used; None for a short route by any.

    Returns:
        None if there is no such route.
    """
    if len(task.network.sources) > 1:
        return None
    network = task.network
    if network.sources:
        network = replace(network, terminals=network.sources[0].between)
    if method is not None:
        found = route_by(network, task.law, method)
    else:
        allowed = REDUCTIONS if len(network.elements) <= LARGEST_REDUCED else REDUCTIONS[:3]
        found = route(network, task.law, allowed, WORTH_REDUCING)
    return found.steps if found is not None else None


_SHOWS = (
    ("delta-star", {NetworkMove.STAR, NetworkMove.TRIANGLE}),
    ("symmetry", {NetworkMove.JOIN, NetworkMove.SPREAD}),
    ("balance", {NetworkMove.BALANCE}),
    (JUNCTIONS, {NetworkMove.JUNCTIONS}),
    (LOOPS, {NetworkMove.LOOPS}),
)


def method_of(steps: Steps) -> str:
    """The method that steps take, by their boldest move; merging if there is nothing else."""
    moves = {step.kind for step in steps}
    return next((method for method, shown in _SHOWS if moves & shown), REDUCTIONS[0])


def usual(task: Task) -> tuple[Steps, str]:
    """The steps and the method that a teacher would take.

    One source and a short reduction: that. One loop: its equation. Else equations of junctions
    where they are few or fewer than the loops, of loops where they are not, or where the sources
    give all potentials already.
    """
    reduced = by_reduction(task)
    if reduced is not None:
        return reduced, method_of(reduced)
    junctions = unknown_potentials(task)
    loops = len(independent_loops(task.branches))
    if loops > 1 and (junctions <= FEW_UNKNOWNS or junctions < loops):
        steps = by_junctions(task)
        if steps is not None:
            return steps, JUNCTIONS
    return by_loops(task), LOOPS


NAMED: dict[str, Callable[[Task], Steps | None]] = {
    JUNCTIONS: by_junctions,
    LOOPS: by_loops,
}
"""The methods of equations, by the name that an author gives them."""


def given_names(network: Network, law: Law) -> Collection[tuple[str, str]]:
    """The quantities that a network states."""
    values = [(law.value, element.name) for element in network.elements]
    return {*values, *((source.quantity, source.name) for source in network.sources)}
