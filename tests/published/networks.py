"""Networks of textbooks: several sources, internal resistance, bridges, equivalent sources.

Numbers only; the circuits are written anew. Where a book gives resistors in a row by their sum,
they stand here as one.
"""

from __future__ import annotations

from tests.published.resistors import CP2E, UP2
from tests.published.row import Printed, Row

LEC = "Lessons in Electric Circuits, volume I (T. R. Kuphaldt)"

NETWORKS: tuple[Row, ...] = (
    Row(
        "K01",
        f"{UP2}, section 10.3, text",
        """branches:
  E1: {emf: 24 V, between: [x, e]}
  R1: {resistance: 3 ohm, between: [x, b]}
  R2: {resistance: 3 ohm, between: [b, e]}
  R3: {resistance: 3 ohm, between: [b, z]}
  R4: {resistance: 4 ohm, between: [z, y]}
  E2: {emf: 29 V, between: [y, e]}""",
        (
            Printed("current", "R1", "3.00 A"),
            Printed("current", "R2", "5.00 A"),
            Printed("current", "R3", "-2.00 A"),
            Printed("power", "total", "130 W"),
        ),
    ),
    Row(
        "K02",
        f"{UP2}, section 10.3, example fs-id1172098432073",
        """branches:
  E1: {emf: 0.5 V, between: [x, e]}
  R1: {resistance: 3 ohm, between: [x, b]}
  R3: {resistance: 1 ohm, between: [b, y]}
  E2: {emf: 0.6 V, between: [e, y]}
  E3: {emf: 2.3 V, between: [z, e]}
  R2: {resistance: 8 ohm, between: [z, b]}""",
        (
            Printed("current", "R1", "0.20 A"),
            Printed("current", "R2", "0.30 A"),
            Printed("current", "R3", "0.50 A"),
            Printed("power", "total", "1.09 W"),
        ),
        note="R1 and R4 stand as one, and so do R2, R5 and R6.",
    ),
    Row(
        "K05",
        f"{UP2}, section 10.3, example fs-id1172098450202",
        """branches:
  E1: {emf: 24 V, between: [a, d]}
  R1: {resistance: 10 ohm, between: [a, b]}
  R2: {resistance: 30 ohm, between: [b, c]}
  E2: {emf: 12 V, between: [c, k]}
  R3: {resistance: 20 ohm, between: [k, d]}""",
        (Printed("current", "R1", "0.20 A"), Printed("power", "E1", "4.80 W")),
    ),
    Row(
        "K07",
        f"{UP2}, section 10.3, problem fs-id1172100882615",
        """branches:
  E1: {emf: 12 V, between: [t, g]}
  R2: {resistance: 3 ohm, between: [t, m]}
  R1: {resistance: 4 ohm, between: [m, g]}
  R3: {resistance: 2 ohm, between: [m, n]}
  R4: {resistance: 2 ohm, between: [n, g]}
  E2: {emf: 5 V, between: [n, g]}""",
        (
            Printed("current", "R1", "1.5 A"),
            Printed("current", "R2", "2 A"),
            Printed("current", "R3", "0.5 A"),
            Printed("current", "R4", "2.5 A"),
            Printed("current", "E2", "2 A"),
            Printed("power", "total", "34 W"),
        ),
    ),
    Row(
        "K09",
        f"{CP2E}, section 21.3, test preparation fs-id1175790",
        """branches:
  E1: {emf: 6 V, between: [t, g]}
  R2: {resistance: 6 ohm, between: [t, m]}
  R1: {resistance: 6 ohm, between: [m, g]}
  R3: {resistance: 12 ohm, between: [m, n]}
  E2: {emf: 4 V, between: [n, g]}""",
        (
            Printed("current", "R1", "0.533 A"),
            Printed("current", "R2", "0.467 A"),
            Printed("current", "R3", "-0.067 A"),
        ),
    ),
    Row(
        "K09 with a wire",
        f"{CP2E}, section 21.3, test preparation fs-id1175790",
        """reference: g
branches:
  E1: {emf: 6 V, between: [t, g]}
  R2: {resistance: 6 ohm, between: [t, m]}
  R1: {resistance: 6 ohm, between: [m, g]}
  R3: {resistance: 12 ohm, between: [m, g]}""",
        (
            Printed("current", "R1", "0.4 A"),
            Printed("current", "R2", "0.6 A"),
            Printed("current", "R3", "0.2 A"),
            Printed("power", "total", "3.6 W"),
        ),
    ),
    Row(
        "K11",
        f"{LEC}, chapter DC network analysis, node voltage",
        """reference: g
branches:
  E1: {emf: 10 V, between: [x, g]}
  R1: {resistance: 2 ohm, between: [x, n1]}
  R2: {resistance: 4 ohm, between: [n1, g]}
  R3: {resistance: 2.5 ohm, between: [n1, n2]}
  R4: {resistance: 5 ohm, between: [n2, g]}
  R5: {resistance: 1 ohm, between: [y, n2]}
  E2: {emf: 4 V, between: [g, y]}""",
        (Printed("potential", "n1", "3.8095 V"), Printed("potential", "n2", "-1.5476 V")),
    ),
    Row(
        "K12",
        f"{UP2}, chapter 10, challenge problem fs-id1172102078125",
        """branches:
  E1: {emf: 1.50 V, inner: 1.00 ohm, between: [a, m]}
  E2: {emf: 1.50 V, inner: 1.00 ohm, between: [m, g]}
  E3: {emf: 1.50 V, inner: 1.00 ohm, between: [a, n]}
  E4: {emf: 1.50 V, inner: 1.00 ohm, between: [n, g]}
  R1: {resistance: 10.00 ohm, between: [a, g]}""",
        (
            Printed("current", "R1", "0.273 A"),
            Printed("voltage", "between a and m", "1.36 V"),
        ),
    ),
    Row(
        "K13",
        f"{UP2}, section 10.3, check your understanding fs-id1172098526226",
        """branches:
  E1: {emf: 24 V, between: [a, d]}
  R1: {resistance: 10 kohm, between: [a, b]}
  E2: {emf: 12 V, between: [b, c]}
  R2: {resistance: 30 kohm, between: [c, d]}""",
        (Printed("power", "E1", "7.20 mW"),),
    ),
    Row(
        "R15",
        f"{UP2}, chapter 10, additional problem fs-id1172102066961",
        """branches:
  E1: {emf: 12 V, between: [a, k]}
  E2: {emf: 12 V, between: [k, g]}
  R1: {resistance: 14 ohm, between: [a, b]}
  R2: {resistance: 9 ohm, between: [b, c]}
  R3: {resistance: 18 ohm, between: [b, c]}
  R4: {resistance: 4 ohm, between: [c, g]}""",
        (
            Printed("current", "R2", "0.67 A"),
            Printed("current", "R3", "0.33 A"),
            Printed("power", "R2", "4.04 W", exact="4"),
            Printed("power", "R3", "1.96 W", exact="2"),
            Printed("power", "total", "24.00 W"),
        ),
        note="The book squares currents cut to 0.67 A and 0.33 A; exact are 4 W and 2 W.",
    ),
    Row(
        "R17 with 10.00 Ω",
        f"{UP2}, section 10.1, example fs-id1167583723446",
        """branches:
  E1: {emf: 12.00 V, inner: 0.100 ohm, between: [a, g]}
  R1: {resistance: 10.00 ohm, between: [a, g]}""",
        (
            Printed("current", "R1", "1.188 A"),
            Printed("voltage", "R1", "11.90 V", exact="1200/101"),
        ),
        note="The book cuts the drop of 0.119 V inside to 0.1 V.",
    ),
    Row(
        "R17 with 0.500 Ω",
        f"{UP2}, section 10.1, example fs-id1167583723446",
        """branches:
  E1: {emf: 12.00 V, inner: 0.100 ohm, between: [a, g]}
  R1: {resistance: 0.500 ohm, between: [a, g]}""",
        (Printed("current", "R1", "20.00 A"), Printed("power", "R1", "200 W")),
    ),
    Row(
        "R17 with an old battery",
        f"{UP2}, section 10.1, example fs-id1167583723446",
        """branches:
  E1: {emf: 12.00 V, inner: 0.500 ohm, between: [a, g]}
  R1: {resistance: 0.500 ohm, between: [a, g]}""",
        (Printed("power", "R1", "72.00 W"),),
    ),
    Row(
        "R19",
        f"{CP2E}, section 21.2, problem fs-id1997028",
        """branches:
  E1: {emf: 12.0 V, inner: 0.0100 ohm, between: [a, g]}
  R1: {resistance: 0.0500 ohm, between: [a, g]}""",
        (Printed("current", "R1", "200 A"), Printed("voltage", "R1", "10.0 V")),
    ),
    Row(
        "R19 corroded",
        f"{CP2E}, section 21.2, problem fs-id1997028",
        """branches:
  E1: {emf: 12.0 V, inner: 0.0100 ohm, between: [a, g]}
  R2: {resistance: 0.0900 ohm, between: [a, m]}
  R1: {resistance: 0.0500 ohm, between: [m, g]}""",
        (Printed("current", "R1", "80.0 A"), Printed("power", "R1", "320 W")),
    ),
    Row(
        "B01",
        f"{UP2}, chapter 10, additional problem fs-id1172101971117",
        """branches:
  E0: {emf: 20 V, inner: 5 ohm, between: [a, g]}
  R1: {resistance: 15 ohm, between: [a, x]}
  R2: {resistance: 10 ohm, between: [a, y]}
  R3: {resistance: 10 ohm, between: [x, g]}
  R4: {resistance: 15 ohm, between: [y, g]}
  R5: {resistance: 5 ohm, between: [y, x]}""",
        (
            Printed("current", "E0", "1.17 A"),
            Printed("current", "R1", "0.50 A"),
            Printed("current", "R2", "0.67 A"),
            Printed("current", "R3", "0.67 A"),
            Printed("current", "R4", "0.50 A"),
            Printed("current", "R5", "0.17 A"),
            Printed("power", "E0", "23.4 W", exact="70/3"),
        ),
        note="The book multiplies by a current cut to 1.17 A.",
    ),
    Row(
        "B03",
        f"{CP2E}, section 21.5, problem fs-id1422615",
        """branches:
  E0: {emf: 6 V, between: [a, g]}
  R1: {resistance: 1000 ohm, between: [a, x]}
  R2: {resistance: 625 ohm, between: [x, g]}
  R3: {resistance: 2500 ohm, between: [a, y]}
  R4: {resistance: 1562.5 ohm, between: [y, g]}
  R5: {resistance: 40 ohm, between: [x, y]}""",
        (Printed("current", "R5", "0.00 A"),),
        note="The printed 1.56 kΩ is 1562.5 Ω to three digits: with it nothing flows in the meter. "
        "Source and meter are chosen; the ratio of R2 to R1 is the book's 0.625.",
    ),
    Row(
        "T12",
        f"{LEC}, chapter RC and L/R time constants, complex circuits",
        """method: equivalent-source
across: [c, d]
branches:
  E1: {emf: 20 V, between: [a, g]}
  R1: {resistance: 2 kohm, between: [a, c]}
  R2: {resistance: 500 ohm, between: [c, d]}
  R3: {resistance: 3 kohm, between: [d, g]}""",
        (
            Printed("open-voltage", "total", "1.8182 V"),
            Printed("inner-resistance", "total", "454.545 Ω"),
        ),
    ),
)
