"""Networks to draw: a short form to write them down, typical ones, and seeded random ones."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction
from typing import Any

import networkx

from builder.figure import Label, ValueText
from builder.figure.network import Arrow, Branch, LoopArrow, NetworkDrawing
from builder.quantity.names import Symbol

KIND_OF = {
    "V": "voltage-source", "E": "voltage-source", "I": "current-source", "C": "capacitor",
    "R": "resistor", "S": "switch-open", "K": "switch-closed", "A": "ammeter", "U": "voltmeter",
    "W": "wire", "G": "gap",
}  # fmt: skip
UNIT_OF = {"V": "V", "E": "V", "I": "mA", "C": "µF", "R": "Ω"}
NUMBERS = ("10", "22", "4.7", "0.047", "133", "66.0", "888", "1.00")
CUBE = "R1:a-b R2:b-c R3:c-d R4:d-a R5:e-f R6:f-g R7:g-h R8:h-e R9:a-e R10:b-f R11:c-g R12:d-h"
K4 = "R1:a-b R2:a-c R3:a-d R4:b-c R5:b-d R6:c-d"
OCTAHEDRON = (
    "R1:a-b R2:a-c R3:a-d R4:a-e R5:f-b R6:f-c R7:f-d R8:f-e R9:b-c R10:c-d R11:d-e R12:e-b"
)
TYPICAL = {
    "bridge": "V0:t-b R1:t-l R2:t-r R3:l-b R4:r-b R5:l-r",
    "bridge with internal resistance": "E1:q-b R6:t-q R1:t-l R2:t-r R3:l-b R4:r-b R5:l-r",
    "two loops": "E1:a-b R1:a-c E2:d-b R2:d-c R3:c-b",
    "three loops": "E1:a-p R1:p-z R2:a-b E2:b-q R3:q-z R4:b-c R5:c-z E3:c-w R6:w-z",
    "cube": CUBE,
    "cube along an edge": f"{CUBE} V0:a-b",
    "cube across a face": f"{CUBE} V0:a-c",
    "cube through the middle": f"{CUBE} V0:a-g",
    "ladder of three": "V0:a-z R1:a-b R2:b-z R3:b-c R4:c-z R5:c-d R6:d-z",
    "ladder of five": "V0:a-z R1:a-b R2:b-z R3:b-c R4:c-z R5:c-d R6:d-z R7:d-e R8:e-z "
                      "R9:e-f R10:f-z",
    "tetrahedron": K4,
    "five joined with each other": "V0:a-e R1:a-b R2:a-c R3:a-d R4:b-c R5:b-d R6:c-d R7:b-e "
                                   "R8:c-e R9:d-e",
    "three with three": "R1:a-x R2:a-y R3:a-z R4:b-x R5:b-y R6:b-z R7:c-x R8:c-y R9:c-z",
    "octahedron": OCTAHEDRON,
    "parallel batteries": "E1:a-p R1:p-z E2:a-q R2:q-z R3:a-z",
    "opposed sources": "E1:a-b R1:b-c E2:d-c R2:d-a",
    "star": "R1:a-o R2:b-o R3:c-o",
    "rungs": "V0:a-b R1:a-b R2:a-b R3:a-b R4:a-b R5:a-b",
    "mesh": "R1:a-b R2:b-c R3:d-e R4:e-f R5:a-d R6:b-e R7:c-f V0:a-d E2:c-f",
    "one element": "V0:a-b R1:a-b",
    "switches and meters": "V0:a-z S1:a-b R1:b-z C1:b-c K2:c-z A1:b-d R2:d-z U1:d-z",
    "gap and wire": "V0:a-b R1:a-b W1:a-c G1:c-b",
    "element on one junction": "V0:a-b R1:a-b R2:b-b",
    "dead end": "V0:a-b R1:a-b R2:b-c R3:c-d R4:c-d S1:d-e",
    "two islands": "C1:a-b K1:a-b C2:c-d R1:c-d",
}  # fmt: skip
CROSSED = {"five joined with each other": 1, "three with three": 1, "cube through the middle": 1}


def network(text: str) -> tuple[Branch, ...]:
    """Branches from a short form: ``V0:a-b R1:a-b``, the + junction of a source first."""
    branches = []
    for word in text.split():
        name, ends = word.split(":")
        start, end = ends.split("-")
        branches.append(Branch(name, KIND_OF[name[0]], (start, end), None))
    return tuple(branches)


def label(name: str, found: int, chance: random.Random) -> Label | None:
    """A label with the element's own value, and values found for capacitors and resistors."""
    letter, index = name[0], name[1:]
    if letter not in UNIT_OF:
        return Label(Symbol(letter, index)) if letter in "SK" else None
    texts = [ValueText(f"{chance.choice(NUMBERS)} {UNIT_OF[letter]}", key=f"own:{name}")]
    if letter in "CR":
        flow = ("Q", "µC") if letter == "C" else ("I", "mA")
        for symbol, unit in (flow, ("V", "V"))[:found]:
            number, sign = chance.choice(NUMBERS), chance.choice("=≈")
            key = f"{symbol}:{name}"
            texts.append(ValueText(f"{number} {unit}", Symbol(symbol, index), sign, key))
    return Label(Symbol(letter, index), tuple(texts))


def drawing(text: str, found: int = 0, **asked: Any) -> NetworkDrawing:
    """The drawing of a network in the short form."""
    chance = random.Random(7)
    branches = tuple(replace(b, label=label(b.id, found, chance)) for b in network(text))
    return NetworkDrawing(branches, **asked)


PLACES: dict[str, tuple[str, dict[str, tuple[int, int]]]] = {
    "bridge as a diamond": (
        TYPICAL["bridge"], {"t": (1, 2), "l": (0, 1), "r": (2, 1), "b": (1, 0)}
    ),
    "source in a row": ("V0:a-b R1:b-c R2:c-a R3:a-c", {"a": (0, 0), "b": (1, 0), "c": (2, 0)}),
    "six at one place": (TYPICAL["rungs"], {"a": (0, 1), "b": (0, 0)}),
    "crossing on purpose": (
        "R1:a-c R2:b-d R3:a-b R4:c-d V0:a-d", {"a": (0, 1), "b": (1, 1), "c": (1, 0), "d": (0, 0)}
    ),
    "some alone": (TYPICAL["mesh"], {"a": (0, 1), "c": (2, 1), "f": (2, 0)}),
}  # fmt: skip


def placed_drawing(name: str) -> NetworkDrawing:
    """A drawing whose junctions an author has placed."""
    text, places = PLACES[name]
    place = {j: (Fraction(column), Fraction(row)) for j, (column, row) in places.items()}
    return drawing(text, 1, place=place)


def open_drawings() -> list[NetworkDrawing]:
    """Drawings with open terminals: at the left, and where that would cross, as short wires."""
    cases = [(CUBE, "ab"), (CUBE, "ac"), (CUBE, "ag"), (OCTAHEDRON, "af"), (K4, "ad")]
    cases += [("R1:a-b", "ab"), ("R1:a-b R2:b-c R3:b-c", "ac"), ("R1:a-o R2:b-o R3:c-o", "ac")]
    return [drawing(text, 1, terminals=(ends[0], ends[1])) for text, ends in cases]


def full_drawing() -> NetworkDrawing:
    """A bridge with names, a ground, arrows on all branches and loop arrows."""
    plain = drawing(TYPICAL["bridge"])
    branches = tuple(
        replace(b, arrow=Arrow(True, Symbol("I", b.id[1:])), polarity=True) for b in plain.branches
    )
    return replace(
        plain,
        branches=branches,
        junction_names={"t": "A", "l": "B", "r": "C", "b": "D"},
        grounded="b",
        loops=(
            LoopArrow(Symbol("I", "a"), ("t", "l", "b")),
            LoopArrow(Symbol("I", "b"), ("t", "r", "l"), clockwise_as_listed=False),
        ),
    )


def random_drawing(seed: int, most: int = 16) -> NetworkDrawing:
    """A planar network of 3 to 16 elements and up to 3 sources, with all that may be shown."""
    chance = random.Random(seed)
    pairs = _grown(chance.randint(3, most), chance)
    sources = chance.randint(1, min(3, len(pairs) - 1))
    letter = chance.choice("RC")
    found = chance.randint(0, 2)
    names = [f"V{n}" for n in range(1, sources + 1)]
    names += [f"{letter}{n}" for n in range(1, len(pairs) - sources + 1)]
    order = chance.sample(range(len(pairs)), len(pairs))
    branches = [
        _dressed(Branch(name, KIND_OF[name[0]], pairs[at], label(name, found, chance)), chance)
        for name, at in zip(names, order, strict=True)
    ]
    if letter == "R" and chance.random() < 0.3:
        first = branches[0]
        kept = first.label
        branches[0] = replace(first, kind="current-source", label=kept)
    junctions = sorted({junction for pair in pairs for junction in pair})
    named = junctions if chance.random() < 0.4 else ()
    return NetworkDrawing(
        tuple(branches),
        junction_names={j: chance.choice((j.upper(), Symbol("V", j))) for j in named},
        grounded=chance.choice(junctions) if chance.random() < 0.3 else None,
        symbols=chance.choice(("iec", "ieee")),
    )


def wild_drawing(seed: int) -> NetworkDrawing:
    """Any network at all: dead ends, islands, loops on one junction, crossings, odd places."""
    chance = random.Random(seed)
    letters = "abcdefghi"[: chance.randint(1, 9)]
    words = []
    for number in range(chance.randint(1, 14)):
        kind = chance.choice("VRRRRCCSKAUWGI") if chance.random() < 0.5 else "R"
        words.append(f"{kind}{number}:{chance.choice(letters)}-{chance.choice(letters)}")
    asked = drawing(" ".join(words), chance.randint(0, 2))
    junctions = sorted({junction for branch in asked.branches for junction in branch.between})
    ends = None
    if chance.random() < 0.3 and len(junctions) > 1:
        ends = (junctions[0], chance.choice(junctions[1:]))
    place = {j: (Fraction(chance.randint(0, 4)), Fraction(chance.randint(0, 3)))
             for j in junctions if chance.random() < 0.8}  # fmt: skip
    names = {j: f"node {j}" if chance.random() < 0.2 else j.upper() for j in junctions}
    return replace(
        asked,
        branches=tuple(_dressed(branch, chance) for branch in asked.branches),
        terminals=ends,
        place=place if chance.random() < 0.4 else {},
        junction_names=names if chance.random() < 0.3 else {},
        grounded=chance.choice(junctions) if chance.random() < 0.3 else None,
        hint={j: (chance.random(), chance.random()) for j in junctions},
    )


def _dressed(branch: Branch, chance: random.Random) -> Branch:
    """The branch with what else may stand beside it, now and then."""
    if chance.random() < 0.15:
        branch = replace(branch, marked=True)
    if chance.random() < 0.2:
        value = ValueText("1.5 mA", key=f"flow:{branch.id}") if chance.random() < 0.5 else None
        arrow = Arrow(chance.random() < 0.5, Symbol("I", branch.id[1:]), value)
        branch = replace(branch, arrow=arrow)
    if branch.kind == "capacitor" and chance.random() < 0.2:
        branch = replace(branch, plates=(ValueText("+24 µC"), ValueText("−24 µC")))
    elif chance.random() < 0.15:
        branch = replace(branch, polarity=True)
    return branch


def _grown(size: int, chance: random.Random) -> list[tuple[str, str]]:
    """Pairs of junctions of a connected planar network, grown from two parallel branches."""
    pairs = [("a", "b"), ("a", "b")]
    names = (f"{letter}" for letter in "cdefghijklmnopqrstuvwxyz")
    while len(pairs) < size:
        way = chance.random()
        at = chance.randrange(len(pairs))
        start, end = pairs[at]
        if way < 0.45:
            middle = next(names)
            pairs[at : at + 1] = [(start, middle), (middle, end)]
        elif way < 0.6:
            pairs.append((start, end))
        else:
            junctions = sorted({junction for pair in pairs for junction in pair})
            joined = tuple(chance.sample(junctions, 2))
            if networkx.check_planarity(networkx.Graph([*pairs, joined]))[0]:
                pairs.append((joined[0], joined[1]))
    return [pair if chance.random() < 0.5 else pair[::-1] for pair in pairs]
