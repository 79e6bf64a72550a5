"""Every form that a problem's file may have, and what it is read as."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from sympy import Rational

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.circuit.network import Source
from builder.circuit.tree import Group, Leaf, Tree
from builder.problem import read_problem, read_problem_text, read_unit
from builder.problem.limits import MOST_ELEMENTS
from builder.problem.model import Choice, NestProblem, OwnQuestion, StepWords, Unit
from builder.problem.nest_body import step_ids
from builder.quantity.exact import as_fraction
from builder.quantity.names import Name
from builder.solution.nest.stepwise import all_steps
from tests.problem.samples import BRANCHES, FULL, NEST, UNIT, changed


def read(text: str, unit: Unit | None = None) -> NestProblem:
    """The problem in a sound file."""
    problem = read_problem_text(text, "problem.yml", unit)
    assert isinstance(problem, NestProblem)
    return problem


def circuit(lines: str, find: str = "equivalent") -> NestProblem:
    """The problem of a circuit given in lines without indentation."""
    body = "".join(f"  {line}\n" for line in lines.splitlines())
    return read(f"title: Two lamps\ncircuit:\n{body}find: {find}\n")


def series(id: str, *parts: str | Tree) -> Group:
    """A series group of elements and groups."""
    return Group(id, "series", tuple(Leaf(p) if isinstance(p, str) else p for p in parts))


def parallel(id: str, *parts: str | Tree) -> Group:
    """A parallel group of elements and groups."""
    return Group(id, "parallel", tuple(Leaf(p) if isinstance(p, str) else p for p in parts))


def test_every_key_of_a_full_file_is_read() -> None:
    """A file that uses every key yields a problem that holds all of it."""
    problem = read(FULL, UNIT)
    assert (problem.slug, problem.path, problem.level) == ("problem", "problem.yml", "stretch")
    assert problem.title == "Two reservoirs behind one lamp"
    assert problem.objectives == ("merge-parallel", "walk-back")
    assert problem.scenario.endswith("$\\frac{1}{2}$; braces print as {{ }}.")
    assert problem.law is CAPACITORS
    assert problem.tree == series("total", "C1", parallel("C23", "C2", "C3"))
    assert [element.shown.text for element in problem.network.elements] == [
        "15 µF", "22 µF", "8 µF",
    ]  # fmt: skip
    assert [element.between for element in problem.network.elements] == [
        ("+", "a"), ("a", "−"), ("a", "−"),
    ]  # fmt: skip
    assert problem.find == (
        Name("capacitance", "total"), Name("charge", "C1"), Name("charge", "C2"),
        Name("charge", "C3"), Name("voltage", "C1"), Name("voltage", "C2"),
        Name("energy", "total"),
    )  # fmt: skip
    assert problem.digits == 4
    assert problem.plan == "Merge the pair behind {C1.name}, then walk back."
    assert problem.words == {
        "merge-C23": StepWords(reason="The two sit side by side."),
        "merge-total": StepWords("Merge the rest", "One chain is left."),
    }
    assert problem.questions == (
        OwnQuestion("What is the charge on {C2.name}?", Name("charge", "C2")),
        OwnQuestion("And of the whole?", Name("capacitance", "total")),
        OwnQuestion(
            "Which one stores more?",
            choices=(
                Choice("C2", right=True, reply="It is larger, at the same voltage."),
                Choice("C3", right=False),
                Choice("Neither", right=False),
            ),
        ),
    )


def test_what_is_left_out_has_defaults() -> None:
    """Without its optional keys a problem is a core one of three digits, or of the unit's."""
    problem = read(NEST)
    assert (problem.level, problem.objectives, problem.scenario) == ("core", (), "")
    assert (problem.plan, problem.words, problem.questions) == (None, {}, ())
    assert problem.digits == 3
    assert read(NEST, Unit("Harbour Lights", digits=5)).digits == 5
    assert read(changed(NEST, "find", "digits: 2\nfind"), Unit("U", digits=5)).digits == 2


@pytest.mark.parametrize(
    ("source", "elements", "name", "quantity", "value"),
    [
        ("12 V", "- C1: 1 F\n  - C2: 2 F", "V0", "voltage", Rational(12)),
        ("{Vs: 1.5 V}", "- R1: 1 ohm\n  - R2: 2 ohm", "Vs", "voltage", Rational(3, 2)),
        ("250 mA", "- R1: 1 ohm\n  - R2: 2 ohm", "I0", "current", Rational(1, 4)),
        ("{Iin: 2 A}", "- R1: 1 ohm\n  - R2: 2 ohm", "Iin", "current", Rational(2)),
        ("60 uC", "- C1: 1 F\n  - C2: 2 F", "Q0", "charge", Rational(60, 10**6)),
    ],
)
def test_a_source_is_what_its_unit_says(
    source: str, elements: str, name: str, quantity: str, value: Rational
) -> None:
    """Volts, amperes and coulombs make a source of voltage, current and charge."""
    found = circuit(f"source: {source}\nseries:\n  {elements}").network.source
    assert found is not None
    assert (found.name, found.quantity, found.value) == (name, quantity, value)
    assert found.between == ("+", "−")


def test_a_circuit_may_have_no_source() -> None:
    """Without a source the terminals are the ends of the nest."""
    network = circuit("series:\n  - C1: 1 F\n  - C2: 2 F").network
    assert network.source is None
    assert network.terminals == ("+", "−")


@pytest.mark.parametrize(
    ("lines", "tree"),
    [
        ("source: 1 V\nparallel: [{C1: 1 F}, {C2: 2 F}, {C3: 3 F}]",
         parallel("total", "C1", "C2", "C3")),
        ("source: 1 V\nseries: [{C1: 1 F}, {series: [{C2: 1 F}, {C3: 1 F}]}]",
         series("total", "C1", "C2", "C3")),
        ("source: 1 V\nseries:\n  - R1: 1 ohm\n  - parallel:\n      - R2: 2 ohm\n"
         "      - series:\n          - R3: 3 ohm\n          - R4: 4 ohm",
         series("total", "R1", parallel("R234", "R2", series("R34", "R3", "R4")))),
    ],
)  # fmt: skip
def test_nested_lists_become_a_tree(lines: str, tree: Tree) -> None:
    """Lists inside lists are groups inside groups; a list in one of its own kind is one group."""
    assert circuit(lines).tree == tree


@pytest.mark.parametrize("element", ["C1: 10 uF", "C1: {capacitance: 10 uF}"])
def test_a_single_element_needs_no_group(element: str) -> None:
    """One element beside the source, in short or long form, is a whole circuit."""
    problem = circuit(f"source: 12 V\n{element}", "charge")
    assert problem.tree == Leaf("C1")
    assert problem.find == (Name("charge", "C1"),)
    assert problem.network.element("C1").between == ("+", "−")


def test_branches_become_a_tree_and_keep_their_junctions() -> None:
    """A table of branches is oriented from + to −, whichever way round its ends were written."""
    problem = read(BRANCHES)
    assert problem.law is RESISTORS
    assert problem.tree == series("total", "R1", parallel("R23", "R2", "R3"))
    assert {e.name: e.between for e in problem.network.elements} == {
        "R1": ("top", "left"), "R2": ("left", "bottom"), "R3": ("left", "bottom"),
    }  # fmt: skip
    source = problem.network.source
    assert isinstance(source, Source)
    assert (source.name, source.value, source.between) == ("V0", 9, ("top", "bottom"))
    assert problem.network.terminals == ("top", "bottom")


def test_branches_are_oriented_from_a_source_written_the_other_way_round() -> None:
    """The first junction of the source is its + one, so turning it turns every element."""
    problem = read(changed(BRANCHES, "[top, bottom]", "[bottom, top]"))
    assert problem.tree == series("total", parallel("R23", "R2", "R3"), "R1")
    assert {e.name: e.between for e in problem.network.elements} == {
        "R1": ("left", "top"), "R2": ("bottom", "left"), "R3": ("bottom", "left"),
    }  # fmt: skip


@pytest.mark.parametrize("source", ["", "source: 2 A\n"])
def test_branches_may_name_their_terminals(source: str) -> None:
    """``across`` gives the terminals, for no source or for one that is written beside."""
    problem = circuit(
        f"{source}across: [a, c]\nbranches:\n"
        "  R1: {resistance: 1 ohm, between: [a, b]}\n"
        "  R2: {resistance: 2 ohm, between: [b, c]}"
    )
    assert problem.network.terminals == ("a", "c")
    assert (problem.network.source is None) == (source == "")
    assert problem.tree == series("total", "R1", "R2")


@pytest.mark.parametrize(
    ("find", "names"),
    [
        ("equivalent", [("capacitance", "total")]),
        ("capacitance", [("capacitance", "total")]),
        ("[capacitance: total]", [("capacitance", "total")]),
        ("charge", [("charge", "C1"), ("charge", "C2")]),
        ("[charge: all]", [("charge", "C1"), ("charge", "C2")]),
        ("[charge: total]", [("charge", "total")]),
        ("[voltage: C2]", [("voltage", "C2")]),
        ("'voltage: C2'", [("voltage", "C2")]),
        ("[energy: [C2, C1]]", [("energy", "C2"), ("energy", "C1")]),
        ("[energy: [C2, total]]", [("energy", "C2"), ("energy", "total")]),
        ("[charge: C2, charge: all]", [("charge", "C2"), ("charge", "C1")]),
        ("[equivalent, energy, equivalent]",
         [("capacitance", "total"), ("energy", "C1"), ("energy", "C2")]),
    ],
)  # fmt: skip
def test_find_asks_for_each_quantity_once(find: str, names: list[tuple[str, str]]) -> None:
    """What is asked keeps the author's order, and repeats are dropped."""
    problem = read(changed(NEST, "find: equivalent", f"find: {find}"))
    assert problem.find == tuple(Name(*name) for name in names)


def test_find_speaks_the_words_of_resistors() -> None:
    """A circuit of resistors has resistance, current, voltage and power."""
    problem = circuit("source: 1 V\nparallel: [{R1: 1 ohm}, {R2: 2 ohm}]",
                      "[resistance, current: R1, voltage: R2, power: total]")  # fmt: skip
    assert problem.find == (
        Name("resistance", "total"), Name("current", "R1"), Name("voltage", "R2"),
        Name("power", "total"),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("0.1 F", Fraction(1, 10)),
        ("4.7 uF", Fraction(47, 10**7)),
        ("0.1000000000000000055511151231257827 F",
         Fraction("0.1000000000000000055511151231257827")),
        ("1.5e-5 F", Fraction(15, 10**6)),
        ("22/7 F", Fraction(22, 7)),
        ("'10 µF'", Fraction(1, 10**5)),
    ],
)  # fmt: skip
def test_values_are_exact(typed: str, value: Fraction) -> None:
    """A typed number becomes just that number, with all of its digits."""
    problem = read(changed(NEST, "10 uF", typed))
    assert as_fraction(problem.network.element("C1").value) == value


def test_fractions_of_a_volt_stay_fractions() -> None:
    """A source of 1/3 V is a third of a volt."""
    source = read(changed(NEST, "12 V", "1/3 V")).network.source
    assert source is not None
    assert source.value == Rational(1, 3)


@pytest.mark.parametrize(
    "text",
    [
        "\ufeff" + NEST,
        NEST.replace("\n", "\r\n"),
        "---\n" + NEST + "...\n",
        "# a note\n\n" + NEST,
        NEST.replace("equivalent", '"equivalent"'),
    ],
)
def test_harmless_differences_between_editors_are_read(text: str) -> None:
    """Byte order marks, line ends, document marks, comments and quotes change nothing."""
    assert read(text) == read(NEST)


@pytest.mark.parametrize("sample", [NEST, BRANCHES, FULL])
def test_every_step_of_a_solution_can_have_own_words(sample: str) -> None:
    """The ids that ``words`` accepts are those that solutions use."""
    problem = read(sample)
    known = step_ids(problem.tree, problem.law)
    assert {step.id for step in all_steps(problem)} <= set(known)


def test_the_largest_circuit_that_is_allowed_is_read() -> None:
    """So many elements and no more; one more is a fault of ``test_whole_files``."""
    items = ", ".join(f"{{R{n}: {n} ohm}}" for n in range(1, MOST_ELEMENTS + 1))
    assert len(circuit(f"series: [{items}]").network.elements) == MOST_ELEMENTS


def test_files_are_read_from_disk(tmp_path: Path) -> None:
    """A problem takes its slug from the file, and faults may name it otherwise."""
    file = tmp_path / "two-lamps.yml"
    file.write_text(NEST, encoding="utf-8")
    problem = read_problem(file, name="problems/two-lamps.yml")
    assert (problem.slug, problem.path) == ("two-lamps", "problems/two-lamps.yml")
    assert read_problem(file).path == str(file)


def test_a_unit_is_read(tmp_path: Path) -> None:
    """The description of a unit keeps the order of its objectives."""
    file = tmp_path / "unit.yml"
    file.write_text(
        "title: Harbour\n  Lights\ndigits: 4\nsymbols: ieee\nobjectives:\n"
        "  walk-back: Walk back\n  energy: Find the energy\n",
        encoding="utf-8",
    )
    unit = read_unit(file)
    assert (unit.title, unit.digits, unit.symbols) == ("Harbour Lights", 4, "ieee")
    assert list(unit.objectives.items()) == [
        ("walk-back", "Walk back"), ("energy", "Find the energy"),
    ]  # fmt: skip


def test_a_unit_needs_a_title_only(tmp_path: Path) -> None:
    """What a unit does not say has defaults."""
    file = tmp_path / "unit.yml"
    file.write_text("title: Harbour Lights\n", encoding="utf-8")
    assert read_unit(file) == Unit("Harbour Lights", 3, "iec", {})
