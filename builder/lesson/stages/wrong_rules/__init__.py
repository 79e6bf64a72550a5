"""Known misconceptions about charged capacitors, each with the number that it leads to."""

from builder.lesson.slips import Slip, slips_of
from builder.lesson.stages.wrong_rules.chains import CHAIN_RULES
from builder.lesson.stages.wrong_rules.energies import ENERGY_RULES
from builder.lesson.stages.wrong_rules.sharing import SHARING_RULES
from builder.lesson.wrong_rule import WrongRule

RULES: tuple[WrongRule, ...] = (*SHARING_RULES, *CHAIN_RULES, *ENERGY_RULES)
"""Every wrong rule; within a family the likelier ones come first."""

__all__ = ["RULES", "Slip", "WrongRule", "slips_of"]
