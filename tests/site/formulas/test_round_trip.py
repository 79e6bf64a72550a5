"""A written formula, read again, is worth what it was: no bracket is missing, no sign is lost."""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate
from xml.etree.ElementTree import Element, fromstring

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy import Rational

from builder.quantity.brackets import Binding
from builder.quantity.exact import Exact
from builder.quantity.expression import parse_expression, to_exact
from builder.quantity.formula import (
    Formula,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    ReciprocalSum,
    Square,
    Sum,
    evaluate,
)
from builder.quantity.letters import letter
from builder.quantity.names import Name
from builder.site.formulas.math import formula_math
from builder.site.formulas.text import plain_formula

NAMES = ("a", "b", "c")
LETTERS = {letter(name).name: name for name in NAMES}
Sizes = tuple[Fraction, Fraction, Fraction]


def _formulas() -> st.SearchStrategy[Formula]:
    atoms: st.SearchStrategy[Formula] = st.one_of(
        st.sampled_from([letter(name) for name in NAMES]),
        st.builds(Num, st.fractions(min_value=-5, max_value=5, max_denominator=4)),
    )
    pairs = st.tuples(atoms, atoms)
    small = st.one_of(
        atoms,
        st.builds(Sum, pairs),
        st.builds(Product, pairs),
        st.builds(Quotient, atoms, atoms),
        st.builds(Negative, atoms),
    )
    raised = st.builds(Power, small, st.sampled_from([Fraction(3), Fraction(-1)]))
    leaves = st.one_of(atoms, atoms, st.builds(Square, small), raised)

    def grown(parts: st.SearchStrategy[Formula]) -> st.SearchStrategy[Formula]:
        several = st.lists(parts, min_size=1, max_size=3).map(tuple)
        return st.one_of(
            st.builds(Sum, several),
            st.builds(Product, several),
            st.builds(Negative, parts),
            st.builds(Quotient, parts, parts),
            st.builds(ReciprocalSum, several),
        )

    return st.recursive(leaves, grown, max_leaves=7)


SIZES = st.tuples(*[st.fractions(-9, 9, max_denominator=5).filter(bool)] * 3)


def _worth(formula: Formula, values: dict[Name, Exact]) -> Exact | None:
    try:
        return evaluate(formula, values)
    except ZeroDivisionError:
        return None


def _values(sizes: Sizes) -> dict[Name, Exact]:
    rationals = [Rational(size.numerator, size.denominator) for size in sizes]
    return dict(zip(LETTERS, rationals, strict=True))


def _read(text: str, values: dict[Name, Exact]) -> Exact:
    read = parse_expression(text, NAMES)
    return to_exact(read, {name.of: value for name, value in values.items()})


@settings(max_examples=120, deadline=None)
@given(formula=_formulas(), sizes=SIZES)
def test_plain_text_reads_back(formula: Formula, sizes: Sizes) -> None:
    """Text of letters keeps the value of its formula, whatever the letters are worth."""
    values = _values(sizes)
    worth = _worth(formula, values)
    text = plain_formula(formula, lambda name: name.of)
    if worth is not None and len(text) <= 200:
        assert _read(text, values) == worth, text


@settings(max_examples=120, deadline=None)
@given(formula=_formulas(), sizes=SIZES)
def test_text_of_numbers_reads_back(formula: Formula, sizes: Sizes) -> None:
    """Numbers put in for letters, negative ones too, do not change what is computed."""
    values = _values(sizes)
    worth = _worth(formula, values)

    def bound(name: Name) -> Binding:
        return Binding.NEGATIVE if values[name] < 0 else Binding.QUOTIENT

    text = plain_formula(formula, lambda name: str(values[name]), atoms=bound)
    if worth is not None and len(text) <= 200:
        assert _read(text, values) == worth, text


def _bracketed(text: str) -> bool:
    """Whether one pair of brackets holds all of a text."""
    depths = list(accumulate({"(": 1, ")": -1}.get(character, 0) for character in text))
    return text[0] == "(" and 0 not in depths[:-1]


def in_line(element: Element) -> str:
    """MathML in a line, as an eye reads it: what is stacked or raised holds together."""
    parts = [in_line(child) for child in element]
    match element.tag:
        case "mrow" | "math":
            return "".join(parts)
        case "mfrac":
            return f"(({parts[0]})/({parts[1]}))"
        case "msup":
            seen = parts[0].isalnum() or (element[0].tag == "mrow" and _bracketed(parts[0]))
            assert seen, f"{parts[0]} is raised without brackets"
            return f"{parts[0]}^({parts[1]})"
        case _:
            return (element.text or "").replace("\u2062", "*")


@settings(max_examples=120, deadline=None)
@given(formula=_formulas(), sizes=SIZES, numbers=st.booleans())
def test_mathml_reads_back(formula: Formula, sizes: Sizes, *, numbers: bool) -> None:
    """MathML of letters or of numbers keeps the value of its formula."""
    values = _values(sizes)
    worth = _worth(formula, values)

    def bound(name: Name) -> Binding:
        return Binding.NEGATIVE if values[name] < 0 else Binding.PRODUCT

    def number(name: Name) -> str:
        size = abs(values[name])
        sign = "<mo>−</mo>" if values[name] < 0 else ""
        return f"<mrow>{sign}<mfrac><mn>{size.p}</mn><mn>{size.q}</mn></mfrac></mrow>"

    math = formula_math(
        formula,
        number if numbers else lambda name: f"<mi>{name.of}</mi>",
        numbers=numbers,
        atoms=bound if numbers else None,
    )
    text = in_line(fromstring(f"<math>{math.replace('&#x2062;', chr(0x2062))}</math>"))
    if worth is not None and len(text) <= 200:
        assert _read(text, values) == worth, text


def test_a_reader_sees_a_missing_bracket() -> None:
    """The reading back does not put in brackets of its own."""
    a_less_sum = "<math><mi>a</mi><mo>−</mo><mrow><mi>b</mi><mo>+</mo><mi>c</mi></mrow></math>"
    assert in_line(fromstring(a_less_sum)) == "a−b+c"
    with pytest.raises(AssertionError, match="without brackets"):
        in_line(fromstring("<msup><mfrac><mi>a</mi><mi>b</mi></mfrac><mn>2</mn></msup>"))
