"""What a page knows of an answer: all of its digits, the wrong values, the words on them."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from builder.lesson import Lesson, write_lesson
from builder.lesson.questions import TypedQuestion
from builder.problem import read_problem_text
from builder.site.expected import ExpectedAnswers
from builder.site.judging import decimal_text
from builder.solution import solve
from tests.conftest import ROOT
from tests.site.formulas.test_symbols_page import TWINS
from tests.site.pages import FLASHER, LEFTOVERS, UNIT, Markup, html_of, page_of

PROBLEMS = sorted((ROOT / "content" / "problems").glob("*.yml"))


@cache
def lesson_of(file: Path) -> Lesson:
    """The lesson of a problem of the unit."""
    text = re.sub(r"(?m)^objectives:.*\n", "", file.read_text(encoding="utf-8"))
    return write_lesson(solve(read_problem_text(text, str(file), UNIT)))


def typed_in(lesson: Lesson) -> list[TypedQuestion]:
    """The typed questions of a self-check."""
    return [question for question in lesson.questions if isinstance(question, TypedQuestion)]


def data_of(lesson: Lesson, question: TypedQuestion) -> dict[str, Any]:
    """The data of a question."""
    data: dict[str, Any] = json.loads(ExpectedAnswers(lesson).of(question).data)
    return data


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Fraction(0), "0"),
        (Fraction(66, 10**6), "6.6e-5"),
        (Fraction(-7, 20), "-3.5e-1"),
        (Fraction(12), "1.2e1"),
        (Fraction(5), "5"),
        (Fraction(1000), "1e3"),
        (Fraction(999), "9.99e2"),
        (Fraction(25, 3), "8." + "3" * 23 + "1"),
        (Fraction(2, 3) / 10**6, "6." + "6" * 23 + "1e-7"),
        (Fraction(10**24 + 1), "1." + "0" * 23 + "1e24"),
    ],
)
def test_a_number_is_told_with_all_its_digits(value: Fraction, text: str) -> None:
    """Up to 24 of them, and a 1 where more follow, so that it neither ends nor lies half-way."""
    assert decimal_text(value) == text


@pytest.mark.parametrize("file", PROBLEMS, ids=[file.stem for file in PROBLEMS])
def test_the_data_of_any_quantity_is_short(file: Path) -> None:
    """Whatever quantity is asked, by an author too, its data is made and stays below 3 kB."""
    lesson = lesson_of(file)
    for name in lesson.solution.values:
        expected = ExpectedAnswers(lesson).of(TypedQuestion((), name, None))
        assert len(expected.data) < 3000
        assert expected.help.endswith(".")


def test_wrong_turns_stand_in_the_answer_by_number() -> None:
    """Each is an item of a list, with its number marked, its words, and the step to look at."""
    html = html_of(FLASHER)
    assert Markup(html).faults == []
    items = html.split("<li data-turn=")[1:]
    assert len(items) >= 4
    for item in items:
        assert re.search(r'<span class="sw-n" data-q="wrong:[^"]+">', item)
        assert "gives this" in item
        assert (look := re.search(r'data-look="([^"]*)"', item))
        assert f'id="{look[1]}"' in html


def test_other_quantities_of_the_same_unit_are_known() -> None:
    """The charge on C3 asked: other charges by the keys under which their numbers are marked."""
    lesson = page_of(FLASHER).lesson
    question = next(each for each in typed_in(lesson) if each.answer.key == "charge:C3")
    others = dict(data_of(lesson, question)["others"])
    assert others["charge:C1"] == ["the charge on ", ["C", "1"]]
    assert "charge:C3" not in others
    assert {key.partition(":")[0] for key in others} == {"charge"}
    assert all(f'data-q="{key}"' in html_of(FLASHER) for key in others)


def test_a_letter_answer_has_its_letters_and_its_elements() -> None:
    """Letters and the names of given elements may be typed, and points keep apart what differs."""
    lesson = page_of(TWINS, "twins").lesson
    question = typed_in(lesson)[0]
    data = data_of(lesson, question)
    assert data["names"] == ["C", "V"]
    assert set(data["letters"]) == {"C", "V", "C1", "C2", "C3"}
    assert data["letters"]["C3"] == [2 * each for each in data["letters"]["C"]]
    assert len(set(data["letters"]["C"])) == len(data["values"]) == 3


@pytest.mark.parametrize(
    ("text", "help", "keys"),
    [
        (FLASHER, "A number and a unit. Any prefix will do: 7 mC is 7000 µC.", "text"),
        (LEFTOVERS, "A number and a unit. Any prefix will do: 7 µF is 7000 nF.", "text"),
        (TWINS, "An expression with the letters C and V. Write * or nothing for times, / for over, "
         "^2 for squared, and brackets where they are needed.", "text"),
    ],
)  # fmt: skip
def test_the_line_of_help_fits_what_is_asked(text: str, help: str, keys: str) -> None:
    """Prefixes of the asked quantity, or the letters of the problem."""
    html = html_of(text)
    assert help in html
    assert f'inputmode="{keys}"' in html
    assert 'autocapitalize="none"' in html


def test_an_expression_with_brackets_is_no_escaped_markup() -> None:
    """What a wrong turn makes of the gauge, V(R1 + R2)/(R1R2), shows symbols, not their tags."""
    gauge = (ROOT / "content/problems/tide-gauge.yml").read_text(encoding="utf-8")
    html = html_of(re.sub(r"(?m)^objectives:.*\n", "", gauge), "gauge")
    assert ")/(" in html
    assert "&lt;" not in html
