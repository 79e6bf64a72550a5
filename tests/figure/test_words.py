"""Circuits told in sentences."""

from __future__ import annotations

import pytest

from builder.circuit.tree import Leaf, Tree, leaves
from builder.figure import Label, ValueText, describe
from builder.figure.words import spoken
from builder.quantity.names import Symbol, element_index
from tests.figure.drawings import BATTERY, CHARGE, CURRENT, SOURCES, circuit

VALUES = {"C": ("10 µF", "22 µF", "8 µF", "4.7 µF"), "R": ("1 kΩ", "47 Ω", "82 Ω", "2.2 kΩ")}


def named(tree: Tree, with_values: bool) -> dict[str, Label]:
    """Labels of all elements, with values that repeat after four, or without."""
    found = {}
    for position, leaf in enumerate(leaves(tree)):
        value = ValueText(VALUES[leaf[0]][position % 4])
        symbol = Symbol(leaf[0], element_index(leaf, leaf[0]))
        found[leaf] = Label(symbol, (value,) if with_values else ())
    return found


WITH_VALUES = [
    ("C1", "voltage", "The capacitor C1, 10 µF, across a 12 V battery."),
    ("C1+C2", "voltage", "C1, 10 µF, in series with C2, 22 µF, across a 12 V battery."),
    ("R1|R2", "current", "R1, 1 kΩ, in parallel with R2, 47 Ω, fed by an 8 mA current source."),
    (
        "C1+C2+C3",
        "charge",
        "The capacitors C1, 10 µF, C2, 22 µF, and C3, 8 µF, in series between two terminals, "
        "where the total charge Q0 is 66.0 µC.",
    ),
    (
        "C1+(C2|C3)",
        "voltage",
        "C1, 10 µF, in series with the parallel pair C2, 22 µF, and C3, 8 µF, across a 12 V "
        "battery.",
    ),
    (
        "(R1+R2)|(R3+R4+R5)",
        None,
        "The series pair R1, 1 kΩ, and R2, 47 Ω, in parallel with the series chain R3, 82 Ω, "
        "R4, 2.2 kΩ, and R5, 1 kΩ, between two open terminals.",
    ),
    (
        "R1+(R2|R3|R4)+R5",
        "voltage",
        "R1, 1 kΩ, then the parallel group R2, 47 Ω, R3, 82 Ω, and R4, 2.2 kΩ, then R5, 1 kΩ, "
        "in series across a 12 V battery.",
    ),
    (
        "R1|(R2+(R3|R4))",
        "voltage",
        "R1, 1 kΩ, in parallel with group A, across a 12 V battery. Group A is R2, 47 Ω, in "
        "series with the parallel pair R3, 82 Ω, and R4, 2.2 kΩ.",
    ),
    (
        "C1+(C2|(C3+(C4|C5)))",
        "voltage",
        "C1, 10 µF, in series with group A, across a 12 V battery. Group A is C2, 22 µF, in "
        "parallel with group B. Group B is C3, 8 µF, in series with the parallel pair C4, "
        "4.7 µF, and C5, 10 µF.",
    ),
]
WITHOUT_VALUES = [
    ("C1+C2", "C1 in series with C2, across a 12 V battery."),
    ("C1|C2|C3|C4", "The capacitors C1, C2, C3 and C4 in parallel across a 12 V battery."),
    (
        "C1+(C2|C3)",
        "C1 in series with the parallel pair C2 and C3, across a 12 V battery.",
    ),
    (
        "(R1|R2)+(R3|R4)",
        "The parallel pair R1 and R2 in series with the parallel pair R3 and R4, across a 12 V "
        "battery.",
    ),
    (
        "R1|R2|(R3+R4)",
        "R1, R2 and group A in parallel across a 12 V battery. Group A is R3 in series with R4.",
    ),
    (
        "(R1+R2+R3+R4)|(R5+R6+R7)",
        "Group A in parallel with group B, across a 12 V battery. Group A is R1, R2, R3 and R4 "
        "in series. Group B is R5, R6 and R7 in series.",
    ),
    (
        "(C1+(C2|C3))|(C4+(C5|(C6+C7)))",
        "Group A in parallel with group B, across a 12 V battery. Group A is C1 in series with "
        "the parallel pair C2 and C3. Group B is C4 in series with group C. Group C is C5 in "
        "parallel with the series pair C6 and C7.",
    ),
]


@pytest.mark.parametrize(("text", "source", "sentence"), WITH_VALUES)
def test_with_values(text: str, source: str | None, sentence: str) -> None:
    """A circuit with values is told with each value behind its name."""
    tree = circuit(text)
    kind = "capacitor" if "C" in text else "resistor"
    assert describe(tree, kind, named(tree, True), SOURCES[source], source) == sentence


@pytest.mark.parametrize(("text", "sentence"), WITHOUT_VALUES)
def test_without_values(text: str, sentence: str) -> None:
    """A circuit without values is told by names alone."""
    tree = circuit(text)
    kind = "capacitor" if "C" in text else "resistor"
    assert describe(tree, kind, named(tree, False), BATTERY, "voltage") == sentence


@pytest.mark.parametrize(
    ("text", "article"),
    [("8 V", "an"), ("80 V", "an"), ("8.5 V", "an"), ("800 mV", "an"), ("11 V", "an"),
     ("18 kV", "an"), ("11.5 V", "an"), ("12 V", "a"), ("1.8 V", "a"), ("110 V", "a"),
     ("180 V", "a"), ("9 V", "a")],
)  # fmt: skip
def test_article_before_a_number(text: str, article: str) -> None:
    """The article before the battery's voltage is the one that is spoken."""
    source = Label(Symbol("V", "0"), (ValueText(text),))
    told = describe(Leaf("C1"), "capacitor", {}, source, "voltage")
    assert told == f"The capacitor C1 across {article} {text} battery."


@pytest.mark.parametrize(
    ("source", "quantity", "end"),
    [
        (Label(Symbol("V", "0"), (ValueText("V"),)), "voltage", "across a battery of V."),
        (Label(Symbol("V", "0"), (ValueText("9 V", None, "≈"),)), "voltage",
         "across a battery of about 9 V."),
        (Label(Symbol("V", "0")), "voltage", "across a battery of V0."),
        (None, "voltage", "across a battery."),
        (None, "current", "fed by a current source."),
        (CURRENT, "current", "fed by an 8 mA current source."),
        (None, "charge", "between two open terminals."),
        (CHARGE, "charge", "between two terminals, where the total charge Q0 is 66.0 µC."),
    ],
)  # fmt: skip
def test_sources(source: Label | None, quantity: str, end: str) -> None:
    """Every kind of source is told, with its value or without."""
    told = describe(Leaf("C1"), "capacitor", {}, source, quantity)
    assert told == f"The capacitor C1 {end}"


def test_values_found_so_far() -> None:
    """Values found are told after the circuit, rounded ones as such."""
    tree = circuit("C1+C2")
    charge = ValueText("66.0 µC", Symbol("Q", "1"))
    drop = ValueText("3.33 V", Symbol("V", "1"), "≈")
    label = Label(Symbol("C", "1"), (ValueText("6.67 µF", None, "≈"), charge, drop))
    assert describe(tree, "capacitor", {"C1": label}, BATTERY, "voltage") == (
        "C1, about 6.67 µF, in series with C2, across a 12 V battery. Found so far: Q1 is "
        "66.0 µC and V1 is about 3.33 V."
    )


@pytest.mark.parametrize(
    ("symbol", "name"),
    [
        (Symbol("C", "2"), "C2"),
        (Symbol("C", "23"), "C23"),
        (Symbol("C", "eq"), "C eq"),
        (Symbol("R", "warm_lamp"), "R warm lamp"),
        (Symbol("V"), "V"),
    ],
)
def test_spoken_names(symbol: Symbol, name: str) -> None:
    """A symbol is told in letters and digits that a voice can read."""
    assert spoken(symbol) == name
