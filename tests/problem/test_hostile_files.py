"""Files that are no problem at all, and values that are meant to exhaust whoever reads them."""

from __future__ import annotations

import os
import time
import tracemalloc
from pathlib import Path

import pytest

from builder.errors import FaultyFile
from builder.problem import read_problem
from builder.problem.limits import LIMITS
from tests.problem.samples import NEST, changed, faults_of

SAVE = "expected text in UTF-8. Save the file again as plain text with the encoding UTF-8."


def told(file: Path) -> str:
    """What is wrong with a file, and that it is told within two seconds of computing."""
    start = time.process_time()
    with pytest.raises(FaultyFile) as caught:
        read_problem(file, name="lamps.yml")
    assert time.process_time() - start < 2
    return str(caught.value)


def test_of_a_huge_file_little_is_read(tmp_path: Path) -> None:
    """A file of 50 MB takes no more memory than the largest that is allowed."""
    file = tmp_path / "lamps.yml"
    with file.open("wb") as huge:
        huge.truncate(50 * 1024 * 1024)
    tracemalloc.start()
    said = told(file)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert said == ("lamps.yml:1:1: found a file of more than 256 KiB; expected at most 256 KiB. "
                    "Check that it is the right file.")  # fmt: skip
    assert peak < 2 * 1024 * 1024


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    """A named pipe, from which nothing comes, is refused unread."""
    pipe = tmp_path / "lamps.yml"
    os.mkfifo(pipe)
    assert told(pipe) == ("lamps.yml: found something that is no file; expected a YAML file. "
                          "Check the name and the folder.")  # fmt: skip


def test_a_device_is_not_read() -> None:
    """What never ends is refused unread."""
    assert told(Path("/dev/zero")) == ("lamps.yml: found something that is no file; expected "
                                       "a YAML file. Check the name and the folder.")  # fmt: skip


def test_a_folder_is_told_as_one(tmp_path: Path) -> None:
    """A folder with the name of a file is no file."""
    folder = tmp_path / "lamps.yml"
    folder.mkdir()
    assert told(folder) == ("lamps.yml: found a folder; expected a YAML file. Name a file that "
                            "ends in .yml.")  # fmt: skip


@pytest.mark.parametrize(
    ("raw", "fault"),
    [
        (NEST.encode("utf-16-le"), "1:2: found an invisible character that is no text (U+0000); "
         "expected text only. Delete the character, or save the file again as plain text."),
        (NEST.encode("utf-32"), f"1:1: found a file in the encoding UTF-16; {SAVE}"),
        (NEST.encode("utf-32-be"), "1:1: found an invisible character that is no text (U+0000); "
         "expected text only. Delete the character, or save the file again as plain text."),
        (b"title: a\x00b\n", "1:9: found an invisible character that is no text (U+0000); expected "
         "text only. Delete the character, or save the file again as plain text."),
        (b"\xed\xa0\x80", f"1:1: found a byte that is no UTF-8 text; {SAVE}"),
        (b"", "1:1: found an empty file; expected keys with their values, such as title: Two "
         "lamps. Write the file, or delete it."),
    ],
    ids=["utf-16 without mark", "utf-32", "utf-32 without mark", "nul", "half a pair", "empty"],
)  # fmt: skip
def test_bytes_that_are_no_text_are_told(tmp_path: Path, raw: bytes, fault: str) -> None:
    """Other encodings and stray bytes have a place and a remedy."""
    file = tmp_path / "lamps.yml"
    file.write_bytes(raw)
    assert told(file) == f"lamps.yml:{fault}"


def test_a_byte_order_mark_is_no_fault(tmp_path: Path) -> None:
    """What some editors write before a text is passed over."""
    file = tmp_path / "lamps.yml"
    file.write_bytes(NEST.encode("utf-8-sig"))
    assert read_problem(file).title == "Two lamps"


VALUES = [
    "__import__('os').system('true')", "().__class__.__bases__", "9**9**9", "9^9^9^9",
    "1" * 100_000, "1e999999", "1e-999999", "(" * 100_000, "(" * 50 + "C" + ")" * 50, "NaN",
    "-inf", "1/0 uF", "0 uF", "-0 uF", "C" + "*C" * 50_000, "C^99999999", "exp(exp(exp(C)))",
    "٣ uF", "− 5 uF", "[" * 40, "$" * 100_000, "{{" * 50_000, "\u202e10 uF",
]  # fmt: skip


@pytest.mark.parametrize("value", VALUES, ids=lambda value: value[:20])
def test_values_that_no_element_has_are_told(value: str) -> None:
    """Code, powers of powers, endless digits and no numbers: one fault at the value, at once."""
    text = changed(NEST, "10 uF", '"' + value.replace('"', "") + '"')
    start = time.process_time()
    faults = faults_of(text)
    assert time.process_time() - start < 1
    assert len(faults) == 1
    assert faults[0].startswith("problem.yml:5:")
    assert len(faults[0]) < 400


EQUATIONS = [
    "x = __import__('os')", "x = 9**9**9", "x = (((((((((((((((((((((((1)))))))))))))))))))))))",
    "x = 10^400", "x = exp(1000)", "x = y^100", "x = 1" + "0" * 150, "x = " + "y+" * 5_000 + "y",
    "x == y", "x = y = z", "x = y.real", "x = lambda: y", "x = 'y'", "x = NaN",
]  # fmt: skip


@pytest.mark.parametrize("equation", EQUATIONS, ids=lambda equation: equation[:20])
def test_equations_that_are_none_are_told(equation: str) -> None:
    """An equation is read by a short list of signs; whatever else stands there is refused."""
    text = (f"title: T\nquantities:\n  y: 2\n  x: number\nrelations:\n  - \"{equation}\"\n"
            "find: [x]\n")  # fmt: skip
    start = time.process_time()
    faults = faults_of(text)
    assert time.process_time() - start < 1
    assert faults
    assert all(fault.startswith("problem.yml:6:") for fault in faults)


def group(count: int) -> str:
    """A chain of resistors."""
    items = "".join(f"    - R{n}: {n} ohm\n" for n in range(1, count + 1))
    return f"title: T\ncircuit:\n  series:\n{items}find: equivalent\n"


def branches(count: int) -> str:
    """Resistors side by side, each a row of a table."""
    rows = "".join(f"    R{n}: {{resistance: 1 ohm, between: [a, b]}}\n" for n in range(count))
    return f"title: T\ncircuit:\n  branches:\n{rows}find: equivalent\n"


def stages(count: int) -> str:
    """The same switch thrown again and again."""
    rows = ("    V0: {emf: 1 V, between: [a, d]}\n    S1: {switch: open, between: [a, b]}\n"
            "    C1: {capacitance: 1 uF, between: [b, d]}\n")  # fmt: skip
    thrown = "".join(f"  - {'open' if n % 2 else 'close'}: S1\n" for n in range(count))
    return f"title: T\ncircuit:\n  branches:\n{rows}stages:\n{thrown}find: [charge: all]\n"


def relations(count: int) -> str:
    """One equation after the other."""
    names = "".join(f"  x{n}: {'2' if n == 0 else 'number'}\n" for n in range(count + 1))
    rows = "".join(f"  - x{n + 1} = x{n} + 1\n" for n in range(count))
    return f"title: T\nquantities:\n{names}relations:\n{rows}find: [x{count}]\n"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (group(10_000), "found more than 20000 keys and values; expected a file of ordinary size."),
        (group(6_000), "found more than 60 elements; expected at most 60."),
        (branches(2_000), "found more than 60 elements; expected at most 60."),
        (stages(500), "found more than 12 stages; expected at most 12."),
        (relations(300), "found more than 40 quantities; expected at most 40."),
    ],
    ids=["10000 in a group", "6000 in a group", "2000 branches", "500 stages", "300 relations"],
)
def test_astronomical_problems_are_refused(text: str, fault: str) -> None:
    """What is beyond a limit is told with the limit, in no time."""
    start = time.process_time()
    faults = faults_of(text)
    assert time.process_time() - start < 2
    assert any(fault in one for one in faults)


WISHES = [
    "vary: {C1: 1 pF to 1e29 F step 1e-20 F}", "vary: {C1: E24 from 1e-29 F to 1e29 F}",
    "vary: {C1: 2*C2*C2*C2}", "vary: {C1: C1}", "vary: {C1: C2, C2: C1}", "vary: {C9: E12}",
    "vary: {C1: [" + ", ".join(f"{n} uF" for n in range(1, 400)) + "]}", "vary: [[[[]]]]",
    "keep: {digits: 99999999999999999999}", "keep: {capacitance: 9 uF to 1e999 uF}",
    "keep: {order: 1e9}", "keep: {apart: [../../etc/passwd]}", "keep: ../../x",
    "vary: {C1: " + "1 to " * 20_000 + "2 uF}",
]  # fmt: skip


@pytest.mark.parametrize("wish", WISHES, ids=lambda wish: wish[:30])
def test_wishes_without_end_are_told(wish: str) -> None:
    """Ranges with astronomically many values, circles and nonsense are refused at their line."""
    start = time.process_time()
    faults = faults_of(f"{NEST}{wish}\n")
    assert time.process_time() - start < 2
    assert faults
    assert all(fault.startswith("problem.yml:8:") for fault in faults)


@pytest.mark.parametrize(
    "name",
    ["..", "a b.yml", "a.b.yml", "CON:.yml", "<b>.yml", "a'b.yml", "%2e%2e.yml", "a\u202eb.yml",
     "INDEX.yml", "-.yml", "a\nb.yml"],
)  # fmt: skip
def test_odd_names_of_files_are_no_addresses(tmp_path: Path, name: str) -> None:
    """A problem's file is named by letters, digits, hyphens and underscores."""
    from builder.problem import read_problem_text

    with pytest.raises(FaultyFile) as caught:
        read_problem_text(NEST, name)
    assert "found the file name" in str(caught.value)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("[C1" * 60_000, "8:7: found a text of 180000 characters; expected at most 8000. Make it "
         "shorter."),
        ("[" * 2_000, "8:7: found a text with 2000 opening square brackets; expected at most 300. "
         "Take some of them out."),
    ],
)  # fmt: skip
def test_texts_without_end_are_told(text: str, fault: str) -> None:
    """What would keep Markdown busy for minutes is refused at its place."""
    assert faults_of(f'{NEST}plan: "{text}"\n') == [f"problem.yml:{fault}"]


def test_every_limit_is_a_number_with_words() -> None:
    """The list of limits, from which a reference can be written, is whole."""
    assert len(LIMITS) >= 19
    assert all(limit.most > 0 and limit.what == limit.what.strip() != "" for limit in LIMITS)
