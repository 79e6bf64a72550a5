"""Circuits that charge and discharge, written in a line each."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence

from builder.circuit.mixed import MixedCircuit
from builder.circuit.network import Element, Source
from builder.circuit.switching import Charged, Switch
from builder.problem.model import TransientProblem
from builder.problem.transient.moments import level_of
from builder.quantity.measure import read_measure
from builder.solution.transient.second import resting


def resistor(name: str, value: str, first: str, second: str) -> Element:
    """A resistor, or a capacitor, between two junctions."""
    measure = read_measure(value)
    return Element(name, measure.value, measure.shown, (first, second))


capacitor = resistor


def source(name: str, value: str, plus: str, minus: str) -> Source:
    """A source between two junctions."""
    measure = read_measure(value)
    return Source(name, measure.kind, measure.value, measure.shown, (plus, minus))


def charging(
    resistors: Sequence[Element],
    capacitors: Sequence[Element],
    sources: Sequence[Source] = (),
    *,
    times: Sequence[str] = (),
    levels: Sequence[tuple[str, str]] = (),
    charged: Mapping[str, str] | None = None,
    switches: Sequence[Switch] = (),
    flipped: Sequence[str] = (),
) -> TransientProblem:
    """A problem without a file that asks for nothing by itself."""
    told = {name: read_measure(text) for name, text in (charged or {}).items()}
    return TransientProblem(
        slug="charging",
        path="charging.yml",
        title="A circuit that charges",
        level="core",
        objectives=(),
        scenario="",
        find=(),
        circuit=MixedCircuit(
            tuple(resistors), tuple(capacitors), tuple(sources), tuple(switches), frozenset(flipped)
        ),
        charged={name: Charged(m.kind, m.value, m.shown) for name, m in told.items()},
        times={f"t{n}": read_measure(text) for n, text in enumerate(times, start=1)},
        levels={
            level_of(of, n): read_measure(text) for n, (of, text) in enumerate(levels, start=1)
        },
    )


def random_circuit(seed: int) -> TransientProblem:
    """A connected circuit of 2 to 7 resistors with up to two batteries and a capacitor.

    Where no battery acts on the capacitor it starts charged, so that something happens.
    """
    chance = random.Random(seed)
    points = [f"p{n}" for n in range(chance.randint(2, 4))]
    ends = [(points[chance.randrange(n)], points[n]) for n in range(1, len(points))]
    for _ in range(chance.randint(0, 2)):
        first, second = chance.sample(points, 2)
        ends.append((first, second))
    sources = []
    for number in range(1, chance.randint(1, 2) + 1):
        inside = f"s{number}"
        first, second = chance.sample(points, 2)
        ends.append((inside, first))
        sources.append(source(f"V{number}", f"{chance.randint(1, 24)} V", inside, second))
    resistors = [
        resistor(f"R{n}", f"{chance.randint(1, 90)} ohm", *pair)
        for n, pair in enumerate(ends, start=1)
    ]
    store = capacitor("C1", f"{chance.randint(1, 500)} uF", *chance.sample(points, 2))
    empty = MixedCircuit(tuple(resistors), (store,), tuple(sources))
    still = resting(empty, store.between) == 0
    charged = {"C1": f"{chance.randint(1, 30)} V"} if still or chance.random() < 0.5 else {}
    return charging(resistors, [store], sources, times=["2 ms", "7 ms"], charged=charged)
