"""Resistor examples of textbooks. Numbers only; the circuits are written anew."""

from __future__ import annotations

from tests.published.row import Printed, Row

UP2 = "University Physics Volume 2 (OpenStax)"
CP2E = "College Physics 2e (OpenStax)"
TEN_OF_275 = ", ".join(f"R{n}: 275 ohm" for n in range(1, 11))

RESISTORS: tuple[Row, ...] = (
    Row(
        "R01",
        f"{UP2}, section 10.2, example fs-id1172100577573",
        "source: 9 V\nseries: [R1: 20 ohm, R2: 20 ohm, R3: 20 ohm, R4: 20 ohm, R5: 10 ohm]",
        (
            Printed("equivalent", "total", "90 Ω"),
            Printed("current", "total", "0.1 A"),
            Printed("voltage", "R1", "2 V"),
            Printed("voltage", "R5", "1 V"),
            Printed("power", "total", "0.9 W"),
        ),
    ),
    Row(
        "R02",
        f"{UP2}, section 10.2, example fs-id1172098280741",
        "source: 3.00 V\nparallel: [R1: 1.00 ohm, R2: 2.00 ohm, R3: 2.00 ohm]",
        (
            Printed("equivalent", "total", "0.50 Ω"),
            Printed("current", "total", "6.00 A"),
            Printed("power", "total", "18.00 W"),
        ),
    ),
    Row(
        "R03",
        f"{UP2}, section 10.2, text",
        "source: 24 V\nseries: [R1: 7 ohm, parallel: [R2: 10 ohm, series: [R3: 6 ohm, R4: 4 ohm]]]",
        (
            Printed("equivalent", "total", "12 Ω"),
            Printed("current", "total", "2 A"),
            Printed("power", "R1", "28 W"),
            Printed("power", "total", "48 W"),
        ),
    ),
    Row(
        "R04",
        f"{CP2E}, section 21.1, example fs-id2980027; {UP2}, section 10.2, example "
        "fs-id1172100565130 and problem fs-id1172100547970",
        "source: 12.0 V\nseries: [R1: 1.00 ohm, parallel: [R2: 6.00 ohm, R3: 13.0 ohm]]",
        (
            Printed("equivalent", "total", "5.11 Ω"),
            Printed("equivalent", "total", "5.10 Ω", exact="97/19"),
            Printed("current", "total", "2.35 A"),
            Printed("current", "R2", "1.61 A"),
            Printed("current", "R3", "0.742 A"),
            Printed("power", "R2", "15.5 W"),
        ),
        note="The first book prints 5.11 Ω. The second prints 5.10 Ω, which a parallel pair cut to "
        "4.10 Ω between the steps would give.",
    ),
    Row(
        "R07",
        f"{UP2}, section 10.2, example fs-id1172098527917",
        "source: 2.00 A\n"
        "series: [R1: 10.00 ohm, R2: 10.00 ohm, parallel: [R3: 10.00 ohm, R4: 10.00 ohm]]",
        (
            Printed("equivalent", "total", "25.00 Ω"),
            Printed("voltage", "total", "50.00 V"),
            Printed("power", "total", "100.00 W"),
        ),
        note="The current through the first resistor is given, which is that of the source.",
    ),
    Row(
        "R09 largest",
        f"{CP2E}, section 21.1, problem fs-id3017617; {UP2}, section 10.2, problem "
        "fs-id1172100960090",
        "series: [R1: 36.0 ohm, R2: 50.0 ohm, R3: 700 ohm]",
        (Printed("equivalent", "total", "786 Ω"),),
    ),
    Row(
        "R09 smallest",
        f"{CP2E}, section 21.1, problem fs-id3017617 (20.3 Ω); {UP2}, section 10.2, problem "
        "fs-id1172100960090 (20.32 Ω)",
        "parallel: [R1: 36.0 ohm, R2: 50.0 ohm, R3: 700 ohm]",
        (
            Printed("equivalent", "total", "20.3 Ω"),
            Printed("equivalent", "total", "20.32 Ω"),
        ),
    ),
    Row(
        "R10 in series",
        f"{CP2E}, section 21.1, problem fs-id1599495",
        f"series: [{TEN_OF_275}]",
        (Printed("equivalent", "total", "2.75 kΩ"),),
    ),
    Row(
        "R10 in parallel",
        f"{CP2E}, section 21.1, problem fs-id1599495",
        f"parallel: [{TEN_OF_275}]",
        (Printed("equivalent", "total", "27.5 Ω"),),
    ),
    Row(
        "R11",
        f"{UP2}, section 10.2, problem fs-id1172100641028; {CP2E}, section 21.1, problem "
        "fs-id1927186",
        "source: 12.0 V\nseries: [R1: 4.8 ohm, R2: 0.06 ohm]",
        (Printed("power", "total", "29.6 W"),),
        note="30.0 W and 2.40 kW at 12.0 V are given, put in as V²/P.",
    ),
    Row(
        "R12 with 0.800 Ω",
        f"{UP2}, section 10.2, problem fs-id1172100828021",
        "source: 120 V\nseries: [R1: 0.800 ohm, parallel: [R2: 192 ohm, R3: 576/77 ohm]]",
        (
            Printed("current", "total", "15.0 A"),
            Printed("power", "R2", "60.8 W"),
            Printed("power", "R3", "1.56 kW"),
        ),
        note="Run forward: the lamp is (120 V)²/75.0 W; the motor takes the rest of 15.0 A at "
        "108 V, which makes 576/77 Ω.",
    ),
    Row(
        "R12 with 0.400 Ω",
        f"{CP2E}, section 21.1, problem fs-id2666378",
        "source: 120 V\nseries: [R1: 0.400 ohm, parallel: [R2: 192 ohm, R3: 3648/461 ohm]]",
        (
            Printed("current", "total", "15.0 A"),
            Printed("power", "R2", "67.7 W"),
            Printed("power", "R3", "1.64 kW"),
        ),
        note="Run forward: the lamp is (120 V)²/75.0 W; the motor takes the rest of 15.0 A at "
        "114 V, which makes 3648/461 Ω.",
    ),
    Row(
        "R15",
        f"{UP2}, chapter 10, additional problem fs-id1172102066961",
        "source: 24 V\nseries: [R1: 14 ohm, parallel: [R2: 9 ohm, R3: 18 ohm], R4: 4 ohm]",
        (
            Printed("equivalent", "total", "24.00 Ω"),
            Printed("current", "R2", "0.67 A"),
            Printed("current", "R3", "0.33 A"),
            Printed("power", "R2", "4.04 W", exact="4"),
            Printed("power", "R3", "1.96 W", exact="2"),
            Printed("power", "total", "24.00 W"),
        ),
        note="Two cells of 12 V in series are put in as one source of 24 V. The book computes "
        "the powers from the rounded currents 0.67 A and 0.33 A.",
    ),
    Row(
        "R17 with 10.00 Ω",
        f"{UP2}, section 10.1, example fs-id1167583723446",
        "source: 12.00 V\nseries: [R1: 0.100 ohm, R2: 10.00 ohm]",
        (
            Printed("current", "total", "1.188 A"),
            Printed("voltage", "R2", "11.90 V", exact="1200/101"),
        ),
        note="The book rounds the drop of 0.119 V inside the battery to 0.1 V.",
    ),
    Row(
        "R17 with 0.500 Ω",
        f"{UP2}, section 10.1, example fs-id1167583723446",
        "source: 12.00 V\nseries: [R1: 0.100 ohm, R2: 0.500 ohm]",
        (Printed("current", "total", "20.00 A"), Printed("power", "R2", "200 W")),
    ),
    Row(
        "R17 with a worn battery",
        f"{UP2}, section 10.1, example fs-id1167583723446",
        "source: 12.00 V\nseries: [R1: 0.500 ohm, R2: 0.500 ohm]",
        (Printed("power", "R2", "72.00 W"),),
    ),
    Row(
        "R19",
        f"{CP2E}, section 21.2, problem fs-id1997028",
        "source: 12.0 V\nseries: [R1: 0.0100 ohm, R2: 0.0500 ohm]",
        (Printed("current", "total", "200 A"), Printed("voltage", "R2", "10.0 V")),
    ),
    Row(
        "R19 corroded",
        f"{CP2E}, section 21.2, problem fs-id1997028",
        "source: 12.0 V\nseries: [R1: 0.0100 ohm, R2: 0.0900 ohm, R3: 0.0500 ohm]",
        (Printed("current", "total", "80.0 A"), Printed("power", "R3", "320 W")),
    ),
    Row(
        "R21",
        f"{CP2E}, section 21.2, problem fs-id1245690",
        "source: 1.58 V\nseries: [R1: 0.100 ohm, R2: 2.30 ohm]",
        (Printed("current", "total", "0.658 A"), Printed("power", "R2", "0.997 W")),
    ),
    Row(
        "R23",
        "Lessons In Electric Circuits, volume I (Kuphaldt), chapter on divider circuits and "
        "Kirchhoff's laws, images 00106 and 00112",
        "source: 45 V\nseries: [R1: 5 kohm, R2: 10 kohm, R3: 7.5 kohm]",
        (
            Printed("current", "total", "2 mA"),
            Printed("voltage", "R1", "10 V"),
            Printed("voltage", "R2", "20 V"),
            Printed("voltage", "R3", "15 V"),
        ),
    ),
    Row(
        "B02 open",
        f"{UP2}, chapter 10, additional problem fs-id1172102147484",
        "source: 12 V\n"
        "series:\n"
        "  - R5: 4 ohm\n"
        "  - parallel: [series: [R1: 8 ohm, R3: 8 ohm], series: [R2: 8 ohm, R4: 8 ohm]]",
        (
            Printed("equivalent", "total", "12.00 Ω"),
            Printed("current", "total", "1.00 A"),
        ),
    ),
    Row(
        "B02 closed",
        f"{UP2}, chapter 10, additional problem fs-id1172102147484",
        "source: 12 V\n"
        "series:\n"
        "  - R5: 4 ohm\n"
        "  - parallel: [R1: 8 ohm, R2: 8 ohm]\n"
        "  - parallel: [R3: 8 ohm, R4: 8 ohm]",
        (
            Printed("equivalent", "total", "12.00 Ω"),
            Printed("current", "total", "1.00 A"),
        ),
        note="The closed switch joins the two middle junctions into one.",
    ),
)
