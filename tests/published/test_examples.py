"""Every series-parallel example of the named books, from YAML text to its printed digits."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.errors import FaultyFile
from tests.published.capacitors import CAPACITORS
from tests.published.resistors import RESISTORS
from tests.published.row import SIZES, Printed, Row, rounded_as, solved, value_of

ROWS = (*CAPACITORS, *RESISTORS)


@pytest.mark.parametrize("row", ROWS, ids=[row.id for row in ROWS])
def test_a_published_example_is_reproduced_to_its_printed_digits(row: Row) -> None:
    """Each answer, rounded to the digits of the book, is the printed one.

    Where the book carries rounded values from step to step and prints another last digit, the
    exact value stands in the table and is tested instead; the printed one is shown to differ.
    """
    solution = solved(row.circuit, tuple((p.quantity, p.of) for p in row.printed))
    assert solution.agree
    for printed in row.printed:
        value = value_of(solution, printed.quantity, printed.of)
        rounded, as_printed = rounded_as(printed, value)
        if printed.exact is None:
            assert rounded == as_printed, (row.source, printed)
        else:
            size = SIZES[printed.text.split(" ")[1][:-1]]
            assert value / size == Fraction(printed.exact), (row.source, printed)
            assert rounded != as_printed


def test_rows_that_books_round_between_steps_are_few_and_explained() -> None:
    """Only four printed answers differ from exact ones, and each of those rows says why."""
    differing = [(row, p) for row in ROWS for p in row.printed if p.exact is not None]
    assert [(row.id, p.text) for row, p in differing] == [
        ("R04", "5.10 Ω"),
        ("R15", "4.04 W"),
        ("R15", "1.96 W"),
        ("R17 with 10.00 Ω", "11.90 V"),
    ]
    assert all(row.note for row, _ in differing)


@pytest.mark.parametrize(
    ("text", "digits", "value", "rounded"),
    [
        ("0.755 µF", None, Fraction(4, 5300000), Fraction(755, 1000)),
        ("130 µJ", 2, Fraction(128, 10**6), Fraction(130)),
        ("130 µJ", None, Fraction(128, 10**6), Fraction(128)),
        ("4.5e-6 J", None, Fraction(455, 10**8), Fraction(46, 10**7)),
        ("2e-8 C", None, Fraction(15, 10**9), Fraction(2, 10**8)),
        ("12 Ω", None, Fraction(25, 2), Fraction(13)),
    ],
)
def test_rounding_to_printed_digits_is_half_up(
    text: str, digits: int | None, value: Fraction, rounded: Fraction
) -> None:
    """The comparison itself can fail: it rounds at the last printed digit, a half upwards."""
    assert rounded_as(Printed("energy", "C1", text, digits), value)[0] == rounded


def test_three_times_the_voltage_is_nine_times_the_energy() -> None:
    """5.0 pF at 1.20 V holds nine times what it holds at 0.40 V.

    Source: University Physics Volume 2 (OpenStax), section 8.3, check your understanding
    fs-id1167132463591.
    """
    low, high = (
        value_of(solved(f"source: {volts}\nC1: 5.0 pF", (("energy", "C1"),)), "energy", "C1")
        for volts in ("0.40 V", "1.20 V")
    )
    assert high / low == 9


def test_capacitors_parted_and_joined_like_to_like_share_their_charge() -> None:
    """2.0 and 4.0 µF from a chain across 1.0 kV, joined + to +: 0.89 mC, 1.78 mC, 444 V.

    Source: University Physics Volume 2 (OpenStax), section 8.2, problem fs-id1167131089215.
    The pair then holds twice the charge of the chain, which the first circuit gives exactly.
    """
    chain = solved(
        "source: 1.0 kV\nseries: [C1: 2.0 uF, C2: 4.0 uF]", (("charge", "C1"), ("charge", "C2"))
    )
    held = value_of(chain, "charge", "C1") + value_of(chain, "charge", "C2")
    assert held == Fraction(8, 3000)
    pair = solved(
        f"source: {held} C\nparallel: [C1: 2.0 uF, C2: 4.0 uF]",
        (("charge", "C1"), ("charge", "C2"), ("voltage", "total")),
    )
    for printed in (
        Printed("charge", "C1", "0.89 mC"),
        Printed("charge", "C2", "1.78 mC"),
        Printed("voltage", "total", "444 V"),
    ):
        rounded, as_printed = rounded_as(printed, value_of(pair, printed.quantity, printed.of))
        assert rounded == as_printed


def test_a_negative_capacitance_is_refused() -> None:
    """The −3.00 µF that would be needed beside 8.00 µF to make 5.00 µF is no capacitor.

    Source: University Physics Volume 2 (OpenStax), chapter 8, additional problem
    fs-id1167134816254; College Physics 2e (OpenStax), section 19.6, problem fs-id2605419.
    """
    with pytest.raises(FaultyFile, match="expected a capacitance above zero"):
        solved("parallel: [C1: 8.00 uF, C2: -3.00 uF]", (("equivalent", "total"),))
