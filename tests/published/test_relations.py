"""Published examples that are solved by plain equations, to their printed digits."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import pytest

from builder.quantity.exact import near_fraction
from builder.quantity.units import read_unit
from builder.solution import solve
from tests.problem.relations.written import relations_problem
from tests.published.row import Printed

UP2 = "University Physics Volume 2 (OpenStax)"
CP2E = "College Physics 2e (OpenStax)"


@dataclass(frozen=True)
class Worked:
    """A published example in quantities and relations.

    Attributes:
        id: a short name for test reports.
        source: where it was printed.
        quantities: the quantities, divided by semicolons.
        relations: the equations.
        printed: the answers; ``of`` names the quantity.
        note: what the printed number owes to rounding.
    """

    id: str
    source: str
    quantities: str
    relations: tuple[str, ...]
    printed: tuple[Printed, ...]
    note: str = ""


ROWS = (
    Worked("C18", f"{UP2}, section 8.3, example fs-id1167132454854; {CP2E}, section 19.7, example "
           "fs-id2725068", "U: 400 J; V: 1.00e4 V; C: capacitance", ("U = 1/2*C*V^2",),
           (Printed("capacitance", "C", "8.00 µF"),)),
    Worked("C44", f"{CP2E}, section 19.7, problem fs-id3088661",
           "U: 9.60e3 J; V: 12.0 V; C: capacitance", ("U = 1/2*C*V^2",),
           (Printed("capacitance", "C", "133 F"),)),
    Worked("C41", f"{UP2}, section 8.1, problem fs-id1167131181095",
           "Q: 3.00 uC; V: 120 V; C: capacitance", ("Q = C*V",),
           (Printed("capacitance", "C", "25.0 nF"),)),
    Worked("C42", f"{CP2E}, section 19.5, problems fs-id1326374 and fs-id2756080",
           "C1: 8.00 nF; Q1: 0.160 mC; V1: voltage; Q2: 8.00 mC; V2: 12.0 MV; C2: capacitance",
           ("Q1 = C1*V1", "Q2 = C2*V2"),
           (Printed("voltage", "V1", "20.0 kV"), Printed("capacitance", "C2", "667 pF"))),
    Worked("C31", f"{UP2}, section 8.5, problem fs-id1167131499185; {CP2E}, section 19.5, problem "
           "fs-id1949350",
           "k: 6.7; A: 1.50 m^2; d: 0.0200 mm; V: 9.00 V; C: capacitance; Q: charge",
           ("C = eps0*k*A/d", "Q = C*V"),
           (Printed("capacitance", "C", "4.4 µF"), Printed("charge", "Q", "40 µC"))),
    Worked("C33", f"{UP2}, section 8.5, problem fs-id1167134886133",
           "k: 3.60; E: 1.60e7 V/m; C: 1.25 nF; V: 5.5 kV; d: length; A: area",
           ("E = V/d", "C = eps0*k*A/d"), (Printed("area", "A", "0.0135 m²"),),
           "printed to three digits, of which the voltage gives two"),
    Worked("C34", f"{UP2}, chapter 8, additional problem fs-id1167134945718",
           "a: 25 cm; d0: 1.0 mm; V0: 50 V; d: 2.00 mm; A: area; C0: capacitance; "
           "Q0: charge; E: field; C1: capacitance; Q1: charge; V1: voltage",
           ("A = a^2", "C0 = eps0*A/d0", "Q0 = C0*V0", "C1 = eps0*A/d", "Q1 = Q0", "V1 = Q1/C1",
            "E = V1/d"),
           (Printed("capacitance", "C1", "0.277 nF"), Printed("charge", "Q1", "27.7 nC"),
            Printed("field", "E", "50 kV/m"))),
    Worked("C35", f"{CP2E}, section 19.5, example fs-id920232; section 19.7, problem "
           "fs-id2646945",
           "A: 1.00 m^2; d: 1.00 mm; V: 3.00 kV; C: capacitance; Q: charge; U: energy",
           ("C = eps0*A/d", "Q = C*V", "U = 1/2*C*V^2"),
           (Printed("capacitance", "C", "8.85 nF"), Printed("charge", "Q", "26.6 µC"),
            Printed("energy", "U", "39.8 mJ"))),
    Worked("C39", f"{UP2}, section 8.1, check your understanding fs-id1167134717572",
           "C: 5.00 pF; r1: length; r2: length",
           ("C = 4*pi*eps0*r1*r2/(r2-r1)", "r2 = 5*r1"),
           (Printed("length", "r1", "3.59 cm", exact="3.60"),
            Printed("length", "r2", "17.98 cm")),
           "3.59503 cm, which the book cuts off"),
    Worked("C40", f"{UP2}, section 8.1, check your understanding fs-id1167131462066 and problem "
           "fs-id1167134966959",
           "Q: 0.500 nC; V: 20.0 V; L: 1.0 m; C: capacitance; r: number; D: 20 pF; s: number",
           ("C = Q/V", "C = 2*pi*eps0*L/ln(r)", "D = 2*pi*eps0*L/ln(s)"),
           (Printed("capacitance", "C", "25.0 pF"), Printed("ratio", "r", "9.2", exact="9.3"),
            Printed("ratio", "s", "16")),
           "9.2563, which the book cuts off"),
    Worked("B03", f"{CP2E}, section 21.5, problem fs-id1422615",
           "R3: 2500 ohm; q: 0.625; Rx: resistance", ("Rx = q*R3",),
           (Printed("resistance", "Rx", "1.56 kΩ"),)),
    Worked("B07", f"{CP2E}, section 21.5, problems fs-id1844231, fs-id2391704 and fs-id3335517",
           "E0: 12.0 V; Rx: 5.000 ohm; Rs: 2.500 ohm; E1: voltage; E2: 3.000 V; Ra: 10.0 ohm; "
           "Rb: 15.0 ohm; E3: voltage; q: 2.000; R3: resistance; R4: 10 ohm",
           ("E1/Rx = E0/Rs", "E3/Ra = E2/Rb", "R4 = q*R3"),
           (Printed("voltage", "E1", "24.0 V"), Printed("voltage", "E3", "2.00 V"),
            Printed("resistance", "R3", "5.00 Ω"))),
)  # fmt: skip


def rounded(text: str, value: Fraction) -> tuple[Fraction, Fraction]:
    """``value`` in the printed unit, rounded half up to the printed digits; the printed value."""
    number, _, unit = text.partition(" ")
    size = read_unit(unit) if unit else ("ratio", Fraction(1))
    assert size is not None
    step = Fraction(10) ** -len(number.partition(".")[2])
    return ((value / size[1] / step + Fraction(1, 2)) // 1) * step, Fraction(number)


@pytest.mark.parametrize("row", ROWS, ids=[row.id for row in ROWS])
def test_a_published_example_is_reproduced_by_its_equations(row: Worked) -> None:
    """Each answer, rounded to the digits of the book, is the printed one.

    Where the book cuts off, the exact value's digits stand in the table instead and are shown to
    differ from the printed ones.
    """
    find = f"[{', '.join(dict.fromkeys(p.of for p in row.printed))}]"
    solution = solve(relations_problem(row.quantities, row.relations, find))
    assert solution.agree
    values = {name.of: near_fraction(value) for name, value in solution.values.items()}
    for printed in row.printed:
        own, as_printed = rounded(printed.text, values[printed.of])
        if printed.exact is None:
            assert own == as_printed, (row.source, printed)
        else:
            assert own == Fraction(printed.exact), (row.source, printed)
            assert own != as_printed
            assert row.note
