"""Known misconceptions in computable form: each yields the number that the mistake leads to.

One module holds rules of one family; ``RULES`` registers them all.
"""

from builder.lesson.wrong_rules.merging import MERGING_RULES
from builder.lesson.wrong_rules.numbers import NUMBER_RULES
from builder.lesson.wrong_rules.rule import Slip, WrongRule, slips_of
from builder.lesson.wrong_rules.sharing import SHARING_RULES

RULES: tuple[WrongRule, ...] = (*MERGING_RULES, *SHARING_RULES, *NUMBER_RULES)
"""Every wrong rule, the likelier ones first within a family."""

__all__ = ["RULES", "Slip", "WrongRule", "slips_of"]
