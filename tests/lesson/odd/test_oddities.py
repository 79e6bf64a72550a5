"""Each sort of oddity, as it is told, with what lies just outside it."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from builder.errors import Oddity
from builder.lesson.kinds import KINDS
from builder.lesson.odd import FINDERS, odd_about
from builder.lesson.odd.meeting import _EQUAL_SHARES
from builder.lesson.odd.usual import _IN_CIRCUITS, _IN_EQUATIONS, Usual
from builder.problem import read_problem, read_problem_text
from builder.problem.unit_of import unit_of
from builder.solution import solve
from tests.conftest import ROOT
from tests.lesson.odd.samples import ALONE, CHARGER, FADING, LABEL, RESERVE, SHEET
from tests.problem.samples import changed
from tests.site.guide.texts import PROBLEMS

PAIR = """\
title: Two lamps
scenario: |
  The workshop tests {C1} and {C2} on {V0}.
circuit:
  source: {V0: 12 V}
  series:
    - C1: 10 uF
    - C2: 15 uF
find:
  - equivalent
  - charge: all
  - energy: total
"""
LAMPS = """\
title: Two lamps side by side
circuit:
  source: {V0: 12 V}
  parallel:
    - R1: 3 ohm
    - R2: 6 ohm
find: [equivalent, current: total]
"""


def odd_in(text: str) -> list[str]:
    """The oddities of a problem's file, as they are printed."""
    return [str(oddity) for oddity in oddities(text)]


def oddities(text: str) -> tuple[Oddity, ...]:
    """The oddities of a problem's file."""
    return odd_about(solve(read_problem_text(text, "p.yml")))


def asking(*options: str, ask: str = "Which is it?") -> str:
    """A sound problem with a question of its author's; the first option is the right one."""
    first, *others = options
    lines = [PAIR + "questions:", f"  - ask: {ask}", "    choices:"]
    lines += [f'      - {{text: "{first}", right: yes}}', *(f'      - "{one}"' for one in others)]
    return "\n".join(lines) + "\n"


SLIPPED = "m stands for milli, M for mega: was"
MEANT = "Check the unit:"


@pytest.mark.parametrize(
    ("text", "old", "new", "told"),
    [
        (PAIR, "10 uF", "47 F", "7:11: odd: C1 is 47 F, more than is usual for a capacitance "
         f"(0.1 pF to 10 F). {MEANT} 47 µF would be usual."),
        (PAIR, "10 uF", "47 MF", "7:11: odd: C1 is 47 MF, more than is usual for a capacitance "
         f"(0.1 pF to 10 F). {SLIPPED} 47 mF meant?"),
        (PAIR, "10 uF", "0.02 pF", "7:11: odd: C1 is 0.02 pF, less than is usual for a capacitance "
         f"(0.1 pF to 10 F). {MEANT} 0.02 mF would be usual."),
        (PAIR, "{V0: 12 V}", "{V0: 5 MV}", "5:16: odd: V0 is 5 MV, more than is usual for a "
         f"voltage (1 µV to 1 MV). {SLIPPED} 5 mV meant?"),
        (PAIR.replace("{V0}.", "it."), "{V0: 12 V}", "{Q0: 3 C}",
         "5:16: odd: Q0 is 3 C, more than is usual for a charge "
         f"(0.1 pC to 1 C). {MEANT} 3 mC would be usual."),
        (LAMPS, "3 ohm", "3 pohm", "5:11: odd: R1 is 3 pΩ, less than is usual for a resistance "
         f"(10 µΩ to 100 GΩ). {MEANT} 3 kΩ would be usual."),
        (CHARGER, "inner: 1 ohm, between: [left", "inner: 1 uohm, between: [left",
         "9:28: odd: The internal resistance of E1 is 1 µΩ, less than is usual for a resistance "
         f"(10 µΩ to 100 GΩ). {MEANT} 1 kΩ would be usual."),
        (RESERVE, "charged: 6 V", "charged: 6 MC", "9:38: odd: C2 starts with 6 MC, more than is "
         f"usual for a charge (0.1 pC to 1 C). {SLIPPED} 6 mC meant?"),
        (LABEL, "2 A}", "0.5 pA}", "11:17: odd: The current of R1 is 0.5 pA, less than is usual "
         f"for a current (1 pA to 100 kA). {MEANT} 0.5 A would be usual."),
        (SHEET, "2 mm", "2 m", "7:8: odd: d is 2 m, more than is usual for a length (1 nm to 1 m). "
         f"{MEANT} 2 mm would be usual."),
        (SHEET, "80 cm^2", "80 m^2", "6:9: odd: A is 80 m², more than is usual for an area "
         f"(0.01 µm² to 10 m²). {MEANT} 80 cm² would be usual."),
        (SHEET, "plastic sheet}", "plastic sheet, strength: 3 kV/m}",
         "10:62: odd: E_max is 3 kV/m, less than is usual for a field strength (100 kV/m to 2 "
         f"GV/m). {MEANT} 3 MV/m would be usual."),
        (ALONE, "24 W", "24 PW", "6:6: odd: P is 24 PW, more than is usual for a power (1 pW to "
         f"10 GW). {MEANT} 24 W would be usual."),
        (LAMPS, "12 V", "9664696 V", "3:16: odd: V0 is 9664696 V, more than is usual for a voltage "
         "(1 µV to 1 MV). Check the number and the unit: 10 V would be usual."),
        (PAIR, "10 uF", "22 nF", ""),
        (PAIR, "10 uF", "10 F", ""),
        (LAMPS, "3 ohm", "100 Gohm", "5:11: odd: R1 is about 16667 million times as large as R2. "
         "Check the prefixes: m stands for milli, M for mega."),
        (LAMPS, "R2: 6 ohm", "R2: 40 Mohm", "6:11: odd: R2 is about 13 million times as large as "
         "R1. Check the prefixes: m stands for milli, M for mega."),
        (LAMPS, "R2: 6 ohm", "R2: 30 Mohm", ""),
    ],
)  # fmt: skip
def test_values_far_from_usual(text: str, old: str, new: str, told: str) -> None:
    """A value far from usual is told with its reach, and with what its unit may have meant."""
    found = odd_in(changed(text, old, new))
    assert found == ([f"p.yml:{told}"] if told else [])


def test_the_small_one_is_told_where_it_stands_alone() -> None:
    """Of three elements the one that is far from the other two is marked."""
    text = changed(LAMPS, "    - R2: 6 ohm\n", "    - R2: 470 kohm\n    - R3: 100 kohm\n")
    (oddity,) = oddities(changed(text, "3 ohm", "10 mohm"))
    assert (oddity.line, oddity.column, oddity.width) == (5, 11, 7)
    assert oddity.seen == "R2 is about 47 million times as large as R1."


@pytest.mark.parametrize("usual", [*_IN_CIRCUITS, *_IN_EQUATIONS], ids=lambda one: one.kind)
def test_what_is_usual_holds_what_is_common(usual: Usual) -> None:
    """Each reach runs upwards over many powers of ten, and nothing is said of zero."""
    least, most = usual.reach
    assert most / least >= 10**4
    assert usual.holds(Fraction(0))
    assert usual.holds(-most)
    assert not usual.holds(2 * most)


@pytest.mark.parametrize(
    ("find", "told"),
    [
        ("[charge: all, charge: C1]", "21: odd: charge: C1 is asked for already by charge: all."),
        ("[charge: C1, charge: all]", "8: odd: charge: C1 is asked for already by charge: all."),
        ("[charge: [C1, C2, C1]]", "25: odd: charge: C1 is asked for a second time."),
        ("[charge: [C1, C2], charge: all]",
         "26: odd: charge: all is asked for already by charge: [C1, C2]."),
        ("[charge: [C1, C2], energy: C1, charge: C2]",
         "38: odd: charge: C2 is asked for already by charge: [C1, C2]."),
        ("[equivalent, equivalent]", "20: odd: equivalent is asked for a second time."),
        ("[capacitance: total, equivalent]",
         "28: odd: equivalent is asked for already by capacitance: total."),
        ("[charge: [C1, all]]", "17: odd: charge: C1 is asked for already by charge: all."),
        ("[charge: C1, voltage: C1, energy: total]", ""),
        ("[charge: C1, charge: C2]", ""),
        ("[charge: all, charge: total]", ""),
    ],
)  # fmt: skip
def test_what_is_asked_twice(find: str, told: str) -> None:
    """What another item asks for already is told with that item."""
    text = PAIR[: PAIR.index("find:")] + f"find: {find}\n"
    found = odd_in(text)
    assert found == ([f"p.yml:9:{told} Delete one of the two."] if told else [])


def test_the_line_of_the_other_item_is_told() -> None:
    """Where the item that asks for it already stands in another line, that line is named."""
    (told,) = odd_in(PAIR + "  - charge: C2\n")
    assert told == ("p.yml:13:5: odd: charge: C2 is asked for already by charge: all on line 11. "
                    "Delete one of the two.")  # fmt: skip


def test_moments_are_told_apart() -> None:
    """The same quantity at another time is another question; at the same time it is not."""
    more = changed(FADING, "  - time-constant", "  - voltage: {C1: 1 s}\n  - time-constant")
    assert odd_in(more) == []
    (told,) = odd_in(changed(more, "{C1: 1 s}", "{C1: 2 s}"))
    assert "voltage: {C1: 2 s} is asked for already by voltage: {C1: [start, 2 s]} on line" in told


def test_a_fact_that_was_measured_need_not_be_found() -> None:
    """To ask for what was measured is odd, in the list and in a question."""
    text = changed(LABEL, "{power: R2}", "current: R1")
    text += "questions:\n  - {ask: How much flows?, answer: {current: R1}}\n"
    assert odd_in(text) == [
        "p.yml:12:21: odd: current: R1 is given in the problem. Delete it, or ask for something "
        "that has to be found.",
        "p.yml:14:36: odd: The answer, 2 A, is given in the problem. Ask for something that has to "
        "be found.",
    ]


def test_a_quantity_of_no_relation() -> None:
    """A given that no relation speaks of is told by its name."""
    (told,) = odd_in(changed(ALONE, "  V: 12 V\n", "  V: 12 V\n  t: 3 s\n"))
    assert told.endswith("odd: t stands in no relation. Write it into one, or delete it.")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (changed(PAIR, "on {V0}", "on 12 V"), "3:39: odd: The text spells out 12 V, the value of "
         "V0. Write {V0.value} in its place"),
        (changed(PAIR, "on {V0}", "on a 12-V battery"), "3:41: odd: The text spells out 12-V, the "
         "value of V0. Write {V0.value} in its place"),
        (changed(PAIR, "on {V0}", "on a board of 10\n  uF"), "3:50: odd: The text spells out 10 "
         "uF, the value of C1. Write {C1.value} in its place"),
        (PAIR + "plan: First 0.012 kV.\n", "13:13: odd: The text spells out 0.012 kV, the value of "
         "V0. Write {V0.value} in its place"),
        (changed(RESERVE, "some charge", "6 V"), "4:3: odd: The text spells out 6 V, what C2 "
         "starts with. Write {C2.charged} in its place"),
        (changed(PAIR, "on {V0}", "on 13 V"), ""),
        (changed(PAIR, "title: Two", "title: 12 V and two"), ""),
    ],
)  # fmt: skip
def test_values_that_texts_spell_out(text: str, told: str) -> None:
    """A given value in an own text is told with the placeholder that would follow it."""
    found = odd_in(text)
    rest = ", so that the text follows when the value changes."
    assert found == ([f"p.yml:{told}{rest}"] if told else [])


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        # 1/2 + 1/2 = 1, which is its own reciprocal.
        ("3 ohm\n    - R2: 6 ohm", "2 ohm\n    - R2: 2 ohm",
         "p.yml:7:8: odd: Stopping at the sum of the reciprocals of R₁ and R₂ gives 1.00 Ω for the "
         "equivalent resistance, which is right, so this mistake cannot show."),
        ("3 ohm\n    - R2: 6 ohm", "3 ohm\n    - R2: 3 ohm", ""),
    ],
)  # fmt: skip
def test_mistakes_that_cannot_show(old: str, new: str, told: str) -> None:
    """A mistake that leads to the right number, for these values alone, is told."""
    found = odd_in(changed(LAMPS.replace("[equivalent, current: total]", "[equivalent]"), old, new))
    rest = " Change a value, or let stepwell numbers find others."
    assert found == ([told + rest] if told else [])


def test_a_forgotten_square_cannot_show_at_one_volt() -> None:
    """V²/R is V/R at 1 V; with the voltage of the same circuit at 12 V the mistake shows."""
    text = changed(LAMPS, "current: total", "power: total")
    assert odd_in(text) == []
    (told,) = odd_in(changed(text, "12 V", "1 V"))
    assert "Forgetting the square in P = V²/R gives 500 mW for the total power" in told


def test_equal_shares_are_left_alone() -> None:
    """Where the parts are equal, sharing equally is right, and nothing is said."""
    assert odd_in(changed(LAMPS, "3 ohm", "6 ohm")) == []
    assert odd_in(changed(RESERVE, "capacitance: 2 uF", "capacitance: 4 uF")) == []


def test_the_rules_that_are_left_alone_are_there() -> None:
    """The rules on equal shares are named as they are registered."""
    ids = {rule.id for kind in KINDS.values() for rule in kind.rules}
    assert ids >= _EQUAL_SHARES


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("5 V", "5000 mV"), 'The option "5000 mV" says the same as "5 V".'),
        (("{C1.name}", "C1"), 'The option "C1" says the same as "{C1.name}".'),
        (("It *falls*", "it falls."), 'The option "it falls." says the same as "It *falls*".'),
        (("{V0.value}", "12 V"), 'The option "12 V" says the same as "{V0.value}".'),
        (("{C1.name}", "{C2.name}"), ""),
        (("5 V", "5 mV"), ""),
        (("5 V", "5 A"), ""),
    ],
)
def test_options_that_coincide(options: tuple[str, ...], told: str) -> None:
    """Options that say the same, or tell the same value, are told."""
    found = [str(one) for one in oddities(asking(*options)) if one.kind != "spelled-out"]
    advice = "Change one of the two, so that only one can be right."
    assert found == ([f"p.yml:17:9: odd: {told} {advice}"] if told else [])


def test_the_right_option_is_no_longer_than_others() -> None:
    """A right option at least twice as long as any other, and not short, is told."""
    reason = "It falls, because the chain as a whole then takes less charge"
    (told,) = odd_in(asking(reason, "It rises"))
    assert told == (
        "p.yml:16:16: odd: The right option is at least twice as long as any other. Shorten it, or "
        "move its reason into the reply: whoever guesses takes the longest."
    )
    assert odd_in(asking("It falls at once", "No")) == []
    assert odd_in(asking(reason, "It rises, as there is one less to fill")) == []


def test_a_question_asked_twice() -> None:
    """A question that says the same as another one is told, whatever its answer."""
    text = PAIR + (
        "questions:\n  - {ask: How *large* is it?, answer: {charge: C1}}\n"
        "  - {ask: how large is it?, answer: {voltage: C1}}\n"
        "  - {ask: How small is it?, answer: {voltage: C2}}\n"
    )
    assert odd_in(text) == [
        "p.yml:15:11: odd: The question is the same as the one on line 14. Ask something else, or "
        "delete one of the two."
    ]


def test_an_oddity_shows_its_line() -> None:
    """Below an oddity stands its line, with a mark under all of the value."""
    (oddity,) = oddities(changed(PAIR, "10 uF", "47 F"))
    assert oddity.told().splitlines()[1:] == ["  7 |     - C1: 47 F", "    |           ^^^^"]


def test_there_is_a_finder_for_each_sort() -> None:
    """Every finder is registered once, and says in its docstring what it finds."""
    assert len(set(FINDERS)) == len(FINDERS) == 11
    assert all(find.__doc__ for find in FINDERS)


def test_the_unit_has_no_oddities() -> None:
    """Nothing is odd about the problems of the unit."""
    files = sorted((ROOT / "content" / "problems").glob("*.yml"))
    assert len(files) > 30
    for file in files:
        solution = solve(read_problem(file, unit=unit_of(file)))
        assert odd_about(solution) == (), file


@pytest.mark.parametrize("slug", PROBLEMS)
def test_the_guide_has_no_oddities(slug: str) -> None:
    """Nothing is odd about the problems of the guide."""
    assert odd_in(PROBLEMS[slug]) == []


def test_a_problem_without_a_file_has_none() -> None:
    """What was not read from a file has no places to speak of."""
    problem = read_problem_text(changed(PAIR, "10 uF", "47 F"), "p.yml")
    solution = solve(type(problem)(**{**vars(problem), "text": ""}))
    assert odd_about(solution) == ()
    assert Path(problem.path).name == "p.yml"
