"""One published example: its circuit as an author would write it, and what was printed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from builder.problem import read_problem_text
from builder.problem.model import Unit
from builder.quantity.exact import as_fraction
from builder.quantity.names import TOTAL, Name
from builder.solution import solve
from builder.solution.nest.solve import NestSolution

UNIT = Unit(title="Published examples")
SIZES = {
    "p": Fraction(1, 10**12),
    "n": Fraction(1, 10**9),
    "µ": Fraction(1, 10**6),
    "m": Fraction(1, 1000),
    "": Fraction(1),
    "k": Fraction(1000),
}


@dataclass(frozen=True)
class Printed:
    """One printed answer.

    Attributes:
        quantity: its kind, or ``equivalent``.
        of: the element, or ``total``.
        text: as printed, with the unit: ``48.0 µC``.
        digits: how many of the digits count, where final zeros only fill up.
        exact: where the book carries rounded values on and so prints another last digit, the
            exact value instead, in the printed unit.
    """

    quantity: str
    of: str
    text: str
    digits: int | None = None
    exact: str | None = None


@dataclass(frozen=True)
class Row:
    """One published example.

    Attributes:
        id: a short name for test reports.
        source: where it was printed.
        circuit: the YAML text below ``circuit:``.
        printed: the answers.
        note: what was done to put the example into a circuit, or what is odd about it.
    """

    id: str
    source: str
    circuit: str
    printed: tuple[Printed, ...]
    note: str = ""


def solved(circuit: str, find: tuple[tuple[str, str], ...]) -> NestSolution:
    """Read a circuit from YAML text and solve it for ``(quantity, of)`` pairs."""
    asked = [
        "  - equivalent" if quantity == "equivalent" else f"  - {quantity}: {of}"
        for quantity, of in find
    ]
    indented = ["  " + line for line in circuit.strip().splitlines()]
    head = ["title: As printed", "level: core", "scenario: A circuit.", "circuit:"]
    text = "\n".join([*head, *indented, "find:", *dict.fromkeys(asked), ""])
    solution = solve(read_problem_text(text, "as-printed.yml", UNIT))
    assert isinstance(solution, NestSolution)
    return solution


def value_of(solution: NestSolution, quantity: str, of: str) -> Fraction:
    """The exact value of an answer in SI units."""
    kind = solution.problem.law.value if quantity == "equivalent" else quantity
    return as_fraction(solution.value(Name(kind, TOTAL if quantity == "equivalent" else of)))


def rounded_as(printed: Printed, value: Fraction) -> tuple[Fraction, Fraction]:
    """``value`` rounded half up to the printed digits, and the printed value, in its unit."""
    number, unit = printed.text.split(" ")
    prefix = unit[:-1]
    mantissa, _, exponent = number.partition("e")
    places = len(mantissa.partition(".")[2])
    step = Fraction(10) ** (int(exponent or 0) - places)
    if printed.digits is not None:
        step *= 10 ** (len(mantissa.replace(".", "").lstrip("0")) - printed.digits)
    in_unit = value / SIZES[prefix]
    return (in_unit / step + Fraction(1, 2)) // 1 * step, Fraction(number)
