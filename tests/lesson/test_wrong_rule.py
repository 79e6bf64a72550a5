"""How slips are gathered: what is dropped, what is told together, what is warned of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import pytest
from sympy import Integer, Rational

from builder.lesson.display import Display
from builder.lesson.kinds import display_of
from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import say
from builder.lesson.slips import every_slip, slip_of, slips_of, told_together, worth_a_warning
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on
from builder.problem import read_problem_text
from builder.quantity.exact import Exact
from builder.quantity.formula import Ref, Sum
from builder.quantity.names import Name
from builder.solution import solve
from builder.solution.nest.solve import solve_nest
from tests.lesson.stages.stories import LIKE
from tests.lesson.telling import asking, name_of, plain, series
from tests.lesson.test_sentences import Kind, blemishes

# 2 Ω and 4 Ω across 12 V: 6 Ω, 2 A, 4 V and 8 V, 8 W and 16 W.
CHAIN = asking(series("R1", "R2"), "12 V", values={"R1": "2 ohm", "R2": "4 ohm"})
NETWORK = """\
title: Two sources
circuit:
  branches:
    E1: {emf: 12 V, between: [a, g]}
    E2: {emf: 6 V, between: [b, g]}
    R1: {resistance: 4 ohm, between: [a, c]}
    R2: {resistance: 6 ohm, between: [c, b]}
    R3: {resistance: 1 ohm, between: [c, g]}
find: [current: all, voltage: all]
"""


def display_of_chain() -> NestDisplay:
    """The chain, solved."""
    return NestDisplay(solve_nest(CHAIN))


def rule(id: str, values: Mapping[str, Exact], *, arithmetic: bool = False) -> WrongRule:
    """A rule that leads to these values, by ``quantity:element``."""

    def find(display: Display) -> Iterator[Wrong]:
        step = display.solution.steps[0].id
        for key, value in values.items():
            yield Wrong(name_of(key), value, step, say("doing {id}", id=id))

    return WrongRule(id, "no source", id.capitalize(),
                     lambda wrong, display: say("It looks like {id}.", id=id), find,
                     arithmetic=arithmetic)  # fmt: skip


def test_rules_that_lead_to_one_number_are_told_together() -> None:
    """The sentence names every way to it, and every way is explained."""
    display = display_of_chain()
    rules = [rule(id, {"voltage:R1": Integer(5)}) for id in ("this", "that", "more", "again")]
    (two,) = slips_of(display, rules[:2])
    assert plain(two.sentence, display) == "Doing this gives V₁ = 5.00 V, and so does doing that."
    assert plain(two.tempting, display) == "It looks like this. It looks like that."
    assert two.rules == ("this", "that")
    (three,) = slips_of(display, rules)
    told = plain(three.sentence, display)
    assert told == "Doing this gives V₁ = 5.00 V, and so do doing that and doing more."
    assert not blemishes(told, Kind.SENTENCES)


def test_what_was_found_once_is_not_taken_for_something_else() -> None:
    """Two rules of one id are looked for each by itself, and a slip tells what it was made of."""
    display = display_of_chain()
    first, second = (rule("this", {"voltage:R1": Integer(volts)}) for volts in (5, 6))
    assert [one.shown.text for one in every_slip(display, (first, second, first))] == [
        "5.00 V", "6.00 V", "5.00 V"
    ]  # fmt: skip
    one, other = (wrong for each in (first, second) for wrong in each.find(display))
    assert [slip_of(first, wrong, display).shown.text for wrong in (one, other)] == [
        "5.00 V", "6.00 V"
    ]  # fmt: skip


def test_numbers_that_look_alike_are_one_number() -> None:
    """Two values that are the same at the shown digits cannot be told apart by a reader."""
    rules = [rule("this", {"voltage:R1": Integer(5)}),
             rule("that", {"voltage:R1": Rational(5001, 1000)})]  # fmt: skip
    (slip,) = slips_of(display_of_chain(), rules)
    assert slip.rules == ("this", "that")


def test_a_rule_that_leads_to_one_number_twice_is_told_once() -> None:
    """Its first way there is enough."""
    twice = [rule("this", {"voltage:R1": Integer(5)})] * 2
    (slip,) = slips_of(display_of_chain(), twice)
    assert slip.also == ()


@pytest.mark.parametrize(
    ("key", "value", "told"),
    [
        ("voltage:R1", Integer(4), []),
        ("voltage:R1", Rational(40001, 10000), []),
        ("voltage:R1", Rational(401, 100), ["4.01 V"]),
        ("voltage:R1", Integer(-4), []),
        ("voltage:R1", Integer(0), ["0 V"]),
        ("power:R1", Integer(-8), []),
        ("resistance:total", Integer(-6), []),
    ],
)
def test_what_is_right_or_cannot_be_is_dropped(key: str, value: Exact, told: list[str]) -> None:
    """In a chain with one source everything runs its way, so that nothing is negative."""
    slips = slips_of(display_of_chain(), [rule("this", {key: value})])
    assert [slip.shown.text for slip in slips] == told


@pytest.mark.parametrize(
    ("key", "told"),
    [("current:R1", ["−7.00 A"]), ("voltage:R1", ["−7.00 V"]), ("energy:C1", [])],
)
def test_what_is_counted_one_way_can_be_wrong_by_its_sign(key: str, told: list[str]) -> None:
    """A current against its arrow, but never an energy that is less than nothing."""
    text = NETWORK if key.endswith("R1") else LIKE
    display = display_of(solve(read_problem_text(text, "any.yml")))
    key = key if key.endswith("R1") else f"{key}@1"
    slips = slips_of(display, [rule("this", {key: Integer(-7)})])
    assert [slip.shown.text for slip in slips] == told


def test_a_mistake_is_carried_on_to_what_is_asked() -> None:
    """With 3 Ω for both, 4 A flow, 8 V and 16 V drop, and 32 + 64 = 96 W turn into heat."""
    display = display_of_chain()
    step = display.solution.steps[0]
    wrongs = carried_on(display, step, {name_of("resistance:total"): Integer(3)}, say("halving"))
    assert {wrong.name.key: wrong.value for wrong in wrongs} == {
        "resistance:total": 3, "current:total": 4, "voltage:R1": 8, "voltage:R2": 16,
        "current:R1": 4, "current:R2": 4, "power:R1": 32, "power:R2": 64, "power:total": 96,
    }  # fmt: skip


def test_a_formula_can_stand_for_another() -> None:
    """The sum without its last term is 2 Ω, through which 6 A would flow."""
    display = display_of_chain()
    step = display.solution.steps[0]
    short = {name_of("resistance:total"): Sum((Ref(Name("resistance", "R1")),))}
    found = {w.name.key: w.value for w in carried_on(display, step, short, say("forgetting"))}
    assert (found["resistance:total"], found["current:total"]) == (2, 6)


def test_a_slip_of_the_pen_is_no_part_of_a_warning() -> None:
    """It may lead to the same number, but a warning is of what one may really believe."""
    pen = rule("pen", {"voltage:R1": Integer(5)}, arithmetic=True)
    turns = every_slip(display_of_chain(), [rule("one", {"voltage:R1": Integer(5)}), pen])
    assert [slip.rules for slip in told_together(turns)] == [("one", "pen")]
    assert [slip.rules for slip in worth_a_warning(turns)] == [("one",), ("pen",)]


def test_warnings_are_about_as_many_quantities_as_can_be() -> None:
    """A rule about a quantity that has been warned of waits until the others had their turn."""
    turns = every_slip(display_of_chain(), [
        rule("one", {"resistance:total": Integer(1)}),
        rule("two", {"resistance:total": Integer(2), "current:total": Integer(7)}),
        rule("three", {"resistance:total": Integer(3)}),
        rule("four", {"voltage:R1": Integer(5)}),
        rule("five", {"current:total": Integer(9)}),
        rule("six", {"voltage:R2": Integer(5)}),
    ])  # fmt: skip
    warned = [slip.rule.id for slip in worth_a_warning(turns)]
    assert warned == ["one", "four", "five", "two", "six"]


def test_rules_that_meet_in_one_number_are_warned_of_one_by_one() -> None:
    """With other values they would part, and a page keeps its warnings when it is renumbered."""
    turns = every_slip(display_of_chain(), [
        rule("one", {"voltage:R1": Integer(5)}),
        rule("two", {"voltage:R1": Integer(5), "voltage:R2": Integer(6)}),
        rule("three", {"voltage:R1": Integer(6)}),
    ])  # fmt: skip
    warned = worth_a_warning(turns)
    assert [slip.rules for slip in warned] == [("one",), ("two",), ("three",)]
    assert [slip.wrong.name.key for slip in warned] == ["voltage:R1"] * 3


def test_a_rule_is_warned_of_where_it_first_leads_to_a_wrong_number() -> None:
    """Its place among the warnings stays that of what it gets wrong with most values."""
    turns = every_slip(display_of_chain(), [
        rule("one", {"voltage:R1": Integer(4), "voltage:R2": Integer(6)}),
        rule("two", {"voltage:R1": Integer(4)}),
    ])  # fmt: skip
    assert [slip.wrong.name.key for slip in worth_a_warning(turns)] == ["voltage:R2"]


def test_slips_of_the_pen_are_warned_of_where_there_is_little_else() -> None:
    """One of them, after all that is worth more."""
    pen = [rule("pen", {"power:R1": Integer(1)}, arithmetic=True),
           rule("ink", {"power:R2": Integer(1)}, arithmetic=True)]  # fmt: skip
    others = [rule("one", {"voltage:R1": Integer(5)}), rule("two", {"voltage:R2": Integer(5)}),
              rule("three", {"current:R2": Integer(5)})]  # fmt: skip
    few = worth_a_warning(every_slip(display_of_chain(), [*pen, *others[:2]]))
    assert [slip.rule.id for slip in few] == ["one", "two", "pen"]
    many = worth_a_warning(every_slip(display_of_chain(), [*pen, *others]))
    assert [slip.rule.id for slip in many] == ["one", "three", "two"]
