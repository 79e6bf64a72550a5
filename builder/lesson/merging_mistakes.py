"""Mistakes made when a group is merged into its equivalent."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer

from builder.circuit.law import PARALLEL, SERIES
from builder.lesson.display import LONGEST_LIST, Merge
from builder.lesson.mistake_sources import EB_RECALLED, MS, PRACTICE
from builder.lesson.nest.display import NestDisplay
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import Prose, listed, number_word, say, sentences
from builder.lesson.vocabulary import vocabulary
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.show import unit_power
from builder.quantity.symbolic import is_symbolic
from builder.solution import Step

MergingDisplay = NestDisplay | NetworkDisplay
"""The writing of a solution that merges."""


def _merges(display: MergingDisplay) -> Iterator[tuple[Step, Merge, list[Exact]]]:
    """The merges of a solution with the values of their members, in SI units."""
    for step in display.solution.steps:
        for merge in display.merges(step):
            yield step, merge, [display.solution.values[name] for name in merge.members]


def _adds(merge: Merge, display: MergingDisplay) -> bool:
    return merge.connection == display.solution.problem.law.adds_in


def _wrong(step: Step, merge: Merge, value: Exact, happens: Prose) -> Wrong:
    return Wrong(merge.equivalent, value, step.id, happens)


def _members(merge: Merge, display: MergingDisplay) -> Prose:
    """The members by name; many of them by number, as “C₁ to C₆” is no sum."""
    if len(merge.members) > LONGEST_LIST:
        return say("all {count}", count=number_word(len(merge.members)))
    return display.elements(tuple(name.of for name in merge.members))


def _calculated_in(merge: Merge, display: MergingDisplay) -> Exact:
    """The unit of the first member, in SI units: a slip of units keeps the unit that one sees."""
    value = merge.members[0]
    return Integer(10) ** (unit_power(display.shown(value).unit, value.quantity) or 0)


def _mixed(values: list[Exact]) -> bool:
    """Whether numbers stand beside symbols, so that no unit is common to a wrong sum."""
    return len({is_symbolic(value) for value in values}) > 1


def _added_instead(display: MergingDisplay) -> Iterator[Wrong]:
    for step, merge, values in _merges(display):
        if not _adds(merge, display):
            yield _wrong(step, merge, sum(values, Integer(0)),
                         say("adding {members}", members=_members(merge, display)))  # fmt: skip


def _added_instead_why(wrong: Wrong, display: MergingDisplay) -> Prose:
    if display.solution.problem.law.adds_in == PARALLEL:
        return say("Resistances in series add up, and it is tempting to treat capacitors alike. "
                   "But a chain of capacitors holds less charge for the same voltage, never "
                   "more.")  # fmt: skip
    return say("More resistors sound like more resistance. But each branch in parallel is one "
               "more way for the current, so the resistance falls.")  # fmt: skip


def _reciprocals_instead(display: MergingDisplay) -> Iterator[Wrong]:
    for step, merge, values in _merges(display):
        if _adds(merge, display):
            yield _wrong(step, merge, 1 / sum((1 / v for v in values), Integer(0)),
                         say("adding the reciprocals of {members}",
                             members=_members(merge, display)))  # fmt: skip


def _reciprocals_instead_why(wrong: Wrong, display: MergingDisplay) -> Prose:
    if display.solution.problem.law.adds_in == PARALLEL:
        return say("For resistors in parallel the reciprocals add up, and it is tempting to carry "
                   "that over. But capacitors side by side have more plate for the same voltage: "
                   "their capacitances simply add.")  # fmt: skip
    return say("In series the current has to pass every resistor, one after another, so the "
               "resistances simply add. Reciprocals belong to resistors in parallel.")  # fmt: skip


def _never_inverted(display: MergingDisplay) -> Iterator[Wrong]:
    for step, merge, values in _merges(display):
        if _adds(merge, display) or _mixed(values):
            continue
        size = _calculated_in(merge, display)
        total = sum((size / v for v in values), Integer(0))
        yield _wrong(step, merge, total * size,
                     say("stopping at the sum of the reciprocals of {members}",
                         members=_members(merge, display)))  # fmt: skip


def _never_inverted_why(wrong: Wrong, display: MergingDisplay) -> Prose:
    voc = vocabulary(display.solution.problem.law)
    return say("After all that work with fractions the sum looks like the answer. It is one over "
               "the {value}, so it still has to be turned over.", value=voc.value)  # fmt: skip


def _averaged(display: MergingDisplay) -> Iterator[Wrong]:
    for step, merge, values in _merges(display):
        yield _wrong(step, merge, sum(values, Integer(0)) / len(values),
                     say("taking the average of {members}",
                         members=_members(merge, display)))  # fmt: skip


def _averaged_why(wrong: Wrong, display: MergingDisplay) -> Prose:
    merge = next(merge for _, merge, _ in _merges(display) if merge.equivalent == wrong.name)
    way = "in series" if merge.connection == SERIES else "in parallel"
    than = "larger than the largest" if _adds(merge, display) else "smaller than the smallest"
    return say("One element that stands for several sounds like their average. But {way} the "
               "equivalent is always {than} of them.", way=way, than=than)  # fmt: skip


def _product_over_sum(display: MergingDisplay) -> Iterator[Wrong]:
    for step, merge, values in _merges(display):
        # With more than three, the number is too far off for anyone to believe it.
        if _adds(merge, display) or len(values) != 3 or _mixed(values):
            continue
        size = _calculated_in(merge, display)
        product: Exact = Integer(1)
        for value in values:
            product *= value / size
        wrong = product / sum((v / size for v in values), Integer(0)) * size
        yield _wrong(step, merge, wrong, say("taking product over sum of {members}",
                                      members=_members(merge, display)))  # fmt: skip


def _product_over_sum_why(wrong: Wrong, display: MergingDisplay) -> Prose:
    return say("Product over sum is right for two. With three it does not even give the right "
               "unit: add up all the reciprocals instead.")  # fmt: skip


def _third_left_out(display: MergingDisplay) -> Iterator[Wrong]:
    """With three, the rule for two: the third has no place in it."""
    for step, merge, values in _merges(display):
        if not _adds(merge, display) and len(values) == 3:
            first, second = values[:2]
            two = display.elements(tuple(one.of for one in merge.members[:2]))
            happens = say("taking product over sum of {two} and stopping there", two=two)
            yield _wrong(step, merge, first * second / (first + second), happens)


def _third_left_out_why(wrong: Wrong, display: MergingDisplay) -> Prose:
    return say("Product over sum is so handy that one stops when it is done. But it has merged "
               "only two of the three: merge the result with the third in the same "
               "way.")  # fmt: skip


def _going_on(display: MergingDisplay) -> Iterator[Wrong]:
    """A group merged by the other rule, and what the right steps after it make of that."""
    for step in display.solution.steps:
        altered: dict[Name, Exact] = {}
        merges = display.merges(step)
        for merge in merges:
            values = [display.solution.values[name] for name in merge.members]
            total = sum(values, Integer(0))
            apart = 1 / sum((1 / value for value in values), Integer(0))
            altered[merge.equivalent] = apart if _adds(merge, display) else total
        for wrong in carried_on(display, step, altered, _merged_wrongly(merges, display)):
            if wrong.name not in altered:
                yield wrong


def _merged_wrongly(merges: tuple[Merge, ...], display: MergingDisplay) -> Prose:
    if not merges:
        return ()
    what = "adding the reciprocals of" if _adds(merges[0], display) else "adding"
    together = [_members(merge, display) for merge in merges]
    members = together[0] if len(together) == 1 else listed(together, "and likewise")
    if len(together) > 2:
        members = say("the members of each group")
    return say("{what} {members} and going on from there", what=what, members=members)


def _going_on_why(wrong: Wrong, display: MergingDisplay) -> Prose:
    step = next(step for step in display.solution.steps if step.id == wrong.step)
    why = (
        _reciprocals_instead_why
        if _adds(display.merges(step)[0], display)
        else (_added_instead_why)
    )
    after = say("Whatever comes after a wrong equivalent is wrong as well.")
    return sentences(why(wrong, display), after)


MERGING_RULES: tuple[WrongRule, ...] = (
    WrongRule("added-instead", f"for resistors in parallel {MS}, and {EB_RECALLED}; "
              f"for capacitors in series {PRACTICE}", "Adding where reciprocals belong",
              _added_instead_why, _added_instead),
    WrongRule("reciprocals-instead", PRACTICE, "Adding reciprocals where values add",
              _reciprocals_instead_why, _reciprocals_instead),
    WrongRule("never-inverted", PRACTICE, "Forgetting the last reciprocal",
              _never_inverted_why, _never_inverted),
    WrongRule("product-over-sum", PRACTICE, "Product over sum with three",
              _product_over_sum_why, _product_over_sum),
    WrongRule("third-left-out", PRACTICE, "Leaving out the third",
              _third_left_out_why, _third_left_out),
    WrongRule("averaged", PRACTICE, "Taking the average", _averaged_why, _averaged),
)  # fmt: skip
GOING_ON_RULES: tuple[WrongRule, ...] = (
    WrongRule("going-on", f"for resistors in parallel {MS}, and {EB_RECALLED}; "
              f"for capacitors in series {PRACTICE}", "Going on from a wrong equivalent",
              _going_on_why, _going_on),
)  # fmt: skip
"""For last: what is wrong from the start explains an answer only where nothing nearer does."""
