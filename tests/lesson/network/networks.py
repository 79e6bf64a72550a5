"""Networks written in a few lines, and their lessons."""

from __future__ import annotations

from functools import cache

import networkx

from builder.lesson import write_lesson
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.write import NetworkLesson
from builder.problem import read_problem_text
from builder.solution import solve
from builder.solution.network.step import NetworkStep
from tests.lesson.telling import plain

BRIDGE = {
    "R1": "10 ohm a b", "R2": "40 ohm a c", "R3": "35 ohm b d", "R4": "20 ohm c d",
    "R5": "50 ohm b c",
}  # fmt: skip
"""Unbalanced. The star of R1, R2 and R5 has 4, 5 and 20 Ω, and two ways of 40 Ω are left."""
BALANCED = BRIDGE | {"R1": "20 ohm a b", "R2": "10 ohm a c", "R3": "40 ohm b d"}
CHARGES = {
    "C1": "9 uF a b", "C2": "2 uF a c", "C3": "3 uF b d", "C4": "4 uF c d", "C5": "6 uF b c",
}  # fmt: skip
"""At 12 V, with d at 0 V, b lies at 8 V and c at 6 V: 36, 12, 24, 24 and 12 µC."""
CUBE = {
    f"R{number}": f"6 ohm {' '.join(edge)}"
    for number, edge in enumerate("ab ad ae bc bf dc dh ef eh cg fg hg".split(), start=1)
}
DODECAHEDRON = {
    f"R{number}": f"6 ohm {chr(97 + first)} {chr(97 + second)}"
    for number, (first, second) in enumerate(networkx.dodecahedral_graph().edges, start=1)
}
"""All corners are alike, and from each three equal edges lead on."""
BATTERIES = {
    "E1": "14 V a d", "R1": "1 ohm a b", "E2": "12 V c d", "R2": "0.5 ohm c b",
    "R3": "25 ohm b d",
}  # fmt: skip
"""At b there are 12.5 V: 1.5 A from E1, 1 A into E2, 0.5 A through R3."""
PANEL = {
    "E1": "24 V a d", "R1": "6 ohm a b", "E2": "18 V c d", "R2": "3 ohm c b", "R3": "6 ohm b d",
}  # fmt: skip
"""At b there are 15 V: 1.5 A from E1, 1 A from E2, 2.5 A through R3."""
SENSOR = {
    "V0": "18 V a d", "R1": "6 ohm a b", "R2": "12 ohm b d", "R3": "2 ohm b c", "R4": "10 ohm c d",
}  # fmt: skip
"""Seen from R4: 12 V behind 6 Ω."""
_KEYS = {"V": "emf", "E": "emf", "I": "current", "R": "resistance", "C": "capacitance"}


def branches_of(rows: dict[str, str], more: str = "") -> str:
    """The YAML of a circuit: ``R1: 10 ohm a b`` becomes a branch from a to b."""
    lines = []
    for name, row in rows.items():
        value, unit, first, second = row.split()
        lines.append(
            f"    {name}: {{{_KEYS[name[0]]}: {value} {unit}, between: [{first}, {second}]}}"
        )
    return f"circuit:\n{more}  branches:\n" + "\n".join(lines) + "\n"


def problem_text(rows: dict[str, str], find: str, more: str = "") -> str:
    """The YAML of a problem; ``more`` stands beside the branches, indented by two spaces."""
    return f"title: A network\n{branches_of(rows, more)}find: [{find}]\n"


@cache
def lesson_of_text(text: str) -> NetworkLesson:
    """The lesson of a problem's file."""
    lesson = write_lesson(solve(read_problem_text(text, "a.yml")))
    assert isinstance(lesson, NetworkLesson)
    return lesson


def lesson_of(rows: dict[str, str], find: str, more: str = "") -> NetworkLesson:
    """The lesson of a network."""
    return lesson_of_text(problem_text(rows, find, more))


def display_of(rows: dict[str, str], find: str, more: str = "") -> NetworkDisplay:
    """How a network's quantities are written."""
    return lesson_of(rows, find, more).display


def step_of(lesson: NetworkLesson, id: str) -> NetworkStep:
    """The step of that id."""
    return next(step for step in lesson.solution.steps if step.id == id)


def told(lesson: NetworkLesson) -> list[tuple[str, str, str]]:
    """Goal, reason and remark of each step."""
    return [
        (
            plain(taught.words.goal, lesson.display),
            plain(taught.words.reason, lesson.display),
            plain(taught.words.remark, lesson.display),
        )
        for taught in lesson.steps
    ]


LESSONS: dict[str, tuple[dict[str, str], str, str]] = {
    "balanced": ({"V0": "12 V a d", **BALANCED}, "equivalent, current, power", ""),
    "bridge": ({"V0": "24 V a d", **BRIDGE}, "equivalent, current, voltage, 'power: total'", ""),
    "star": ({"V0": "24 V a d", **BRIDGE}, "current", "  method: delta-star\n"),
    "bare": (BRIDGE, "equivalent", "  across: [a, d]\n"),
    "by-current": ({"I0": "2 A a d", **BRIDGE}, "voltage, current", ""),
    "by-loops": ({"V0": "24 V a d", **BRIDGE}, "current", "  method: loops\n"),
    "charges": ({"V0": "12 V a d", **CHARGES}, "charge, energy, equivalent", ""),
    "charges-by-junctions": ({"V0": "12 V a d", **CHARGES}, "potential: b, charge, 'energy: total'",
                             "  method: junctions\n  reference: d\n"),
    "charges-by-loops": ({"V0": "12 V a d", **CHARGES}, "charge", "  method: loops\n"),
    "cube": ({"V0": "15 V a g", **CUBE}, "equivalent, current: R1, 'power: total'", ""),
    "cube-edge": ({"V0": "15 V a b", **CUBE}, "equivalent, current", ""),
    "cube-face": ({"V0": "15 V a c", **CUBE}, "equivalent, current", ""),
    "spread": ({"V0": "38 V a b", **DODECAHEDRON}, "equivalent, current", "  method: symmetry\n"),
    "spread-far": ({"V0": "54 V a c", **DODECAHEDRON}, "equivalent", "  method: symmetry\n"),
    "batteries": (BATTERIES, "current, voltage: R3, power: E1, power: E2", "  method: loops\n"),
    "batteries-by-junctions": (BATTERIES, "potential: b, current, power", "  method: junctions\n"),
    "panel": (PANEL, "current, power: R3", "  method: superposition\n"),
    "sensor": (SENSOR, "open-voltage, inner-resistance, current: R4, voltage: R4, greatest-power",
               "  method: equivalent-source\n  load: R4\n"),
    "two-points": (SENSOR, "open-voltage, inner-resistance, matching-resistance",
                   "  method: equivalent-source\n  across: [c, d]\n"),
    "points": ({"V0": "24 V a d", **BRIDGE}, "'voltage: between b and c'", ""),
}  # fmt: skip
"""One lesson of each kind: the rows, what is asked, and what stands beside the branches."""
