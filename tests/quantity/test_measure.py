"""Reading typed values with units."""

from __future__ import annotations

from fractions import Fraction

import pytest
from sympy import Rational

from builder.quantity.exact import as_fraction, read_number, split_number
from builder.quantity.kinds import KINDS
from builder.quantity.measure import MeasureError, read_measure, si_size
from builder.quantity.show import PREFIXES
from builder.quantity.units import read_unit

OHM_SIGN = "\u2126"
GREEK_OMEGA = "\u03a9"
MICRO_SIGN = "\u00b5"
GREEK_MU = "\u03bc"

SPELLINGS = [
    ("4.7 uF", "capacitance", "47/10000000", "4.7 µF"),
    (f"4.7 {MICRO_SIGN}F", "capacitance", "47/10000000", "4.7 µF"),
    (f"4.7 {GREEK_MU}F", "capacitance", "47/10000000", "4.7 µF"),
    ("4.7uF", "capacitance", "47/10000000", "4.7 µF"),
    ("  4.7   uF ", "capacitance", "47/10000000", "4.7 µF"),
    ("4.7 microfarad", "capacitance", "47/10000000", "4.7 µF"),
    ("1000 uF", "capacitance", "1/1000", "1000 µF"),
    ("1.50 mF", "capacitance", "3/2000", "1.50 mF"),
    ("1.5e-5 F", "capacitance", "3/200000", "15 µF"),
    ("1.5E-5 F", "capacitance", "3/200000", "15 µF"),
    ("1.5e−5 F", "capacitance", "3/200000", "15 µF"),
    ("1.5×10^-5 F", "capacitance", "3/200000", "15 µF"),
    ("1.5 x 10^-5 F", "capacitance", "3/200000", "15 µF"),
    ("1.5*10^-5 F", "capacitance", "3/200000", "15 µF"),
    ("1/3 mF", "capacitance", "1/3000", "1000/3 µF"),
    ("5 cF", "capacitance", "1/20", "50 mF"),
    ("1 kohm", "resistance", "1000", "1 kΩ"),
    (f"1 k{GREEK_OMEGA}", "resistance", "1000", "1 kΩ"),
    (f"1 k{OHM_SIGN}", "resistance", "1000", "1 kΩ"),
    ("1 kilohm", "resistance", "1000", "1 kΩ"),
    ("2.2 megohm", "resistance", "2200000", "2.2 MΩ"),
    ("220 ohm", "resistance", "220", "220 Ω"),
    ("220 ohms", "resistance", "220", "220 Ω"),
    ("3/2 V", "voltage", "3/2", "1.5 V"),
    ("3 / 2 V", "voltage", "3/2", "1.5 V"),
    ("12 V", "voltage", "12", "12 V"),
    ("12.0 V", "voltage", "12", "12.0 V"),
    (".5 V", "voltage", "1/2", "0.5 V"),
    ("5. V", "voltage", "5", "5 V"),
    ("+3 V", "voltage", "3", "3 V"),
    ("-3 V", "voltage", "-3", "−3 V"),
    ("−3 V", "voltage", "-3", "−3 V"),
    ("0 V", "voltage", "0", "0 V"),
    ("20 mA", "current", "1/50", "20 mA"),
    ("90 mC", "charge", "9/100", "90 mC"),
    ("2 Ah", "charge", "7200", "7.2 kC"),
    ("3 J", "energy", "3", "3 J"),
    ("2 Wh", "energy", "7200", "7.2 kJ"),
    ("250 mW", "power", "1/4", "250 mW"),
    ("20 ms", "time", "1/50", "20 ms"),
    ("5 min", "time", "300", "300 s"),
    ("1e-30 F", "capacitance", f"1/{10**30}", "1 qF"),
]


@pytest.mark.parametrize(("text", "kind", "value", "shown"), SPELLINGS)
def test_typed_values_are_read_exactly(text: str, kind: str, value: str, shown: str) -> None:
    """Every usual spelling gives its exact SI value and keeps the author's own digits."""
    measure = read_measure(text)
    assert (measure.kind, as_fraction(measure.value)) == (kind, Fraction(value))
    assert (measure.shown.text, measure.shown.sign) == (shown, "=")


ADVICE = [
    ("4,7 uF", '"4,7 uF"', 'Write the decimal point as a point: "4.7 uF".'),
    ("1,000 uF", '"1,000 uF"', 'Write the decimal point as a point: "1.000 uF".'),
    ("1 000 uF", '"1 000 uF"', "Write the digits of a number without spaces."),
    ("1\u202f000 uF", '"1 000 uF"', "Write the digits of a number without spaces."),
    ("", "nothing", "Start with a number."),
    ("V", '"V"', "Start with a number."),
    ("twelve V", '"twelve V"', "Start with a number."),
    ("inf V", '"inf V"', "Start with a number."),
    ("\u0663 V", '"\u0663 V"', "Start with a number."),
    ("5", '"5"', "Add the unit after 5."),
    ("5 kv", '"5 kv"', '"kv" is no unit of a circuit quantity. Did you mean "kV"?'),
    ("5 uf", '"5 uf"', '"uf" is no unit of a circuit quantity. Did you mean "uF"?'),
    ("5 OHM", '"5 OHM"', '"OHM" is no unit of a circuit quantity. Did you mean "ohm"?'),
    ("5 V.", '"5 V."', '"V." is no unit of a circuit quantity. Did you mean "V"?'),
    ("5 kg", '"5 kg"', '"kg" is no unit of a circuit quantity.'),
    ("5 degC", '"5 degC"', '"degC" is no unit of a circuit quantity.'),
    ("5 %", '"5 %"', '"%" is no unit of a circuit quantity.'),
    ("5 Hz", '"5 Hz"', '"Hz" is no unit of a circuit quantity.'),
    ("1/0 V", '"1/0 V"', '"1/0" divides by zero.'),
    ("1e31 V", '"1e31 V"', '"1e31" has an exponent beyond ±30.'),
    ("1e-31 V", '"1e-31 V"', '"1e-31" has an exponent beyond ±30.'),
    (
        "1" * 41 + " V",
        '"' + "1" * 39 + '…"',
        "A number of more than 40 characters is too long.",
    ),
]


@pytest.mark.parametrize(("text", "found", "advice"), ADVICE)
def test_what_cannot_be_read_is_explained(text: str, found: str, advice: str) -> None:
    """Every mistake is told with what was found, what was expected and what to do."""
    with pytest.raises(MeasureError) as caught:
        read_measure(text)
    expected = "a number and a unit, such as 4.7 uF, 12 V or 1 kohm"
    assert str(caught.value) == f"found {found}; expected {expected}. {advice}"


def test_the_caller_says_what_was_expected() -> None:
    """An error repeats what its caller expected at that place."""
    with pytest.raises(MeasureError, match=r"^found \"5\"; expected a voltage\. Add the unit"):
        read_measure("5", expected="a voltage")


@pytest.mark.parametrize(
    "kind", [k.name for k in KINDS.values() if k.typed and k.prefix_power == 1]
)
@pytest.mark.parametrize("power", PREFIXES)
def test_every_prefix_is_read_for_every_unit(kind: str, power: int) -> None:
    """No prefixed SI unit is mistaken for another unit of the same spelling."""
    assert read_unit(PREFIXES[power] + KINDS[kind].unit) == (kind, Fraction(10) ** power)


@pytest.mark.parametrize("text", ["m/s", "V/", "F²", "", "V" * 21, "__import__", "degC", "S"])
def test_units_of_nothing_in_a_circuit_are_refused(text: str) -> None:
    """A word that is no unit, or a unit of something else, is told apart without an exception."""
    assert read_unit(text) is None


@pytest.mark.parametrize(
    ("kind", "unit", "size"),
    [("capacitance", "uF", Fraction(1, 10**6)), ("voltage", "uF", None), ("voltage", "?", None)],
)
def test_the_size_of_a_unit_is_known_for_its_own_kind_only(
    kind: str, unit: str, size: Fraction | None
) -> None:
    """An answer's unit counts only if it measures the quantity that was asked."""
    assert si_size(kind, unit) == size


def test_a_decimal_is_never_read_through_a_float() -> None:
    """0.1 is one tenth exactly, and so is a number of forty digits."""
    assert read_number("0.1") == Rational(1, 10)
    assert read_number("0." + "1" * 38) == Rational(int("1" * 38), 10**38)


@pytest.mark.parametrize("text", ["", "x", "1.2.3", "1e5.5", "1/2/3", "0x10", "1_000", "1 V"])
def test_other_texts_are_no_numbers(text: str) -> None:
    """What is not one number altogether is refused."""
    with pytest.raises(ValueError, match="is not a number"):
        read_number(text)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("66 uC", ("66", "uC")),
        ("6.6e-5C", ("6.6e-5", "C")),
        ("6.6 × 10^-5 C", ("6.6 × 10^-5", "C")),
        ("1 / 2 V", ("1 / 2", "V")),
        ("uC", ("", "uC")),
    ],
)
def test_a_text_is_split_into_number_and_rest(text: str, parts: tuple[str, str]) -> None:
    """The number at the start is found, whatever its spelling."""
    assert split_number(text) == parts


@pytest.mark.parametrize(
    ("typed", "kind", "value", "shown"),
    [
        ("8 cm^2", "area", Fraction(8, 10**4), "8 cm²"),
        ("80 mm²", "area", Fraction(8, 10**5), "80 mm²"),
        ("1.5 m2", "area", Fraction(3, 2), "1.5 m²"),
        ("2.5 cm", "length", Fraction(1, 40), "2.5 cm"),
        ("0.2 mm", "length", Fraction(1, 5000), "0.2 mm"),
        ("3 kV/mm", "field", Fraction(3 * 10**6), "3 MV/m"),
        ("8.85 pF/m", "permittivity", Fraction(885, 10**14), "8.85 pF/m"),
    ],
)
def test_units_of_plates_are_read(typed: str, kind: str, value: Fraction, shown: str) -> None:
    """Lengths, areas, field strengths and permittivities are read exactly, prefix and all."""
    measure = read_measure(typed)
    assert (measure.kind, measure.value, measure.shown.text) == (kind, value, shown)
