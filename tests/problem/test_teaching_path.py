"""The path of a unit: what it may name, and what is told of names that stand for nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli import main
from builder.errors import FaultyFile
from builder.problem import read_unit
from builder.site.paper.choosing import Choice, choose
from tests.site.pages import FLASHER


def unit_file(folder: Path, path: str) -> Path:
    """A unit with two lesson pages and two problems, and a path as given."""
    (folder / "problems").mkdir()
    for page in ("sharing.md", "walking-back.md"):
        (folder / page).write_text("# A lesson\n", encoding="utf-8")
    for slug in ("two-lamps", "spare-capacitor"):
        (folder / "problems" / f"{slug}.yml").write_text("title: x\n", encoding="utf-8")
    file = folder / "unit.yml"
    file.write_text(f"title: Lamps\npath:{path}\n", encoding="utf-8")
    return file


def test_a_path_mixes_lessons_and_problems(tmp_path: Path) -> None:
    """The order of the file is the order of teaching; without one there is no path."""
    file = unit_file(tmp_path, "\n  - sharing.md\n  - two-lamps\n  - walking-back.md")
    assert read_unit(file).path == ("sharing.md", "two-lamps", "walking-back.md")
    file.write_text("title: Lamps\n", encoding="utf-8")
    assert read_unit(file).path == ()


def test_problems_are_found_in_the_folder_that_holds_them(tmp_path: Path) -> None:
    """A unit whose problems stand in another folder names them just the same."""
    file = unit_file(tmp_path, " [two-lamps]")
    (tmp_path / "problems").rename(tmp_path / "circuits")
    assert read_unit(file, folder="circuits").path == ("two-lamps",)


@pytest.mark.parametrize(
    ("path", "faults"),
    [
        (" [two-lamp]",
         ['2:8: found the problem "two-lamp"; expected the name of a file in problems/ without '
          'its .yml, or a page that ends in .md. Did you mean "two-lamps"?']),
        ("\n  - sharing\n  - quux",
         ['3:5: found the problem "sharing"; expected the name of a file in problems/ without '
          "its .yml, or a page that ends in .md. Write the problem, or take it out of the path.",
          '4:5: found the problem "quux"; expected the name of a file in problems/ without '
          "its .yml, or a page that ends in .md. Write the problem, or take it out of the path."]),
        (" [walking-bak.md, other.md]",
         ['2:8: found the page "walking-bak.md"; expected a lesson page in the folder of this '
          'file. Did you mean "walking-back.md"?',
          '2:24: found the page "other.md"; expected a lesson page in the folder of this file. '
          "Write the page, or take it out of the path."]),
        (" [two-lamps, sharing.md, two-lamps]",
         ['2:31: found "two-lamps" a second time in the path; expected each lesson page and '
          "problem once. Delete one of the two."]),
        (" sharing.md",
         ['2:7: found "sharing.md"; expected a list of lesson pages and problems. Put each item '
          "on a line of its own, starting with a dash and a space."]),
        ("\n  - {lesson: sharing.md}",
         ['3:5: found keys with values (first "lesson"); expected a lesson page or the name of a '
          "problem. Write a text; one that starts with a brace or a bracket goes between "
          "quotes."]),
    ],
)  # fmt: skip
def test_names_that_stand_for_nothing_are_told(
    tmp_path: Path, path: str, faults: list[str]
) -> None:
    """Each stop that is no page and no problem of the unit is told with its place."""
    file = unit_file(tmp_path, path)
    with pytest.raises(FaultyFile) as caught:
        read_unit(file)
    assert [str(fault) for fault in caught.value.faults] == [f"{file}:{f}" for f in faults]


def test_commands_find_problems_in_any_folder(tmp_path: Path) -> None:
    """The commands look up a path's problems where the given file lies, whatever its folder."""
    content = tmp_path / "content"
    (content / "circuits").mkdir(parents=True)
    file = content / "circuits" / "flasher.yml"
    file.write_text(FLASHER, encoding="utf-8")
    described = "title: U\nobjectives: {merge-parallel: Merge}\npath: [flasher]\n"
    (content / "unit.yml").write_text(described, encoding="utf-8")
    for command in (["solve", str(file)], ["check", str(file)]):
        result = CliRunner().invoke(main, command)
        assert result.exit_code == 0, result.output
    chosen = choose(content, Choice(named=("flasher",)), "circuits")
    assert [lesson.solution.problem.slug for lesson, _ in chosen.lessons] == ["flasher"]
