"""``stepwell numbers``: what it prints, writes and refuses."""

from __future__ import annotations

import codecs
import io
import json
import shlex
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from builder.commands.numbers import progress
from builder.errors import FaultyFile
from builder.problem import read_problem
from builder.problem.fresh import stated_values
from builder.site.numbers.search import LONG_SEARCH, MOST_LOOKED_AT, look, prepare
from builder.site.numbers.wishes import Wishes
from builder.site.numbers.writing import write_numbers
from tests.conftest import ROOT

LAMPS = """\
title: Three lamps   # for Monday
circuit:
  source: {V0: 12 V}           # the "bench" supply
  series:
    - R1: 4 ohm
    - parallel: [R2: '12 ohm', R3: 6 ohm]   # both mend the net
find: [current: all, power: total]
"""


@pytest.fixture
def lamps(tmp_path: Path) -> Path:
    """A problem with comments, quotation marks and spaces that have to stay."""
    path = tmp_path / "lamps.yml"
    path.write_text(LAMPS, encoding="utf-8")
    return path


def numbers(path: Path, *options: str) -> Result:
    """Run the command on a problem."""
    return CliRunner().invoke(main, ["numbers", str(path), *options])


def sets(path: Path, *options: str) -> list[dict[str, str]]:
    """The values of the sets that are found."""
    result = numbers(path, "--json", *options)
    assert result.exit_code == 0, result.output
    return [one["values"] for one in json.loads(result.stdout)["sets"]]


def test_the_best_sets_stand_in_a_table(lamps: Path) -> None:
    """Values, digits and answers, best first; every set stands in one line a block."""
    two = ("--vary", "V0=6 V to 24 V step 3 V", "--vary", "R1=E24")
    result = numbers(lamps, *two, "--best", "3")
    assert result.exit_code == 0
    lines = result.output.splitlines()
    assert lines[0] == "Of 168 sets of values, 7 give clean numbers in every step."
    assert lines[1] == "The best 3, solved exactly by both methods:"
    assert lines[3].split() == ["V0", "R1", "digits", "I₁", "I₂", "I₃", "P"]
    first = lines[4].split("  ")
    assert first[0] == "1"
    assert all("≈" not in line for line in lines)
    assert lines[-1].startswith("Digits: how many significant digits the worst number")
    assert not result.stderr


def test_a_wide_table_is_told_in_parts(lamps: Path) -> None:
    """No line is wider than a page, and each part starts with the numbers of the sets."""
    text = lamps.read_text(encoding="utf-8")
    lamps.write_text(text.replace("current: all", "current: all, voltage: all, power: all"),
                     encoding="utf-8")  # fmt: skip
    lines = numbers(lamps, "--best", "2").output.splitlines()
    assert max(map(len, lines)) <= 88
    assert sum(line.startswith("1  ") for line in lines) == 2


def test_programs_get_the_sets_as_data(lamps: Path) -> None:
    """The values as they are typed, and the answers of ``solve --json``."""
    found = json.loads(numbers(lamps, "--json", "--best", "2", "--digits", "2").stdout)
    assert found["problem"] == "lamps"
    assert found["written"] is None
    assert found["uncounted"] == []
    assert len(found["sets"]) == 2
    for one in found["sets"]:
        assert set(one["values"]) == {"V0", "R1", "R2", "R3"}
        assert one["digits"] <= 2
        assert [a["quantity"] for a in one["answers"]] == ["current"] * 3 + ["power"]
        number = one["answers"][0]["shown"].split()[0]
        assert len(number.replace(".", "").strip("0")) <= 2


def test_what_is_not_named_stays(lamps: Path) -> None:
    """--vary lets one value vary, --series all elements."""
    assert all(set(one) == {"V0"} for one in sets(lamps, "--vary", "V0=3 V, 6 V, 24 V"))
    by_series = sets(lamps, "--series", "e12")
    assert all(set(one) == {"R1", "R2", "R3"} for one in by_series)
    assert by_series[0]["R2"].split()[0] in {"4.7", "5.6", "10", "12", "15", "22", "27", "18", "33"}


def test_a_value_may_be_taken_out_of_the_series(lamps: Path) -> None:
    """--vary beside --series speaks for its own value."""
    found = sets(lamps, "--series", "E12", "--vary", "R1=4 ohm, 5 ohm, 14 ohm", "--best", "5")
    assert {one["R1"] for one in found} <= {"4 ohm", "5 ohm", "14 ohm"}


def test_equal_values_stay_equal_unless_both_are_named(lamps: Path) -> None:
    """Two lamps of one kind are changed together."""
    text = lamps.read_text(encoding="utf-8").replace("12 ohm", "6 ohm")
    lamps.write_text(text, encoding="utf-8")
    both = sets(lamps, "--vary", "R2=4 ohm, 8 ohm, 10 ohm")
    assert both
    assert all(one["R2"] == one["R3"] for one in both)
    each = sets(lamps, "--vary", "R2=6 ohm, 12 ohm", "--vary", "R3=4 ohm, 6 ohm, 12 ohm")
    assert any(one["R2"] != one["R3"] for one in each)
    told = numbers(lamps, "--vary", "R2=4 ohm, 8 ohm, 10 ohm").output
    assert told.endswith("R3 changes with R2.\n")
    assert "R3" not in told.splitlines()[3]


def test_ranges_are_kept(lamps: Path) -> None:
    """--keep holds for every set."""
    found = json.loads(numbers(lamps, "--json", "--keep", "power=20 W to 40 W").stdout)
    assert found["sets"]
    assert all(20 <= one["answers"][-1]["value"] <= 40 for one in found["sets"])


@pytest.mark.parametrize("options", [["--write"], ["--write", "2"]], ids=["the best", "another"])
def test_a_set_is_written_without_disturbing_anything(lamps: Path, options: list[str]) -> None:
    """Comments, quotation marks, spaces and permissions stay; the values are those of the set."""
    lamps.chmod(0o640)
    chosen = sets(lamps, "--best", "4")[int(options[-1]) - 1 if len(options) > 1 else 0]
    result = numbers(lamps, "--best", "4", *options)
    assert result.exit_code == 0
    expected = LAMPS
    for old, new in zip(("12 V", "4 ohm", "12 ohm", "6 ohm"), chosen.values(), strict=True):
        at = expected.index(old, expected.index("circuit"))
        expected = expected[:at] + new + expected[at + len(old) :]
    assert lamps.read_text(encoding="utf-8") == expected
    assert stat.S_IMODE(lamps.stat().st_mode) == 0o640
    assert [path.name for path in lamps.parent.iterdir()] == ["lamps.yml"]
    assert f"stands in {lamps} now." in result.output


def test_marks_and_line_ends_of_a_file_stay(lamps: Path) -> None:
    """A byte order mark and the line ends of another system are the author's."""
    lamps.write_bytes(codecs.BOM_UTF8 + LAMPS.replace("\n", "\r\n").encode())
    assert numbers(lamps, "--vary", "V0=6 V, 24 V", "--write").exit_code == 0
    raw = lamps.read_bytes()
    assert raw.startswith(codecs.BOM_UTF8 + b"title: Three lamps   # for Monday\r\n")
    assert raw.count(b"\r\n") == raw.count(b"\n") == LAMPS.count("\n")
    assert len(stated_values(read_problem(lamps))) == 4


def test_a_file_that_changed_meanwhile_is_left_alone(lamps: Path) -> None:
    """Whoever saves while numbers are looked for loses nothing."""
    search = look(prepare(lamps, None, Wishes(), None), 1, lambda _: None)
    lamps.write_text(LAMPS + "digits: 2\n", encoding="utf-8")
    with pytest.raises(FaultyFile, match="has changed since it was read"):
        write_numbers(search, 1)
    assert lamps.read_text(encoding="utf-8") == LAMPS + "digits: 2\n"
    assert [path.name for path in lamps.parent.iterdir()] == ["lamps.yml"]


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (["--vary", "R9=E12"], '--vary R9=E12: found "R9", for which the file states no number'),
        (["--vary", "R1"], 'expected a name, an equals sign and values, such as C1=E12'),
        (["--vary", "R1=E12", "--vary", "R1=E6"], "R1, which is told already"),
        (["--vary", "R1=5 V, 6 V"], "Change the unit."),
        (["--series", "E96"], "expected E3, E6, E12 or E24"),
        (["--keep", "charge=1 uC to 2 uC"], "charge, which the problem does not ask for"),
        (["--keep", "apart=no-such-rule"], "which leads to no wrong number here"),
        (["--write", "300"], "found set 300 of"),
    ],
)  # fmt: skip
def test_a_wish_that_is_not_understood_is_refused(
    lamps: Path, options: list[str], told: str
) -> None:
    """The option is named, with what it should be; the file stays."""
    result = numbers(lamps, *options)
    assert result.exit_code == 1
    assert told in result.stderr
    assert not result.stdout
    assert lamps.read_text(encoding="utf-8") == LAMPS


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("12 V", "V", "letters instead of numbers"),
        ("find:", "vary: none\nfind:", "no value that may vary"),
        ("find:", "fnd:", 'found the key "fnd"'),
    ],
)
def test_a_problem_without_numbers_to_choose_is_refused(
    lamps: Path, old: str, new: str, told: str
) -> None:
    """Letters, vary: none and faulty files are told as errors, not as empty tables."""
    text = LAMPS.replace(old, new)
    if new == "V":
        text = text.replace("4 ohm", "R").replace("'12 ohm'", "2*R").replace("6 ohm", "3*R")
    lamps.write_text(text, encoding="utf-8")
    result = numbers(lamps)
    assert result.exit_code == 1
    assert told in result.stderr


def test_a_search_without_end_is_refused(lamps: Path) -> None:
    """How many sets there would be is told before anyone waits for them."""
    wide = [f"--vary=R{n}=1 ohm to 200 ohm step 1 ohm" for n in (1, 2, 3)]
    result = numbers(lamps, *wide, "--vary=V0=1 V to 200 V step 1 V")
    assert result.exit_code == 1
    assert (
        f"found 1 600 000 000 sets of values; expected at most {MOST_LOOKED_AT:,}".replace(",", " ")
        in result.stderr
    )


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (["--vary", "R2=7 ohm, 11 ohm"],
         "found nothing that fits among 2 sets of values; expected every number of the steps told "
         "whole by 3 digits (most rarely so: the resistance of R₂₃). None of them gives that; "
         "if it did not count, all would fit. Offer more values to choose from"),
        (["--vary", "V0=24 V, 36 V", "--keep", "power=1 mW to 2 mW"],
         "expected the total power in the range that it is to keep. None of them gives that; if "
         "it did not count, all would fit. Widen the range, or offer values that lead into it."),
    ],
)  # fmt: skip
def test_it_is_said_why_nothing_fits(lamps: Path, options: list[str], told: str) -> None:
    """The condition that rules out most is named, and what to loosen."""
    result = numbers(lamps, *options)
    assert result.exit_code == 1
    assert told in result.stderr
    assert result.stderr.count("\n") == 1


def test_a_text_that_tells_a_result_is_pointed_out(lamps: Path) -> None:
    """Its author has to read it again, with the new numbers."""
    lamps.write_text(LAMPS + 'scenario: "All in all 1.5 A flow."\n', encoding="utf-8")
    last = numbers(lamps, "--vary", "V0=6 V, 24 V").output.splitlines()[-1]
    assert last == "A text of the file tells the current through R₁ in numbers: read it again."
    lamps.write_text(LAMPS, encoding="utf-8")
    assert "read it again" not in numbers(lamps, "--vary", "V0=6 V, 24 V").output


def test_the_readme_shows_what_is_printed() -> None:
    """The table in the README is how the command's output begins."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    line, shown = readme.split("$ .venv/bin/stepwell numbers ")[1].split("…")[0].split("\n", 1)
    _, *options = shlex.split(line)
    result = numbers(ROOT / "content" / "problems" / "flasher-reservoir.yml", *options)
    assert len(shown) > 300
    assert result.output.startswith(shown)


class Terminal(io.StringIO):
    """Somebody sits in front of it."""

    def isatty(self) -> bool:
        """It is one."""
        return True


@pytest.mark.parametrize(("sets_of_values", "seen"), [(LONG_SEARCH, True), (100, False)])
def test_a_long_search_shows_a_bar_on_a_terminal(
    monkeypatch: pytest.MonkeyPatch, sets_of_values: int, seen: bool
) -> None:
    """A short one is over before a bar could be read."""
    terminal = Terminal()
    monkeypatch.setattr("sys.stderr", terminal)
    with progress(sets_of_values) as tell:
        tell(sets_of_values // 2)
        tell(sets_of_values // 2)
    assert ("Looking" in terminal.getvalue()) is seen
    assert ("100%" in terminal.getvalue()) is seen


def test_help_holds_an_example(lamps: Path) -> None:
    """Every option is explained, and one line can be copied."""
    result = CliRunner().invoke(main, ["numbers", "--help"])
    assert result.exit_code == 0
    assert "Example: stepwell numbers" in result.output
