"""Formulas in one line of a sentence."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.lesson.formula_prose import formula_prose, goes_in_line
from builder.quantity.formula import (
    Exp,
    Formula,
    Negative,
    Num,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Root,
    Square,
    Sum,
)
from builder.quantity.names import TOTAL, Name
from tests.lesson.telling import asking, lesson_of, parallel, plain, series

C1, C2 = Ref(Name("capacitance", "C1")), Ref(Name("capacitance", "C2"))
EQ, Q = Ref(Name("capacitance", TOTAL)), Ref(Name("charge", TOTAL))
V1 = Ref(Name("voltage", "C1"))
HALF = Num(Fraction(1, 2))


@pytest.mark.parametrize(
    ("formula", "written"),
    [
        (Sum((C1, C2)), "C₁ + C₂"),
        (Sum((C1, Negative(C2))), "C₁ − C₂"),
        (ReciprocalSum((C1, C2)), "1/(1/C₁ + 1/C₂)"),
        (Quotient(Sum((C1, C2)), Num(Fraction(2))), "(C₁ + C₂)/2"),
        (Product((C1, V1)), "C₁V₁"),
        (Product((EQ, V1)), "C_eq · V₁"),
        (Product((HALF, Q, V1)), "½QV₁"),
        (Product((HALF, C1, Square(V1))), "½C₁V₁²"),
        (Quotient(Q, C1), "Q/C₁"),
        (Exp(Quotient(Q, C1)), ""),
        (Root(Q), ""),
        (Sum((C1,) * 9), ""),
        (Num(Fraction(3)), ""),
    ],
)
def test_formulas_are_written_as_by_hand(formula: Formula, written: str) -> None:
    """What does not go in one line, or says nothing, is not written."""
    display = lesson_of(asking(series("C1", parallel("C2", "C3")), "12 V")).display
    assert plain(formula_prose(formula, display), display) == written
    assert goes_in_line(formula) == bool(written)
