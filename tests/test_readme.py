"""What the README shows is what Stepwell does."""

from __future__ import annotations

import json
import re
import textwrap
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli import main
from builder.errors import FaultyFile
from builder.lesson import write_lesson
from builder.problem import read_problem_text, shape
from builder.problem.model import METHODS, Unit
from builder.problem.relations.quantities import KIND_WORDS
from builder.site.page import PARTS, ProblemPage
from builder.solution import solve
from builder.solution.fresh import fresh_solutions
from builder.solution.solve import SOLVERS
from tests.conftest import ROOT
from tests.site.pages import Markup

README = (ROOT / "README.md").read_text(encoding="utf-8")
FLASHER = ROOT / "content" / "problems" / "flasher-reservoir.yml"
YAML = [
    textwrap.dedent(block)
    for block in re.findall(r"^ *```yaml\n(.*?)^ *```$", README, re.DOTALL | re.MULTILINE)
]
FILES = {
    text.splitlines()[0].removeprefix("title: "): text for text in YAML if text.startswith("title:")
}
ADDITIONS = [text for text in YAML if not text.startswith("title:")]
REFERENCE = README.split("\n## Kinds of problem\n")[1].split("\n## ")[0]


def test_the_shown_problem_is_the_one_that_is_shipped() -> None:
    """The README's problem file is the unit's own, to the letter."""
    assert YAML[0] == FLASHER.read_text(encoding="utf-8")


def test_the_shown_output_is_what_the_command_prints() -> None:
    """The README's terminal output is how the command's output begins."""
    shown = README.split("flasher-reservoir.yml\n", 1)[1].split("…")[0]
    printed = CliRunner().invoke(main, ["solve", str(FLASHER)]).output
    assert len(shown) > 300
    assert printed.startswith(shown)


def test_the_shown_additions_can_be_written() -> None:
    """Own words, own questions and fresh numbers, as shown, are read and reach the lesson."""
    assert len(ADDITIONS) == 4
    problem = read_problem_text("\n".join([YAML[0], *ADDITIONS]), "flasher-reservoir.yml")
    lesson = write_lesson(solve(problem))
    goals = [str(taught.words.goal) for taught in lesson.steps]
    assert any("Spot the pair" in goal for goal in goals)
    asked = [str(question.ask) for question in lesson.questions]
    assert any("How much charge reaches the pair?" in ask for ask in asked)
    assert any("if C₂ is taken out?" in ask for ask in asked)
    assert not any(question.form == "order" for question in lesson.questions)
    assert [question.form for question in lesson.before].count("pick") == 0
    sets = list(fresh_solutions(lesson.solution, most=6))
    assert len(sets) == 6
    assert all(problem.keep.digits == 3 for problem in (problem, *(s.problem for s in sets)))


def test_the_shown_fault_is_what_a_missing_unit_gives() -> None:
    """The README's fault is the one that its mistake leads to."""
    shown = re.search(r"^```\n(content/problems/.*?)^```$", README, re.DOTALL | re.MULTILINE)
    assert shown is not None
    line, column = map(int, shown.group(1).split(":")[1:3])
    source = FLASHER.read_text(encoding="utf-8").splitlines()
    assert source[line - 1][column - 1 :] == "22 uF"
    broken = FLASHER.read_text(encoding="utf-8").replace("22 uF", "22")
    with pytest.raises(FaultyFile) as caught:
        read_problem_text(broken, "content/problems/flasher-reservoir.yml")
    assert " ".join(shown.group(1).split()) == str(caught.value)


@pytest.mark.parametrize("title", FILES)
def test_every_shown_problem_is_solved_and_taught(title: str, tmp_path: Path) -> None:
    """Each whole file in the README gives what it asks for, twice, and every part of a page."""
    solution = solve(read_problem_text(FILES[title], "shown.yml"))
    (tmp_path / "shown.yml").write_text(FILES[title], encoding="utf-8")
    told = CliRunner().invoke(main, ["solve", "--json", str(tmp_path / "shown.yml")])
    printed = json.loads(told.output)
    assert printed["agree"] is True
    assert len(printed["answers"]) == len(solution.problem.find)
    lesson = write_lesson(solution)
    assert lesson.steps
    assert lesson.questions
    page = ProblemPage(lesson, Unit("Harbour Lights"), "shown")
    parts = {part.id: str(page.part(part)) for part in PARTS if part.applies(lesson)}
    assert "<svg" in parts["opening"] or "relations:" in FILES[title]
    assert Markup("\n".join(parts.values())).faults == []
    for name in ("opening", "solution", "results", "self-check"):
        assert len(parts[name]) > 200, name


def test_every_kind_of_problem_is_shown() -> None:
    """The README holds at least one whole file of each kind that can be solved."""
    shown = {type(read_problem_text(text, "shown.yml")) for text in FILES.values()}
    assert shown == set(SOLVERS)


def test_the_reference_is_found_from_its_table() -> None:
    """The table of kinds leads to every section of the reference, and each says what is refused."""
    sections = re.findall(r"^### (.*)$", REFERENCE, re.MULTILINE)
    assert len(sections) > 7
    linked = re.findall(r"\[([^]]*)\]\(#([^)]*)\)", REFERENCE.split("\n### ")[0])
    assert [anchor for _, anchor in linked] == [s.lower().replace(" ", "-") for s in sections]
    assert [text for text, _ in linked] == [s[0].lower() + s[1:] for s in sections]
    assert REFERENCE.count("\n- **Refused.** ") == len(sections)
    assert REFERENCE.count("\n- **Find.** ") == len(sections)


SHAPES = (
    shape.ProblemShape, shape.CircuitShape, shape.BranchShape, shape.ElementShape,
    shape.ItemShape, shape.StageShape, shape.ChangeShape, shape.QuantityShape,
    shape.RelationShape, shape.PlatesShape, shape.FillingShape, shape.PartShape,
    shape.QuestionShape, shape.ChoiceShape, shape.StepWordsShape, shape.KeepShape,
)  # fmt: skip


def test_no_key_is_missing() -> None:
    """Every key that a problem's file may have stands in the README."""
    keys = {key for one in SHAPES for key in shape.keys_of(one)}
    assert len(keys) > 40
    assert {key for key in keys if not re.search(rf"\b{re.escape(key)}: ?", README)} == set()


def test_no_method_and_no_kind_of_quantity_is_missing() -> None:
    """The README names every method, and every kind that an unknown of equations may have."""
    words = {*METHODS, *KIND_WORDS}
    assert {word for word in words if f"`{word}`" not in REFERENCE} == set()


DIMMER, LABEL = "A dimmer of any size", "The chart lamp's lost label"
SHARED, CLAMPS = "The charger and the battery share a lamp", "What the two clamps offer"
RESERVE, FADING = "The reserve joins in", "The lamp's memory fades"
FOGHORN, SHEET = "The current of the foghorn", "A sheet slides in"
FIRST = "Two reservoirs behind one lamp"
REFUSED = [
    (FIRST, "C3: 8 uF", "C3: 8 ohm", "among capacitors"),
    (FIRST, "        - C3: 8 uF\n", "", "only one element in parallel"),
    (FIRST, "- energy: total", "- voltage: total", "gives already"),
    (DIMMER, "R1: R\n", "R1: R - r\n", "which may be zero or less"),
    (DIMMER, "R1: R\n", "R1: R^2\n", "which is no resistance"),
    (LABEL, "- R1: 2 ohm", "- R1: unknown", "2 unknown elements for 1 measured fact"),
    (LABEL, "R1: 2 A}", "R1: 2 A, R2: 3 A}", "where the other facts lead to 2.00 A"),
    (LABEL, "current: {R1: 2 A}", "power: {R2: 16 W}", "two possible values"),
    (LABEL, "current: {R1: 2 A}", "equivalent: 1 ohm", "R2 = −1.00 Ω"),
    (SHARED, "    R1:", "    E3: {emf: 3 V, between: [ground, right]}\n    E4: {emf: 3 V, between: "
     "[right, ground]}\n    R1:", "Two points have one voltage only"),
    (SHARED, "    R1:", "    E3: {emf: 3 V, between: [left, left]}\n    R1:", "left"),
    (SHARED, "[lamp, right]", "[lamp, nowhere]", "where nothing but R2 ends"),
    (SHARED, "    R1:", "    R4: {resistance: 1 ohm, between: [x, y]}\n    R5: {resistance: 1 ohm, "
     "between: [x, y]}\n    R1:", "which nothing joins to the rest"),
    (SHARED, "method: junctions", "method: balance", "in a circuit of several sources"),
    (CLAMPS, "load: R3", "load: R3\n  across: [clamp, minus]", "load beside across"),
    (CLAMPS, "open-voltage", "equivalent", "of an equivalent source"),
    (RESERVE, "{open: S1, close: S2}", "{close: S1}", "which is closed already"),
    (RESERVE, "    S2:", "    S3: {switch: closed, between: [top, minus]}\n    S2:",
     "a wire straight across the battery"),
    (RESERVE, "    S2:", "    V1: {emf: 9 V, between: [top, minus]}\n    S2:", "voltages differ"),
    (RESERVE, "    S2:", "    R1: {resistance: 1 ohm, between: [top, minus]}\n    S2:",
     "A resistor only slows the charge down"),
    (FADING, "{C1: 4 V}", "{C1: 9 V}", "which it never reaches"),
    (FADING, "    V0:", "    V1: {emf: 3 V, between: [top, minus]}\n    V0:", "any resistance"),
    (FADING, "    C1:", "    C2: {capacitance: 1 uF, between: [feed, minus]}\n    R3: {resistance: "
     "1 ohm, between: [feed, minus]}\n    C1:", "which do not merge into one"),
    (FOGHORN, "R = V / I", "R = V * I", "which is a power (W)"),
    (FOGHORN, "  - R = V / I\n", "", "which no relation holds"),
    (FOGHORN, "- R = V / I", "- R = V / I\n  - V = 2*R*I", "whose left side comes to"),
    (FOGHORN, "relations:", "  d: length\n  a: 1 m\nrelations:\n  - d = a - 2*a", "above zero"),
    (FOGHORN, "relations:", "  x: number\nrelations:\n  - x^2 + 2 = 3*x",
     "expected one that is meant. Write x: {kind: number, choose: larger}"),
    (SHEET, "{kappa: 2.5, called: the plastic sheet}", "{layers: [{thickness: 3 mm, kappa: 4}]}",
     "3 mm in the gap of 2 mm"),
    (SHEET, "voltage: 12 V", "voltage: 12 V\n  charge: 1 nC", "a charge beside a voltage"),
]  # fmt: skip


@pytest.mark.parametrize(("title", "shown", "instead", "told"), REFUSED)
def test_what_is_said_to_be_refused_is_refused(
    title: str, shown: str, instead: str, told: str
) -> None:
    """Each of the README's refusals, made in its own example, is told in these words."""
    assert FILES[title].count(shown) == 1
    with pytest.raises(FaultyFile) as caught:
        solve(read_problem_text(FILES[title].replace(shown, instead), "shown.yml"))
    assert told in str(caught.value)
