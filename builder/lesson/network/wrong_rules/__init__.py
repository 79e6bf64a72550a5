"""Known misconceptions about networks in computable form; one module holds one family."""

from itertools import zip_longest

from builder.lesson.merging_mistakes import MERGING_RULES
from builder.lesson.network.wrong_rules.bridges import BRIDGE_RULES
from builder.lesson.network.wrong_rules.signs import SIGN_RULES
from builder.lesson.network.wrong_rules.sources import SOURCE_RULES
from builder.lesson.wrong_rule import WrongRule


def _in_turns(*families: tuple[WrongRule, ...]) -> tuple[WrongRule, ...]:
    return tuple(rule for turn in zip_longest(*families) for rule in turn if rule is not None)


RULES: tuple[WrongRule, ...] = _in_turns(BRIDGE_RULES, SOURCE_RULES, SIGN_RULES, MERGING_RULES)
"""Every wrong rule that fits networks. The families take turns, so that the first few that fit a
circuit are of different kinds."""

__all__ = ["RULES"]
