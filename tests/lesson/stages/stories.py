"""Problems in stages that the tests of lessons share."""

from __future__ import annotations

from builder.lesson import Lesson, write_lesson
from builder.problem import read_problem_text
from builder.solution import solve
from tests.lesson.telling import plain

LIKE = """\
title: Like
circuit:
  branches:
    C1: {capacitance: 4 uF, charged: 12 V, between: [a, g]}
    C2: {capacitance: 2 uF, between: [b, g]}
    S1: {switch: open, between: [a, b]}
stages:
  - close: S1
find: [voltage: C1, charge: all, energy: lost]
"""
BOTH_CHARGED = LIKE.replace("2 uF", "2 uF, charged: 6 V")
UNLIKE = (
    LIKE.replace("2 uF", "2 uF, charged: 9 V")
    .replace("[b, g]", "[g, b]")
    .replace("voltage: C1", "voltage: all")
)
"""48 − 18 = 30 µC over 6 µF: 5 V, and C2 turned over."""
ALIKE = LIKE.replace("capacitance: 2 uF", "capacitance: 4 uF")
TRANSFER = """\
title: A transfer
circuit:
  branches:
    V0: {emf: 12 V, between: [p, g]}
    C1: {capacitance: 4 uF, between: [a, g]}
    C2: {capacitance: 2 uF, between: [b, g]}
    S1: {switch: open, between: [p, a]}
    S2: {switch: open, between: [a, b]}
stages:
  - close: S1
  - open: S1
  - close: S2
find: [charge: {C1: after 1}, voltage: all, energy: V0, energy: lost]
"""
CHAIN = """\
title: A chain
circuit:
  branches:
    V0: {emf: 18 V, between: [p, g]}
    C1: {capacitance: 3 uF, charged: 6 V, between: [a, x]}
    C2: {capacitance: 6 uF, between: [x, g]}
    S1: {switch: open, between: [p, a]}
stages:
  - close: S1
find: [charge: all, energy: lost]
"""
BRIDGE = """\
title: A bridge
circuit:
  branches:
    V0: {emf: 12 V, between: [p, g]}
    C1: {capacitance: 2 uF, between: [a, x]}
    C2: {capacitance: 4 uF, between: [a, y]}
    C3: {capacitance: 5 uF, between: [x, y]}
    C4: {capacitance: 4 uF, between: [x, g]}
    C5: {capacitance: 2 uF, between: [y, g]}
    S1: {switch: open, between: [p, a]}
stages:
  - close: S1
find: charge
"""
SHORTED = """\
title: Shorted
circuit:
  branches:
    C1: {capacitance: 5 uF, charged: 40 uC, between: [a, g]}
    S1: {switch: open, between: [a, g]}
stages:
  - close: S1
find: [charge: C1, energy: lost]
"""
TURNED = """\
title: Turned
circuit:
  branches:
    C1: {capacitance: 4 uF, charged: 12 V, between: [a, g]}
    C2: {capacitance: 2 uF, charged: 12 V, between: [b, g]}
    S1: {switch: open, between: [a, b]}
stages:
  - turn: C2
  - close: S1
find: [voltage: all]
"""
CHARGING = """\
title: Charging
circuit:
  branches:
    V0: {emf: 10 V, between: [p, g]}
    C1: {capacitance: 6 uF, between: [a, g]}
    S1: {switch: open, between: [p, a]}
stages:
  - close: S1
find: [energy: V0, energy: lost]
"""
EVERY = {
    "like": LIKE, "both-charged": BOTH_CHARGED, "unlike": UNLIKE, "alike": ALIKE,
    "transfer": TRANSFER, "chain": CHAIN, "bridge": BRIDGE, "shorted": SHORTED,
    "turned": TURNED, "charging": CHARGING,
}  # fmt: skip


def lesson_of(text: str) -> Lesson:
    """The lesson of a problem's file."""
    return write_lesson(solve(read_problem_text(text, "story.yml")))


def told(lesson: Lesson) -> dict[str, tuple[str, str, str]]:
    """Goal, reason and remark of each step, by its id."""
    return {
        taught.step.id: (
            plain(taught.words.goal, lesson.display),
            plain(taught.words.reason, lesson.display),
            plain(taught.words.remark, lesson.display),
        )
        for taught in lesson.steps
    }


def every_text(lesson: Lesson) -> list[str]:
    """Every sentence or phrase that a lesson says, as plain text."""
    said = [lesson.plan, lesson.checks_rest, *lesson.find]
    for taught in lesson.steps:
        words = taught.words
        said += [words.goal, words.reason, words.remark, taught.prompt]
    said += [check.says for check in lesson.checks]
    for question in [*lesson.questions, *([lesson.predict] if lesson.predict else [])]:
        said.append(question.ask)
        for option in getattr(question, "options", ()):
            said += [option.text, option.reply]
    for slip in lesson.warnings:
        said += [slip.sentence, slip.tempting]
    return [plain(one, lesson.display) for one in said if one]
