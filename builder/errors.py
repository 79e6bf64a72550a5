"""Every error that Stepwell raises on purpose. Each builds its own message."""

from __future__ import annotations

from dataclasses import dataclass


class StepwellError(Exception):
    """Root of all errors that a person can act on."""


@dataclass(frozen=True, order=True)
class Fault:
    """One thing wrong in an author's file.

    Attributes:
        path: the file, as it was named.
        line: from 1; 0 if the fault lies in no line, as of a file that is not there.
        column: from 1; 0 likewise.
        found: what stands there.
        expected: what should stand there.
        advice: what to do about it.
    """

    path: str
    line: int
    column: int
    found: str
    expected: str
    advice: str

    def __str__(self) -> str:
        where = f"{self.path}:{self.line}:{self.column}" if self.line else self.path
        return f"{where}: found {self.found}; expected {self.expected}. {self.advice}"


class FaultyFile(StepwellError):
    """Raised when an author's file cannot be used.

    Attributes:
        faults: at least one, in the order of the file.
    """

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__(faults)
        self.faults = faults

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)


class Disagreement(StepwellError):
    """Raised when the steps and the nodal method give different values.

    Attributes:
        problem: the problem's name.
        quantity: what was computed twice, e.g. ``charge of C2``.
        by_steps: the value from the steps.
        by_nodes: the value from the nodal method.
    """

    def __init__(self, problem: str, quantity: str, by_steps: str, by_nodes: str) -> None:
        super().__init__(problem, quantity, by_steps, by_nodes)
        self.problem = problem
        self.quantity = quantity
        self.by_steps = by_steps
        self.by_nodes = by_nodes

    def __str__(self) -> str:
        return (
            f"{self.problem}: the {self.quantity} is {self.by_steps} by the steps but "
            f"{self.by_nodes} by the nodal method; nothing was published. This is a fault in "
            f"Stepwell, not in the file: please report it with the file."
        )


class CheckFailed(StepwellError):
    """Raised when a check does not hold.

    Attributes:
        problem: the problem's name.
        check: what must hold, e.g. ``flows at junction a``.
        left: the value of its one side.
        right: the value of its other side.
    """

    def __init__(self, problem: str, check: str, left: str, right: str) -> None:
        super().__init__(problem, check, left, right)
        self.problem = problem
        self.check = check
        self.left = left
        self.right = right

    def __str__(self) -> str:
        return (
            f"{self.problem}: the check of {self.check} fails: {self.left} against {self.right}; "
            f"nothing was published. This is a fault in Stepwell, not in the file: please report "
            f"it with the file."
        )
