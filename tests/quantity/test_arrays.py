"""Formulas over many sets of values: the same as exactly, with nothing where there is no value."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy import Rational

from builder.quantity.arrays import ManySets
from builder.quantity.exact import near_fraction
from builder.quantity.formula import (
    Amount,
    Exp,
    Formula,
    Ln,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Root,
    Solved,
    Square,
    Sum,
    System,
    evaluate,
)
from builder.quantity.names import Name

A, B, C = (Name("resistance", name) for name in ("R1", "R2", "R3"))
REFS = (Ref(A), Ref(B), Ref(C))
LESS = Sum((Ref(A), Negative(Ref(B))))
SYSTEM = System(((Ref(A), Ref(B)), (Ref(B), Negative(Ref(C)))), (Num(Fraction(7)), Ref(A)))
SIZES = System(  # the first unknown in volts, the second in picocoulombs, such as charges are
    ((Ref(A), Num(Fraction(10**12))), (Ref(B), Product((Num(Fraction(10**12)), Ref(C))))),
    (Ref(A), Ref(C)),
)
EVERY_FORM: list[Formula] = [
    Ref(A),
    Num(Fraction(1, 3)),
    Amount(Rational(7, 4), "voltage"),
    Sum(REFS),
    LESS,
    Negative(Ref(A)),
    Product((Num(Fraction(1, 2)), *REFS)),
    Quotient(Ref(A), Sum((Ref(B), Ref(C)))),
    Square(LESS),
    Power(Ref(A), Fraction(3, 2)),
    Power(LESS, Fraction(-2)),
    Root(LESS),
    Exp(Negative(Quotient(Ref(A), Num(Fraction(30))))),
    Ln(Quotient(Ref(A), LESS)),
    ReciprocalSum(REFS),
    ReciprocalSum((Ref(A), LESS)),
    Solved(SYSTEM, 0),
    Solved(SYSTEM, 1),
    Solved(SIZES, 0),
    Solved(SIZES, 1),
]
VALUES = st.builds(Rational, st.integers(-60, 60), st.sampled_from((1, 2, 5, 10)))


def _exactly(formula: Formula, values: dict[Name, Rational]) -> Fraction | None:
    """The value right to 60 digits, or None where there is none."""
    try:
        return near_fraction(evaluate(formula, values))
    except (ZeroDivisionError, ValueError):
        return None


@pytest.mark.parametrize("formula", EVERY_FORM, ids=lambda formula: type(formula).__name__)
@settings(max_examples=60)
@given(rows=st.lists(st.tuples(VALUES, VALUES, VALUES), min_size=1, max_size=8))
def test_every_form_has_its_exact_value_or_none_where_that_has_none(
    formula: Formula, rows: list[tuple[Rational, Rational, Rational]]
) -> None:
    """Each set gives the exact value within 1e-12, nan where something is impossible."""
    columns = zip(*rows, strict=True)
    sets = ManySets.of({n: map(float, c) for n, c in zip((A, B, C), columns, strict=True)})
    found = sets.value(formula)
    assert found.shape == (len(rows),)
    for number, row in zip(found, rows, strict=True):
        exact = _exactly(formula, dict(zip((A, B, C), row, strict=True)))
        if exact is None:
            assert np.isnan(number)
        else:
            # A logarithm near zero has the rounding of the 1 in its argument.
            near_zero = 1e-12 if isinstance(formula, Ln) else 0
            assert number == pytest.approx(float(exact), rel=1e-12, abs=near_zero)


def test_what_cancels_is_exactly_zero() -> None:
    """0.1 + 0.2 − 0.3 is zero, as with the typed decimals, and not 5.6e-17."""
    sets = ManySets.of({A: [0.1], B: [0.2], C: [0.3]})
    assert sets.value(Sum((Ref(A), Ref(B), Negative(Ref(C)))))[0] == 0
    small = ManySets.of({A: [1e-12], B: [1.1e-12], C: [0]})
    assert small.value(LESS)[0] == pytest.approx(-1e-13)


def test_a_system_without_a_single_solution_spoils_no_other_set() -> None:
    """Equations that say the same twice have no value; the sets beside them keep theirs."""
    system = System(((Ref(A), Ref(B)), (Ref(B), Ref(A))), (Num(Fraction(3)), Num(Fraction(3))))
    sets = ManySets.of({A: [1, 0.1, 2, 0], B: [1, 0.1, 1, 0]})
    found = sets.value(Solved(system, 0))
    assert np.isnan(found).tolist() == [True, True, False, True]
    assert found[2] == pytest.approx(1)


def test_a_system_is_solved_again_after_sets_are_dropped() -> None:
    """Whoever drops sets half-way gets the second unknown of those that are left."""
    sets = ManySets.of({A: [1.0, 2.0, 3.0], B: [1.0, 1.0, 2.0], C: [5.0, 1.0, 4.0]})
    whole = ManySets(dict(sets.values)).value(Solved(SYSTEM, 1))
    sets.value(Solved(SYSTEM, 0))
    sets.keep(np.array([True, False, True]))
    assert sets.count == 2
    assert sets.value(Solved(SYSTEM, 1)).tolist() == whole[[0, 2]].tolist()


def test_an_unknown_quantity_is_refused() -> None:
    """A formula of what has no values yet raises, as it does exactly."""
    with pytest.raises(KeyError):
        ManySets.of({A: [1.0]}).value(Sum((Ref(A), Ref(B))))
