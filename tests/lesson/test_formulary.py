"""The formula sheet and the glossary as data: true, complete, and no more than is used."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from sympy import Integer, Rational

from builder.circuit.law import LAWS, PARALLEL, SERIES
from builder.lesson.formulary import MEANINGS, Equality, Rule, meanings, sheet_symbol, sheets
from builder.lesson.glossary import WORDS, words
from builder.lesson.kinds import used_in, uses
from builder.problem import read_problem, read_problem_text
from builder.quantity.exact import Exact
from builder.quantity.formula import evaluate, names_in
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name
from tests.conftest import ROOT
from tests.site.pages import FLASHER, HEATER, LEFTOVERS

EVERYTHING = frozenset(
    {"source", *KINDS, *(law.element for law in LAWS.values())}
    | {f"{law.element}-{one}" for law in LAWS.values() for one in (SERIES, PARALLEL)}
)
PAIR = "title: Pair\ncircuit:\n  source: 12 V\n  parallel: [{C1: 1 uF}, {C2: 2 uF}]\nfind: charge\n"


def rules_of(element: str) -> dict[str, Rule]:
    """The full sheet of one kind of element, by the headings of its rules."""
    (sheet,) = [sheet for sheet in sheets(EVERYTHING) if sheet.law.element == element]
    return {rule.called.replace("\u00a0", " "): rule for rule in sheet.rules}


def worth(equality: Equality, values: dict[Name, Exact]) -> list[Exact]:
    """The values of all sides of an equality."""
    return [*(values[name] for name in equality.left), evaluate(equality.right, values)]


# Worked by hand for 6, 3 and 2 units. Side by side across 6 V: capacitors charge to 36, 18 and
# 12, together 66 = 11 · 6; resistors carry 1, 2 and 3, together 6 = 6 / 1. In a chain: 1/6 + 1/3
# + 1/2 = 1, so capacitors with the charge 6 have 1, 2 and 3 volts; resistors with the current 2
# have 12, 6 and 4 volts, together 22 = 11 · 2.
WORKED = {
    "Capacitors side by side (in parallel)": {
        "capacitance": (11, 6, 3, 2), "voltage": (6, 6, 6, 6), "charge": (66, 36, 18, 12),
    },
    "Capacitors in a chain (in series)": {
        "capacitance": (1, 6, 3, 2), "voltage": (6, 1, 2, 3), "charge": (6, 6, 6, 6),
    },
    "Resistors side by side (in parallel)": {
        "resistance": (1, 6, 3, 2), "voltage": (6, 6, 6, 6), "current": (6, 1, 2, 3),
    },
    "Resistors in a chain (in series)": {
        "resistance": (11, 6, 3, 2), "voltage": (22, 12, 6, 4), "current": (2, 2, 2, 2),
    },
}  # fmt: skip


@pytest.mark.parametrize("called", WORKED)
def test_merging_rules_hold_for_circuits_worked_by_hand(called: str) -> None:
    """All sides of every equality come to the same value, and each quantity is told."""
    values = {
        Name(kind, of): Integer(number)
        for kind, numbers in WORKED[called].items()
        for of, number in zip((TOTAL, "1", "2", "3"), numbers, strict=True)
    }
    rule = rules_of(called.split(maxsplit=1)[0].lower().removesuffix("s"))[called]
    told = {name for one in rule.equalities for name in (*one.left, *names_in(one.right))}
    assert told == set(values)
    for equality in rule.equalities:
        sides = worth(equality, values)
        assert len(set(sides)) == 1, sides


@pytest.mark.parametrize(
    ("element", "values"),
    [
        # 4 farads at 3 volts hold 12 coulombs and store half of 12 times 3 joules.
        ("capacitor", {"capacitance": 4, "voltage": 3, "charge": 12, "energy": 18}),
        # 4 ohms at 3 volts carry 3/4 ampere and turn 9/4 joules into heat each second.
        ("resistor", {"resistance": 4, "voltage": 3, "current": Fraction(3, 4),
                      "power": Fraction(9, 4)}),
    ],
)  # fmt: skip
def test_rules_of_one_element_hold(element: str, values: dict[str, Fraction | int]) -> None:
    """The law and every way to the energy or power give the values worked by hand."""
    exact = {
        Name(kind, ""): Rational(Fraction(value).numerator, Fraction(value).denominator)
        for kind, value in values.items()
    }
    rules = [rule for called, rule in rules_of(element).items() if f"ne {element}" in called]
    assert [len(rule.equalities) for rule in rules] == [2, 3]
    for rule in rules:
        for equality in rule.equalities:
            assert len(set(worth(equality, exact))) == 1


def test_reasons_follow_the_rules() -> None:
    """The sentence says of the same rule whether values or their reciprocals add up."""
    why = {
        called: rule.why for law in LAWS.values() for called, rule in rules_of(law.element).items()
    }
    assert why["Capacitors side by side (in parallel)"].endswith(
        "Their charges add up, and so do their capacitances."
    )
    assert why["Resistors side by side (in parallel)"].endswith(
        "Their currents add up, and so do the reciprocals of their resistances."
    )
    assert why["Capacitors in a chain (in series)"].endswith(
        "Their voltages add up, and so do the reciprocals of their capacitances."
    )
    assert why["Resistors in a chain (in series)"].endswith(
        "Their voltages add up, and so do their resistances."
    )


def test_a_sheet_shows_what_is_used_and_no_more() -> None:
    """A unit with one parallel pair of capacitors gets no chains, no resistors, no power."""
    used = uses(read_problem_text(PAIR, "pair.yml"))
    (sheet,) = sheets(used)
    assert [rule.called.replace("\u00a0", " ") for rule in sheet.rules] == [
        "One capacitor", "Capacitors side by side (in parallel)", "Energy of one capacitor",
    ]  # fmt: skip
    assert [meaning.kind for meaning in meanings(used)] == [
        "capacitance", "charge", "voltage", "energy",
    ]  # fmt: skip
    met = {word.word for word in words(used)}
    assert {"capacitor", "charge", "in parallel", "junction"} <= met
    assert met.isdisjoint({"resistor", "current", "power", "in series"})


def test_without_a_source_only_values_are_told() -> None:
    """Where nothing drives the circuits, charges, voltages and energies are left out."""
    used = uses(read_problem_text(LEFTOVERS, "leftovers.yml"))
    (sheet,) = sheets(used)
    told = {
        name.quantity
        for rule in sheet.rules
        for one in rule.equalities
        for name in (*one.left, *names_in(one.right))
    }
    assert told == {"capacitance"}
    assert [meaning.kind for meaning in meanings(used)] == ["capacitance"]


def test_several_problems_use_what_each_of_them_uses() -> None:
    """The words of several problems are those of all of them together."""
    both = [read_problem_text(FLASHER, "flasher.yml"), read_problem_text(HEATER, "heater.yml")]
    assert used_in(both) == uses(both[0]) | uses(both[1])
    assert [sheet.law.element for sheet in sheets(used_in(both))] == ["capacitor", "resistor"]
    assert sheets(used_in([])) == ()


def test_every_kind_of_quantity_has_a_meaning() -> None:
    """A new kind of quantity cannot be forgotten on the sheet."""
    assert {meaning.kind for meaning in MEANINGS} == set(KINDS)


def test_symbols_of_the_sheet_tell_members_from_the_whole() -> None:
    """A member has its number, the equivalent its mark, the whole and any one no mark."""
    written = [
        sheet_symbol(Name(*name)).text
        for name in (("charge", "1"), ("capacitance", TOTAL), ("voltage", TOTAL), ("power", ""))
    ]
    assert written == ["Q₁", "C_eq", "V", "P"]


def test_the_glossary_is_in_order_and_reads_well() -> None:
    """Words stand in the order of the alphabet, once each, explained in whole sentences."""
    listed = [word.word for word in WORDS]
    assert listed == sorted(set(listed))
    for word in WORDS:
        assert re.fullmatch(r"[A-Z].*\.", word.means), word.word
        assert 1 <= len(re.findall(r"[.!?](?: |$)", word.means)) <= 3, word.word
        assert "  " not in word.means


def test_every_word_can_be_met() -> None:
    """What a word needs is something that problems can use."""
    problems = [
        *(read_problem_text(text, "a.yml") for text in (FLASHER, HEATER, LEFTOVERS)),
        *(read_problem(path) for path in sorted((ROOT / "content" / "problems").glob("*.yml"))),
    ]
    assert {word.needs for word in WORDS if word.needs} <= used_in(problems)
    assert {word.best for word in WORDS if "asked-" not in word.best and word.best} <= used_in(
        problems
    )
