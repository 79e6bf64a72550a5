"""A report as data for machines; the same input gives the same bytes."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from builder.errors import Fault, Oddity
from builder.site.checking.report import Checked, Report


def as_data(report: Report) -> dict[str, Any]:
    """Every file with what was found, and the totals."""
    problems = report.problems
    return {
        "files": [_file(one) for one in report.files],
        "totals": {
            "files": len(report.files),
            "problems": len(problems),
            "agree": sum(one.solved is not None for one in problems),
            "faults": report.faults,
            "oddities": report.oddities,
        },
    }


def _file(one: Checked) -> dict[str, Any]:
    solved = one.solved
    return {
        "path": one.path,
        "part": one.part or "problem",
        "verdict": one.verdict,
        "kind": solved.kind if solved else None,
        "steps": solved.steps if solved else None,
        "answers": solved.answers if solved else None,
        "agree": None if one.part else solved is not None,
        "faults": [_placed(fault) for fault in one.faults],
        "oddities": [_placed(oddity) for oddity in one.oddities],
        "broke": one.broke,
    }


def _placed(found: Fault | Oddity) -> dict[str, Any]:
    """All that a fault or an oddity tells; its file is that which it stands under."""
    told = asdict(found)
    del told["path"]
    return told
