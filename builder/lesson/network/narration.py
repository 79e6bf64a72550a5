"""What a teacher says at each step: its goal, the reason it is allowed, what to notice."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from enum import StrEnum

from builder.lesson.network import (
    equation_words,
    merging_words,
    reducing_words,
    source_words,
    walking_words,
)
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import sentences
from builder.lesson.words import Words
from builder.solution.network.step import NetworkMove, NetworkStep


def narrate(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words of a step."""
    within = display.within(step)
    words = NARRATORS[step.kind](step, within)
    opening = source_words.first_of_part(step, within)
    return replace(words, reason=sentences(opening, words.reason)) if opening else words


NARRATORS: dict[StrEnum, Callable[[NetworkStep, NetworkDisplay], Words]] = {
    NetworkMove.MERGE: merging_words.merging,
    NetworkMove.DROP: reducing_words.dropping,
    NetworkMove.BALANCE: reducing_words.balancing,
    NetworkMove.JOIN: reducing_words.joining,
    NetworkMove.SPREAD: reducing_words.spreading_evenly,
    NetworkMove.STAR: reducing_words.star_for_triangle,
    NetworkMove.TRIANGLE: reducing_words.triangle_for_star,
    NetworkMove.DRIVE: walking_words.driving,
    NetworkMove.OPEN: walking_words.opening,
    NetworkMove.JUNCTIONS: equation_words.balancing_junctions,
    NetworkMove.LOOPS: equation_words.going_round_loops,
    NetworkMove.BRANCHES: equation_words.spreading,
    NetworkMove.ALONE: source_words.acting_alone,
    NetworkMove.ADD: source_words.adding_up,
    NetworkMove.OPEN_VOLTAGE: source_words.open_voltage,
    NetworkMove.INNER: source_words.inner_resistance,
    NetworkMove.LOAD: source_words.loading,
    NetworkMove.MATCH: source_words.matching,
    NetworkMove.BETWEEN: walking_words.between_points,
    NetworkMove.WORK: walking_words.working,
    NetworkMove.TOTAL: walking_words.totalling,
}
"""Who says what of each move."""
