"""The ids of all wrong rules of all kinds of problems."""

from __future__ import annotations

import importlib
import pkgutil

import builder.lesson
from builder.lesson.wrong_rule import WrongRule


def every_rule() -> set[str]:
    """The ids of the rules that stand in any module of lessons."""
    found: set[str] = set()
    for module in pkgutil.walk_packages(builder.lesson.__path__, "builder.lesson."):
        for value in vars(importlib.import_module(module.name)).values():
            rules = value if isinstance(value, tuple) else ()
            found |= {rule.id for rule in rules if isinstance(rule, WrongRule)}
    return found
