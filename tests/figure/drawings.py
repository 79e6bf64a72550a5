"""Seeded random circuits to draw, and short ways to write circuits down."""

from __future__ import annotations

import random
from collections.abc import Iterator

from builder.circuit.tree import Leaf, Tree, depth, in_parallel, in_series, leaves
from builder.figure import Drawing, Label, ValueText
from builder.quantity.names import Symbol, element_index

BATTERY = Label(Symbol("V", "0"), (ValueText("12 V", key="voltage:V0"),))
CURRENT = Label(Symbol("I", "0"), (ValueText("8 mA", key="current:I0"),))
CHARGE = Label(Symbol("Q", "0"), (ValueText("66.0 µC", key="charge:total"),))
SOURCES = {"voltage": BATTERY, "current": CURRENT, "charge": CHARGE, None: None}
NUMBERS = ("10", "22", "4.7", "0.047", "133", "66.0", "888", "1.00")
DEEPEST, MOST = 6, 20


def circuit(text: str) -> Tree:
    """A circuit from a short form: ``+`` joins in series, ``|`` in parallel: ``C1+(C2|C3)``."""
    tree, rest = _read(text.replace(" ", ""))
    assert not rest, f"{rest!r} is left of {text!r}"
    return tree


def _read(text: str) -> tuple[Tree, str]:
    parts, connection = [], ""
    while True:
        if text.startswith("("):
            part, text = _read(text[1:])
            text = text.removeprefix(")")
        else:
            end = next((i for i, c in enumerate(text) if c in "+|()"), len(text))
            part, text = Leaf(text[:end]), text[end:]
        parts.append(part)
        if not text or text[0] == ")":
            group = in_series if connection == "+" else in_parallel
            return group("+".join(part.id for part in parts), *parts), text
        assert connection in ("", text[0]), "brackets are missing"
        connection, text = text[0], text[1:]


def label(name: str, values: int, chance: random.Random) -> Label:
    """A label with an element's own value and values found."""
    letter = name[0]
    index = element_index(name, letter)
    own, flow = ("µF", ("Q", "charge", "µC")) if letter == "C" else ("kΩ", ("I", "current", "mA"))
    texts = [ValueText(f"{chance.choice(NUMBERS)} {own}", key=f"own:{name}")]
    for symbol, quantity, unit in (flow, ("V", "voltage", "mV")):
        number, sign = chance.choice(NUMBERS), chance.choice("=≈")
        key = f"{quantity}:{name}"
        texts.append(ValueText(f"{number} {unit}", Symbol(symbol, index), sign, key))
    return Label(Symbol(letter, index), tuple(texts[:values]))


def labels(tree: Tree, values: int = 1, seed: int = 1) -> dict[str, Label]:
    """Labels with so many values each for all elements of ``tree``."""
    chance = random.Random(seed)
    return {leaf: label(leaf, values, chance) for leaf in leaves(tree)}


def drawing(text: str, values: int = 1, source: str | None = "voltage") -> Drawing:
    """The drawing of a circuit in the short form; the first letter tells the kind."""
    tree = circuit(text)
    kind = "capacitor" if leaves(tree)[0][0] == "C" else "resistor"
    return Drawing(tree, kind, labels(tree, values), SOURCES[source], source)


def random_drawing(seed: int) -> Drawing:
    """A drawing of 2 to 20 elements in up to six levels, with all that a drawing may show."""
    chance = random.Random(seed)
    letter = chance.choice("CR")
    names = iter(f"{letter}{n}" for n in range(1, MOST + 1))
    series = chance.random() < 0.5
    tree = _grow(names, chance.randint(2, MOST), chance.randint(1, DEEPEST), series, chance)
    assert depth(tree) <= DEEPEST
    found = {leaf: label(leaf, chance.randint(1, 3), chance) for leaf in leaves(tree)}
    source = chance.choice(list(SOURCES))
    marked: frozenset[str] = frozenset()
    if chance.random() < 0.5 and not isinstance(tree, Leaf):
        marked = frozenset(leaves(chance.choice(tree.parts)))
    kind = "capacitor" if letter == "C" else "resistor"
    symbols = chance.choice(("iec", "ieee"))
    return Drawing(tree, kind, found, SOURCES[source], source, marked, symbols)


def _grow(
    names: Iterator[str], size: int, levels: int, series: bool, chance: random.Random
) -> Tree:
    if size == 1 or levels == 0:
        return Leaf(next(names))
    count = size if levels == 1 else chance.randint(2, min(size, 4))
    cuts = sorted(chance.sample(range(1, size), count - 1))
    sizes = [end - start for start, end in zip([0, *cuts], [*cuts, size], strict=True)]
    parts = [_grow(names, part, levels - 1, not series, chance) for part in sizes]
    name = f"group-{parts[0].id}-{size}"
    return in_series(name, *parts) if series else in_parallel(name, *parts)
