"""Lists of problems, and the pages that list them by level and by objective."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from builder.lesson.kinds import about, topic
from builder.problem.model import LEVELS, Problem, Unit
from builder.site.page import heading_text

LEVEL_HEADINGS = {
    "intro": "Starting out",
    "core": "The core of the unit",
    "stretch": "For those who want more",
}
_BRACED = re.compile(r"\{(\w+)(?:\.\w+)?\}")


def listing_pages(folder: str, problems: tuple[Problem, ...], unit: Unit) -> dict[str, str]:
    """The Markdown of the listing pages, by source path; listings enter as placeholders."""
    levels = [level for level in LEVELS if of_level(problems, level)]
    by_level = ["# All problems", "By level, and within a level in teaching order. "
                "The same problems [by objective](by-objective.md)."]  # fmt: skip
    for level in levels:
        by_level += [f"## {LEVEL_HEADINGS[level]} {{#{level}}}", listing(f"level:{level}")]
    if not levels:
        by_level.append("There are no problems yet.")
    by_objective = ["# Problems by objective", "What each problem trains. "
                    "The same problems [by level](index.md)."]  # fmt: skip
    for id, sentence in unit.objectives.items():
        if any(id in problem.objectives for problem in problems):
            by_objective += [f"## {heading_text(sentence)} {{#{id}}}", listing(f"objective:{id}")]
    return {
        f"{folder}/index.md": "\n\n".join(by_level) + "\n",
        f"{folder}/by-objective.md": "\n\n".join(by_objective) + "\n",
    }


def listing(chosen: str) -> str:
    """What stands in the Markdown where a listing will be."""
    return f'<div data-stepwell-list="{chosen}"></div>'


def of_level(problems: Iterable[Problem], level: str) -> list[Problem]:
    """The problems of one level."""
    return [problem for problem in problems if problem.level == level]


def card(problem: Problem, address: str) -> dict[str, Any]:
    """What a list shows of a problem, and what a filter looks at."""
    scenario = _BRACED.sub(r"\1", problem.scenario)
    return {
        "problem": problem,
        "about": about(problem),
        "topic": topic(problem),
        "address": address,
        "trains": ", ".join(id.replace("-", " ") for id in problem.objectives),
        "words": " ".join(f"{problem.title} {scenario}".split()),
        "lesson": "",
    }
