"""Corrected lines, over mutated files: what is proposed is right wherever it is proposed."""

from __future__ import annotations

import random

import pytest

from builder.errors import Fault, FaultyFile
from builder.problem import read_problem_text
from tests.problem.catalogue.cases import SOUND, UNIT

FILES = {
    file.name: file.read_text(encoding="utf-8")
    for file in sorted(SOUND.glob("*.yml"))
    if file.name != "unit.yml"
}


def faults_in(text: str) -> tuple[Fault, ...]:
    """What is told when the file is read."""
    try:
        read_problem_text(text, "problem.yml", UNIT)
    except FaultyFile as error:
        return error.faults
    return ()


def slipped(text: str, chance: random.Random) -> str:
    """A file with one slip of the pen: a letter too few, too many, wrong, or in the wrong case."""
    at = chance.randrange(len(text))
    other = chance.choice("aerC1 :,'\"[{-\t")
    match chance.randrange(5):
        case 0:
            return text[:at] + text[at + 1 :]
        case 1:
            return text[:at] + other + text[at:]
        case 2:
            return text[:at] + other + text[at + 1 :]
        case 3:
            return text[:at] + text[at].swapcase() + text[at + 1 :]
        case _:
            return text[:at] + text[at + 1 : at + 2] + text[at] + text[at + 2 :]


@pytest.mark.parametrize("name", FILES)
def test_a_corrected_line_takes_its_fault_away(name: str) -> None:
    """Three hundred slips in each file: with the line corrected, its fault is told no more."""
    chance = random.Random(name)
    corrections = 0
    for _ in range(300):
        text = slipped(FILES[name], chance)
        for fault in faults_in(text):
            if not fault.mends:
                continue
            corrections += 1
            lines = text.split("\n")
            assert fault.source == lines[fault.line - 1]
            lines[fault.line - 1] = fault.right
            told = [(each.found, each.expected, each.line) for each in faults_in("\n".join(lines))]
            assert (fault.found, fault.expected, fault.line) not in told, (text, fault.told())
    assert corrections >= 15


@pytest.mark.parametrize("name", FILES)
def test_one_slip_is_told_in_few_words(name: str) -> None:
    """What follows from a slip does not drown it: hardly ever are there more than three faults."""
    chance = random.Random(name)
    told = [len(faults_in(slipped(FILES[name], chance))) for _ in range(300)]
    many = sum(number > 3 for number in told)
    assert many <= 12, sorted(told)[-15:]
