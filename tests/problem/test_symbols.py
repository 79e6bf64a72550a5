"""Symbols where numbers could stand: how they are read, and what is told of mistakes."""

from __future__ import annotations

import pytest
from jsonschema import Draft202012Validator

from builder.problem import problem_schema, read_problem_text
from builder.problem.model import NestProblem
from builder.quantity.letters import kind_of
from builder.quantity.symbolic import plain
from tests.problem.samples import faults_of


def file(source: str, first: str, second: str, more: str = "") -> str:
    """A problem of two elements in series."""
    return (
        f"title: A chain\ncircuit:\n  source: {source}\n  series:\n    - {first}\n    - {second}\n"
        f"find: equivalent\n{more}"
    )


def read(text: str) -> NestProblem:
    """A problem without faults."""
    problem = read_problem_text(text, "problem.yml")
    assert isinstance(problem, NestProblem)
    return problem


@pytest.mark.parametrize(
    ("source", "first", "second", "driven", "values"),
    [
        ("V", "C1: C", "C2: 2*C", "V voltage V", ["C capacitance C", "2*C capacitance 2C"]),
        ("{V0: E}", "R1: R1", "R2: R/3", "V0 voltage E",
         ["R1 resistance R₁", "R/3 resistance R/3"]),
        ("E", "C1: 3 C/2", "C2: C·2", "E voltage E",
         ["3*C/2 capacitance 3C/2", "2*C capacitance 2C"]),
        ("I", "R1: R", "R2: {resistance: x}", "I current I", ["R resistance R", "x resistance x"]),
        ("2*V", "R1: r", "R2: R_load", "V0 voltage 2V",
         ["r resistance r", "R_load resistance R_load"]),
        ("{Vs: 2*V}", "C1: C", "C2: (C + D)/2", "Vs voltage 2V",
         ["C capacitance C", "C/2 + D/2 capacitance (C + D)/2"]),
        ("Q", "C1: C", "C2: C*D/(C + D)", "Q charge Q",
         ["C capacitance C", "C*D/(C + D) capacitance CD/(C + D)"]),
        ("12 V", "R1: R", "R2: 100 ohm", "V0 voltage 12 V",
         ["R resistance R", "100 resistance 100 Ω"]),
        ("V", "R1: 5 R", "R2: R", "V voltage V", ["5*R resistance 5R", "R resistance R"]),
    ],
)  # fmt: skip
def test_symbols_are_read(
    source: str, first: str, second: str, driven: str, values: list[str]
) -> None:
    """A symbol has the kind of the place where it stands; alone it also names the source."""
    network = read(file(source, first, second)).network
    assert network.source is not None
    given = network.source
    assert f"{given.name} {given.quantity} {given.shown.text}" == driven
    told = [
        f"{plain(element.value)} "
        f"{' '.join({kind_of(s) for s in element.value.free_symbols}) or 'resistance'} "
        f"{element.shown.text}"
        for element in network.elements
    ]
    assert told == values


def test_symbols_stand_in_branches_that_are_a_nest() -> None:
    """A table of branches takes symbols where groups of series and parallel come of it."""
    problem = read(
        "title: Two\ncircuit:\n  branches:\n    V: {emf: V, between: [a, b]}\n"
        "    R1: {resistance: R, between: [a, c]}\n    R2: {resistance: 2*R, between: [c, b]}\n"
        "find: equivalent\n"
    )
    assert [element.shown.text for element in problem.network.elements] == ["R", "2R"]


FAULTS = [
    ("X", "C1: C", "C2: C",
     '3:11: found "X", which may be of several kinds; expected a symbol whose first letter tells '
     "its kind: C, R, V, I or Q. Name the source by its kind: source: {V0: X}."),
    ("V", "foo: x", "C2: C",
     '5:12: found "x", which may be of several kinds; expected a symbol whose first letter tells '
     "its kind: C, R, V, I or Q. Write what it is: {capacitance: x}."),
    ("{V0: x}", "C1: x", "C2: C",
     '5:11: found "x" as a capacitance, which is a voltage above; expected one meaning for each '
     "letter. Give one of the two another letter."),
    ("V", "C1: 2*V", "C2: C",
     '5:11: found "2*V", whose letter V stands for a voltage; expected a capacitance: a symbol, '
     "alone or with a number, such as 2*C or R/3. Choose a letter that tells what it is, such as "
     "C."),
    ("V", "C1: C2", "C2: C",
     '5:11: found "C2", which is an element of the circuit; expected a letter of its own, or the '
     "element's own name as its value. Let both be multiples of one letter, such as C and 2*C."),
    ("{Vs: V1}", "C1: C", "C2: C",
     '3:16: found "V1", which would be printed like the voltage of C1; expected a letter that '
     "looks different on the page. Choose a letter without an index, or with another one."),
    ("V", "C1: C", "C2: 10 f",
     '6:11: found "10 f"; expected a capacitance such as 10 uF or a resistance such as 100 ohm. '
     '"f" is no unit of a circuit quantity. Did you mean "F"?'),
    ("V", "C1: C", "C2: 2*C+",
     '6:15: found the end in "2*C+"; expected a number, a name or a bracket. Complete it, or '
     "remove what is too much."),
    ("V", "C1: C", "C2: C*C",
     '6:11: found "C*C", which is no capacitance; expected a capacitance: a symbol, alone or with '
     "a number, such as 2*C or R/3. Each term needs one letter more above the line than below it, "
     "as in C/2."),
    ("V", "C1: C", "C2: C-D",
     '6:11: found "C-D", which may be zero or less; expected a capacitance above zero. Symbols '
     "stand for any numbers above zero, so leave out minus signs."),
    ("V", "C1: C", "C2: sqrt(2)*C",
     '6:11: found "sqrt(2)*C"; expected a symbol, alone or with a number, such as 2*C or R/3. Use '
     "letters and numbers with + − * / only."),
    ("V", "C1: C", "C2: pi*C",
     '6:11: found "pi*C"; expected a symbol, alone or with a number, such as 2*C or R/3. Use '
     "letters and numbers with + − * / only."),
    ("V", "C1: C", "C2: C/(D-D)",
     '6:11: found "C/(D-D)", which divides by zero; expected a symbol, alone or with a number, '
     "such as 2*C or R/3. Check what stands below the line."),
    ("V", "C1: C/0", "C2: C",
     '5:13: found a division by zero in "C/0"; expected something else than zero. Check what is '
     "below."),
    ("V", "C1: 3C", "C2: C",
     '5:11: found "3C", a charge; expected a capacitance such as 10 uF or a resistance such as '
     "100 ohm. Change the unit: C measures charge. For a multiple of a symbol C, write it with *, "
     "such as 2*C."),
    ("V", "C1: 9**9**9*C", "C2: C",
     '5:15: found "**" in "9**9**9*C"; expected one exponent. Put brackets round the first '
     "power."),
    ("V", "C1: __import__", "C2: C",
     '5:11: found "__import__"; expected a capacitance such as 10 uF or a resistance such as '
     "100 ohm. Start with a number."),
    ("V", "C1: uF", "C2: C",
     '5:11: found "uF"; expected a capacitance such as 10 uF or a resistance such as 100 ohm. '
     "Start with a number."),
]  # fmt: skip


@pytest.mark.parametrize(("source", "first", "second", "fault"), FAULTS)
def test_mistakes_with_symbols_are_told(source: str, first: str, second: str, fault: str) -> None:
    """Each mistake has its place, what stands there, what should, and what to do."""
    assert faults_of(file(source, first, second)) == [f"problem.yml:{fault}"]


def test_letters_are_few_enough_to_be_solved() -> None:
    """Formulas of many letters would fill pages, so there is a limit, told where it is passed."""
    items = "\n".join(f"    - R{number}: R{number}" for number in range(1, 8))
    text = f"title: T\ncircuit:\n  source: V\n  series:\n{items}\nfind: equivalent\n"
    assert faults_of(text) == [
        "problem.yml:11:11: found 7 different letters; expected at most 6. Let some elements be "
        "multiples of one letter, or give them numbers."
    ]


def test_networks_take_no_symbols_so_far() -> None:
    """A circuit that is more than a nest is refused with symbols, at each of them."""
    text = (
        "title: Two\ncircuit:\n  branches:\n    V1: {emf: 9 V, between: [a, b]}\n"
        "    V2: {emf: 3 V, between: [c, b]}\n    R1: {resistance: R, between: [a, c]}\n"
        "find: [{current: R1}]\n"
    )
    assert faults_of(text) == [
        "problem.yml:6:22: found the symbol R in a circuit that is more than series and parallel "
        "groups with one source; expected a number with a unit. Such circuits cannot be solved "
        "with symbols so far. Write numbers."
    ]


def test_a_typed_answer_needs_numbers() -> None:
    """A question of the author's own about a symbol is answered by choices."""
    question = "questions:\n  - ask: How much?\n    answer: equivalent\n"
    assert faults_of(file("V", "C1: C", "C2: C", question)) == [
        "problem.yml:10:13: found a typed answer in a circuit with the symbol C; expected choices. "
        "Answers with symbols cannot be typed so far. Write choices: with the options in place of "
        "answer:."
    ]


@pytest.mark.parametrize(
    ("value", "accepted"),
    [
        ("2*C", True), ("C", True), ("R_load/3", True), ("(C + D)/2", True), ("10 uF", True),
        ("2·C", True), ("big", False), ("10", False), ("", False), ("C;D", False),
    ],
)  # fmt: skip
def test_the_schema_knows_symbols(value: str, accepted: bool) -> None:
    """Editors accept a number with a unit or an expression of letters, and nothing else."""
    document = {
        "title": "A chain",
        "circuit": {"source": "V", "series": [{"C1": value}, {"C2": {"capacitance": value}}]},
        "find": "equivalent",
    }
    assert Draft202012Validator(problem_schema()).is_valid(document) is accepted
