"""Which files of a unit are read as problems, and which are told about."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.errors import FaultyFile
from builder.site.sources import problem_sources


def unit_with(tmp_path: Path, *names: str) -> Path:
    """A content folder with empty files of those names among its problems."""
    content = tmp_path / "content"
    (content / "problems").mkdir(parents=True)
    for name in names:
        file = content / "problems" / name
        file.parent.mkdir(exist_ok=True)
        file.touch()
    return content


def test_problems_come_in_the_order_of_their_names(tmp_path: Path) -> None:
    """Files that end in .yml are problems; pages and pictures beside them are not."""
    content = unit_with(tmp_path, "b.yml", "a.yml", "index.md", "photo.png")
    assert [path.name for path in problem_sources(content, "problems")] == ["a.yml", "b.yml"]


@pytest.mark.parametrize(
    ("name", "fault"),
    [
        (
            "more/c.yml",
            "content/problems/more/c.yml: found a problem in a folder of its own; expected all "
            'problems side by side in "content/problems". Move the file up.',
        ),
        (
            "c.yaml",
            'content/problems/c.yaml: found a file that ends in ".yaml"; expected problems that '
            'end in ".yml". Rename the file.',
        ),
        (
            "c.YML",
            'content/problems/c.YML: found a file that ends in ".YML"; expected problems that '
            'end in ".yml". Rename the file.',
        ),
    ],
)
def test_no_problem_is_passed_over(tmp_path: Path, name: str, fault: str) -> None:
    """A problem that would not be read is told about."""
    content = unit_with(tmp_path, "a.yml", name)
    with pytest.raises(FaultyFile) as caught:
        problem_sources(content, "problems")
    assert str(caught.value) == fault


@pytest.mark.parametrize("folder", ["../outside", "/etc", "problems/../..", ""])
def test_problems_stay_inside_the_content(tmp_path: Path, folder: str) -> None:
    """The folder of the problems cannot lie outside the unit's content."""
    with pytest.raises(FaultyFile) as caught:
        problem_sources(unit_with(tmp_path), folder)
    assert str(caught.value) == (
        f'mkdocs.yml: found the folder "{folder}" for problems; expected a folder inside '
        '"content". Write its name alone, such as problems.'
    )


def test_a_missing_folder_is_told(tmp_path: Path) -> None:
    """A unit without the folder of its problems says what to make."""
    with pytest.raises(FaultyFile) as caught:
        problem_sources(unit_with(tmp_path), "tasks")
    assert str(caught.value) == (
        "content/tasks: found no such folder; expected the folder of the unit's problems. Make "
        "the folder, or name another one in mkdocs.yml."
    )
