"""What is published of students' mistakes, and which wrong rules compute it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from builder.lesson.general_mistakes import GENERAL_RULES
from builder.lesson.kinds import KINDS
from builder.lesson.lesson import Lesson
from builder.lesson.nest.wrong_rules import RULES as NEST_RULES
from builder.lesson.network.wrong_rules import RULES as NETWORK_RULES
from builder.lesson.relations.unknown import RULES as UNKNOWN_RULES
from builder.lesson.relations.wrong_rules import RULES as RELATIONS_RULES
from builder.lesson.stages.wrong_rules import RULES as STAGES_RULES
from builder.lesson.transient.wrong_rules import RULES as TRANSIENT_RULES
from builder.lesson.wrong_rule import WrongRule
from builder.problem import read_problem
from builder.problem.model import Problem
from builder.solution import solve
from tests.lesson.telling import asking, parallel, plain
from tests.lesson.test_sentences import Kind, blemishes

PROBLEMS = sorted((Path(__file__).parents[2] / "content" / "problems").glob("*.yml"))
RULES: dict[str, tuple[WrongRule, ...]] = {
    "nest": NEST_RULES,
    "network": NETWORK_RULES,
    "stages": STAGES_RULES,
    "transient": TRANSIENT_RULES,
    "relations": RELATIONS_RULES,
    "unknown": UNKNOWN_RULES,
    "any": GENERAL_RULES,
}
SLIP = "common practice, no source"


@dataclass(frozen=True)
class Misconception:
    """What students are known to think.

    Attributes:
        thinks: the misconception.
        sources: words by which the rules' sources are recognised: who describes it.
        rules: the ids of the rules that compute it.
    """

    thinks: str
    sources: tuple[str, ...]
    rules: tuple[str, ...]


EB, MS, SK = "Engelhardt and Beichner", "McDermott and Shaffer", "Smith and van Kampen"
TGB, G, CEG = "Thacker, Ganiel and Boys", "Guisasola", "Cohen, Eylon and Ganiel"
UP2 = "University Physics Volume 2"

PUBLISHED = (
    Misconception("current is used up on its way", (MS, EB), ("used-up",)),
    Misconception("current splits equally at a fork", (MS,), ("equal-flows",)),
    Misconception("every element has the battery's whole voltage", (MS,), ("whole-voltage",)),
    Misconception("what comes first in a chain decides alone", (CEG, EB), ("first-alone",)),
    Misconception("more resistors are always more resistance", (MS, EB), ("added-instead",)),
    Misconception("batteries side by side add their voltages", (EB, SK), ("emfs-added",)),
    Misconception("no current means no voltage", (CEG,),
                  ("no-current-no-voltage", "dies-with-the-current")),
    Misconception("with several batteries, each one's current is its own", (SK,),
                  ("others-forgotten",)),
    Misconception("with several batteries, one loop at a time", (SK,), ("one-loop-only",)),
    Misconception("rules for resistors hold for capacitors", (SLIP,),
                  ("added-instead", "reciprocals-instead")),
    Misconception("the sum of the reciprocals is the answer", (SLIP,), ("never-inverted",)),
    Misconception("product over sum goes for three", (SLIP,), ("product-over-sum",)),
    Misconception("an equivalent is an average", (SLIP,), ("averaged",)),
    Misconception("capacitors in a chain share the voltage equally", (TGB, G),
                  ("equal-voltages",)),
    Misconception("capacitors divide a voltage as resistors do", (SLIP,),
                  ("divided-the-wrong-way",)),
    Misconception("charges add along a chain", (G,), ("chain-charges-added",)),
    Misconception("capacitors side by side hold equal charge", (G,), ("equal-flows",)),
    Misconception("joined capacitors share their charge equally", (SLIP,), ("shared-equally",)),
    Misconception("joined capacitors keep their energy", (SLIP,), ("energy-kept",)),
    Misconception("voltages of joined capacitors average, whatever their polarity", (SLIP,),
                  ("voltages-averaged", "polarity-ignored")),
    Misconception("a charged capacitor keeps its voltage as a battery does", (G,),
                  ("as-a-battery",)),
    Misconception("nothing is lost on charging", (UP2,), ("no-loss-on-charging",)),
    Misconception("a capacitor stores charge times voltage", (UP2,), ("half-dropped",)),
    Misconception("cut-off plates keep their voltage, joined ones their charge", (G,),
                  ("kept-the-wrong-one",)),
    Misconception("capacitance follows charge and voltage", (UP2, G), ("capacitance-by-voltage",)),
    Misconception("only plates wired to the battery are charged", (TGB,), ("inner-uncharged",)),
    Misconception("current flows through the gap for ever", (TGB,), ("wire-for-ever",)),
    Misconception("charging is even, and complete after the time constant", (SLIP,),
                  ("linear-charging",)),
    Misconception("the time constant is a half-life", (SLIP,), ("half-life",)),
    Misconception("a resistor changes the final charge", (TGB,), ("share-kept",)),
    Misconception("the middle of any bridge can be left out", (SLIP,), ("bridge-ignored",)),
    Misconception("capacitors go from triangle to star by the resistors' formula",
                  ("web page",), ("exchange-mixed-up",)),
    Misconception("a part of the area is a part of the thickness", (SLIP,), ("layers-for-slabs",)),
    Misconception("a prefix lost, or left out of a square", (SLIP,),
                  ("prefix-slipped", "area-prefix")),
    Misconception("rounding between steps does no harm", (UP2,), ("rounded-early",)),
)  # fmt: skip
"""The sources are those of the rules, where it also stands what is told from memory."""


@cache
def lesson_of(path: Path) -> Lesson:
    """The lesson of one of the unit's problems."""
    return _taught(read_problem(path))


def _taught(problem: Problem) -> Lesson:
    return KINDS[type(problem)].write(solve(problem))


@cache
def fired() -> frozenset[str]:
    """Every rule that bites in the unit, or in a problem that the unit has none of the kind of."""
    three = _taught(asking(parallel("R1", "R2", "R3"), "12 V"))
    lessons = (*map(lesson_of, PROBLEMS), three)
    return frozenset(id for lesson in lessons for slip in lesson.slips for id in slip.rules)


@pytest.mark.parametrize("known", PUBLISHED, ids=lambda known: known.thinks)
def test_a_published_misconception_has_a_rule_that_bites(known: Misconception) -> None:
    """Its rules are registered, name who describes it, and lead to a wrong number somewhere."""
    rules = [rule for family in RULES.values() for rule in family if rule.id in known.rules]
    assert {rule.id for rule in rules} == set(known.rules)
    for source in known.sources:
        assert any(source in rule.source for rule in rules), source
    assert set(known.rules) <= fired()


@pytest.mark.parametrize("kind", RULES)
def test_a_rule_is_registered_once_in_its_kind(kind: str) -> None:
    """An id, a heading that is no sentence, and a source, or the word that there is none."""
    ids = [rule.id for rule in RULES[kind]]
    assert len(ids) == len(set(ids))
    for rule in RULES[kind]:
        assert rule.source
        assert not blemishes(rule.called, Kind.HEADING)


def test_the_unit_warns_of_many_mistakes() -> None:
    """Far more than a teacher names from memory, and no page is all of one kind."""
    warned = {id for path in PROBLEMS for slip in lesson_of(path).warnings for id in slip.rules}
    assert len(warned) >= 40, sorted(warned)


@pytest.mark.parametrize("path", PROBLEMS, ids=lambda path: path.stem)
def test_warnings_are_few_and_varied(path: Path) -> None:
    """At most five, each rule once, and about one quantity twice only after all others."""
    warnings = lesson_of(path).warnings
    told = [id for slip in warnings for id in slip.rules]
    assert 1 <= len(warnings) <= 5
    assert len(told) == len(set(told))
    thought = [slip for slip in lesson_of(path).slips if not slip.rule.arithmetic]
    if len(warnings) > 3 and len({slip.wrong.name.quantity for slip in thought}) > 1:
        assert len({slip.wrong.name.quantity for slip in warnings}) > 1


@pytest.mark.parametrize("path", PROBLEMS, ids=lambda path: path.stem)
def test_every_slip_of_the_unit_is_well_told(path: Path) -> None:
    """Its sentence and its reason, whether it is warned of or waits for a wrong answer."""
    lesson = lesson_of(path)
    for slip in lesson.slips:
        for prose in (slip.sentence, slip.tempting):
            text = plain(prose, lesson.display)
            assert not blemishes(text, Kind.SENTENCES), text
