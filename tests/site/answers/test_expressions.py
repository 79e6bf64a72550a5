"""Typed expressions of letters: read as SymPy would, and equal just where SymPy finds them so."""

from __future__ import annotations

import math
import random
from typing import Any

import pytest
from playwright.sync_api import Browser
from sympy import Expr, Integer, Rational, Symbol, expand, factor, together

from builder.quantity.letters import symbol_of
from builder.quantity.symbolic import same
from builder.site.judging import at_points, points_for
from tests.site.answers.scripts import judged, judging_page

C1, C2, V = symbol_of("C1", "capacitance"), symbol_of("C2", "capacitance"), symbol_of("V")
C = symbol_of("C", "capacitance")
LETTERS = (C1, C2, V)
NAMES = {C1: ("C1", "C_1", "C₁"), C2: ("C2", "C_2", "C₂"), V: ("V",)}
WORK_OUT = "([typed, data]) => typed.map(text => stepwell.workOut(text, data, false))"


def data_of(value: Expr, letters: tuple[Symbol, ...] = LETTERS) -> dict[str, Any]:
    """The data of a question with that answer."""
    points = points_for(letters, value, {})
    named = {letter.name.rpartition(":")[2]: at_points(letter, points) for letter in letters}
    return {"letters": named, "names": list(named), "values": at_points(value, points)}


class Writer:
    """Writes random expressions, each with what it is worth."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)

    def atom(self) -> tuple[str, Expr]:
        """A letter or a number."""
        if self.random.random() < 0.7:
            letter = self.random.choice(LETTERS)
            return self.random.choice(NAMES[letter]), letter
        number = self.random.randint(1, 12)
        return str(number), Integer(number)

    def bracketed(self, depth: int) -> tuple[str, Expr]:
        """An atom, or anything in brackets."""
        if depth <= 0 or self.random.random() < 0.3:
            return self.atom()
        text, value = self.any(depth - 1)
        return self.random.choice(["({})", "[{}]", "( {} )"]).format(text), value

    def any(self, depth: int) -> tuple[str, Expr]:
        """A sum, a product, a quotient, a power, or a negative."""
        form = self.random.randrange(5) if depth > 0 else 1
        (one, first), (other, second) = self.bracketed(depth), self.bracketed(depth)
        if form == 0:
            minus = self.random.random() < 0.4
            sign = self.random.choice(["-", " − ", "–"] if minus else ["+", " + "])
            return one + sign + other, first - second if minus else first + second
        if form == 1:
            tight = other[0] in "([" or (other[0].isalpha() and one[-1] not in "0123456789")
            tight = tight or (one.isdigit() and other[0].isalpha())
            signs = ["*", "·", " × ", " * ", "⋅"] + ["", " "] * tight
            return one + self.random.choice(signs) + other, first * second
        if form == 2:
            return one + self.random.choice(["/", " / ", "÷", "∕"]) + other, first / second
        if form == 3:
            power = self.random.choice([2, 3])
            raised = self.random.choice([f"^{power}", f"**{power}", "²³"[power - 2], f" ^ {power}"])
            return one + raised, first**power
        return "-" + one, -first


def test_random_expressions_are_worth_what_sympy_says(chromium: Browser) -> None:
    """Two thousand expressions, each worked out exactly and by the page."""
    writer = Writer(4711)
    written = [writer.any(4) for _ in range(2000)]
    data = data_of(C1 * C2 * V)
    points = points_for(LETTERS, C1 * C2 * V, {})
    page = judging_page(chromium)
    found = page.evaluate(WORK_OUT, [[text for text, _ in written], data])
    page.context.close()
    compared, wrong = 0, []
    for (text, value), read in zip(written, found, strict=True):
        if len(text) > 200:
            continue
        exact = [value.xreplace(point) for point in points]
        if not all(each.is_Rational for each in exact):
            assert read.get("problem") == "zero", text
            continue
        values = read.get("values") or [math.nan] * len(exact)
        # A difference of nearly equal numbers has lost its last digits in the browser.
        if any(0 < abs(each) < Rational(1, 10**4) for each in exact):
            continue
        compared += 1
        near = zip(values, exact, strict=True)
        if not all(
            math.isclose(got, float(want), rel_tol=1e-9, abs_tol=1e-9) for got, want in near
        ):
            wrong.append((text, value, read))
    assert wrong == []
    assert compared > 1200


REWRITE = (expand, factor, together, lambda value: value)


def test_answers_are_right_just_where_sympy_finds_them_equal(chromium: Browser) -> None:
    """Rewritten answers are right; answers with one thing altered are right only if still equal."""
    writer = Writer(1303)
    rows: list[tuple[str, dict[str, Any]]] = []
    wanted: list[bool] = []
    while len(rows) < 400:
        _, value = writer.any(3)
        if not value.free_symbols or value.has(Symbol("zoo")) or value.is_finite is False:
            continue
        other = writer.random.choice(REWRITE)(value)
        if writer.random.random() < 0.5:
            other = altered(other, writer.random)
        typed = str(other).replace("capacitance:", "")
        if "zoo" in str(value) or "zoo" in typed or len(typed) > 150 or not other.free_symbols:
            continue
        data = data_of(value)
        # Answers are of low degree: what stands beside a twentieth power drowns in it.
        if not all(1e-6 < abs(each) < 1e9 for each in data["values"]):
            continue
        rows.append((typed, data))
        wanted.append(same(value, other))
    page = judging_page(chromium)
    verdicts = judged(page, rows)
    page.context.close()
    found = [verdict["right"] is True for verdict in verdicts]
    assert [row[0] for row, got, want in zip(rows, found, wanted, strict=True) if got != want] == []
    assert wanted.count(True) > 150
    assert wanted.count(False) > 100


def altered(value: Expr, random_: random.Random) -> Expr:
    """An expression with one slip in it."""
    letters = sorted(value.free_symbols, key=str)
    slips = [value + 1, value * 2, -value, 1 / value, value + letters[0], value * V / (V + C1)]
    if len(letters) > 1:
        slips.append(value.xreplace({letters[0]: letters[1], letters[1]: letters[0]}))
    return random_.choice(slips)


TWO_THIRDS = data_of(2 * C1 * V / 3, (C1, V)) | {
    "turns": [[at_points(C1 * V, points_for((C1, V), 2 * C1 * V / 3, {})), 1]],
    "others": [[at_points(C1 * V / 4, points_for((C1, V), 2 * C1 * V / 3, {})), ["the other"]]],
}
# With a plain C beside it, so that all the usual spellings can be tried.
TABLE = [
    ("right", "2C1V/3|2/3 C1 V|2*C1*V/3|(2/3)C1V|2C1*V/3|C1·V·2/3|⅔C1V|⅔ C₁ V|2⁄3 C1 V|Q = 2C1V/3"
     "|Q2=2C_1V/3|2 C_{1} V ÷ 3|2×C1×V/3|2 x C1 x V / 3|V(C1+C1)/3|C1V − C1V/3|[2/3]C1 V|2/3C1V"
     "|(2C1V)/3|2C1V²/(3V)|√4 C1V/3|sqrt(4)*C1*V/3|2c1v/3|+2C1V/3|--2C1V/3|2C1**1V/3|2C1V/3."
     "|2,0 C1 V/3|0.5*4C1V/3|2e0C1V/3|2C1V·3^-1|2C1V·3⁻¹|( ( 2 ) ) C1V/3|６C1V/9"),
    ("turn", "C1V|V*C1|C1 V|3C1V/3|Q = C1·V"),
    ("other", "C1V/4|0.25 C1 V|¼C1V"),
    ("sign", "-2C1V/3|−2/3 C1V|2C1(-V)/3"),
    ("coarse", "0.667C1V|0.6667*C1*V|0.67 C1V"),
    ("factor", "C1V/3|2C1V|C1V/2|4C1V/3"),
    ("value", "3/(2C1V)|C1²V|2C1/3|V/3|7|C1+V|2/3|66"),
    ("number", "Q/2|C2V|C1V€|2C1V/3)|(2C1V/3|2C1V//3|C1/0|C1^V|C1^99|*C1|C1V/|C1^2^3|constructor"
     "|__proto__|toString|C1..V|alert(1)|<b>C1</b>|C1;V|`C1`|2C1V/3!5|1e999C1|NaN|∞|😀|66 uC|C1V %"
     "|C1 ∥ V|" + "(" * 30 + "C1" + ")" * 30 + "|" + "-" * 60 + "C1|" + "√" * 60 + "C1|"
     + "C1*" * 80),
    ("empty", "| |=|.|\u200b"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "typed"), TABLE, ids=[kind for kind, _ in TABLE])
def test_spellings_of_an_expression(chromium: Browser, kind: str, typed: str) -> None:
    """2C₁V/3 in many spellings, its slips, and what is no expression."""
    texts = typed.split("|")
    page = judging_page(chromium)
    verdicts = judged(page, [(text, TWO_THIRDS) for text in texts])
    page.context.close()
    found = [(text, verdict["kind"]) for text, verdict in zip(texts, verdicts, strict=True)]
    assert found == [(text, kind) for text in texts]


def test_a_product_after_a_division_may_be_meant_either_way(chromium: Browser) -> None:
    """C/2R with C/(2R) in mind is right, and so is 1/2 C for half of C; brackets are praised."""
    below = data_of(C1 / (2 * C2), (C1, C2))
    half = data_of(C1 / 2, (C1,))
    page = judging_page(chromium)
    verdicts = judged(page, [("C1/2C2", below), ("C1/(2C2)", below), ("1/2 C1", half),
                             ("1/2C1", half), ("C1/2", half)])  # fmt: skip
    page.context.close()
    assert all(verdict["right"] for verdict in verdicts)
    remarked = ["brackets" in verdict["says"] for verdict in verdicts]
    assert remarked == [True, False, False, True, False]


def test_amounts_stand_among_letters(chromium: Browser) -> None:
    """Where an answer holds a number with a unit, it may be typed with any prefix."""
    ohms = symbol_of("R", "resistance")
    value = 12 * ohms / (ohms + 100)
    data = data_of(value, (ohms,)) | {"units": True}
    page = judging_page(chromium)
    typed = ["12 V*R/(R+100 ohm)", "12 V R/(R + 0.1 kΩ)", "12R/(R+100)", "12 V · R/(R + 100 Ω)"]
    verdicts = judged(page, [(text, data) for text in typed])
    page.context.close()
    assert [verdict["kind"] for verdict in verdicts] == ["right"] * 4
