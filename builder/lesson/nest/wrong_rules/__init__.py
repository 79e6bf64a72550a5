"""Known misconceptions about nests in computable form: each yields what the mistake leads to.

The rules stand in modules of families that networks use as well; ``RULES`` registers them all.
"""

from itertools import zip_longest

from builder.lesson.merging_mistakes import GOING_ON_RULES, MERGING_RULES
from builder.lesson.sharing_mistakes import CHAIN_RULES, SHARING_RULES
from builder.lesson.slips import Slip, slips_of
from builder.lesson.source_mistakes import SOURCE_RULES
from builder.lesson.work_mistakes import SQUARE_RULES, WORK_RULES
from builder.lesson.wrong_rule import WrongRule


def _in_turns(*families: tuple[WrongRule, ...]) -> tuple[WrongRule, ...]:
    return tuple(rule for turn in zip_longest(*families) for rule in turn if rule is not None)


RULES: tuple[WrongRule, ...] = (
    *_in_turns(
        MERGING_RULES, CHAIN_RULES, SHARING_RULES, SOURCE_RULES, (*WORK_RULES, *SQUARE_RULES)
    ),
    *GOING_ON_RULES,
)
"""Every wrong rule. The families take turns, so that the first few that fit a circuit are of
different kinds; within a family the likelier ones come first."""

__all__ = ["RULES", "Slip", "WrongRule", "slips_of"]
