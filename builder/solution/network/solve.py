"""Solve a network twice, compare, check."""

from __future__ import annotations

from dataclasses import dataclass

from builder.problem.model import NetworkProblem
from builder.solution.network.step import NetworkStep
from builder.solution.solution import Solution


@dataclass(frozen=True)
class NetworkSolution(Solution):
    """A solved network.

    Every element has its value, drop, flow and work; every source its flow (out of the +
    terminal) and its work (delivered; negative where it is charged). Drops and flows count from
    an element's first junction to its second, and may be negative.

    Attributes:
        problem: what was solved.
        steps, every_step: moves through the network.
        method: the method that was taken.
    """

    problem: NetworkProblem
    steps: tuple[NetworkStep, ...]
    every_step: tuple[NetworkStep, ...]
    method: str
