"""The pages that list problems, by level and by objective."""

from __future__ import annotations

from builder.problem.model import LEVELS, Problem, Unit

_LEVEL_HEADINGS = {
    "intro": "Starting out",
    "core": "The core of the unit",
    "stretch": "For those who want more",
}


def listing_pages(folder: str, problems: tuple[Problem, ...], unit: Unit) -> dict[str, str]:
    """The Markdown of the listing pages, by source path; listings enter as placeholders."""
    levels = [level for level in LEVELS if any(p.level == level for p in problems)]
    by_level = ["# All problems", "By level, and within a level by name. "
                "The same problems [by objective](by-objective.md)."]  # fmt: skip
    for level in levels:
        by_level += [f"## {_LEVEL_HEADINGS[level]}", listing(f"level:{level}")]
    if not levels:
        by_level.append("There are no problems yet.")
    by_objective = ["# Problems by objective", "What each problem trains. "
                    "The same problems [by level](index.md)."]  # fmt: skip
    for id, sentence in unit.objectives.items():
        if any(id in problem.objectives for problem in problems):
            by_objective += [f"## {sentence}", listing(f"objective:{id}")]
    return {
        f"{folder}/index.md": "\n\n".join(by_level) + "\n",
        f"{folder}/by-objective.md": "\n\n".join(by_objective) + "\n",
    }


def listing(chosen: str) -> str:
    """What stands in the Markdown where a listing will be."""
    return f'<div data-stepwell-list="{chosen}"></div>'
