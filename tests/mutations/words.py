"""What mutated files are made of: hostile values, plausible values, words of problem files."""

from __future__ import annotations

from random import Random

HOSTILE = (
    "0", "-1", "0 V", "-12 V", "0 ohm", "0 uF", "-0 ohm", "1e400", "1e-400", "1e400 V",
    "1e-400 F", "1e30 V", "1e-30 F", "1e29 ohm", "9e30 ohm", "NaN", "nan V", "inf", "-inf ohm",
    ".inf", ".nan", "Infinity V", "1/3 V", "1/0 V", "0/0", "123456789/987654321 ohm",
    "1/99999999999999999999999 F", "3.14159265358979323846264338327950288 ohm", "9" * 39 + " V",
    "9" * 5000, "1" + "0" * 4400 + " ohm", "1e99999999", "0x10 V", "0b1 ohm", "1_000 ohm",
    "1,5 V", "1.000,5 V", "1'000 V", "1 000 ohm", "٣ V", "３ ohm", "௧ V", "²", "½ V", "Ⅻ V",
    "−5 V", "–5 V", "—5 V", "‐5 V", "⁻5 V", "+5 V", "++5 V", "--5 V", "5 V\u200f", "\u202e5 V",
    "\u200b5 V", "5\u00a0V", "5\u2009V", "\ufeff5 V", "5 V\u0000", "\x07", "\ud7ff", "𝟙𝟚 V",
    "__import__('os')", "__import__('os').system('true')", "().__class__.__bases__", "9**9**9",
    "9^9^9", "2^9999999", "(" * 60 + "1" + ")" * 60, "(" * 300, "[" * 30, "sqrt(sqrt(sqrt(C)))",
    "exp(exp(9))", "exp(699)*C", "ln(0)", "sqrt(-1)", "C^9^9", "C**C", "1/(C-C)", "C-C", "2*C-2*C",
    "C*D*E*F*G*H*K*L", "lambda: 0", "{{7*7}}", "${7*7}", "%s%n", "<script>alert(1)</script>",
    "<b>", "`x`", "$\\frac{1}{2}$", "$$", "${", "}", "{", "{C1}", "{C1.name}", "{C1.x}", "{{", "}}",
    "yes", "no", "null", "~", "true", "", " ", "on", "2026-11-27", "12:30:45", "0o17", "=", "<<",
    "*", "&", "!", "|", ">", "%", "@", "-", "?", ":", "a: b", "- a", "# a", "'", '"', "\\", "\n",
    "\t", "a\nb", "a" * 300, "é" * 50, "名前", "עברית", "e\u0301", "\U0001f4a1",
    "12 V to 1e30 V step 1e-30 V", "E12", "E24 from 1 ohm to 1e30 ohm", "2*R1", "C1*C1",
)  # fmt: skip

NAMES = (
    "C1", "C2", "C3", "C4", "R1", "R2", "R3", "R5", "V0", "V1", "E1", "S1", "S2", "total", "all",
    "V", "C", "R", "Q", "U", "I", "A", "d", "kappa", "pi", "eps0", "e", "E", "i", "sqrt", "exp",
    "C23", "R12", "Req", "C_eq", "r_E1", "equivalent", "source", "series", "lost", "before", "end",
    "start", "after", "between", "and", "none", "a", "b", "top", "bottom", "ground", "c1", "C01",
    "C١", "C 1", "C-1", "C_1", "Cx", "CC1", "1C", "C1.name", "self", "__class__", "constructor",
    "__proto__", "toString", "C" * 30, "λ", "Ω1", "ß", "",
)  # fmt: skip

UNITS = (
    "V", "mV", "kV", "A", "mA", "uA", "ohm", "kohm", "Mohm", "Ω", "kΩ", "F", "uF", "µF", "μF",
    "nF", "pF", "C", "uC", "nC", "J", "mJ", "W", "s", "ms", "cm^2", "mm", "m", "MV/m", "F/m", "%",
    "V*s", "V/A", "A*s", "kg", "degC", "furlong", "VV", "u F", "Yohm", "yF", "dB", "ohm^2", "m^9",
)  # fmt: skip

KINDS = (
    "equivalent", "charge", "voltage", "energy", "current", "power", "potential", "time",
    "time-constant", "seen-resistance", "open-voltage", "inner-resistance", "matching-resistance",
    "greatest-power", "inner-capacitance", "capacitance", "resistance", "length", "area", "field",
    "permittivity", "number", "unknown",
)  # fmt: skip

METHODS = (
    "merge", "balance", "symmetry", "delta-star", "junctions", "loops", "superposition",
    "equivalent-source", "nodes", "magic",
)  # fmt: skip

GENERATED = ("predict", "pick", "ranking", "first-move", "order", "faulty-line", "what-if", "none")

KEYS = (
    "title", "level", "objectives", "scenario", "circuit", "measured", "quantities", "plates",
    "relations", "stages", "change", "find", "digits", "plan", "words", "questions", "leave-out",
    "vary", "keep", "source", "series", "parallel", "branches", "across", "method", "load",
    "reference", "place", "capacitance", "resistance", "emf", "current", "switch", "between",
    "inner", "charged", "open", "close", "turn", "value", "kind", "is", "choose", "equation",
    "because", "area", "gap", "voltage", "charge", "battery", "filling", "kappa", "layers", "slabs",
    "metal", "thickness", "called", "strength", "ask", "answer", "choices", "text", "right",
    "reply", "instead-of", "goal", "reason", "apart", "order", "energy", "power", "titel", "finds",
    "serie", "Series", "constructor", "__proto__", "yes", "12",
)  # fmt: skip

_ROUND = (1, 1, 2, 2, 3, 4, 5, 6, 8, 9, 10, 12, 15, 18, 20, 22, 24, 30, 33, 40, 47, 60, 100, 120)
_DECIMAL = ("0.5", "1.5", "2.2", "4.7", "0.1", "0.3", "3.3", "6.8", "12.5", "0.001", "1e-3", "1/3",
            "2/7", "1e6", "7.77", "0.123456789")  # fmt: skip


def number(random: Random) -> str:
    """A number such as people write."""
    if random.random() < 0.7:
        return str(random.choice(_ROUND))
    if random.random() < 0.6:
        return random.choice(_DECIMAL)
    return str(random.randint(1, 10 ** random.randint(1, 7)))


def find_item(random: Random, names: list[str]) -> str:
    """One item of ``find:``, in flow style: of any kind of problem, and perhaps of none."""

    def name() -> str:
        return random.choice(names) if names and random.random() < 0.85 else random.choice(NAMES)

    whose = random.choice(
        ["all", "total", "lost", name(), name(), f"[{name()}, {name()}]", f"[{name()}]",
         f"{{{name() or 'x'}: {moment(random)}}}",
         f"{{{name() or 'x'}: [start, {moment(random)}]}}",
         f"between {name()} and {name()}"]
    )  # fmt: skip
    kind = random.choice(KINDS)
    return random.choice([kind, name() or "''", f"{{{kind}: {whose or 'x'}}}",
                          f"{{{kind}: {whose or 'x'}}}"])  # fmt: skip


def moment(random: Random) -> str:
    """When something is asked: of stages, and of a change."""
    unit = random.choice(("s", "ms", "us", "V", "%", "uC"))
    return random.choice(("start", "end", "before", "after 1", "after 2", "after 0", "after 99",
                          "90 %", "100 %", "0 s", f"{number(random)} {unit}"))  # fmt: skip


def expression(random: Random, names: list[str], depth: int = 0) -> str:
    """An expression, of names that may be known."""
    if depth > 3 or random.random() < 0.35:
        if names and random.random() < 0.7:
            return random.choice(names) or "x"
        return random.choice((number(random), number(random), random.choice(NAMES) or "0", "pi",
                              "eps0", f"{number(random)} {random.choice(UNITS)}"))  # fmt: skip
    one, other = (expression(random, names, depth + 1) for _ in range(2))
    power = random.choice(("2", "3", "-1", "(1/2)", "0", "9", "-9", "0.5", "100"))
    return random.choice((f"{one} + {other}", f"{one} - {other}", f"{one} * {other}",
                          f"{one} / {other}", f"({one})", f"-{one}", f"({one})^{power}",
                          f"sqrt({one})", f"exp({one})", f"ln({one})", f"{one} {other}",
                          f"{one}**{power}"))  # fmt: skip
