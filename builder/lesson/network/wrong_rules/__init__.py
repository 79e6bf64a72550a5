"""Known misconceptions about networks in computable form; one module holds one family."""

from itertools import zip_longest

from builder.lesson.merging_mistakes import GOING_ON_RULES, MERGING_RULES
from builder.lesson.network.wrong_rules.bridges import BRIDGE_RULES
from builder.lesson.network.wrong_rules.forks import NETWORK_SHARING_RULES
from builder.lesson.network.wrong_rules.loads import OPEN_END_RULES
from builder.lesson.network.wrong_rules.signs import SIGN_RULES
from builder.lesson.network.wrong_rules.sources import SOURCE_RULES as SEVERAL_SOURCES_RULES
from builder.lesson.sharing_mistakes import CHAIN_RULES
from builder.lesson.source_mistakes import SOURCE_RULES
from builder.lesson.work_mistakes import WORK_RULES
from builder.lesson.wrong_rule import WrongRule


def _in_turns(*families: tuple[WrongRule, ...]) -> tuple[WrongRule, ...]:
    return tuple(rule for turn in zip_longest(*families) for rule in turn if rule is not None)


RULES: tuple[WrongRule, ...] = (
    *_in_turns(BRIDGE_RULES, SEVERAL_SOURCES_RULES, OPEN_END_RULES, SIGN_RULES),
    *_in_turns(CHAIN_RULES, NETWORK_SHARING_RULES, SOURCE_RULES, MERGING_RULES, WORK_RULES),
    *GOING_ON_RULES,
)  # fmt: skip
"""Every wrong rule that fits networks. The families take turns, so that the first few that fit a
circuit are of different kinds; those that need a network stand before those of every circuit."""

__all__ = ["RULES"]
