"""Published examples of charging and discharging, each as an author would write it."""

from __future__ import annotations

from dataclasses import dataclass

from tests.published.row import Printed


@dataclass(frozen=True)
class TransientRow:
    """One published example.

    Attributes:
        id: a short name for test reports.
        source: where it was printed.
        branches: the rows of the circuit; what follows ``find:`` after them.
        find: what is asked.
        printed: the answers; ``of`` names the moment too: ``C1@t1``.
        note: what was done to put the example into a circuit.
    """

    id: str
    source: str
    branches: tuple[str, ...]
    find: str
    printed: tuple[Printed, ...]
    note: str = ""

    @property
    def text(self) -> str:
        """The whole file."""
        rows = "".join(f"    {row}\n" for row in self.branches)
        return f"title: As printed\ncircuit:\n  branches:\n{rows}find: {self.find}\n"


def charging(volts: str, resistance: str, capacitance: str) -> tuple[str, ...]:
    """An empty capacitor on a battery, through a resistor."""
    return (
        f"V0: {{emf: {volts}, between: [p, g]}}",
        f"R1: {{resistance: {resistance}, between: [p, a]}}",
        f"C1: {{capacitance: {capacitance}, between: [a, g]}}",
    )


def discharging(volts: str, resistance: str, capacitance: str) -> tuple[str, ...]:
    """A charged capacitor with a resistor across it."""
    return (
        f"C1: {{capacitance: {capacitance}, charged: {volts}, between: [a, g]}}",
        f"R1: {{resistance: {resistance}, between: [a, g]}}",
    )


CONSTANT = ("time-constant", "total")

ROWS = (
    TransientRow(
        "T01", "University Physics Volume 2 (OpenStax), 10.5, problem fs-id1172101841568",
        charging("6.16 V", "500 ohm", "1.50 uF"),
        "[time-constant, {current: {R1: [start, 0.75 ms]}}, {voltage: {C1: 0.75 ms}}]",
        (Printed("current", "R1@start", "12.3 mA"), Printed(*CONSTANT, "0.750 ms"),
         Printed("current", "R1@t1", "4.53 mA"), Printed("voltage", "C1@t1", "3.89 V")),
    ),
    TransientRow(
        "T02", "University Physics Volume 2 (OpenStax), 10.5, example fs-id1172101881535",
        ("V0: {emf: 100 V, inner: 1 ohm, between: [p, g]}",
         "R1: {resistance: 100 ohm, between: [p, a]}",
         "C1: {capacitance: 50 mF, between: [a, g]}"),
        "[time-constant, {time: {C1: 80 V}}]",
        (Printed(*CONSTANT, "5.05 s"), Printed("time", "C1>1", "8.13 s")),
    ),
    TransientRow(
        "T04", "College Physics 2e (OpenStax), 21.6, example fs-id1381606",
        discharging("10.0 kV", "1.00 kohm", "8.00 uF"),
        "[time-constant, {voltage: {C1: 24 ms}}]",
        (Printed(*CONSTANT, "8.00 ms"), Printed("voltage", "C1@t1", "498 V")),
        note="The book goes three whole time constants, 24 ms, towards 500 V.",
    ),
    TransientRow(
        "T05", "College Physics 2e (OpenStax), 21.6, problem fs-id1574837",
        discharging("12.0 kV", "1.25 kohm", "8.00 uF"),
        "[time-constant, {time: {C1: 600 V}}]",
        (Printed(*CONSTANT, "10.0 ms"), Printed("time", "C1>1", "30.0 ms")),
        note="The resistance is the book's answer; it counts three whole time constants, and "
        "10 ms · ln 20 = 29.957 ms rounds to the same.",
    ),
    TransientRow(
        "T07-bleeder", "College Physics 2e (OpenStax), 21.6, problem fs-id1390130",
        discharging("100 V", "250 kohm", "80 uF"),
        "[time-constant, {time: {C1: 99.75 %}}]",
        (Printed(*CONSTANT, "20.0 s"), Printed("time", "C1>1", "120 s")),
        note="0.250 % are left; any voltage will do.",
    ),
    TransientRow(
        "T07-charging", "College Physics 2e (OpenStax), 21.6, problem fs-id1390130",
        charging("100 V", "100 ohm", "80 uF"),
        "[{time: {C1: 86.5 %}}]",
        (Printed("time", "C1>1", "16.0 ms"),),
    ),
    TransientRow(
        "T08", "University Physics Volume 2 (OpenStax), chapter 10, fs-id1172099544191",
        ("V0: {emf: 9 V, between: [p, g]}", "R1: {resistance: 20 ohm, between: [p, a]}",
         "C1: {capacitance: 20 mF, between: [a, b]}", "C2: {capacitance: 20 mF, between: [b, c]}",
         "C3: {capacitance: 20 mF, between: [c, d]}", "C4: {capacitance: 20 mF, between: [d, g]}"),
        "[time-constant, {time: {C1: 50 %}}]",
        (Printed("capacitance", "store", "5.00 mF"), Printed(*CONSTANT, "0.1 s"),
         Printed("time", "C1>1", "0.069 s")),
    ),
    TransientRow(
        "T10-charge", "College Physics 2e (OpenStax), 21.6, fs-id3552653",
        charging("24 V", "1.2 kohm", "1 mF"),
        "[{current: {R1: start}}, {time: {C1: 99 %}}]",
        (Printed("current", "R1@start", "20 mA"), Printed("time", "C1>1", "5.5 s")),
    ),
    TransientRow(
        "T10-discharge", "College Physics 2e (OpenStax), 21.6, fs-id3552653",
        discharging("24 V", "1 kohm", "1 mF"),
        "[{current: {R1: start}}, {time: {C1: 3.24 V}}]",
        (Printed("current", "R1@start", "24 mA"), Printed("time", "C1>1", "2 s")),
    ),
    TransientRow(
        "T12", "Lessons In Electric Circuits (Kuphaldt), volume I, RC and L/R time constants, "
        "complex circuits",
        ("V0: {emf: 20 V, between: [p, g]}", "R1: {resistance: 2 kohm, between: [p, a]}",
         "R2: {resistance: 500 ohm, between: [a, b]}",
         "R3: {resistance: 3 kohm, between: [b, g]}",
         "C1: {capacitance: 100 uF, between: [a, b]}"),
        "[seen-resistance, time-constant, {voltage: {C1: [end, 60 ms]}}]",
        (Printed("voltage", "C1@end", "1.8182 V"), Printed("resistance", "seen", "454.545 Ω"),
         Printed(*CONSTANT, "45.4545 ms"), Printed("voltage", "C1@t1", "1.3325 V")),
    ),
    TransientRow(
        "T13", "Lessons In Electric Circuits (Kuphaldt), volume I, RC and L/R time constants",
        charging("100 V", "1 kohm", "1 mF"),
        "[{voltage: {C1: [1 s, 2 s, 10 s]}}]",
        (Printed("voltage", "C1@t1", "63.212 V"), Printed("voltage", "C1@t2", "86.466 V"),
         Printed("voltage", "C1@t3", "99.995 V")),
        note="Percentages of the last value, told as volts of 100 V; the time constant is 1 s.",
    ),
    *(
        TransientRow(
            f"T16-{number}", "University Physics Volume 2 (OpenStax), 10.5, problems "
            "fs-id1172101798159, fs-id1172102114329 and fs-id1172099716843",
            charging("9 V", resistance, capacitance), "[time-constant]",
            (Printed(*CONSTANT, constant),),
            note="The book asks for the resistance or the capacitance: its answer is put in.",
        )
        for number, (resistance, capacitance, constant) in enumerate((
            ("4.00 Mohm", "0.500 uF", "2.00 s"), ("30.0 Mohm", "0.500 uF", "15.0 s"),
            ("0.0400 ohm", "2.50 uF", "0.100 µs"), ("800 kohm", "2.50 uF", "2.00 s"),
            ("3.33 mohm", "600 uF", "2.00 µs"),
        ), start=1)
    ),
    TransientRow(
        "C54", "University Physics Volume 2 (OpenStax), chapter 10, fs-id1172099386985",
        ("V0: {emf: 12 V, between: [p, g]}", "R1: {resistance: 100 ohm, between: [p, a]}",
         "R2: {resistance: 100 ohm, between: [a, b]}",
         "C1: {capacitance: 10 mF, between: [a, g]}",
         "C2: {capacitance: 4.7 mF, between: [b, g]}"),
        "[{energy: [C1, C2]}]",
        (Printed("energy", "C1@end", "0.72 J"), Printed("energy", "C2@end", "0.338 J")),
        note="Long after, whatever resistors stand in the branches; the book prints the formula "
        "without its ½, but the numbers have it.",
    ),
)  # fmt: skip
