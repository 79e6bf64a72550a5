"""Every example of the guide is read, solved, checked and validated."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner
from jsonschema import Draft202012Validator

from builder.cli import main
from builder.errors import FaultyFile
from builder.lesson import write_lesson
from builder.problem import problem_schema, read_problem_text, read_unit, unit_schema
from builder.problem.model import Unit
from builder.site.guide.examples import made_of
from builder.site.guide.fences import Block
from builder.site.guide.keys import PARTS as SHAPES
from builder.site.guide.pages import AUTHORS
from builder.site.page import PARTS, ProblemPage
from builder.solution import solve
from builder.solution.fresh import fresh_solutions
from builder.solution.solve import SOLVERS
from tests.conftest import ROOT
from tests.site.guide.texts import PAGES, PROBLEMS, all_examples, in_role, keys_in
from tests.site.pages import Markup

FRAGMENTS = in_role("part-of")


def underlined(text: str, schema: dict[str, object]) -> list[str]:
    """What an editor would underline."""
    found = Draft202012Validator(schema).iter_errors(yaml.safe_load(text))
    return [error.message for error in found]


@pytest.mark.parametrize("slug", PROBLEMS)
def test_every_problem_is_solved_and_taught(slug: str, tmp_path: Path) -> None:
    """A whole file gives what it asks for, twice, every part of a page, and no fault."""
    file = tmp_path / f"{slug}.yml"
    file.write_text(PROBLEMS[slug], encoding="utf-8")
    told = CliRunner().invoke(main, ["solve", "--json", str(file)])
    printed = json.loads(told.output)
    solution = solve(read_problem_text(PROBLEMS[slug], file.name))
    assert printed["agree"] is True
    assert len(printed["answers"]) == len(solution.problem.find) > 0
    assert underlined(PROBLEMS[slug], problem_schema()) == []
    lesson = write_lesson(solution)
    assert lesson.steps
    assert lesson.questions
    page = ProblemPage(lesson, Unit("Harbour Lights"), slug)
    parts = {part.id: str(page.part(part)) for part in PARTS if part.applies(lesson)}
    assert Markup("\n".join(parts.values())).faults == []
    for name in ("opening", "solution", "results", "self-check"):
        assert len(parts[name]) > 200, name


@pytest.mark.parametrize("slug", PROBLEMS)
def test_what_comes_of_a_problem_stands_below_it(slug: str) -> None:
    """Its circuit, every answer as the solution has it, and every step with its name."""
    lesson = write_lesson(solve(read_problem_text(PROBLEMS[slug], f"{slug}.yml")))
    html = str(made_of(PROBLEMS[slug], slug, "iec"))
    markup = Markup(html)
    assert markup.faults == []
    assert "<svg" in html
    assert html.count("sw-guide-asked") == len(lesson.asked) > 0
    marked = {attributes["data-q"] for _, attributes in markup.tags if "data-q" in attributes}
    shown = {name.key for name in lesson.asked if not lesson.display.names_itself(name)}
    assert shown <= marked
    assert all(f"<code>{taught.step.id}</code>" in html for taught in lesson.steps)
    ids = [attributes["id"] for _, attributes in markup.tags if attributes.get("id")]
    assert all(str(id).startswith(f"guide-{slug}") for id in ids)
    assert len(ids) == len(set(ids))


def test_no_problem_is_shown_twice() -> None:
    """Names and texts differ, and none is one of the unit's own problems."""
    own = [path.read_text(encoding="utf-8") for path in (ROOT / "content").rglob("*.yml")]
    assert len(PROBLEMS) == len(in_role("problem")) == len(set(PROBLEMS.values())) > 15
    assert set(PROBLEMS.values()).isdisjoint(own)


def test_every_kind_of_problem_is_shown() -> None:
    """The guide holds at least one whole file of each kind that can be solved."""
    shown = {type(read_problem_text(text, "shown.yml")) for text in PROBLEMS.values()}
    assert shown == set(SOLVERS)


@pytest.mark.parametrize("block", FRAGMENTS, ids=lambda block: block.text.split(":")[0])
def test_lines_to_be_added_can_be_added(block: Block) -> None:
    """A part of a file, put at the end of the problem that it goes with, is read and taught."""
    text = PROBLEMS[block.of] + block.text
    problem = read_problem_text(text, f"{block.of}.yml")
    bare = read_problem_text(PROBLEMS[block.of], f"{block.of}.yml")
    assert underlined(text, problem_schema()) == []
    assert problem != bare
    assert write_lesson(solve(problem)).steps


def test_own_words_and_questions_reach_the_lesson() -> None:
    """What an author writes in place of something generated is what the page says."""
    added = "".join(block.text for block in FRAGMENTS if block.of == "fog-signal"
                    and not block.text.startswith("vary"))  # fmt: skip
    problem = read_problem_text(PROBLEMS["fog-signal"] + added, "fog-signal.yml")
    lesson = write_lesson(solve(problem))
    assert any("First the chain" in str(piece) for piece in lesson.plan)
    assert any("Spot the chain" in str(taught.words.goal) for taught in lesson.steps)
    assert any("hang straight on" in str(taught.words.reason) for taught in lesson.steps)
    asked = [str(question.ask) for question in lesson.questions]
    assert any("How much charge leaves" in ask for ask in asked)
    assert any("is taken out?" in ask for ask in asked)
    assert not any(question.form == "order" for question in lesson.questions)
    assert not any(question.form == "pick" for question in lesson.before)
    assert lesson.display.digits == 4


@pytest.mark.parametrize(
    "block", [block for block in FRAGMENTS if block.text.startswith("vary")], ids=lambda b: b.of
)
def test_what_may_vary_gives_sets(block: Block) -> None:
    """Every example of `vary:` gives enough sets of other numbers."""
    problem = read_problem_text(PROBLEMS[block.of] + block.text, f"{block.of}.yml")
    assert len(list(fresh_solutions(solve(problem), most=6))) == 6


def test_the_unit_can_be_read(tmp_path: Path) -> None:
    """The shown unit.yml is one, and names problems and objectives of the guide."""
    (block,) = in_role("unit")
    assert underlined(block.text, unit_schema()) == []
    (tmp_path / "problems").mkdir()
    for slug, text in PROBLEMS.items():
        (tmp_path / "problems" / f"{slug}.yml").write_text(text, encoding="utf-8")
    (tmp_path / "two-in-one.md").write_text("# Two in one\n", encoding="utf-8")
    (tmp_path / "unit.yml").write_text(block.text, encoding="utf-8")
    unit = read_unit(tmp_path / "unit.yml", folder="problems")
    assert unit.path == ("two-in-one.md", "wheelhouse-lamps", "fog-signal")
    assert "merge-parallel" in unit.objectives


def test_every_key_is_shown_in_an_example() -> None:
    """Whatever key of whatever part of a file there is, some example of the guide uses it."""
    shown = set().union(*(keys_in(text, shape) for text, shape in all_examples()))
    there = {(shape, key) for shape, *_ in SHAPES for key in _keys_of(shape)}
    assert {f"{shape.__name__}.{key}" for shape, key in there - shown} == set()


def _keys_of(shape: type) -> tuple[str, ...]:
    fields = shape.model_fields.items()  # type: ignore[attr-defined]
    return tuple(field.alias or name for name, field in fields)


REFUSED = [
    ("fog-signal", "C2: 3 uF", "C2: 3 ohm", "among capacitors"),
    ("fog-signal", "        - C2: 3 uF\n", "", "only one element in series"),
    ("fog-signal", "- energy: total", "- voltage: total", "gives already"),
    ("fog-signal", "C2: 3 uF", "C2: 0 uF", "above zero"),
    ("cabin-dimmer", "R1: R\n", "R1: R - r\n", "which may be zero or less"),
    ("cabin-dimmer", "R1: R\n", "R1: R^2\n", "which is no resistance"),
    ("chart-lamp", "- R1: 2 ohm", "- R1: unknown", "2 unknown elements for 1 measured fact"),
    ("chart-lamp", "R1: 2 A}", "R1: 2 A, R2: 3 A}", "where the other facts lead to 2.00 A"),
    ("chart-lamp", "current: {R1: 2 A}", "power: {R2: 16 W}", "two possible values"),
    ("chart-lamp", "current: {R1: 2 A}", "equivalent: 1 ohm", "R2 = −1.00 Ω"),
    ("boat-charger", "    R1:", "    E3: {emf: 3 V, between: [ground, right]}\n"
     "    E4: {emf: 3 V, between: [right, ground]}\n    R1:", "Two points have one voltage only"),
    ("boat-charger", "    R1:", "    E3: {emf: 3 V, between: [left, left]}\n    R1:", "left"),
    ("boat-charger", "[lamp, right]", "[lamp, nowhere]", "where nothing but R2 ends"),
    ("boat-charger", "    R1:", "    R4: {resistance: 1 ohm, between: [x, y]}\n"
     "    R5: {resistance: 1 ohm, between: [x, y]}\n    R1:", "which nothing joins to the rest"),
    ("boat-charger", "method: junctions", "method: balance", "in a circuit of several sources"),
    ("bench-clamps", "load: R3", "load: R3\n  across: [clamp, minus]", "load beside across"),
    ("bench-clamps", "open-voltage", "equivalent", "of an equivalent source"),
    ("lantern-reserve", "{open: S1, close: S2}", "{close: S1}", "which is closed already"),
    ("lantern-reserve", "    S2:", "    S3: {switch: closed, between: [top, minus]}\n    S2:",
     "a wire straight across the battery"),
    ("lantern-reserve", "    S2:", "    V1: {emf: 9 V, between: [top, minus]}\n    S2:",
     "voltages differ"),
    ("lantern-reserve", "    S2:", "    R1: {resistance: 1 ohm, between: [top, minus]}\n    S2:",
     "A resistor only slows the charge down"),
    ("beacon-memory", "{C1: 4 V}", "{C1: 9 V}", "which it never reaches"),
    ("beacon-memory", "    V0:", "    V1: {emf: 3 V, between: [top, minus]}\n    V0:",
     "any resistance"),
    ("beacon-memory", "    C1:", "    C2: {capacitance: 1 uF, between: [feed, minus]}\n    R3: "
     "{resistance: 1 ohm, between: [feed, minus]}\n    C1:", "which do not merge into one"),
    ("foghorn-current", "R = V / I", "R = V * I", "which is a power (W)"),
    ("foghorn-current", "  - R = V / I\n", "", "which is in no relation"),
    ("foghorn-current", "- R = V / I", "- R = V / I\n  - V = 2*R*I", "whose left side comes to"),
    ("foghorn-current", "relations:", "  d: length\n  a: 1 m\nrelations:\n  - d = a - 2*a",
     "above zero"),
    ("radio-cable", ", choose: smaller", "", "expected one that is meant"),
    ("tank-gauge", "{kappa: 2.5, called: the plastic sheet, strength: 20 MV/m}",
     "{layers: [{thickness: 3 mm, kappa: 4}]}", "3 mm in the gap of 2 mm"),
    ("tank-gauge", "voltage: 12 V", "voltage: 12 V\n  charge: 1 nC", "a charge beside a voltage"),
    ("tuner-oil", "{kappa: 3, called: the oil}", "{metal: 1 mm}", "without area and gap"),
]  # fmt: skip


@pytest.mark.parametrize(("slug", "shown", "instead", "told"), REFUSED)
def test_what_is_said_to_be_refused_is_refused(
    slug: str, shown: str, instead: str, told: str
) -> None:
    """Each of the guide's refusals, made in its own example, is told in these words."""
    assert PROBLEMS[slug].count(shown) == 1
    with pytest.raises(FaultyFile) as caught:
        solve(read_problem_text(PROBLEMS[slug].replace(shown, instead), f"{slug}.yml"))
    assert told in str(caught.value)


def test_every_page_of_a_kind_tells_what_to_find_and_what_is_refused() -> None:
    """The pages for the kinds of problem are built alike."""
    kinds = AUTHORS[1:10]
    for path in kinds:
        for heading in ("Find", "Refused"):
            assert f"\n## {heading}\n" in PAGES[path], path
        assert f"]({path.removeprefix('authors/')})" in PAGES["authors/index.md"]
