"""Files that once did harm: each is solved, or told just as it should be."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from builder.errors import FaultyFile
from builder.lesson import write_lesson
from builder.lesson.apart import telling_apart
from builder.problem import read_problem
from builder.solution import solve

CORPUS = Path(__file__).parent / "corpus"
"""Each file starts with what it once did; what is told of it stands beside it in ``.told``, and
where there is no such file it is solved.
"""


def verdict(file: Path) -> str:
    """What is told of a file; nothing if it can be solved and taught."""
    try:
        telling_apart(write_lesson(solve(read_problem(file, name=file.name))))
    except FaultyFile as error:
        return f"{error}\n"
    return ""


@pytest.mark.parametrize("file", sorted(CORPUS.glob("*.yml")), ids=lambda file: file.stem)
def test_what_once_did_harm_is_solved_or_told(file: Path) -> None:
    """A file of the corpus has its verdict to the letter, within two seconds of computing."""
    beside = file.with_suffix(".told")
    assert file.read_text("utf-8").startswith("# ")
    start = time.process_time()
    found = verdict(file)
    assert time.process_time() - start < 2
    assert found == (beside.read_text("utf-8") if beside.exists() else "")


def test_every_verdict_belongs_to_a_file() -> None:
    """No text is left over from a file that is gone."""
    assert all(told.with_suffix(".yml").exists() for told in CORPUS.glob("*.told"))
    assert len(list(CORPUS.glob("*.yml"))) >= 13
