"""A line of a file is shown as a person can see it, with the mark below the right place."""

from __future__ import annotations

import unicodedata

import pytest

from builder.errors import Fault, Oddity
from builder.pointing import LONGEST, columns, corrected, harmless, pointed, visible


@pytest.mark.parametrize(
    ("source", "column", "width", "shown", "mark"),
    [
        pytest.param("C1: 15 uf", 5, 5, "C1: 15 uf", "    ^^^^^", id="a-word"),
        pytest.param("C1: 15 uf", 10, 1, "C1: 15 uf", "         ^", id="the-end-of-the-line"),
        pytest.param("C1: 15 uf", 5, 99, "C1: 15 uf", "    ^^^^^", id="no-further-than-the-line"),
        pytest.param("\tC1: x", 2, 2, "→   C1: x", "    ^^", id="after-a-tab"),
        pytest.param("\tC1: x", 1, 1, "→   C1: x", "^^^^", id="the-tab-itself"),
        pytest.param("灯: 15", 4, 2, "灯: 15", "    ^^", id="after-a-wide-sign"),
        pytest.param("x: 港灯 y", 4, 2, "x: 港灯 y", "   ^^^^", id="wide-signs"),
        pytest.param(
            "cafe\u0301: x", 8, 1, "cafe\u0301: x", "      ^", id="after-a-combining-sign"
        ),
        pytest.param("a\u00a0b: x", 3, 1, "a␣b: x", "  ^", id="a-space-that-does-not-break"),
        pytest.param("a\u200bb", 2, 1, "a‹U+200B›b", " ^^^^^^^^", id="a-space-without-width"),
        pytest.param("\x1b[31mred", 6, 3, "␛[31mred", "     ^^^", id="an-escape-sequence"),
        pytest.param("a\u202eb", 3, 1, "a‹U+202E›b", "         ^", id="writing-turned-round"),
    ],
)
def test_the_mark_stands_below_its_word(
    source: str, column: int, width: int, shown: str, mark: str
) -> None:
    """Whatever stands before it, and whatever the word consists of."""
    line, below = pointed(source, 7, column, width)
    assert line == f"  7 | {shown}"
    assert below == f"    | {mark}"


@pytest.mark.parametrize("column", [1, 30, 200, 399])
def test_of_a_long_line_the_place_is_shown(column: int) -> None:
    """A window of the line, with dots where it goes on, holds what is marked."""
    source = "".join(chr(ord("a") + at % 26) for at in range(400))
    line, below = pointed(source, 12, column, 2)
    assert columns(line) <= LONGEST + len("  12 | ")
    at = below.index("^")
    assert line[at : at + 2] == source[column - 1 : column + 1]
    assert ("…" in line[:at]) == (column > LONGEST)
    assert line.endswith("…") == (column < 350)


def test_a_mark_longer_than_the_window_is_cut() -> None:
    """A whole paragraph on one line does not fill the screen."""
    line, below = pointed("x" * 500, 1, 3, 400)
    assert columns(line) <= LONGEST + len("  1 | ")
    assert columns(below) <= columns(line)


@pytest.mark.parametrize("source", ["", "   "])
def test_nothing_is_shown_of_an_empty_line(source: str) -> None:
    """There is nothing to look at."""
    assert pointed(source, 3, 1, 1) == []


def test_a_corrected_line_is_shown_round_what_changes() -> None:
    """Of a long line, too, the part that is to be typed anew."""
    source = "x" * 300 + " uf " + "y" * 300
    (shown,) = corrected(source, source.replace("uf", "uF"), 4)
    assert "uF" in shown
    assert columns(shown) <= LONGEST + len("  4 | ")


def test_every_sign_is_made_harmless() -> None:
    """No character of Unicode leaves anything that a terminal would obey."""
    for point in range(0x110000):
        for sign in harmless(chr(point)) + visible(chr(point)):
            assert unicodedata.category(sign) not in ("Cc", "Cf", "Cs", "Zl", "Zp")


def test_what_is_told_of_a_fault() -> None:
    """One line to log; for people the line, its mark and the right form as well."""
    fault = Fault("a.yml", 3, 5, 'found "15 uf"', "a value", "Change it.",
                  "C1: 15 uf", "C1: 15 uF", 5, mends=True)  # fmt: skip
    assert "\n" not in str(fault)
    assert fault.told() == (
        f"{fault}\n  3 | C1: 15 uf\n    |     ^^^^^\n  Corrected:\n  3 | C1: 15 uF"
    )


def test_an_example_is_called_one() -> None:
    """What is not the line itself is shown apart."""
    fault = Fault("a.yml", 0, 0, "nothing", "a title", "Add it.", right="title: Lamps\nfind: C1")
    assert fault.told() == f"{fault}\n  For example:\n    title: Lamps\n    find: C1"


@pytest.mark.parametrize("kind", ["fault", "oddity"])
def test_names_and_words_of_a_file_cannot_move_the_cursor(kind: str) -> None:
    """A file's name, what was found in it and its line are told without control characters."""
    evil = "\x1b]0;x\x07\u202e\r"
    told = (
        Fault(f"{evil}.yml", 1, 1, evil, evil, evil, evil, evil).told()
        if kind == "fault"
        else Oddity(f"{evil}.yml", 1, 1, "odd", evil, evil, evil).told()
    )
    assert not any(unicodedata.category(sign) in ("Cc", "Cf") for sign in told.replace("\n", ""))
