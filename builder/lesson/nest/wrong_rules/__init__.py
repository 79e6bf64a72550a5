"""Known misconceptions in computable form: each yields the number that the mistake leads to.

One module holds rules of one family; ``RULES`` registers them all.
"""

from itertools import zip_longest

from builder.lesson.merging_mistakes import MERGING_RULES
from builder.lesson.nest.wrong_rules.numbers import FACTOR_RULES, PREFIX_RULES
from builder.lesson.nest.wrong_rules.sharing import SHARING_RULES
from builder.lesson.wrong_rule import Slip, WrongRule, slips_of


def _in_turns(*families: tuple[WrongRule, ...]) -> tuple[WrongRule, ...]:
    return tuple(rule for turn in zip_longest(*families) for rule in turn if rule is not None)


RULES: tuple[WrongRule, ...] = (
    *_in_turns(MERGING_RULES, SHARING_RULES, FACTOR_RULES),
    *PREFIX_RULES,
)
"""Every wrong rule. The families take turns, so that the first few that fit a circuit are of
different kinds; within a family the likelier ones come first."""

__all__ = ["RULES", "Slip", "WrongRule", "slips_of"]
