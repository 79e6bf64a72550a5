"""Published examples and closed forms of plates with and without a filling."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.quantity.exact import near_fraction
from builder.quantity.units import read_unit
from builder.solution import solve
from tests.problem.relations.test_plates import plates_problem

UP2 = "University Physics Volume 2 (OpenStax)"
EPS0 = Fraction(88541878188, 10**22)  # CODATA 2022, F/m


def values_of(plates: str) -> dict[str, Fraction]:
    """Every value of a problem of plates, by name."""
    solution = solve(plates_problem(plates))
    assert solution.agree
    return {name.of: near_fraction(value) for name, value in solution.values.items()}


PRINTED = [
    ("C25", f"{UP2}, section 8.4, example fs-id1167134456373",
     "{capacitance: 20.0 pF, voltage: 40.0 V, battery: removed, filling: {kappa: 2.1}}",
     {"C": "42.0 pF", "Q": "0.8 nC", "V": "19.0 V", "U0": "16.0 nJ", "U": "7.6 nJ"}),
    ("C26", f"{UP2}, section 8.5, check your understanding fs-id1167134760768",
     "{capacitance: 20.0 pF, voltage: 40.0 V, battery: connected, filling: {kappa: 2.1}}",
     {"Q": "1.7 nC", "V": "40 V", "U": "34 nJ"}),
    ("C29 air", f"{UP2}, section 8.4, problem fs-id1167131151945", "{area: 8.0 cm^2, gap: 1.0 mm}",
     {"C": "7.1 pF"}),
    # The book prints 42 pF, cut off; the exact value is 42.500 pF.
    ("C29 filled", f"{UP2}, section 8.4, problem fs-id1167131151945",
     "{area: 8.0 cm^2, gap: 1.0 mm, filling: {kappa: 6.0}}", {"C": "42.5 pF"}),
]  # fmt: skip


@pytest.mark.parametrize(("row", "source", "plates", "printed"), PRINTED,
                         ids=[row[0] for row in PRINTED])  # fmt: skip
def test_published_plates_are_reproduced_to_their_printed_digits(
    row: str, source: str, plates: str, printed: dict[str, str]
) -> None:
    """Each answer, rounded half up to the digits of the book, is the printed one."""
    values = values_of(plates)
    for name, text in printed.items():
        number, unit = text.split(" ")
        size = read_unit(unit)
        assert size is not None
        step = Fraction(10) ** -len(number.partition(".")[2])
        rounded = ((values[name] / size[1] / step + Fraction(1, 2)) // 1) * step
        assert rounded == Fraction(number), (row, source, name)


def test_half_filled_plates_follow_the_closed_forms() -> None:
    """ε0·A·(κ1 + κ2)/(2d) side by side, 2·ε0·A·κ1·κ2/(d·(κ1 + κ2)) in layers.

    Source: University Physics Volume 2, chapter 8, challenge problems fs-id1167131271429 and
    fs-id1167131215902.
    """
    area, gap, one, other = Fraction(8, 1000), Fraction(2, 1000), 3, 5
    slabs = values_of("{area: 80 cm^2, gap: 2 mm, filling: {slabs: [{area: 40 cm^2, kappa: 3}, "
                      "{area: 40 cm^2, kappa: 5}]}}")  # fmt: skip
    assert slabs["C"] == EPS0 * area * (one + other) / (2 * gap)
    layers = values_of("{area: 80 cm^2, gap: 2 mm, filling: {layers: [{thickness: 1 mm, kappa: 3}, "
                       "{thickness: 1 mm, kappa: 5}]}}")  # fmt: skip
    assert layers["C"] == 2 * EPS0 * area * one * other / (gap * (one + other))


def test_a_metal_slab_leaves_the_rest_of_the_gap() -> None:
    """ε0·A/(d1 + d2) with the two gaps that are left.

    Source: University Physics Volume 2, chapter 8, challenge problem fs-id1167131522086.
    """
    metal = values_of("{area: 80 cm^2, gap: 2 mm, filling: {metal: 0.5 mm}}")
    assert metal["C"] == EPS0 * Fraction(8, 1000) / Fraction(15, 10000)


@pytest.mark.parametrize(("kappa", "size"), [("2.5", Fraction(5, 2)), ("4", Fraction(4))])
def test_energy_goes_where_the_closed_forms_say(kappa: str, size: Fraction) -> None:
    """Cut off, U0(1 − 1/κ) is lost to the pull; connected, half of what the battery gives is.

    Source: Q²/(2C) and CV²/2 with C = κ·C0, worked by hand.
    """
    text = "{capacitance: 20 pF, voltage: 40 V, battery: %s, filling: {kappa: %s}}"
    removed = values_of(text % ("removed", kappa))
    assert removed["W_in"] == removed["U0"] * (1 - 1 / size)
    connected = values_of(text % ("connected", kappa))
    assert connected["W"] == 2 * connected["DeltaU"] == 2 * connected["W_in"]
    assert connected["DeltaQ"] == connected["Q0"] * (size - 1)
