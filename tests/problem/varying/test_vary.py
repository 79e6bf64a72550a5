"""``vary:`` and ``keep:`` say which other values a problem may have."""

from __future__ import annotations

import time
from fractions import Fraction

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from builder.problem import problem_schema, read_problem_text
from builder.problem.fresh import Follower, Keep, Vary, choices, follows, renewed
from builder.problem.model import Problem
from builder.quantity.names import TOTAL, Name
from tests.problem.samples import faults_of

FILE = """\
title: Three capacitors
scenario: The reservoir {C1} is fed from {V0}.
circuit:
  source: {V0: 12 V}
  series:
    - C1: 10 uF
    - parallel:
        - C2: 20 uF
        - C3: 5 uF
find: [equivalent, {charge: [C1, C2]}, {voltage: C1}]
"""
V0, C1, C2, C3 = (Name("voltage", "V0"), *(Name("capacitance", f"C{n}") for n in (1, 2, 3)))
VALUES = (
    "a list such as [4.7 uF, 10 uF], a range such as 6 V to 24 V step 3 V, a series such as E12, "
    "or another value such as 2*R1"
)
ENTRIES = "the values that may vary, such as {C1: E12, V0: [9 V, 12 V]}, or none"
ON_LINES = "Write a value's name and what it may be on a line of its own, indented; or vary: none."


def with_lines(*lines: str) -> Problem:
    """The file above with more lines."""
    return read_problem_text(FILE + "\n".join(lines) + "\n", "problem.yml")


def holds_to_schema(text: str) -> bool:
    """Whether an editor would underline nothing."""
    return Draft202012Validator(problem_schema()).is_valid(yaml.safe_load(text))


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("[4.7 uF, 10 uF]", "4.7 uF, 10 uF"),
        ("[1/3 uF, 1.5e-5 F]", "1/3 uF, 1.5e-5 F"),
        ("E6", "3.3 uF, 4.7 uF, 6.8 uF, 10 uF, 15 uF, 22 uF"),
        ("e3", "4.7 uF, 10 uF, 22 uF"),
        ("E6 from 330 nF to 2.2 uF", "330 nF, 470 nF, 680 nF, 1 uF, 1.5 uF, 2.2 uF"),
        ("E3 from 470nF to 1 mF", "470nF, 1 µF, 2.2 µF, 4.7 µF, 10 µF, 22 µF, 47 µF, 0.1 mF, "
         "0.22 mF, 0.47 mF, 1 mF"),
        ("5 uF to 15 uF step 2.5 uF", "5 uF, 7.5 uF, 10 uF, 12.5 uF, 15 uF"),
        ("5 uF to 12 uF step 5000 nF", "5 uF, 10 uF"),
    ],
)  # fmt: skip
def test_lists_series_and_ranges_become_values(typed: str, expected: str) -> None:
    """Each is typed with its author's unit while that is easily read."""
    problem = with_lines(f"vary: {{C1: {typed}}}")
    assert choices(problem) == {C1: tuple(expected.split(", "))}
    for text in choices(problem)[C1]:
        assert renewed(problem, {C1: text}).vary == problem.vary
    assert holds_to_schema(FILE + f"vary: {{C1: {typed}}}")


def test_only_what_is_named_varies() -> None:
    """Values that an author does not name stay, and equal ones are no longer tied."""
    problem = read_problem_text(
        FILE.replace("20 uF", "10 uF") + "vary:\n  C1: E6\n  V0: 6 V to 12 V step 3 V\n", "p.yml"
    )
    assert choices(problem)[V0] == ("6 V", "9 V", "12 V")
    assert set(choices(problem)) == {V0, C1}
    assert follows(problem) == {}


def test_none_means_no_fresh_numbers() -> None:
    """A problem may stay as it is."""
    problem = with_lines("vary: none")
    assert problem.vary == Vary()
    assert choices(problem) == {}
    assert holds_to_schema(FILE + "vary: none")


@pytest.mark.parametrize(
    ("typed", "times"),
    [("2*C1", 2), ("2 * C1", 2), ("2·C1", 2), ("4/2*C1", 2), ("4*C1/2", 2), ("2.0*C1", 2)],
)
def test_a_value_may_follow_another(typed: str, times: int) -> None:
    """Two arms of a bridge, say, stay in their ratio."""
    problem = with_lines(f"vary: {{C1: [4.7 uF, 3/7 uF, 10 uF], C2: {typed}, C3: C1/2}}")
    assert follows(problem) == {C2: Follower(C1, Fraction(times)), C3: Follower(C1, Fraction(1, 2))}
    assert set(choices(problem)) == {C1}
    other = renewed(problem, {C1: "4.7 uF"})
    assert "C2: 9.4 uF" in other.text
    assert "C3: 2.35 uF" in other.text
    assert "C3: 3/14 uF" in renewed(problem, {C1: "3/7 uF"}).text


def test_what_is_charged_and_measured_has_a_name_too() -> None:
    """A charge at the start and a measured fact are named after a point."""
    stages = """\
title: Two capacitors
circuit:
  branches:
    C1: {capacitance: 6 uF, charged: 20 V, between: [left, bottom]}
    C2: {capacitance: 4 uF, between: [right, bottom]}
    S1: {switch: open, between: [left, right]}
stages: [{close: S1}]
find: [{voltage: C1}]
vary: {C1.charged: [10 V, 20 V], C2: [4 uF, 12 uF]}
"""
    problem = read_problem_text(stages, "stages.yml")
    assert choices(problem)[Name("voltage", "C1@0")] == ("10 V", "20 V")
    unknown = FILE.replace("20 uF", "unknown") + (
        "measured: {charge: {C1: 48 uC}}\nvary: {C1.charge: [40 uC, 48 uC]}\n"
    )
    problem = read_problem_text(unknown.replace("{charge: [C1, C2]}", "C2"), "unknown.yml")
    assert choices(problem) == {Name("charge", "C1"): ("40 uC", "48 uC")}


def test_keep_says_what_must_stay() -> None:
    """Digits, sizes of what is asked, wrong rules and the order."""
    line = "keep: {digits: 2, charge: 1 uC to 1 mC, equivalent: 1 uF to 20 uF, order: same, apart: "
    problem = with_lines(line + "[equal-voltages, whole-voltage]}")
    micro = Fraction(1, 10**6)
    assert problem.keep == Keep(
        digits=2,
        ranges={
            Name("charge", "C1"): (micro, 1000 * micro),
            Name("charge", "C2"): (micro, 1000 * micro),
            Name("capacitance", TOTAL): (micro, 20 * micro),
        },
        apart={"equal-voltages": (11, 89), "whole-voltage": (11, 105)},
        same_order=True,
    )
    assert with_lines("keep: {apart: whole-voltage}").keep.apart == {"whole-voltage": (11, 15)}
    assert with_lines().keep == Keep()
    assert holds_to_schema(FILE + line + "[equal-voltages, whole-voltage]}")


@pytest.mark.parametrize(
    ("typed", "fault"),
    [
        ("all", f'11:7: found "all"; expected {ENTRIES}. {ON_LINES}'),
        ("", f'11:1: found nothing after "vary:"; expected {ENTRIES}. {ON_LINES}'),
        ("[C1]", f"11:7: found a list with 1 item; expected {ENTRIES}. {ON_LINES}"),
        ("{C9: E12}", '11:8: found "C9", for which the file states no number; expected V0, C1, C2 '
         "or C3. Check its spelling, or delete the line."),
        ("{c1: E12}", '11:8: found "c1", for which the file states no number; expected V0, C1, C2 '
         'or C3. Did you mean "C1"?'),
        ("{C1: E48}", '11:12: found the series "E48"; expected E3, E6, E12 or E24. Choose one of '
         "these; finer series are no values to calculate with."),
        ("{C1: E12 from 10 uF}", '11:12: found "E12 from 10 uF"; expected E12, or E12 with a '
         "range. Write E12 from … to …, both ends with their units."),
        ("{C1: E24 from 23 uF to 23.5 uF}", '11:12: found "E24 from 23 uF to 23.5 uF", where the '
         "series has no value; expected a range with a value in it. Make the range wider."),
        ("{C1: E24 from 1 pF to 1 F}", "11:12: found a range of more than 200 values; expected at "
         "most 200. Take a larger step, or fewer values."),
        ("{C1: [10 V, 5 uF]}", '11:13: found "10 V", a voltage, for C1; expected a '
         "capacitance such as 10 uF. Change the unit."),
        ("{C1: []}", f"11:12: found an empty list; expected {VALUES}. List the values, or delete "
         "the line."),
        ("{C1: {a: b}}", f'11:12: found keys with values (first "a"); expected {VALUES}. Write one '
         "of these."),
        ("{C1: [5 uF, 5000 nF]}", '11:19: found "5000 nF" a second time; expected each value once. '
         "Delete one of the two."),
        ("{C1: 12 uF}", "11:12: found only one value, 12 uF; expected at least two. Add others, or "
         "delete the line: what is not named stays as it is."),
        ("{C1: [0 uF, 1 uF]}", "11:13: found 0 µF for C1; expected values above zero, as 10 uF is. "
         "Change the value."),
        ("{V0: 6 V to 24 V}", '11:12: found "6 V to 24 V", a range without a step; expected a step '
         "as well, such as 6 V to 24 V step 3 V. Add step and the distance between two values."),
        ("{V0: 6 V to 24 V step 0 V}", "11:12: found a step of 0 V, with which the range never "
         "ends; expected a step above zero. Change the step."),
        ("{V0: 24 V to 6 V step 3 V}", "11:12: found a range from 24 V to 6 V; expected the "
         "smaller value first. Swap the two, or change one."),
        ("{V0: 1 V to 24 V step 1 mV}", "11:12: found a range of 23001 values; expected at most "
         "200. Take a larger step, or fewer values."),
        ("{V0: 6 to 24 V step 3 V}", '11:12: found "6", a pure number, for V0; expected a voltage '
         "such as 12 V. Change the unit."),
        ("{C2: 3*C1}", '11:12: found C2 as "3*C1", though it is 20 µF and C1 is 10 µF; expected '
         "what holds of the values in the file. Change the number, or one of the values."),
        ("{C2: V0}", '11:12: found C2 as "V0", a value of another kind; expected another value of '
         "the same kind. Name another one, or list values."),
        ("{C2: C2}", '11:12: found C2 as "C2", itself; expected another value of the same kind. '
         "Name another one, or list values."),
        ("{C2: C1/0}", '11:12: found "C1/0"; expected a number of ordinary length, and no division '
         "by zero. Change the number."),
        ("{C2: 2/0*C1}", '11:12: found "2/0*C1"; expected a number of ordinary length, and no '
         "division by zero. Change the number."),
        ("{C2: 0*C1}", '11:12: found C2 as "0*C1", though it is 20 µF and C1 is 10 µF; expected '
         "what holds of the values in the file. Change the number, or one of the values."),
        (f"{{C2: {'9' * 5000}*C1}}", f'11:12: found "{"9" * 39}…"; expected a number of ordinary '
         "length, and no division by zero. Change the number."),
        ("{C2: C9}", f'11:12: found "C9" for C2; expected {VALUES}. Write one of these.'),
        ("{C1: C2/2, C2: 4*C3}", '11:12: found "C2/2", which follows another value itself; '
         "expected a value that follows none. Say it with C3."),
        ("{C1: [[1 uF], 2 uF]}", "11:13: found a list with 1 item; expected a value such as "
         "4.7 uF. Write a number with its unit."),
    ],
)  # fmt: skip
def test_mistakes_in_vary_are_told(typed: str, fault: str) -> None:
    """Each with its place, what was found and expected, and what to do."""
    assert faults_of(FILE + f"vary: {typed}\n") == [f"problem.yml:{fault}"]


WORDS = "digits, order, apart, capacitance, equivalent, charge or voltage"


@pytest.mark.parametrize(
    ("typed", "fault"),
    [
        ("3", '7: found "3"; expected what must stay so, such as {digits: 3, order: same}. Write '
         "each key on a line of its own, indented, with a colon and a space."),
        ("{digits: 0}", '16: found "0"; expected a whole number from 1 to 10. Write another '
         "number, in digits."),
        ("{digit: 3}", f'8: found the key "digit"; expected {WORDS}. Did you mean "digits"?'),
        ("{energy: 1 J to 2 J}", "8: found energy, which the problem does not ask for; expected "
         f"{WORDS}. Delete the line, or ask for it under find."),
        ("{charge: 1 V to 2 C}", '16: found "1 V", of the kind voltage; expected charge in C. '
         "Change the unit."),
        ("{charge: 1 uC}", '16: found "1 uC"; expected a range such as 1 uC to 1 mC. Write the '
         "least and the largest value with to between them."),
        ("{charge: 2 uC to 1 uC}", "16: found a range from 2 µC to 1 µC; expected two values above "
         "zero, the smaller one first. Change one of the two."),
        ("{charge: 1 to 2 uC}", '16: found "1"; expected a range such as 1 uC to 1 mC. Add the '
         "unit after 1."),
        ("{order: other}", '15: found "other"; expected same. Write same, or delete the line.'),
        ("{apart: []}", "15: found an empty list; expected ids of wrong rules, such as "
         "equal-voltages. Name them, or delete the line."),
        ("{apart: [x, x]}", '19: found "x" a second time; expected each rule once. Delete one of '
         "the two."),
        ("{apart: a b}", '15: found "a b" for a wrong rule; expected its id, of letters, digits '
         "and hyphens. Write one id, or several in square brackets."),
    ],
)  # fmt: skip
def test_mistakes_in_keep_are_told(typed: str, fault: str) -> None:
    """Each with its place, what was found and expected, and what to do."""
    assert faults_of(FILE + f"keep: {typed}\n") == [f"problem.yml:11:{fault}"]


@pytest.mark.parametrize(
    ("typed", "expected"),
    [("[2, 3, 4.5]", ("2", "3", "4.5")), ("2 to 4 step 1", ("2", "3", "4"))],
)
def test_pure_numbers_vary_where_an_author_says_so(typed: str, expected: tuple[str, ...]) -> None:
    """What fills two plates stays on its own, but may be told to change."""
    plates = """\
title: Plates
plates: {area: 80 cm^2, gap: 2 mm, voltage: 12 V, filling: {kappa: 3}}
find: [C]
"""
    kappa = Name("ratio", "kappa")
    assert kappa not in choices(read_problem_text(plates, "plates.yml"))
    problem = read_problem_text(f"{plates}vary: {{kappa: {typed}}}\n", "plates.yml")
    assert choices(problem) == {kappa: expected}
    assert "kappa: 2}" in renewed(problem, {kappa: "2"}).text


PIECES = st.sampled_from(
    ("E12", "E24", "from", "to", "step", "1 uF", "10 uF", "0", "-3 V", "2*C1", "C2", "C1", "/", "*",
     "none", "[", "]", "{", "}", ",", ": ", "1e30 F", "1/0 uF", "~", "'", '"', "\u00b5", "#")
)  # fmt: skip


@given(
    key=st.sampled_from(("vary", "keep")),
    inner=st.sampled_from(("C1", "V0", "charge", "digits", "apart", "order")),
    pieces=st.lists(PIECES, max_size=8),
)
def test_whatever_is_typed_there_is_read_or_told(key: str, inner: str, pieces: list[str]) -> None:
    """Nothing but faults with a place comes out of it."""
    for line in (f"{key}: {' '.join(pieces)}", f"{key}: {{{inner}: {' '.join(pieces)}}}"):
        assert all(told.startswith("problem.yml:") for told in faults_of(f"{FILE}{line}\n"))


def test_a_long_text_is_refused_at_once() -> None:
    """A hundred thousand spaces take no longer than one."""
    started = time.perf_counter()
    (told,) = faults_of(f'{FILE}vary: {{C1: "1 uF{" " * 100_000}t"}}\n')
    assert told.startswith("problem.yml:11:12: found")
    assert time.perf_counter() - started < 2


def test_faults_of_form_are_told_beside_others() -> None:
    """A fault elsewhere does not hide them, and brings none that follow from it."""
    text = FILE.replace("C1: 10 uF", "C1: 10 lamps") + (
        "vary: {C1: E7, C8: 6 V to 4 V step 1 V, C9: E12, C2: 2*C1}\nkeep: {charge: nothing}\n"
    )
    assert [told.split(";")[0] for told in faults_of(text)] == [
        'problem.yml:6:11: found "10 lamps"',
        'problem.yml:11:12: found the series "E7"',
        "problem.yml:11:20: found a range from 6 V to 4 V",
    ]


@pytest.mark.parametrize(
    ("line", "advice"),
    [
        ("scenario: The reservoir {C1} is fed from 12 V.", "Write {V0.value} in the text instead"),
        ("title: All at 12 V", "Write {V0.value} in the text instead of the number."),
    ],
)
def test_what_varies_is_not_spelled_out(line: str, advice: str) -> None:
    """A text with the number would be wrong with another one; a placeholder changes along."""
    key = line.partition(":")[0]
    text = "\n".join(line if old.startswith(key) else old for old in FILE.splitlines())
    (told,) = faults_of(f"{text}\nvary: {{V0: [9 V, 12 V], C1: E12}}\n")
    assert told.startswith("problem.yml:11:8: found V0, whose 12 V an own text spells out; "
                           "expected texts without the numbers that vary. " + advice)  # fmt: skip
    assert faults_of(f"{text}\nvary: {{C1: E12}}\n") == []


def test_a_number_that_also_stands_for_what_stays_is_no_fault() -> None:
    """With two voltages of 12 V in a file, a text may speak of the one that stays."""
    text = """\
title: Two sources of 12 V
circuit:
  branches:
    V1: {emf: 12 V, between: [a, b]}
    R1: {resistance: 6 ohm, between: [a, c]}
    R2: {resistance: 3 ohm, between: [c, b]}
    V2: {emf: 12 V, between: [c, d]}
    R3: {resistance: 3 ohm, between: [d, b]}
find: [{current: R1}]
"""
    assert faults_of(text + "vary: {V1: [9 V, 12 V]}\n") == []
    assert len(faults_of(text + "vary: {V1: [9 V, 12 V], V2: V1}\n")) == 2
