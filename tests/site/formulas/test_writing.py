"""One formula as plain text, as MathML and in words."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from sympy import Rational

from builder.quantity.brackets import Binding
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
)
from builder.quantity.names import Name
from builder.quantity.show import Shown, numbers_of
from builder.site.formulas.math import formula_math
from builder.site.formulas.text import plain_formula
from builder.site.spoken import spoken_formula, spoken_number

A, B, C, N = (Ref(Name("voltage", letter)) for letter in "abcn")
HALF, TWO, ONE = Num(Fraction(1, 2)), Num(Fraction(2)), Num(Fraction(1))
VOLTS = Amount(Rational(24), "voltage")
SHOWN = {
    A.name: Shown("4", "V", exact=True),
    B.name: Shown("3", "V", exact=True),
    C.name: Shown("5", "V", exact=True),
    N.name: Shown("−2", "V", exact=True),
}


def flat(formula: Formula, *, numbers: bool = False) -> str:
    """MathML in one line: a fraction as {over|under}, a power as ^{…}, a root as √{…}."""
    atom = (lambda name: f"<mn>{SHOWN[name].number}</mn>") if numbers else (
        lambda name: f"<mi>{name.of}</mi>"
    )  # fmt: skip
    text = formula_math(
        formula, atom, numbers=numbers, atoms=numbers_of(SHOWN.__getitem__) if numbers else None
    )
    text = re.sub(r' mathvariant="normal"|<mspace[^>]*>', "", text)
    text = text.replace("<mo>&#x2062;</mo>", " ").replace("<mo>&#x2061;</mo>", "")
    atom_of = r"<m[ino]>([^<]*)</m[ino]>|<mtext>([^<]*)</mtext>"
    text = re.sub(atom_of, lambda match: f"⟨{match[1] or match[2]}⟩", text)
    while "<" in text:
        before = text
        part = r"(⟨(?:(?!<).)*?⟩)"
        text = re.sub(r"<mrow>((?:(?!<).)*)</mrow>", lambda m: _one(m[1]), text)
        text = re.sub(rf"<mfrac>{part}{part}</mfrac>", lambda m: _one(f"{{{m[1]}|{m[2]}}}"), text)
        text = re.sub(rf"<msup>{part}{part}</msup>", lambda m: _one(f"{m[1]}^{{{m[2]}}}"), text)
        text = re.sub(rf"<msqrt>{part}</msqrt>", lambda m: _one(f"√{{{m[1]}}}"), text)
        assert text != before, text
    return text.replace("⟨", "").replace("⟩", "")


def _one(text: str) -> str:
    return f"⟨{text.replace('⟨', '').replace('⟩', '')}⟩"


WRITTEN: list[tuple[Formula, str, str, str]] = [
    (Sum((A, Negative(B))), "a − b", "a−b", "a minus b"),
    (Sum((Negative(A), B)), "−a + b", "−a+b", "minus a plus b"),
    (Sum((A, Negative(Sum((B, C))))), "a − (b + c)", "a−(b+c)", "a minus the sum of b and c"),
    (Sum((A, Negative(Sum((B, Negative(C)))))), "a − (b − c)", "a−(b−c)",
     "a minus the difference of b and c"),
    (Sum((A, Sum((B, Negative(C))))), "a + b − c", "a+b−c", "a plus b minus c"),
    (Sum((A, Negative(Negative(B)))), "a − (−b)", "a−(−b)", "a minus negative b"),
    (Sum((A, Num(Fraction(-2)))), "a − 2", "a−2", "a minus 2"),
    (Sum((VOLTS, Negative(Product((A, B))))), "24 V − a · b", "24V−a b",
     "24 volts minus a times b"),
    (Sum((A, Negative(VOLTS))), "a − 24 V", "a−24V", "a minus 24 volts"),
    (Sum((A, Amount(Rational(-24), "voltage"))), "a − 24 V", "a−24V", "a minus 24 volts"),
    (Product((A, Sum((B, C)))), "a · (b + c)", "a (b+c)", "a times the sum of b and c"),
    (Product((A, Sum((B, Negative(C))))), "a · (b − c)", "a (b−c)",
     "a times the difference of b and c"),
    (Product((Negative(A), B)), "(−a) · b", "(−a) b", "negative a times b"),
    (Negative(Product((A, B))), "−a · b", "−a b", "minus the product of a and b"),
    (Negative(Sum((A, B))), "−(a + b)", "−(a+b)", "minus the sum of a and b"),
    (Quotient(A, Sum((B, C))), "a / (b + c)", "{a|b+c}", "a over the sum of b and c"),
    (Quotient(Sum((A, Negative(B))), C), "(a − b) / c", "{a−b|c}", "a minus b, over c"),
    (Quotient(A, Product((B, C))), "a / (b · c)", "{a|b c}", "a over the product of b and c"),
    (Quotient(A, Quotient(B, C)), "a / (b / c)", "{a|{b|c}}", "a over the fraction b over c"),
    (Product((A, Quotient(B, C))), "a · b / c", "a {b|c}", "a times the fraction b over c"),
    (Product((Quotient(A, B), C)), "(a / b) · c", "{a|b} c", "the fraction a over b times c"),
    (Product((HALF, A, Square(B))), "½ · a · b²", "{1|2} a b^{2}",
     "one half times a times b squared"),
    (Product((TWO, Num(Fraction(3)), A)), "2 · 3 · a", "2⋅3 a", "2 times 3 times a"),
    (Square(Sum((A, B))), "(a + b)²", "(a+b)^{2}", "the square of the sum of a and b"),
    (Square(Quotient(A, B)), "(a / b)²", "({a|b})^{2}", "the square of the fraction a over b"),
    (Square(Negative(A)), "(−a)²", "(−a)^{2}", "the square of negative a"),
    (Power(A, Fraction(3)), "a³", "a^{3}", "a to the power 3"),
    (Power(A, Fraction(-3, 2)), "a^(−3/2)", "a^{−3/2}", "a to the power minus 3 over 2"),
    (Root(Sum((Square(A), Square(B)))), "√(a² + b²)", "√{a^{2}+b^{2}}",
     "the square root of the sum of a squared and b squared"),
    (Exp(Negative(Quotient(A, B))), "e^(−a / b)", "e^{−a/b}",
     "e to the power minus the fraction a over b"),
    (Ln(Quotient(A, B)), "ln(a / b)", "ln({a|b})",
     "the natural logarithm of the fraction a over b"),
    (Product((A, Ln(TWO))), "a · ln 2", "a ln2", "a times the natural logarithm of 2"),
    (Sum((A, ReciprocalSum((B, C)))), "a + 1/(1/b + 1/c)", "a+{1|{1|b}+{1|c}}",
     "a plus 1 over the sum of 1 over b and 1 over c"),
    (Sum(()), "0", "0", "0"),
    (Product((Sum((A,)),)), "a", "a", "a"),
]  # fmt: skip


@pytest.mark.parametrize(("formula", "text", "math", "said"), WRITTEN)
def test_letters(formula: Formula, text: str, math: str, said: str) -> None:
    """Differences have a minus sign, brackets stand where they must, words need none."""
    assert plain_formula(formula, lambda name: name.of) == text
    assert flat(formula) == math
    assert spoken_formula(formula, lambda name: name.of) == said


NUMBERS: list[tuple[Formula, str, str, str]] = [
    (Sum((A, N)), "4 V + (−2 V)", "4+(−2)", "4 volts plus negative 2 volts"),
    (Sum((N, A)), "−2 V + 4 V", "−2+4", "minus 2 volts plus 4 volts"),
    (Sum((A, Negative(N))), "4 V − (−2 V)", "4−(−2)", "4 volts minus negative 2 volts"),
    (Sum((A, Negative(B))), "4 V − 3 V", "4−3", "4 volts minus 3 volts"),
    (Product((N, A)), "(−2 V) · 4 V", "(−2)⋅4", "negative 2 volts times 4 volts"),
    (Product((TWO, N)), "2 · (−2 V)", "2⋅(−2)", "2 times negative 2 volts"),
    (Negative(N), "−(−2 V)", "−(−2)", "minus negative 2 volts"),
    (Quotient(A, N), "(4 V) / (−2 V)", "{4|−2}", "4 volts over negative 2 volts"),
    (Square(N), "(−2 V)²", "(−2)^{2}", "the square of negative 2 volts"),
    (Square(A), "(4 V)²", "(4)^{2}", "the square of 4 volts"),
    (Sum((A, Product((N, B)))), "4 V + (−2 V) · 3 V", "4+(−2)⋅3",
     "4 volts plus negative 2 volts times 3 volts"),
]  # fmt: skip


@pytest.mark.parametrize(("formula", "text", "math", "said"), NUMBERS)
def test_numbers(formula: Formula, text: str, math: str, said: str) -> None:
    """A negative number stands in brackets unless it starts the line."""
    shown = SHOWN.__getitem__
    atoms = numbers_of(shown)
    assert plain_formula(formula, lambda name: shown(name).text, atoms=atoms) == text
    assert flat(formula, numbers=True) == math
    assert spoken_formula(formula, lambda name: spoken_number(shown(name)), numbers=True) == said


def test_an_unknown_of_a_system_is_a_quotient_of_determinants() -> None:
    """Cramer's rule writes one unknown of a system in a line."""
    solved = Solved(System(((A, B), (ONE, TWO)), (C, N)), 1)
    assert plain_formula(solved, lambda name: name.of) == "det[a, c; 1, n] / det[a, b; 1, 2]"
    math = formula_math(solved, lambda name: f"<mi>{name.of}</mi>")
    cells = [re.findall(r"<mtd><m[in]>(.)</m", part) for part in math.split("</mtable>")[:2]]
    assert cells == [["a", "c", "1", "n"], ["a", "b", "1", "2"]]
    assert spoken_formula(solved, lambda name: name.of) == (
        "the determinant with the rows a, c; 1, n, over the determinant with the rows a, b; 1, 2"
    )


def test_numbers_without_their_signs_are_taken_for_positive() -> None:
    """A caller that tells nothing of its numbers gets them as numbers with units."""
    assert formula_math(Square(A), lambda _: "<mn>4</mn>", numbers=True) == (
        "<msup><mrow><mo>(</mo><mn>4</mn><mo>)</mo></mrow><mn>2</mn></msup>"
    )
    assert numbers_of(SHOWN.__getitem__)(N.name) is Binding.NEGATIVE
