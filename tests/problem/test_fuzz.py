"""Whatever stands in a file, it is read or told, and nothing else happens."""

from __future__ import annotations

from hypothesis import example, given, settings
from hypothesis import strategies as st

from builder.circuit.tree import leaves
from builder.errors import Fault, FaultyFile
from builder.problem import read_problem_text
from builder.problem.model import NestProblem
from tests.problem.samples import BRANCHES, FULL, NEST

SAMPLES = (NEST, BRANCHES, FULL)
WORDS = (
    "title", "circuit", "source", "series", "parallel", "branches", "across", "find", "C1", "R1",
    "V0", "total", "all", "equivalent", "charge", "voltage", "between", "emf", "capacitance",
    "10 uF", "0 ohm", "-1 V", "12,5 V", "{C1}", "{", "}", "[", "]", "*a", "&a", "!!str", "- ",
    ": ", ":", "\t", "\n", "\n  ", "|", ">", "'", '"', "#", "---", "yes", "null", "~", "<<", "",
)  # fmt: skip


def check_readable(faults: tuple[Fault, ...], text: str) -> None:
    """Each fault has a place in the file and says something in each of its parts."""
    assert faults
    assert list(faults) == sorted(faults)
    ends = sum(text.count(end) for end in "\n\r\x85\u2028\u2029")
    for fault in faults:
        assert 1 <= fault.line <= ends + 2
        assert fault.column >= 1
        for part in (fault.found, fault.expected, fault.advice):
            assert part.strip() == part != ""
            assert "\n" not in part
        assert fault.advice[-1] in ".?"
        assert len(fault.found) < 300


def read_or_told(text: str) -> NestProblem | None:
    """The problem, or None after checking that its faults are fit to be read."""
    try:
        problem = read_problem_text(text, "problem.yml")
    except FaultyFile as error:
        check_readable(error.faults, text)
        return None
    assert isinstance(problem, NestProblem)
    names = {element.name for element in problem.network.elements}
    assert set(leaves(problem.tree)) == names
    assert problem.find
    assert all(name.of in names | {"total"} for name in problem.find)
    return problem


@settings(max_examples=150)
@given(st.text(max_size=200))
def test_any_text_is_read_or_told(text: str) -> None:
    """Random characters never raise anything but faults."""
    read_or_told(text)


@settings(max_examples=150)
@given(st.lists(st.sampled_from(WORDS), max_size=40))
@example(["{", ": ", "}"])
def test_any_words_of_problems_are_read_or_told(words: list[str]) -> None:
    """Words and signs of problem files in any order never raise anything but faults."""
    read_or_told("".join(words))


@settings(max_examples=200)
@given(st.data())
def test_files_with_a_part_exchanged_are_read_or_told(data: st.DataObject) -> None:
    """A sound file in which any stretch is replaced by something else is read or told."""
    text = data.draw(st.sampled_from(SAMPLES))
    for _ in range(data.draw(st.integers(1, 3))):
        start = data.draw(st.integers(0, len(text)))
        end = min(len(text), start + data.draw(st.integers(0, 12)))
        new = data.draw(st.sampled_from(WORDS) | st.text(max_size=5))
        text = text[:start] + new + text[end:]
    read_or_told(text)


@settings(max_examples=150)
@given(st.data())
def test_files_with_lines_moved_are_read_or_told(data: st.DataObject) -> None:
    """A sound file whose lines are dropped, doubled, indented or moved is read or told."""
    lines = data.draw(st.sampled_from(SAMPLES)).splitlines()
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(lines) - 1))
        other = data.draw(st.integers(0, len(lines) - 1))
        match data.draw(st.sampled_from("drop double indent outdent swap".split())):
            case "drop" if len(lines) > 1:
                del lines[at]
            case "double":
                lines.insert(other, lines[at])
            case "indent":
                lines[at] = "  " + lines[at]
            case "outdent":
                lines[at] = lines[at].removeprefix("  ")
            case _:
                lines[at], lines[other] = lines[other], lines[at]
    read_or_told("\n".join(lines) + "\n")


def test_the_samples_themselves_are_read() -> None:
    """What is changed above starts out sound, so that a read file is possible."""
    assert all(read_or_told(sample) is not None for sample in SAMPLES)
