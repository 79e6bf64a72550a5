"""Cautions, on both sides of every published line.

Sources of the lines (values as printed there):

- Electrical Safety Manual of Lawrence Berkeley National Laboratory (DOE classification),
  table 2.2.13: capacitors from 100 V and 10 J, direct current from 100 V and 40 mA.
- The same, table 2.3.5: capacitors under 100 V and over 100 J.
- IEC TS 60479 as listed at emf-portal.org: 60 V direct current for children.
- University Physics Volume 2 (OpenStax): 400 J at 10.0 kV (8.00 µF), 405 J at 9.00 kV
  (10.0 µF). College Physics 2e (OpenStax), 19.7: 9.60 kJ at 12.0 V.
"""

from __future__ import annotations

import pytest

from builder.circuit.tree import Tree
from builder.lesson.nest.caution import caution
from builder.lesson.nest.display import NestDisplay
from builder.solution.nest.solve import solve_nest
from tests.lesson.telling import asking, lesson_of, parallel, plain, series

SHOCK, THERMAL, CURRENT, TOUCH = "shock", "thermal", "current", "touch"
SOURCES = {
    SHOCK: "Electrical Safety Manual of Lawrence Berkeley National Laboratory (DOE "
    "classification), table 2.2.13: from 100 V and 10 J a shock hazard",
    THERMAL: "Electrical Safety Manual of Lawrence Berkeley National Laboratory (DOE "
    "classification), table 2.3.5: under 100 V and over 100 J a thermal hazard",
    CURRENT: "Electrical Safety Manual of Lawrence Berkeley National Laboratory (DOE "
    "classification), table 2.2.13: direct current from 100 V and 40 mA",
    TOUCH: "IEC TS 60479, as listed at emf-portal.org: 60 V direct current for children, 120 V "
    "for healthy adults",
}

# Energies: ½ · C · V².
LINES = [
    # ½ · 2 mF · (100 V)² = 10 J, both on the line.
    ("C1", "2 mF", "100 V", SHOCK),
    # ½ · 1.9 mF · (100 V)² = 9.5 J.
    ("C1", "1.9 mF", "100 V", TOUCH),
    # ½ · 2.1 mF · (99 V)² = 10.3 J, but under 100 V.
    ("C1", "2.1 mF", "99 V", TOUCH),
    # ½ · 2 F · (10 V)² = 100 J: not over the line.
    ("C1", "2 F", "10 V", None),
    ("C1", "2.01 F", "10 V", THERMAL),
    # ½ · 20 mF · (100 V)² = 100 J at 100 V: a shock before anything else.
    ("C1", "20 mF", "100 V", SHOCK),
    # ½ · 30 mF · (99 V)² = 147 J, and more than 60 V as well.
    ("C1", "30 mF", "99 V", THERMAL),
    ("C1", "1 uF", "60 V", TOUCH),
    ("C1", "1 uF", "59.9 V", None),
    # 2 C on 20 mF: 100 V, 100 J; 6 µC on 1 µF: 6 V.
    ("C1", "20 mF", "2 C", SHOCK),
    ("C1", "1 uF", "6 uC", None),
    # 100 V on 2.5 kΩ: 40 mA, both on the line.
    ("R1", "2.5 kohm", "100 V", CURRENT),
    ("R1", "2.51 kohm", "100 V", TOUCH),
    # 99.9 V on 100 Ω: 999 mA, but under 100 V.
    ("R1", "100 ohm", "99.9 V", TOUCH),
    ("R1", "100 ohm", "60 V", TOUCH),
    ("R1", "100 ohm", "59.9 V", None),
    # 40 mA through 2.5 kΩ: 100 V; 39 mA through 2.6 kΩ: 101.4 V.
    ("R1", "2.5 kohm", "40 mA", CURRENT),
    ("R1", "2.6 kohm", "39 mA", TOUCH),
    ("R1", "1 ohm", "10 A", None),
    # Published: 400 J at 10.0 kV, 405 J at 9.00 kV, 9.60 kJ at 12.0 V.
    ("C1", "8.00 uF", "10.0 kV", SHOCK),
    ("C1", "10.0 uF", "9.00 kV", SHOCK),
    ("C1", "400/3 F", "12.0 V", THERMAL),
    # A flasher board of a buoy: ½ · 30 µF · (12 V)² = 2 mJ.
    ("C1", "30 uF", "12 V", None),
]


@pytest.mark.parametrize(("element", "value", "source", "kind"), LINES)
def test_a_caution_begins_at_its_line(
    element: str, value: str, source: str, kind: str | None
) -> None:
    """On the line or past it there is the caution of that line, before it there is not."""
    found = caution(NestDisplay(solve_nest(asking(element, source, values={element: value}))))
    assert (found.source if found else None) == (SOURCES[kind] if kind else None)


def test_without_a_source_there_is_no_danger() -> None:
    """An equivalent alone stores nothing."""
    typed = {"C1": "20 mF", "C2": "20 mF"}
    problem = asking(parallel("C1", "C2"), None, values=typed)
    assert caution(NestDisplay(solve_nest(problem))) is None


def test_the_whole_circuit_counts() -> None:
    """Two capacitors of 1 mF on 100 V hold 5 J each, and 10 J together."""
    typed = {"C1": "1 mF", "C2": "1 mF"}
    found = caution(NestDisplay(solve_nest(asking(parallel("C1", "C2"), "100 V", values=typed))))
    assert found is not None
    assert found.source == SOURCES[SHOCK]


DISCHARGE = (
    "A capacitor stays charged after the source is gone: discharge it through a resistor made for "
    "that, and measure before touching."
)
DEFER = (
    "Work on such a circuit only under local rules and together with someone licensed or trained "
    "for it."
)
SAID: list[tuple[Tree | str, dict[str, str], str, str]] = [
    ("C1", {"C1": "8.00 uF"}, "10.0 kV",
     f"Charged to 10.0 kV, this capacitor holds 400 J. That can kill. {DISCHARGE} {DEFER}"),
    (series("C1", "C2"), {"C1": "16 uF", "C2": "16 uF"}, "10 kV",
     f"Charged to 10 kV, these capacitors hold 400 J. That can kill. {DISCHARGE} {DEFER}"),
    ("C1", {"C1": "400/3 F"}, "12.0 V",
     "Charged to 12.0 V, this capacitor holds 9.60 kJ. A short circuit can then burn skin and "
     f"throw molten metal. {DISCHARGE} {DEFER}"),
    (parallel("C1", "C2"), {"C1": "1 uF", "C2": "1 uF"}, "72 V",
     f"72 V is more than can be touched safely. {DISCHARGE} {DEFER}"),
    ("R1", {"R1": "1 kohm"}, "240 V",
     "At 240 V this circuit can drive a deadly current through a person. Switch it off, lock it "
     f"off and measure before touching. {DEFER}"),
    ("R1", {"R1": "1 kohm"}, "72 V",
     "72.0 V is more than can be touched safely. Switch it off before touching. " + DEFER),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "typed", "source", "said"), SAID)
def test_a_caution_says_what_is_dangerous_and_what_to_do(
    tree: Tree | str, typed: dict[str, str], source: str, said: str
) -> None:
    """With the numbers of the circuit, and deferring to local rules and trained people."""
    lesson = lesson_of(asking(tree, source, values=typed))
    assert lesson.caution is not None
    assert plain(lesson.caution.says, lesson.display) == said
