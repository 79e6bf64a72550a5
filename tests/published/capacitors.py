"""Capacitor examples of textbooks. Numbers only; the circuits are written anew."""

from __future__ import annotations

from tests.published.row import Printed, Row

UP2 = "University Physics Volume 2 (OpenStax)"
CP2E = "College Physics 2e (OpenStax)"

CAPACITORS: tuple[Row, ...] = (
    Row(
        "C01",
        f"{UP2}, section 8.2, example fs-id1167134512809; {CP2E}, section 19.6, example "
        "fs-id2635156",
        "series: [C1: 1.000 uF, C2: 5.000 uF, C3: 8.000 uF]",
        (Printed("equivalent", "total", "0.755 µF"),),
    ),
    Row(
        "C02",
        f"{UP2}, section 8.2, example fs-id1167131127008",
        "parallel: [C1: 1.0 uF, C2: 5.0 uF, C3: 8.0 uF]",
        (Printed("equivalent", "total", "14.0 µF"),),
    ),
    Row(
        "C03",
        f"{UP2}, section 8.2, example fs-id1167131223019; {CP2E}, section 19.6, example "
        "fs-id1327996",
        "parallel: [series: [C1: 1.000 uF, C2: 5.000 uF], C3: 8.000 uF]",
        (Printed("equivalent", "total", "8.833 µF"),),
    ),
    Row(
        "C04",
        f"{UP2}, section 8.2, example fs-id1167131097759",
        "source: 12.0 V\nseries: [C1: 12.0 uF, parallel: [C2: 2.0 uF, C3: 4.0 uF]]",
        (
            Printed("equivalent", "total", "4.0 µF"),
            Printed("charge", "C1", "48.0 µC"),
            Printed("charge", "C2", "16.0 µC"),
            Printed("charge", "C3", "32.0 µC"),
            Printed("voltage", "C1", "4.0 V"),
            Printed("voltage", "C2", "8.0 V"),
            Printed("voltage", "C3", "8.0 V"),
        ),
    ),
    Row(
        "C06",
        f"{UP2}, section 8.2, check your understanding fs-id1167131255847 (b)",
        "source: 12.0 V\nparallel: [C1: 1.0 pF, series: [C2: 2.0 pF, C3: 4.0 pF]]",
        (
            Printed("equivalent", "total", "2.3 pF"),
            Printed("charge", "C1", "12 pC"),
            Printed("charge", "C2", "16 pC"),
            Printed("charge", "C3", "16 pC"),
        ),
    ),
    Row(
        "C08",
        f"{UP2}, section 8.2, problem fs-id1167131184278",
        "source: 400 V\nseries: [C1: 4.00 pF, C2: 8.00 pF]",
        (
            Printed("charge", "total", "1.07 nC"),
            Printed("charge", "C1", "1.07 nC"),
            Printed("voltage", "C1", "267 V"),
            Printed("voltage", "C2", "133 V"),
        ),
    ),
    Row(
        "C09",
        f"{CP2E}, section 19.6, problem fs-id1656785 (0.293 µF); {UP2}, section 8.2, problem "
        "fs-id1167131255933 (0.29 µF)",
        "series: [parallel: [C1: 10 uF, C2: 2.5 uF], C3: 0.30 uF]",
        (
            Printed("equivalent", "total", "0.293 µF"),
            Printed("equivalent", "total", "0.29 µF"),
        ),
    ),
    Row(
        "C12 in series",
        f"{UP2}, section 8.2, problem fs-id1167134468780; {CP2E}, section 19.6, problem "
        "fs-id1290190",
        "series: [C1: 5.00 uF, C2: 8.00 uF]",
        (Printed("equivalent", "total", "3.08 µF"),),
    ),
    Row(
        "C12 in parallel",
        f"{UP2}, section 8.2, problem fs-id1167134468780; {CP2E}, section 19.6, problem "
        "fs-id1290190",
        "parallel: [C1: 5.00 uF, C2: 8.00 uF]",
        (Printed("equivalent", "total", "13.0 µF"),),
    ),
    Row(
        "C16",
        f"{UP2}, section 8.3, example fs-id1167132710004",
        "source: 12.0 V\nseries: [C1: 12.0 uF, parallel: [C2: 2.0 uF, C3: 4.0 uF]]",
        (
            Printed("energy", "C1", "96 µJ"),
            Printed("energy", "C2", "64 µJ"),
            Printed("energy", "C3", "130 µJ", digits=2),
            Printed("energy", "total", "0.29 mJ"),
        ),
        note="130 µJ is 128 µJ to two significant digits.",
    ),
    Row(
        "C19",
        f"{UP2}, section 8.3, problem fs-id1167132529025; {CP2E}, section 19.7, problem eip-838",
        "source: 9.00 kV\nC1: 10.0 uF",
        (Printed("energy", "C1", "405 J"), Printed("charge", "C1", "90.0 mC")),
    ),
    Row(
        "C21",
        f"{UP2}, section 8.3, problem fs-id1167133384841",
        "source: 119 V\nC1: 165 uF",
        (Printed("energy", "C1", "1.17 J"),),
    ),
    Row(
        "C22",
        f"{UP2}, section 8.3, problem fs-id1167133562879",
        "source: 6.0 V\nC1: 5/12 uF",
        (Printed("energy", "C1", "7.5 µJ"), Printed("charge", "C1", "2.5 µC")),
        note="The charge is given there, so the capacitance is put in as 2.5 µC / 6.0 V.",
    ),
    Row(
        "C23",
        f"{UP2}, section 8.3, check your understanding fs-id1167132463591",
        "source: 0.40 V\nC1: 5.0 pF",
        (Printed("energy", "C1", "4.0e-13 J"),),
    ),
    Row(
        "C41 (a)",
        f"{UP2}, section 8.1, problem fs-id1167131409222",
        "source: 120 V\nC1: 180 uF",
        (Printed("charge", "C1", "21.6 mC"),),
    ),
    Row(
        "C41 (b)",
        f"{UP2}, section 8.1, problem fs-id1167131581152",
        "source: 3.10 uC\nC1: 2.00 uF",
        (Printed("voltage", "C1", "1.55 V"),),
    ),
    Row(
        "C42",
        f"{CP2E}, section 19.5, problem fs-id1326374",
        "source: 0.160 mC\nC1: 8.00 nF",
        (Printed("voltage", "C1", "20.0 kV"),),
    ),
    Row(
        "C46 largest",
        f"{UP2}, section 8.2, conceptual question fs-id1167134653213",
        "parallel: [C1: 1.0 uF, C2: 1.0 uF, C3: 1.0 uF]",
        (Printed("equivalent", "total", "3.0 µF"),),
    ),
    Row(
        "C46 smallest",
        f"{UP2}, section 8.2, conceptual question fs-id1167134653213",
        "series: [C1: 1.0 uF, C2: 1.0 uF, C3: 1.0 uF]",
        (Printed("equivalent", "total", "0.33 µF"),),
    ),
    Row(
        "C50",
        "NCERT Physics textbook for class XII, part I, chapter 2, exercise (values seen in a "
        "worked copy; the book's own text from memory)",
        "source: 300 V\n"
        "series: [C4: 100 pF, parallel: [C1: 100 pF, series: [C2: 200 pF, C3: 200 pF]]]",
        (
            Printed("equivalent", "total", "66.7 pF"),
            Printed("charge", "C4", "2e-8 C"),
            Printed("voltage", "C4", "200 V"),
            Printed("voltage", "C1", "100 V"),
            Printed("charge", "C1", "1e-8 C"),
            Printed("voltage", "C2", "50 V"),
            Printed("voltage", "C3", "50 V"),
            Printed("charge", "C2", "1e-8 C"),
        ),
    ),
    Row(
        "C51 before",
        "NCERT Physics textbook for class XII, part I, chapter 2, solved example (value seen in "
        "a worked copy; the book's own text from memory)",
        "source: 100 V\nC1: 900 pF",
        (Printed("energy", "C1", "4.5e-6 J"),),
    ),
    Row(
        "C51 after",
        "NCERT Physics textbook for class XII, part I, chapter 2, solved example (from memory)",
        "source: 90 nC\nparallel: [C1: 900 pF, C2: 900 pF]",
        (Printed("energy", "total", "2.25e-6 J"),),
        note="The charge of the first capacitor, 900 pF · 100 V, is put in as the source.",
    ),
    Row(
        "T08",
        f"{UP2}, chapter 10, additional problem fs-id1172099544191",
        "series: [C1: 20 mF, C2: 20 mF, C3: 20 mF, C4: 20 mF]",
        (Printed("equivalent", "total", "5.00 mF"),),
        note="Only the equivalent; its time constant belongs to charging through a resistor.",
    ),
)
