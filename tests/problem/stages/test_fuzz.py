"""Whatever stands in a file with stages, it is read and solved, or told, and nothing else."""

from __future__ import annotations

from random import Random

import pytest

from builder.errors import FaultyFile
from builder.lesson import write_lesson
from builder.problem import read_problem_text
from builder.solution import solve
from tests.lesson.stages.stories import BRIDGE, CHAIN, SHORTED, TRANSFER, TURNED, UNLIKE
from tests.problem.test_fuzz import check_readable

SAMPLES = (BRIDGE, CHAIN, SHORTED, TRANSFER, TURNED, UNLIKE)
PIECES = (
    "S1", "S2", "C1", "C2", "V0", "a", "g", "x", "open", "closed", "close", "turn", "stages:",
    "switch", "charged: 6 V", "emf: 9 V", "after 1", "before", "all", "lost", "total", "energy",
    "[", "]", "{", "}", ",", ":", "- ", "\n", "  ", "0 V", "-3 V", "12 uF", "",
)  # fmt: skip


@pytest.mark.parametrize("seed", range(6))
def test_any_change_to_a_file_is_read_or_told(seed: int) -> None:
    """Words put in, taken out or exchanged never raise anything but faults."""
    random = Random(seed)
    read = 0
    for _ in range(120):
        words = random.choice(SAMPLES).replace("\n", " \n ").split(" ")
        for _ in range(random.randint(1, 3)):
            at = random.randrange(len(words))
            other = random.choice((*PIECES, random.choice(words)))
            words[at : at + random.randint(0, 1)] = [other] * random.randint(0, 1)
        text = " ".join(words).replace(" \n ", "\n")
        try:
            problem = read_problem_text(text, "problem.yml")
        except FaultyFile as error:
            check_readable(error.faults, text)
            continue
        write_lesson(solve(problem))
        read += 1
    assert read >= 3
