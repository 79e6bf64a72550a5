"""Known misconceptions about charging and discharging, each with the number it leads to."""

from builder.lesson.slips import Slip, slips_of
from builder.lesson.transient.wrong_rules.courses import COURSE_RULES
from builder.lesson.transient.wrong_rules.instants import INSTANT_RULES
from builder.lesson.transient.wrong_rules.merges import MERGE_RULES
from builder.lesson.wrong_rule import WrongRule

RULES: tuple[WrongRule, ...] = (*INSTANT_RULES, *COURSE_RULES, *MERGE_RULES)
"""Every wrong rule; the likelier ones come first."""

__all__ = ["RULES", "Slip", "WrongRule", "slips_of"]
