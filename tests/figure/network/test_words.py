"""Networks told in words."""

from __future__ import annotations

from dataclasses import replace

from builder.figure import ValueText
from builder.figure.by_junction import plain
from builder.figure.network import Arrow, describe_network, network_by_junction
from builder.quantity.names import Symbol
from tests.figure.network.drawings import TYPICAL, drawing, full_drawing


def test_network_is_described() -> None:
    """The description names the junctions, and what lies between each two of them."""
    assert describe_network(drawing("V0:a-b R1:a-c R2:b-c R3:c-b")) == (
        "The figure has three junctions: a, b and c. Between a and b lies the battery V0, 66.0 V, "
        "with its + at a. Between a and c lies the resistor R1, 4.7 Ω. Between b and c lie the "
        "resistor R2, 888 Ω and the resistor R3, 10 Ω."
    )


def test_more_than_elements_is_described() -> None:
    """Terminals, ground, arrows, plates, loops, marks and values found are told as well."""
    asked = full_drawing()
    told = describe_network(asked)
    assert "D is grounded." in told
    assert "The arrow of I5 points from B to C." in told
    assert "The + of R1 is at A." in told
    assert "The loop arrow I b turns inside the loop of A, C and B." in told
    two = drawing("C1:a-b R1:a-b", 1, terminals=("a", "b"))
    arrow = Arrow(False, None, ValueText("2 mA", Symbol("I"), "≈"))
    branches = (
        replace(two.branches[0], plates=(ValueText("+3 µC"), ValueText("−3 µC")), marked=True),
        replace(two.branches[1], arrow=arrow),
    )
    told = describe_network(replace(two, branches=branches))
    assert "The open terminals are a, the +, and b, the −." in told
    assert "The plate of C1 at a carries +3 µC, the one at b −3 µC." in told
    assert "The arrow of I, about 2 mA, points from b to a." in told
    assert "C1 is marked." in told
    assert "Found so far: Q1 is" in told


def test_network_by_junction() -> None:
    """Each junction has a sentence with all that meets there, and no numbers."""
    asked = drawing(TYPICAL["two loops"], grounded="b", junction_names={"c": Symbol("V", "A")})
    told = [plain(sentence) for sentence in network_by_junction(asked)]
    assert told == [
        "The circuit has four junctions: a, b, V A and d.",
        "At junction a, the + of the battery E1 and R1 meet.",
        "At junction b, the − of the battery E1, the − of the battery E2 and R3 meet, "
        "and it is grounded.",
        "At junction V A, R1, R2 and R3 meet.",
        "At junction d, the + of the battery E2 and R2 meet.",
    ]


def test_dead_ends_and_loops_in_words() -> None:
    """An end where nothing else is ends; both ends of one element may meet."""
    told = [plain(s) for s in network_by_junction(drawing("V0:a-b R1:b-c R2:a-a I1:a-b A1:a-b"))]
    assert told[-1] == "At junction c, R1 ends."
    assert "both ends of R2" in told[1]
    assert "the head of the current source I1" in told[1]
    assert "an ammeter" in told[1]
    assert describe_network(drawing("R2:a-a")).endswith(
        "From a back to itself leads the resistor R2, 66.0 Ω."
    )


def test_terminals_in_words() -> None:
    """Open terminals are told where they are, the + junction first."""
    told = [plain(s) for s in network_by_junction(drawing("R1:a-b", terminals=("b", "a")))]
    assert told == [
        "The circuit has two junctions: b and a.",
        "At junction b, R1 and the + terminal meet.",
        "At junction a, R1 and the − terminal meet.",
    ]
