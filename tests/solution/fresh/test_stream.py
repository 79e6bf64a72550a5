"""Other numbers for a problem: confirmed, clean, varied, and always the same."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from itertools import combinations, islice
from pathlib import Path

import pytest

from builder.problem import read_problem, read_problem_text
from builder.problem.fresh import stated_values
from builder.quantity.clean import digits_of
from builder.quantity.exact import as_fraction
from builder.quantity.names import Name
from builder.quantity.show import show
from builder.quantity.symbolic import sign_of
from builder.solution import Solution, solve
from builder.solution.fresh.stream import fresh_solutions
from builder.solution.fresh.wanted import asked_of

CONTENT = Path("content/problems")
OF_EACH_KIND = {
    "flasher-reservoir": 24,
    "lantern-ladder": 24,
    "heater-cube": 24,
    "bench-bridge": 24,
    "bench-bridge-astray": 24,
    "two-batteries": 24,
    "capacitor-without-a-mark": 24,
    "bilge-sensor-layers": 24,
    "lantern-spare-reservoir": 24,
    "reservoir-through-a-resistor": 24,
}
NEST = """
title: Two lamps
circuit:
  source: {V0: 12 V}
  series: [R1: 4 ohm, parallel: [R2: 12 ohm, R3: 6 ohm]]
find: [equivalent, current: all]
"""


@cache
def first(slug: str) -> Solution:
    """A problem of the unit with its own numbers."""
    return solve(read_problem(CONTENT / f"{slug}.yml"))


@cache
def stream(slug: str) -> tuple[Solution, ...]:
    """The other numbers of a problem of the unit."""
    return tuple(fresh_solutions(first(slug)))


def stated(solution: Solution) -> dict[Name, Fraction]:
    """The stated values of a problem."""
    return {v.name: as_fraction(v.measure.value) for v in stated_values(solution.problem)}


def of_text(text: str) -> Solution:
    """A problem that is written here, solved."""
    return solve(read_problem_text(text, "lamps.yml"))


each_kind = pytest.mark.parametrize("slug", OF_EACH_KIND)


@each_kind
def test_every_set_is_solved_by_the_same_moves(slug: str) -> None:
    """Steps, their order and what each finds stay; so do the signs of all values."""
    own = first(slug)
    assert len(stream(slug)) == OF_EACH_KIND[slug]
    for other in stream(slug):
        assert other.agree
        for one, two in zip(own.every_step, other.every_step, strict=True):
            assert (one.id, one.kind, one.found) == (two.id, two.kind, two.found)
        assert {n: sign_of(v) for n, v in other.values.items()} == {
            n: sign_of(v) for n, v in own.values.items()
        }


@each_kind
def test_the_best_sets_are_as_clean_as_the_problem_itself(slug: str) -> None:
    """No answer of the first sets needs more digits than are shown, unless the problem's does."""
    own = first(slug)
    for other in stream(slug)[:4]:
        for name in asked_of(own):
            allowed = max(own.problem.digits, digits_of(own.values[name]))
            assert digits_of(other.values[name]) <= allowed, name


@each_kind
def test_no_set_is_another_one_again(slug: str) -> None:
    """All differ, none is another times one factor, and what differed stays different.

    What was equal stays equal, unless the author says what varies.
    """
    own = first(slug)
    sets = [stated(solution) for solution in (own, *stream(slug))]
    for one, two in combinations(sets, 2):
        assert one != two
        ratios = {one[name] / two[name] for name in one if two[name]}
        assert len(ratios) > 1
    for other in sets[1:]:
        for a, b in combinations(other, 2):
            if a.quantity == b.quantity:
                free = sets[0][a] == sets[0][b] and own.problem.vary is not None
                assert free or (other[a] == other[b]) == (sets[0][a] == sets[0][b]), (a, b)


@each_kind
def test_answers_that_look_different_still_do(slug: str) -> None:
    """Whoever mixes up two answers of one kind is never right by chance."""
    own = first(slug)

    def looks(solution: Solution, name: Name) -> str:
        return show(solution.values[name], name.quantity, own.problem.digits).text

    for a, b in combinations(asked_of(own), 2):
        if a.quantity == b.quantity and looks(own, a) != looks(own, b):
            assert all(looks(other, a) != looks(other, b) for other in stream(slug))


def test_the_first_sets_differ_from_the_problem_in_every_value() -> None:
    """Variety comes with cleanness, not after it."""
    own = stated(first("flasher-reservoir"))
    for other in islice(stream("flasher-reservoir"), 4):
        assert all(value != own[name] for name, value in stated(other).items())


def test_the_stream_is_always_the_same_and_lazy() -> None:
    """Two runs give the same sets in the same order, however many are taken."""
    again = list(islice(fresh_solutions(first("two-batteries")), 5))
    assert [stated(s) for s in again] == [stated(s) for s in stream("two-batteries")[:5]]


def test_a_balanced_bridge_stays_balanced() -> None:
    """Its arms keep their proportion, whatever they are: the middle resistor carries nothing."""
    for other in stream("bench-bridge"):
        assert other.values[Name("current", "R5")] == 0


def test_what_charges_is_not_over_before_the_time_that_is_asked_for() -> None:
    """After 2 s some hundredth at least of the way is still to go."""
    for other in stream("reservoir-through-a-resistor"):
        source, now = (float(other.values[n]) for n in (Name("voltage", "V0"), T1))
        assert now < 0.991 * source


T1 = Name("voltage", "C1@t1")


def test_no_set_without_another_value() -> None:
    """An author who lets nothing vary gets nothing."""
    assert not list(fresh_solutions(of_text(NEST + "vary: none\n")))


def test_only_what_the_author_lets_vary_does() -> None:
    """Values under vary: are taken; the others stay."""
    solution = of_text(NEST + "vary: {V0: [6 V, 9 V, 24 V, 36 V]}\n")
    found = [stated(other) for other in fresh_solutions(solution)]
    assert {s[Name("voltage", "V0")] for s in found} <= {6, 9, 24, 36}
    assert len(found) == 4
    for other in found:
        assert other[Name("resistance", "R2")] == 12


def test_ranges_and_digits_that_the_author_wants_are_kept() -> None:
    """keep: holds for every set, not for the best ones only."""
    solution = of_text(NEST + "keep: {digits: 2, current: 100 mA to 2 A}\n")
    found = list(fresh_solutions(solution))
    assert len(found) == 24
    for other in found:
        for name in asked_of(solution):
            assert digits_of(other.values[name]) <= 2
            if name.quantity == "current":
                assert Fraction(1, 10) <= as_fraction(other.values[name]) <= 2


@pytest.mark.parametrize("wish", ["keep: {order: same}", "plan: First R2 and R3, the smaller one."])
def test_the_order_stays_where_the_author_speaks_of_it(wish: str) -> None:
    """R2 stays larger than R3, R3 larger than R1, and the currents stay in their order."""
    for other in fresh_solutions(of_text(f"{NEST}{wish}\n"), most=10):
        one, two, three = (stated(other)[Name("resistance", f"R{n}")] for n in (1, 2, 3))
        assert one < three < two
        flow = {n: as_fraction(other.values[Name("current", f"R{n}")]) for n in (2, 3)}
        assert flow[2] < flow[3]


def test_whoever_asks_for_more_is_heard() -> None:
    """A set that the caller does not find good is left out."""
    current = Name("current", "total")
    solution = of_text(NEST)

    def tells(other: Solution) -> bool:
        return bool(other.value(current) > 1)

    found = list(fresh_solutions(solution, most=8, tells=tells))
    assert found
    assert all(other.value(current) > 1 for other in found)
