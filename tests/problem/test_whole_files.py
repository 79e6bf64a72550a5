"""What is told of whole files: several faults at once, files that cannot be read, limits."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from builder.errors import FaultyFile
from builder.problem import read_problem, read_unit
from builder.problem.yaml_text import composing
from tests.problem.samples import FULL, NEST, UNIT, changed, faults_of

MANY_FAULTS = """\
titel: Two lamps
level: hard
objectives: [merge-paralel]
scenario: Look at {C9}.
circuit:
  source: 12
  series:
    - C1: 10 uF
    - C2: 0 uF
    - C3: 20 ohm
find:
  - chrage: all
  - voltage: C4
digits: 0
words:
  merge: {gaol: Merge}
questions:
  - ask: Which?
    choices: [A, B]
"""


def test_all_faults_of_a_file_are_told_in_its_order() -> None:
    """One run tells everything that is wrong, from the top of the file to its end."""
    told = [fault.split("; expected")[0] for fault in faults_of(MANY_FAULTS, UNIT)]
    assert told == [
        'problem.yml:1:1: found the key "titel"',
        'problem.yml:2:8: found "hard"',
        'problem.yml:3:14: found the objective "merge-paralel"',
        'problem.yml:6:11: found "12"',
        "problem.yml:9:11: found a capacitor of 0 µF, C2",
        "problem.yml:10:11: found a resistor, C3, among capacitors",
        'problem.yml:12:5: found "chrage"',
        'problem.yml:13:14: found "C4", which is no element of the circuit',
        'problem.yml:14:9: found "0"',
        'problem.yml:16:11: found the key "gaol"',
        "problem.yml:19:5: found options none of which is right",
    ]


def test_faults_of_yaml_and_of_the_problem_are_told_together() -> None:
    """A duplicate key or a tag does not hide what else is wrong."""
    text = changed(NEST, "12 V", "!!float 12") + "title: Three lamps\nlevel: hard\n"
    assert [fault.split(": ")[0] for fault in faults_of(text)] == [
        "problem.yml:3:11", "problem.yml:3:11", "problem.yml:8:1", "problem.yml:9:8",
    ]  # fmt: skip


def test_one_fault_does_not_bring_others_that_follow_from_it() -> None:
    """What cannot be judged while the circuit is broken is not judged."""
    text = changed(changed(FULL, "- C1: 15 uF", "- C1 15 uF"), "charge: C2", "charge: C4")
    told = faults_of(text, UNIT)
    assert told == [
        'problem.yml:10:7: found "C1 15 uF"; expected an element with its value, such as '
        "C1: 10 uF. Write a name, a colon, a space and the value."
    ]


def test_objectives_must_stand_in_the_unit() -> None:
    """An objective that the unit lacks is told with those that it has."""
    text = NEST + "objectives: [merge-paralel, power]\n"
    assert faults_of(text, UNIT) == [
        'problem.yml:8:14: found the objective "merge-paralel"; expected merge-parallel or '
        'walk-back. Did you mean "merge-parallel"?',
        'problem.yml:8:29: found the objective "power"; expected merge-parallel or walk-back. '
        "Add it to unit.yml, or choose another one.",
    ]
    assert faults_of(text) == []


@pytest.mark.parametrize(
    ("raw", "fault"),
    [
        (NEST.encode("utf-16"), "1:1: found a file in the encoding UTF-16; expected text in UTF-8. "
         "Save the file again as plain text with the encoding UTF-8."),
        ("title: Two lämps\n".encode("latin-1"), "1:13: found a byte that is no UTF-8 text; "
         "expected text in UTF-8. Save the file again as plain text with the encoding UTF-8."),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "1:1: found a byte that is no UTF-8 text; expected text in "
         "UTF-8. Save the file again as plain text with the encoding UTF-8."),
        (b"title: x\n" + b"#" * 10_000_000, "1:1: found a file of more than 256 KiB; expected at "
         "most 256 KiB. Check that it is the right file."),
    ],
    ids=["utf-16", "latin-1", "picture", "ten-megabytes"],
)  # fmt: skip
def test_files_that_are_no_text_are_refused(tmp_path: Path, raw: bytes, fault: str) -> None:
    """Other encodings, pictures and huge files are told as such."""
    file = tmp_path / "lamps.yml"
    file.write_bytes(raw)
    with pytest.raises(FaultyFile) as caught:
        read_problem(file, name="lamps.yml")
    assert str(caught.value) == f"lamps.yml:{fault}"


@pytest.mark.parametrize("read", [read_problem, read_unit])
def test_files_that_are_not_there_are_told(tmp_path: Path, read: Callable[[Path], object]) -> None:
    """A missing file is a fault of its own, not a crash."""
    file = tmp_path / "lamps.yml"
    with pytest.raises(FaultyFile) as caught:
        read(file)
    assert str(caught.value) == (
        f"{file}: found no file that can be read (no such file or directory); expected a "
        "YAML file. Check the name and the folder."
    )


@pytest.mark.parametrize("name", ["index.yml", "by-objective.yml", "two lamps.yml", 'a"b.yml'])
def test_file_names_must_do_as_addresses(tmp_path: Path, name: str) -> None:
    """A file whose name cannot name a page is told so."""
    file = tmp_path / name
    file.write_text(NEST, encoding="utf-8")
    with pytest.raises(FaultyFile) as caught:
        read_problem(file)
    (fault,) = caught.value.faults
    assert fault.found == f'the file name "{name}"'


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("symbols: ansi\n",
         ['1:1: found no "title"; expected a heading, such as title: Harbour Lights. '
          'Add a line with the key "title".',
          '1:10: found "ansi"; expected iec or ieee. Choose one of these.']),
        ("title: Lamps\nobjectives: [energy]\n",
         ["2:13: found a list with 1 item; expected ids of objectives, each with a sentence. "
          'Write each on a line of its own: "merge-series: Merge a chain into one".']),
        ("title: Lamps\nobjectives:\n  two words: Energy\n  power:\n",
         ['3:3: found "two words" for an objective; expected letters, digits and hyphens. '
          "Choose an id such as merge-parallel.",
          '4:3: found nothing after "power:"; expected what the objective says. Write it here, '
          "or delete the line."]),
        ("title: Lamps\ndigit: 3\n",
         ['2:1: found the key "digit"; expected title, digits, symbols, objectives, '
          'path or leave-out. '
          'Did you mean "digits"?']),
    ],
)  # fmt: skip
def test_mistakes_in_units_are_told(tmp_path: Path, text: str, faults: list[str]) -> None:
    """The description of a unit is checked as problems are."""
    file = tmp_path / "unit.yml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(FaultyFile) as caught:
        read_unit(file)
    assert [str(fault) for fault in caught.value.faults] == [f"{file}:{f}" for f in faults]


def nest_of(levels: int) -> str:
    """A problem with so many groups inside each other."""
    group = "[{C1: 1 uF}, {C2: 1 uF}]"
    for n in range(1, levels):
        group = f"[{{C{n + 2}: 1 uF}}, {{{'series' if n % 2 else 'parallel'}: {group}}}]"
    outer = "parallel" if levels % 2 else "series"
    return f"title: Nest\ncircuit: {{{outer}: {group}}}\nfind: equivalent\n"


def test_nests_may_be_twenty_levels_deep() -> None:
    """The twenty-first level is told, the twentieth is read."""
    assert faults_of(nest_of(20)) == []
    (fault,) = faults_of(nest_of(21))
    assert "found more than 20 groups inside each other; expected at most 20." in fault


def test_circuits_may_have_sixty_elements() -> None:
    """The first element beyond the limit is told, once."""
    items = "".join(f"    - R{n}: {n} ohm\n" for n in range(1, 65))
    text = f"title: Chain\ncircuit:\n  series:\n{items}find: equivalent\n"
    assert faults_of(text) == [
        "problem.yml:64:7: found more than 60 elements; expected at most 60. Make the circuit "
        "smaller."
    ]


BOMB = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{chr(98 + n)}: &{chr(98 + n)} [{', '.join([f'*{chr(97 + n)}'] * 9)}]\n" for n in range(9)
)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        (BOMB, 'found the alias "*a"'),
        ("a" * 10_000_000, "found a file of more than 256 KiB"),
        ("{a: " * 50_000, "found more than 50 levels inside each other"),
        ("- " * 100_000, "found more than 50 levels inside each other"),
        ("- a\n" * 60_000, "found more than 20000 keys and values"),
        ("title: " + "{" * 200_000, "found "),
        (NEST + "plan: " + "{C1" * 50_000 + "\n", "found "),
        (changed(NEST, "10 uF", "1" * 200_000 + " uF"), "found "),
        (changed(NEST, "10 uF", "1e999999999 uF"), "has an exponent beyond"),
    ],
    ids=["aliases", "size", "braces", "dashes", "nodes", "open", "text", "digits", "exponent"],
)
def test_malicious_files_are_refused_in_no_time(text: str, part: str) -> None:
    """Files that are built to exhaust a reader are refused within two seconds of computing."""
    start = time.process_time()
    told = faults_of(text)
    assert time.process_time() - start < 2
    assert any(part in fault for fault in told)


def test_nothing_is_constructed_from_tags(tmp_path: Path) -> None:
    """A tag that asks for a call is told, and the call is not made."""
    made = tmp_path / "made"
    text = changed(NEST, "12 V", f"!!python/object/apply:os.mkdir ['{made}']")
    assert any("the tag" in fault for fault in faults_of(text))
    assert not made.exists()


@pytest.mark.parametrize(
    "text",
    [
        "title:Two\nlevel: core\n", "title: A: B\n", "a:\n\t- b\n", 'title: "abc\n',
        "a: [1, 2\nb: c\n", "plan: {C1} x\n", "a:\n    b: 1\n  c: 2\n", "find: - a\n",
        "title: @x\n", "level: core\nlamps\nfind: a\n", 'title: "\\q"\n', "title: 'it's'\n",
        "a: |x\n  b\n", "%a\nb: c\n", "a: b\n...\nc: d\n", "a: !x!y z\n", "a: *\n",
    ],
)  # fmt: skip
def test_errors_are_translated_without_the_c_library_too(
    monkeypatch: pytest.MonkeyPatch, text: str
) -> None:
    """PyYAML in plain Python words its errors differently; what is told is the same."""
    expected = faults_of(text)
    monkeypatch.setattr(composing, "_LOADER", yaml.SafeLoader)
    assert faults_of(text) == expected
    assert faults_of(FULL) == []
