"""Mistakes with equations, each with the number that it leads to."""

from builder.lesson.relations.wrong_rules.factors import FACTOR_RULES
from builder.lesson.relations.wrong_rules.fillings import FILLING_RULES
from builder.lesson.relations.wrong_rules.plates import PLATE_RULES
from builder.lesson.wrong_rule import WrongRule

RULES: tuple[WrongRule, ...] = (*PLATE_RULES, *FILLING_RULES, *FACTOR_RULES)
"""Every wrong rule, the most telling first."""
