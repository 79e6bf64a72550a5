"""The steps between the first instant and the end: how fast it goes, and when it is where.

What starts at x₀ and ends at x₁ is x₁ + (x₀ − x₁)·e^(−t/τ). Source: University Physics Volume 2
(OpenStax), section 10.5; for any starting value and for the resistance that the capacitor sees:
Lessons In Electric Circuits (Kuphaldt), volume I, chapter "RC and L/R time constants".
"""

from __future__ import annotations

from fractions import Fraction

from builder.circuit.law import RESISTORS
from builder.circuit.mixed import seen_from
from builder.circuit.network import Network
from builder.problem.transient.moments import (
    CONSTANT,
    END,
    SEEN,
    SEEN_RESISTANCE,
    START,
    at,
    reaching,
)
from builder.quantity.exact import Exact
from builder.quantity.formula import (
    Exp,
    Formula,
    Ln,
    Negative,
    Num,
    Product,
    Quotient,
    Ref,
    Sum,
)
from builder.quantity.names import TOTAL, Name
from builder.solution.program import Line
from builder.solution.transient.part import merge_lines, nest_of, network_merge_lines, with_names
from builder.solution.transient.step import TransientMove, TransientStep
from builder.solution.transient.written import Writing


def write_the_way(writing: Writing) -> None:
    """How fast the only store goes, and what is asked about between its first and last value."""
    problem = writing.problem
    _seen(writing)
    _constant(writing)
    for when in problem.times:
        _at(writing, when)
    for level in problem.levels:
        _reach(writing, level)
    for name, share in problem.shares.items():
        _go_a_share(writing, name, share)


def _seen(writing: Writing) -> None:
    """The resistance that the store sees, with every source replaced."""
    ends, elements = seen_from(writing.circuit, writing.store.ends)
    network = Network(elements, ends)
    nest = nest_of(network)
    lines = merge_lines(nest, SEEN) if nest else network_merge_lines(network, SEEN)
    whole = at(RESISTORS.value, TOTAL, SEEN)
    lines = [with_names(line, lambda n: SEEN_RESISTANCE if n == whole else n) for line in lines]
    writing.add(TransientStep("seen", TransientMove.SEEN, tuple(lines),
                              about=tuple(element.name for element in elements),
                              tree=nest.tree if nest else None))  # fmt: skip


def _constant(writing: Writing) -> None:
    formula = Product((Ref(SEEN_RESISTANCE), Ref(writing.store.value)))
    writing.add(TransientStep("constant", TransientMove.CONSTANT, (Line(CONSTANT, formula),)))


def on_the_way(start: Formula, end: Formula, left: Formula, values: tuple[Exact, Exact]) -> Formula:
    """What a quantity is when the fraction ``left`` of its change is still to come.

    Args:
        start: its first value.
        end: its last value.
        left: e^(−t/τ).
        values: both, to tell which of them is zero.
    """
    first, last = values
    if first == last:
        return end
    if last == 0:
        return Product((start, left))
    if first == 0:
        return Product((end, Sum((Num(Fraction(1)), Negative(left)))))
    return Sum((end, Product((Sum((start, Negative(end))), left))))


def _at(writing: Writing, when: str) -> None:
    """The store's voltage at a time, and what every resistor carries then."""
    left = Exp(Negative(Quotient(Ref(Name("time", when)), Ref(CONSTANT))))

    def line(quantity: str, of: str) -> Line:
        names = (at(quantity, of, START), at(quantity, of, END))
        values = (writing.values[names[0]], writing.values[names[1]])
        formula = on_the_way(Ref(names[0]), Ref(names[1]), left, values)
        return Line(at(quantity, of, when), formula)

    own = (line("voltage", writing.store.id), *writing.store.voltages(when))
    writing.add(TransientStep(when, TransientMove.AT, own, about=(writing.store.id,), when=when))
    rest = tuple(line(quantity, resistor.name) for resistor in writing.circuit.resistors
                 for quantity in ("current", "voltage"))  # fmt: skip
    writing.add(TransientStep(f"{when}-currents", TransientMove.AT, rest, when=when))


def _reach(writing: Writing, level: Name) -> None:
    """The time at which a capacitor's voltage has a certain value: τ·ln((x₁ − x₀)/(x₁ − x))."""
    element, _, number = level.of.partition(">")
    first, last = (at("voltage", element, when) for when in (START, END))
    start, end, target = Ref(first), Ref(last), Ref(level)
    if writing.values[last] == 0:
        ratio = Quotient(start, target)
    else:
        over: Formula = Sum((end, Negative(start))) if writing.values[first] != 0 else end
        ratio = Quotient(over, Sum((end, Negative(target))))
    line = Line(reaching(element, int(number)), Product((Ref(CONSTANT), Ln(ratio))))
    writing.add(TransientStep(f"reach-{number}", TransientMove.REACH, (line,), about=(element,)))


def _go_a_share(writing: Writing, name: Name, share: Fraction) -> None:
    """The time at which a share of the way is done, whatever the way: τ·ln(1/(1 − share))."""
    left = Sum((Num(Fraction(1)), Negative(Num(share))))
    line = Line(name, Product((Ref(CONSTANT), Ln(Quotient(Num(Fraction(1)), left)))))
    element, _, number = name.of.partition(">")
    writing.add(TransientStep(f"reach-{number}", TransientMove.REACH, (line,), about=(element,)))
