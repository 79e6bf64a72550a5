"""Where an author wants the junctions of a figure: ``place:``."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from builder.problem.faults.gathering import Faults, meant, one_of, quoted
from builder.problem.typed import as_map, describe
from builder.problem.yaml_text.located import Items, Map, Node, Text, Unusable
from builder.quantity.exact import as_fraction, read_number

_FEW = 8


def read_place(
    circuit: Map, junctions: Sequence[str], faults: Faults
) -> dict[str, tuple[Fraction, Fraction]]:
    """Column and row of each junction that has a place, rows counted upwards.

    Args:
        circuit: what stands under ``circuit:``.
        junctions: all of the circuit.
        faults: takes what is wrong.
    """
    entry = circuit.get("place")
    places: dict[str, tuple[Fraction, Fraction]] = {}
    if entry is None:
        return places
    node = as_map(entry.value, "junctions, each with [column, row]", faults,
                  "Write each junction on a line of its own: top: [1, 2].")  # fmt: skip
    for place in node.entries if node else ():
        name = place.key
        # Where no junction could be read, the branches are at fault and not these names.
        if junctions and name.value not in junctions:
            few = junctions if len(junctions) <= _FEW else (*junctions[:7], "another")
            advice = meant(name.value, junctions, "Name one of the circuit.")
            faults.add(name.at, f"{quoted(name.value)}, which is no junction of the circuit",
                       one_of(few), advice)  # fmt: skip
            continue
        where = _two_numbers(place.value, faults)
        if where is None:
            continue
        taken = next((other for other, at in places.items() if at == where), None)
        if taken is not None:
            faults.add(place.value.at, f"{name.value} in the place of {taken}",
                       "each junction in a place of its own", "Move one of the two.")  # fmt: skip
        places[name.value] = where
    return places


def _two_numbers(node: Node, faults: Faults) -> tuple[Fraction, Fraction] | None:
    if isinstance(node, Unusable):
        return None
    texts = node.items if isinstance(node, Items) else ()
    try:
        numbers = [as_fraction(read_number(text.value)) for text in texts if isinstance(text, Text)]
    except ValueError:
        numbers = []
    if len(texts) == 2 and len(numbers) == 2 and all(abs(n) <= 100 for n in numbers):
        return numbers[0], numbers[1]
    faults.add(node.at, describe(node), "a column and a row, such as [1, 2]",
               "Write two numbers from -100 to 100 in square brackets.")  # fmt: skip
    return None
