"""Every error that Stepwell raises on purpose. Each builds its own message."""

from __future__ import annotations

from dataclasses import dataclass, field

from builder.pointing import corrected, harmless, pointed, visible


class StepwellError(Exception):
    """Root of all errors that a person can act on.

    ``str`` of one is for logs, a line for each thing that is wrong; ``told`` is for people.
    """

    def told(self) -> str:
        """The error as a person reads it, in as many lines as that takes."""
        return str(self)


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
        source: the whole line of the file, as it was typed; empty if the fault lies in no line.
        right: how the right form looks, as YAML; empty where nothing can be shown.
        width: how many characters of the line it is about, from the column on.
        mends: whether ``right`` is this very line, corrected, and not an example alone.
    """

    path: str
    line: int
    column: int
    found: str
    expected: str
    advice: str
    source: str = field(default="", compare=False)
    right: str = field(default="", compare=False)
    width: int = field(default=1, compare=False)
    mends: bool = field(default=False, compare=False)

    @property
    def place(self) -> str:
        """The file, with line and column if it lies in a line."""
        return _place(self.path, self.line, self.column)

    def __str__(self) -> str:
        said = f"found {self.found}; expected {self.expected}. {self.advice}"
        return f"{self.place}: {harmless(said)}"

    def told(self) -> str:
        """The fault, its line with a mark below the place, and the right form."""
        marked = pointed(self.source, self.line, self.column, self.width)
        return "\n".join([str(self), *marked, *self._right_form()])

    def _right_form(self) -> list[str]:
        if not self.right:
            return []
        if self.mends:
            return ["  Corrected:", *corrected(self.source, self.right, self.line)]
        return ["  For example:", *(f"    {visible(line)}" for line in self.right.split("\n"))]


@dataclass(frozen=True, order=True)
class Oddity:
    """One thing in an author's file that is allowed, and is hardly what was meant.

    Attributes:
        path: the file, as it was named.
        line: from 1; 0 if it lies in no line.
        column: from 1; 0 likewise.
        kind: its name, by which machines know it: ``far-from-usual``.
        seen: what is odd, as a sentence: ``C1 has a capacitance of 47 F.``
        advice: what to look at, as a sentence.
        source: the whole line of the file, as it was typed.
        width: how many characters of the line it is about, from the column on.
    """

    path: str
    line: int
    column: int
    kind: str
    seen: str
    advice: str
    source: str = field(default="", compare=False)
    width: int = field(default=1, compare=False)

    @property
    def place(self) -> str:
        """The file, with line and column if it lies in a line."""
        return _place(self.path, self.line, self.column)

    def __str__(self) -> str:
        return f"{self.place}: odd: {harmless(f'{self.seen} {self.advice}')}"

    def told(self) -> str:
        """The oddity, and its line with a mark below the place."""
        marked = pointed(self.source, self.line, self.column, self.width)
        return "\n".join([str(self), *marked])


def _place(path: str, line: int, column: int) -> str:
    return harmless(f"{path}:{line}:{column}" if line else path)


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

    def told(self) -> str:
        """Each fault with its line and the right form."""
        return "\n\n".join(fault.told() for fault in self.faults)


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


class NoNumbers(StepwellError):
    """Raised when no values are found with which a problem has good numbers.

    Attributes:
        path: the problem's file.
        looked: how many sets of values were looked at.
        expected: the condition that stands most in the way.
        ruled_out: how much it rules out.
        advice: what to loosen.
    """

    def __init__(self, path: str, looked: int, expected: str, ruled_out: str, advice: str) -> None:
        super().__init__(path, looked, expected, ruled_out, advice)
        self.path = path
        self.looked = looked
        self.expected = expected
        self.ruled_out = ruled_out
        self.advice = advice

    def __str__(self) -> str:
        return (
            f"{self.path}: found nothing that fits among {self.looked} sets of values; expected "
            f"{self.expected}. {self.ruled_out} {self.advice}"
        )


class NoBrowser(StepwellError):
    """Raised when a PDF is asked for and no browser is there to make it.

    Attributes:
        variable: the environment variable that may name a browser.
        names: the programs that were looked for.
        named: what the variable names, if that was not found; else empty.
    """

    def __init__(self, variable: str, names: tuple[str, ...], named: str = "") -> None:
        super().__init__(variable, names, named)
        self.variable = variable
        self.names = names
        self.named = named

    def __str__(self) -> str:
        if self.named:
            return (
                f'PDF: found no browser "{self.named}", which ${self.variable} names; expected '
                f"the path of Chromium or Chrome. Correct the variable, or unset it."
            )
        return (
            f"PDF: found no browser on the PATH; expected one of {', '.join(self.names)}. Install "
            f"Chromium or Chrome, name one in ${self.variable}, or leave out --pdf and print the "
            f"HTML from any browser."
        )


class PrintingFailed(StepwellError):
    """Raised when a browser yields no PDF.

    Attributes:
        browser: the program.
        trouble: what it said.
    """

    def __init__(self, browser: str, trouble: str) -> None:
        super().__init__(browser, trouble)
        self.browser = browser
        self.trouble = trouble

    def __str__(self) -> str:
        return (
            f"PDF: {self.browser} printed nothing ({self.trouble}). Name another Chromium or "
            f"Chrome in $STEPWELL_BROWSER, or leave out --pdf and print the HTML from any browser."
        )


class BuildStopped(StepwellError):
    """Raised when the site does not build.

    Attributes:
        messages: what the build said, at least one line.
    """

    def __init__(self, messages: tuple[str, ...]) -> None:
        super().__init__(messages)
        self.messages = messages

    def __str__(self) -> str:
        return "\n".join((*self.messages, "The site does not build, so nothing was packed."))
