"""What a network's page holds besides its steps: symbols, tables, checks, cautions, listings."""

from __future__ import annotations

import pytest

from builder.lesson.kinds import about, topic, uses
from builder.lesson.network.write import NetworkLesson
from builder.problem import read_problem_text
from builder.quantity.names import Name
from tests.lesson.network.networks import (
    BATTERIES,
    BRIDGE,
    CHARGES,
    LESSONS,
    PANEL,
    display_of,
    lesson_of,
    lesson_of_text,
    problem_text,
)
from tests.lesson.telling import name_of, plain

INNER = """\
title: A battery with internal resistance
circuit:
  branches:
    E1: {emf: 12 V, inner: 1 ohm, between: [a, d]}
    J1: {current: 2 A, between: [b, d]}
    R1: {resistance: 3 ohm, between: [a, b]}
    R2: {resistance: 6 ohm, between: [b, d]}
find: current
"""

SYMBOLS = [
    ("batteries", "voltage:E1", "E₁"),
    ("batteries", "voltage:R1", "V₁"),
    ("batteries", "current:E1", "I_E1"),
    ("batteries", "current:A", "I_A"),
    ("batteries", "potential:b", "φ_b"),
    ("bridge", "voltage:V0", "V₀"),
    ("bridge", "current:total", "I"),
    ("bridge", "resistance:total", "R_eq"),
    ("star", "resistance:R_a", "R_a"),
    ("charges", "charge:C5", "Q₅"),
    ("panel", "current:R1@E1", "I₁′"),
    ("panel", "current:R1@E2", "I₁″"),
    ("panel", "resistance:total@E2", "R_eq″"),
    ("panel", "resistance:R23@E1", "R₂₃"),
    ("sensor", "voltage:open", "V_open"),
    ("sensor", "resistance:inner", "R_inner"),
    ("sensor", "power:greatest", "P_max"),
    ("points", "voltage:b/c", "V_bc"),
]


@pytest.mark.parametrize(("called", "key", "written"), SYMBOLS)
def test_a_quantity_has_its_symbol(called: str, key: str, written: str) -> None:
    """No two quantities of a network look alike: V₁ of a resistor, E₁ of a battery."""
    assert display_of(*LESSONS[called]).symbol(name_of(key)).text == written


def test_no_two_symbols_of_a_solution_are_the_same() -> None:
    """Whatever is found and whatever is given, in each kind of lesson."""
    for called, written in LESSONS.items():
        display = display_of(*written)
        found = {name for step in display.solution.steps for name in step.found}
        names = {display.resolve(name) for name in (*found, *display.solution.givens)}
        symbols = [display.symbol(name).text for name in names]
        assert len(set(symbols)) == len(symbols), called


def test_internal_resistance_and_sources_of_current_have_letters_of_their_own() -> None:
    """r₁ belongs to E₁, and J₁ is no current of R₁."""
    display = lesson_of_text(INNER).display
    assert display.symbol(Name("voltage", "E1")).text == "E₁"
    assert display.symbol(Name("resistance", "r_E1")).text == "r₁"
    assert display.symbol(Name("current", "r_E1")).text == "I_r1"
    assert display.symbol(Name("current", "J1")).text == "J₁"
    assert plain(display.way("r_E1"), display) == "out of E₁"
    assert about(display.solution.problem) == "three resistors, two sources"


ASKED = [
    ("batteries", "current:R2", "the current through R₂ from c to b"),
    ("batteries", "power:E1", "the power that E₁ delivers"),
    ("batteries", "potential:b", "the potential of junction b"),
    ("bridge", "current:R2", "the current through R₂"),
    ("bridge", "resistance:total", "the equivalent resistance"),
    ("bridge", "power:total", "the total power"),
    ("charges", "charge:C1", "the charge on C₁"),
    ("points", "voltage:b/c", "the voltage of junction b against junction c"),
    ("sensor", "voltage:open", "the open voltage"),
    ("sensor", "resistance:inner", "the inner resistance"),
    ("two-points", "resistance:matched", "the resistance of the load that takes the most power"),
    ("sensor", "power:greatest", "the greatest power that a load can take"),
]


@pytest.mark.parametrize(("called", "key", "words"), ASKED)
def test_a_quantity_is_asked_for_in_words(called: str, key: str, words: str) -> None:
    """With its direction where one can be against it."""
    display = display_of(*LESSONS[called])
    assert plain(display.asks_for(name_of(key)), display) == words


def _tables(lesson: NetworkLesson) -> dict[str, list[list[str]]]:
    return {
        plain(table.title, lesson.display): [
            [plain(row.label, lesson.display),
             *(lesson.display.shown(name).text if name else "" for name in row.names)]
            for row in table.rows
        ]
        for table in lesson.tables
    }  # fmt: skip


def test_tables_tell_directions_and_who_is_charged() -> None:
    """Elements with their directions, sources with what they deliver, each with its sign."""
    assert _tables(lesson_of(*LESSONS["batteries"])) == {
        "Resistors; a minus means against the direction that is named": [
            ["R₁, from a to b", "1 Ω", "1.50 A", "1.50 V", "2.25 W"],
            ["R₂, from c to b", "0.5 Ω", "−1.00 A", "−500 mV", "500 mW"],
            ["R₃, from b to d", "25 Ω", "500 mA", "12.5 V", "6.25 W"],
        ],
        "Sources; a minus means that it takes in": [
            ["E₁", "14 V", "1.50 A", "21.0 W"],
            ["E₂", "12 V", "−1.00 A", "−12.0 W"],
        ],
    }


def test_potentials_have_a_table_where_the_solution_worked_with_them() -> None:
    """Against the junction that counts as zero, in the order of the network."""
    tables = _tables(lesson_of(*LESSONS["charges-by-junctions"]))
    assert tables["Junctions, against junction d"] == [
        ["Junction a", "12.0 V"], ["Junction b", "8.00 V"], ["Junction c", "6.00 V"],
    ]  # fmt: skip
    assert tables["Capacitors"][0] == ["C₁", "9 µF", "36.0 µC", "4.00 V", "72.0 µJ"]
    assert "Junctions" not in " ".join(_tables(lesson_of(*LESSONS["star"])))


def test_one_table_needs_no_title() -> None:
    """One source and no potentials: the elements and the whole."""
    assert _tables(lesson_of(*LESSONS["balanced"])) == {
        "": [
            ["R₁", "20 Ω", "200 mA", "4.00 V", "800 mW"],
            ["R₂", "10 Ω", "400 mA", "4.00 V", "1.60 W"],
            ["R₃", "40 Ω", "200 mA", "8.00 V", "1.60 W"],
            ["R₄", "20 Ω", "400 mA", "8.00 V", "3.20 W"],
            ["R₅", "50 Ω", "0 A", "0 V", "0 W"],
            ["Whole circuit", "20.0 Ω", "600 mA", "12 V", "7.20 W"],
        ]
    }


def test_checks_tell_junctions_loops_and_powers() -> None:
    """Each with both sides, and none twice."""
    lesson = lesson_of(*LESSONS["batteries"])
    told = [
        (plain(one.says, lesson.display), one.left_number.text, one.right_number.text)
        for one in lesson.checks
    ]
    assert told == [
        ("What flows into junction b flows out of it:", "500 mA", "500 mA"),
        ("What flows into junction d flows out of it:", "500 mA", "500 mA"),
        ("Once round the loop through E₁, R₁ and R₃, the voltages add up to those of the "
         "sources:", "14.0 V", "14.0 V"),
        ("Once round the loop through R₂, E₂ and R₃, the voltages add up to those of the "
         "sources:", "−12.0 V", "−12.0 V"),
        ("The powers of all resistors make up what the sources deliver:", "9.00 W", "9.00 W"),
    ]  # fmt: skip
    assert lesson.checks_rest == ()


def test_checks_of_capacitors_speak_of_charges() -> None:
    """What meets at a junction, and loops without a source cancel."""
    lesson = lesson_of(*LESSONS["charges"])
    told = [plain(one.says, lesson.display) for one in lesson.checks]
    assert "Where C₁, C₃ and C₅ meet at junction b, the charges on both sides match:" in told
    assert any(one.endswith("the voltages cancel:") for one in told)
    assert "The energies of all capacitors make up the energy of the whole:" in told
    assert plain(lesson.checks_rest, lesson.display) == "One more like these holds as well."


CAUTIONS = [
    ({"V0": "24 V a d", **BRIDGE}, "current", None),
    ({"V0": "80 V a d", **BRIDGE}, "current", "80 V is more than can be touched safely."),
    ({"V0": "240 V a d", **BRIDGE}, "current",
     "At 240 V this circuit can drive a deadly current through a person."),
    (BATTERIES | {"E1": "240 V a d"}, "current",
     "At 240 V this circuit can drive a deadly current through a person."),
    ({"V0": "12 V a d", **CHARGES}, "charge", None),
    ({"V0": "400 V a d", **CHARGES, "C1": "900 uF a b", "C3": "900 uF b d"}, "charge",
     "Charged to 400 V, these capacitors hold"),
]  # fmt: skip


@pytest.mark.parametrize(("rows", "asked", "words"), CAUTIONS)
def test_danger_is_told(rows: dict[str, str], asked: str, words: str | None) -> None:
    """By the same thresholds as everywhere: 60 V, 100 V with 40 mA, 100 V with 10 J."""
    lesson = lesson_of(rows, asked)
    assert (lesson.caution is None) == (words is None)
    if lesson.caution is not None and words is not None:
        assert plain(lesson.caution.says, lesson.display).startswith(words)


USES = [
    (LESSONS["balanced"], {"bridge", "balanced-bridge", "resistor"}, {"exchange", "loops"}),
    (LESSONS["bridge"], {"bridge", "resistor-exchange"}, {"balanced-bridge", "junctions"}),
    (LESSONS["batteries"], {"loops", "equations", "several-sources"}, {"potential", "bridge"}),
    (LESSONS["batteries-by-junctions"], {"junctions", "potential"}, {"loops"}),
    ((PANEL, "current", ""), {"junctions", "several-sources"}, {"superposition"}),
    (LESSONS["panel"], {"superposition"}, {"junctions"}),
    (LESSONS["sensor"], {"equivalent-source", "resistor-equivalent-source"}, {"several-sources"}),
    (LESSONS["bare"], {"terminals"}, {"source", "voltage-source", "current"}),
]


@pytest.mark.parametrize(("lesson", "there", "missing"), USES)
def test_reference_pages_learn_what_a_network_uses(
    lesson: tuple[dict[str, str], str, str], there: set[str], missing: set[str]
) -> None:
    """The method is told by the file, or else by the shape of the network."""
    used = uses(read_problem_text(problem_text(*lesson), "a.yml"))
    assert there <= used
    assert used.isdisjoint(missing)


def test_lists_tell_a_network_in_a_few_words() -> None:
    """By its junctions, or by its sources where there are several."""
    bridge = read_problem_text(problem_text(*LESSONS["bridge"]), "a.yml")
    batteries = read_problem_text(problem_text(*LESSONS["batteries"]), "a.yml")
    assert about(bridge) == "five resistors between four junctions"
    assert about(batteries) == "three resistors, two sources"
    assert topic(bridge) == "resistors"
