"""Typed answers and what becomes of each: spellings, units, slips, and hostile strings.

The spellings of units and prefixes are those of the SI Brochure (9th edition); codes such as 4k7
are those of IEC 60062; what else is accepted is common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from builder.site.judging import decimal_text

Question = dict[str, Any]


def _question(
    value: str, unit: str, noun: str, turns: tuple[str, ...] = (), others: tuple[str, ...] = ()
) -> Question:
    def told(number: str) -> str:
        return decimal_text(Fraction(number))

    return {
        "value": told(value),
        "digits": 3,
        "unit": unit,
        "noun": noun,
        "shown": "",
        "turns": [[told(turn), number] for number, turn in enumerate(turns, start=1)],
        "others": [[told(other), [f"other {number}"]] for number, other in enumerate(others, 1)],
    }


QUESTIONS: dict[str, Question] = {
    # Turn 1 is another value, turn 2 goes on for ever, turn 3 is a slip of one prefix.
    "charge": _question("66e-6", "C", "charge", ("120e-6", "1/12000", "66e-3"), ("88e-6",)),
    # 60/7 = 8.5714…; 9 is a turn of its own, and 8.5714 rounded to one digit.
    "voltage": _question("60/7", "V", "voltage", ("12", "9"), ("24/7",)),
    "kilovolt": _question("1000", "V", "voltage", ("500",)),
    "capacitance": _question("4.7e-9", "F", "capacitance", ("14.7e-9",), ("10e-9",)),
    "resistance": _question("4700", "Ω", "resistance", ("10000",), ("3300",)),
    "current": _question("-0.35", "A", "current", ("0.4",), ("0.65",)),
    "energy": _question("720e-6", "J", "energy", ("1440e-6", "360e-6")),
    "power": _question("5.76", "W", "power", ("5760",), ("6",)),
    "time": _question("0.277258872223978123766892", "s", "time", ("0.4",)),
    "hour": _question("7200", "s", "time"),
    "length": _question("0.012", "m", "length"),
    "area": _question("0.01", "m²", "area", ("0.1",)),
    "field": _question("3e6", "V/m", "field strength"),
    "permittivity": _question("8.8541878188e-12", "F/m", "permittivity"),
    "ratio": _question("5/2", "", "pure number", ("4",)),
    "nothing": _question("0", "A", "current", ("0.4",)),
}

RIGHT: dict[str, str] = {
    "charge": """66 uC|66 µC|66 μC|66µC|66uC|66.0 µC|66.00 uC|0,066 mC|0.066 mC|.066 mC|,066 mC
        6.6e-5 C|6.6E-5 C|6.6e-05 C|6.6 e-5 C|6.6E−5 C|6,6e-5 C|6.6×10^-5 C|6.6x10^-5C
        6.6·10⁻⁵ C|6.6⋅10⁻⁵ C|6.6 * 10^-5 C|6.6*10**-5 C|6.6 x 10-5 C|6.6 10^-5 C|6.6×10^{-5} C
        6.6 X 10^(-5) C|66×10⁻⁶ C|0.000066 C|0.000 066 C|66000 nC|66 000 nC|66,000 nC|66'000 nC
        66 000 000 pC|66,000,000 pC|66.000.000 pC|330/5 uC|33/500000 C|132/2 µC|65 2/2 uC
        Q = 66 uC|Q=66uC|Q₂ = 66 µC|Q_2 ≈ 66.0 µC|≈ 66 µC|~66 uC|= 66 uC|66 uC =|66 uC = Q
        Q = 5.5 uF * 12 V = 66 uC|66 uC.|66. uC|66 uC;|66 uC !|+66 uC|+ 66 uC|  66   uC
        66 microcoulombs|66 microcoulomb|66 Microcoulomb|66 micro C|66 micro coulombs|66 microC
        66 u C|66 µ C|66 ucoulomb|0.066 millicoulombs|66 (uC)|66 [µC]|66 µA s|66 uA·s|66 µA*s
        66 uAs|66 A*us|66 uF V|66 µF·V|66 V*uF|66 uF × V|66 uFV|66 uJ/V|66 µJ per V|66 uW s/V
        66 uW*s/V|66 mV*mF|66 J/(MV)|66 uN m/V|0.066 mA·s|66 ＵC|６６ µC|٦٦ µC|66\u00a0µC
        66\u202fµC|\u200f66 µC\u200e|\u202e66 uC|66\u200b µC|\ufeff66 uC
        1.8333333333333333333333e-8 Ah""",
    "voltage": "8.57 V|8,57 V|8.57V|8570 mV|8.57 volts|8.57 volt|8.57 Volts|60/7 V|8 4/7 V|"
    "8.57 J/C|8.57 W/A|8.57 A ohm|8.57 A·Ω|8.57 mA*kΩ|8.57 C/F|0.00857 kV|V=8.57V|U = 8.57 V|"
    "8V57|8.57 Wb/s",
    "kilovolt": "1 kV|1.00 kV|1000 V|1,000 V|1 000 V|1.000 kV|1,000 kV|1e3 V|10^3 V|10³ V|1×10³ V|"
    "10 ^3 V|0.001 MV|1'000 V|1kV|1 kilovolt|1 k V|1.0 kV|1.000,0 V|１０００ V",
    "capacitance": "4.7 nF|4n7|4n7F|4n70|4700 pF|4700p|4.7n|0.0047 uF|4,7 nF|4.7e-9 F|"
    "4.7 nanofarads|4.7 nC/V|4.7 ns/ohm|4.7 s/GΩ|4700 picofarad|u0047|0u0047|4.70 nF|4.7 nanofarad",
    "resistance": "4.7 kΩ|4.7 kohm|4.7k ohm|4.7 k ohm|4.7 kOhm|4700 ohm|4700 ohms|4700 Ω|4k7|4K7|"
    "4k7Ω|4k7 ohm|4.7k|4.7 k|4700R|4.7 kilohm|4.7 kilohms|4.7 kiloohm|0.0047 MΩ|0M0047|"
    "0.0047 megohm|"
    "4.7 kV/A|4.7 V/mA|4.7e3 ohm|4700 V/A|4,700 Ω|4700 s/F",
    "current": "-350 mA|−350 mA|–350 mA|—350 mA|-0.35 A|- 0.35 A|-,35 A|-350 milliamps|-0.35 amps|"
    "-7/20 A|-0.35 C/s|-0.35 V/ohm|-0.35 V/Ω|I = -350 mA|-350mA|-0.350 amperes|-3.5×10^-1 A|"
    "-0.35 W/V|-350 milliampere",
    "energy": "720 uJ|720 µJ|0.72 mJ|7.2e-4 J|720 uW s|720 µW·s|720 uC V|720 µC·V|720 uN m|"
    "720 µN·m|720 uWs|720 uCV|0.2 uWh|0.00072 joules|720 microjoule|720 uV*C|720 uF V²|"
    "720 uF*V^2|720 uF V^2|1/5000000000 kWh",
    "power": "5.76 W|5760 mW|5.76 V A|5.76 VA|5.76 V*A|5.76 V·A|5.76 J/s|5.76 J s^-1|5.76 J·s⁻¹|"
    "5.76 watts|5.76 A²Ω|5.76 A^2 ohm|5.76 V²/Ω|0.00576 kVA",
    "time": "277 ms|0.277 s|0.277 sec|0.277 seconds|277.3 ms|0.27725887 s|277 millisecond|"
    "277 mΩ F|277 kΩ·µF|277 kohm uF|277 Ω mF",
    "hour": "2 h|2 hours|120 min|120 minutes|7200 s|7.2 ks|2 hr|2.00 h|2,0 h",
    "length": "12 mm|1.2 cm|0.012 m|12 millimetres|12 millimeters|0.12 dm",
    "area": "100 cm²|100 cm^2|100 cm2|0.01 m²|0.01 m^2|0.01 m2|10000 mm²|10 000 mm^2|100 cm·cm|"
    "0.0100 m*m|1 dm²",
    "field": "3 MV/m|3 kV/mm|3e6 V/m|3 MV per m|3 volts per micrometre|30 kV/cm|3 MN/C|3 V/um",
    "permittivity": "8.85 pF/m|8.85e-12 F/m|8.854 pF/m|8.85 pF m^-1|8.85 pF·m⁻¹|8.85 pC/(V m)",
    "ratio": "2.5|2,5|5/2|2 1/2|2½|250 %|2.50|k = 2.5|2.5 V/V|+2.5",
    "nothing": "0 A|0|0 mA|0.00 A|-0 A|0,0 A",
}  # fmt: skip

# Right, with a remark on the digits or the spelling.
REMARKED: dict[str, tuple[str, str]] = {
    "voltage further digits": ("8.571 V|8.5714 V|8.571428571428571428571428 V|8571.4286 mV",
                               "further digits are right"),
    "voltage astray digits": ("8.5728 V|8.574 V|8.5701 V|8.567 V", "not those of the exact value"),
    "voltage last digit": ("8.56 V|8.58 V", "last digit is one off"),
    "charge last digit": ("66.1 uC|65.9 uC", "last digit is one off"),
    "charge astray digits": ("66.04 uC|65.97 uC|66.0001 uC", "not those of the exact value"),
    "charge small letter": ("66 uc|66 µc", "the symbol is a capital C"),
    "voltage small letter": ("8.57 v", "the symbol is a capital V"),
    "resistance large kilo": ("4.7 Kohm|4.7 KΩ", "kilo is written with a small k"),
}  # fmt: skip

# Verdict, what is said, and how it may be typed.
WRONG: list[tuple[str, str, str, str]] = [
    ("charge", "prefix", "a thousand times too large: look at m and µ.", "66 mC|66.0 mC"),
    ("charge", "prefix", "a thousand times too small: look at n and µ.", "66 nC|66.0 nC"),
    ("charge", "prefix", "a million times too large: look at the prefix of the unit.", "66 C"),
    ("charge", "prefix", "a million times too small: look at p and µ.", "66 pC"),
    ("charge", "prefix", "a thousand times too large: look at the power of ten.", "6.6e-2 C"),
    ("charge", "prefix", "a thousand times too small: look at the power of ten.", "6.6×10^-8 C"),
    ("capacitance", "prefix", "a thousand times too large: look at µ and n.", "4.7 uF|4u7"),
    ("capacitance", "prefix", "look at m and n.", "4.7 mF"),
    ("resistance", "prefix", "a thousand times too large: look at M and k.", "4.7 MΩ|4M7"),
    ("resistance", "prefix", "a thousand times too small", "4.7 Ω|4R7|4.7 ohm"),
    ("area", "prefix", "a prefix counts twice in a squared unit.", "100 mm²|1 cm²|100 m²"),
    ("power", "prefix", "a thousand times too large", "5.76 kW|5760 W"),
    ("charge", "turn:1", "", "120 uC|120 µC|0.12 mC|1.2e-4 C|120.0 uC"),
    ("charge", "turn:2", "", "83.3 uC|83.33 µC|1/12 mC|83 uC|250/3 uC"),
    ("voltage", "turn:1", "", "12 V|12.0 V|0.012 kV"),
    ("voltage", "turn:2", "", "9.00 V|9.0 V"),
    ("current", "turn:1", "", "400 mA|0.4 A"),
    ("energy", "turn:1", "", "1.44 mJ|1440 uJ"),
    ("energy", "turn:2", "", "360 uJ|0.36 mJ"),
    ("ratio", "turn:1", "", "4|4.0|8/2"),
    ("charge", "other", "", "88 uC|0.0880 mC"),
    ("voltage", "other", "", "3.43 V|24/7 V|3.4286 V"),
    ("resistance", "other", "", "3k3|3.3 kΩ"),
    ("charge", "sign", "The size is right, the sign is not.", "-66 uC|−66 µC|- 66.0 µC|–0,066 mC"),
    ("current", "sign", "The size is right, the sign is not.", "350 mA|+0.35 A|0.350 A"),
    ("charge", "coarse", "Rounded to one significant digit that is right. Give three significant"
     " digits.", "70 uC|7e-5 C|0.07 mC"),
    ("voltage", "coarse", "Rounded to two significant digits that is right.", "8.6 V|8600 mV"),
    ("voltage", "coarse:2", "Rounded to one significant digit that is right.", "9 V"),
    ("ratio", "coarse", "Rounded to one significant digit", "3|2"),
    ("time", "coarse", "Rounded to two significant digits", "0.28 s|280 ms"),
    ("charge", "decimal", "ten times too large: look at the decimal point.", "660 uC|0.66 mC"),
    ("charge", "decimal", "ten times too small: look at the decimal point.", "6.6 uC"),
    ("charge", "decimal", "a hundred times too small: look at the decimal point.", "0.66 uC"),
    ("charge", "value", "That is not the value.",
     "67 uC|1 C|0 C|65.8 uC|66.2 uC|1'000 uC|5 uC|3.3 Ah"),
    ("nothing", "value", "That is not the value.", "1 mA|0.001 A|-3 A"),
    ("ratio", "value", "That is not the value.", "2.6|7"),
    ("charge", "unit", "The digits are right, but a charge needs a unit", "66|66.0|6.6e-5|0,066"),
    ("charge", "unit", "A charge needs a unit after the number.", "67|120|1e3"),
    ("energy", "unit", "but an energy needs a unit after the number.", "720|7.2e-4"),
    ("charge", "unit", "The digits are right, but “uV” is a unit of voltage; a charge is"
     " measured in C.", "66 uV"),
    ("charge", "unit", "“V” is a unit of voltage; a charge is measured in C.", "12 V|3/2 V"),
    ("charge", "unit", "is a unit of capacitance; a charge", "66 uF|66 C/V|66 microfarads"),
    ("charge", "unit", "is a unit of resistance", "66 ohm|66 Ω|66 V/A|66 kohm"),
    ("charge", "unit", "is a unit of mass", "66 kg|66 g|66 ug"),
    ("charge", "unit", "is a unit of energy", "66 J|66 C V|66 CV|66 W s"),
    ("charge", "unit", "is a unit of time", "66 us|66 min|66 ohm F"),
    ("charge", "unit", "is a unit of frequency", "66 Hz|66 kHz|66 s^-1"),
    ("charge", "unit", "is a unit of temperature", "66 K"),
    ("charge", "unit", "is a unit of force", "66 N|66 J/m"),
    ("charge", "unit", "is a unit of something else", "66 A/m|66 C^3"),
    ("area", "unit", "“cm” is a unit of length; an area is measured in m².", "100 cm"),
    ("field", "unit", "“MV” is a unit of voltage; a field strength is measured in V/m.", "3 MV"),
    ("charge", "unit", "“u” is only a prefix: the unit comes after it.", "66 u"),
    ("charge", "unit", "is only a prefix", "66 k|66 micro|66 µ|66 M"),
    ("voltage", "unit", "“k” is only a prefix", "8.57 k"),
    ("charge", "unit", "“quux” is no unit known here. A charge is measured in C.", "66 quux"),
    ("charge", "unit", "is no unit known here", "66 uX|66 C/|66 C*|66 C^0|66 C^^2|66 $|66 €|"
     "66 uC or so|66 and a bit|66 µµC|66 kkC|66 uC uC uC uC uC uC uC uC uC"),
    ("ratio", "unit", "This is a pure number and has no unit.", "2.5 V|2.5 quux"),
    ("charge", "number", "That is no number with a unit.", "many|uC|sixty-six uC|NaN|NaN uC|"
     "Infinity|-Infinity C|undefined|null|true|1.2.3 uC|1..2 C|--66 uC|+-66 uC|e5 C|-|≈≈|"
     "()|[]|{}|1,2,3|"
     "#66|@|'66|\"66\"|\\u0036|%66|1/2/3 C|66 /C"),
    ("charge", "number", "That is no number with a unit.", "12 34 uC|66 66 uC"),
    ("charge", "unit", "is no unit known here", "0x42 uC|6.6 × uC"),
    ("ratio", "number", "That is no number.", "half|x|k"),
    ("charge", "number", "divided by zero", "1/0 C|66/0 uC|0/0 C|1 1/0 C"),
    ("charge", "number", "beyond all measure", "1e400 C|1e999999999999 C|6.6×10^500 C|1e-400 C|"
     "10^99999 C|1e100 C"),
    ("charge", "empty", "Type a number and a unit first.", "| |\t|\u00a0|\u200b|\u200f\u200e|."),
    ("ratio", "empty", "Type a number first.", "  "),
]  # fmt: skip

HOSTILE: list[tuple[str, str]] = [
    ("<img src=x onerror=alert(1)>", "number"), ("<script>alert(1)</script>", "number"),
    ("66 <b>uC</b>", "unit"), ("66 <img src=x onerror=alert(1)>", "number"),
    ("\"><svg onload=alert(1)>", "number"), ("66 &lt;b&gt;", "unit"),
    ("66 javascript:alert(1)", "unit"),
    ("__proto__", "number"), ("66 __proto__", "unit"), ("66 constructor", "unit"),
    ("66 hasOwnProperty", "unit"), ("66 toString", "unit"), ("66 prototype", "unit"),
    ("66 uC'; DROP TABLE answers;--", "unit"), ("${66} uC", "number"), ("{{66}} uC", "number"),
    ("66 \u202eCu", "unit"), ("\u0000" * 5, "number"), ("66 \u0000uC", "unit"),
    ("66 \ud800", "unit"),
    ("😀", "number"), ("66 😀", "unit"), ("😀66 uC", "number"), ("👩‍🔬" * 20, "number"),
    ("(" * 150, "number"), ("66 " + "(" * 100 + "C" + ")" * 50, "unit"), ("[" * 200, "number"),
    ("6" * 10_000, "number"), ("66 " + "u" * 10_000, "number"), (" " * 10_000, "empty"),
    ("1" * 190 + " C", "value"), ("0." + "0" * 190 + "1", "unit"),
    ("66 " + "C·" * 30 + "C", "unit"),
    ("66 C" + "/C" * 25, "unit"), ("1e" + "9" * 150 + " C", "number"), ("-" * 200, "number"),
    ("1,000,000,000,000,000,000,000 C", "value"), ("1/" + "3" * 100 + " C", "number"),
    ("a" * 200, "number"), ("66 " + "é" * 40, "unit"), ("66 uC\n66 uC", "unit"),
    ("66\nuC", "right"),
    ("٣٫٥ uC", "value"), ("６．６e－５ C", "right"), ("66 Ω\u0301", "unit"), ("ﬀ uC", "number"),
]  # fmt: skip
"""Strings that mean harm, or nothing, and the kind of verdict on them."""


def rows() -> list[tuple[str, str, str, str]]:
    """Each typed answer with its question, the kind of verdict, and what is said among others."""
    found: list[tuple[str, str, str, str]] = []
    for question, typed in RIGHT.items():
        found += [(question, each, "right", "") for each in _split(typed)]
    for label, (typed, says) in REMARKED.items():
        found += [(label.split()[0], each, "right", says) for each in _split(typed)]
    for question, kind, says, typed in WRONG:
        found += [(question, each, kind, says) for each in typed.split("|")]
    found += [("charge", typed, kind, "") for typed, kind in HOSTILE]
    return found


def _split(typed: str) -> list[str]:
    return [each.strip("\n ") if "\n" in typed else each
            for line in typed.split("\n") for each in line.split("|")]  # fmt: skip
