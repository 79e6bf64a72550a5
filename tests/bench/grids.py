"""How fast a large grid of resistances is solved exactly, beside a general solver and numpy."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from functools import partial
from random import Random
from typing import TypeVar

import numpy as np
from sympy import Integer, Rational, Symbol
from sympy import solve as general_solve

from builder.circuit.law import RESISTORS
from builder.circuit.network import Element, Network, Source
from builder.quantity.exact import Exact
from builder.quantity.show import Shown
from builder.solution.network.second import analyse

SIDE = 20
GENERAL_SIDES = (4, 7, 10)
"""The general solver is asked for these grids only: it takes far too long for larger ones."""
SHOWN = Shown("", "", exact=True)
Result = TypeVar("Result")


def grid(side: int) -> Network:
    """A square grid of resistances such as 37/7 Ω, 12 V across two opposite corners."""
    chance = Random(side)
    elements: list[Element] = []
    for row in range(side):
        for column in range(side):
            for there in ((row, column + 1), (row + 1, column)):
                if max(there) < side:
                    value = Rational(chance.randint(10, 99), chance.randint(2, 9))
                    ends = (f"{row},{column}", f"{there[0]},{there[1]}")
                    elements.append(Element(f"R{len(elements)}", value, SHOWN, ends))
    corners = ("0,0", f"{side - 1},{side - 1}")
    source = Source("V0", "voltage", Integer(12), SHOWN, corners)
    return Network(tuple(elements), corners, (source,))


def measure_grids() -> Iterator[str]:
    """Time the exact analysis of grids, and the two others on the same grids."""
    for side in (*GENERAL_SIDES, SIDE):
        network = grid(side)
        (exact, flows), took = _timed(partial(analyse, network, RESISTORS))
        floats, by_numpy = _timed(partial(_by_numpy, network))
        off = max(abs(float(exact[name]) - floats[name]) for name in exact)
        digits = len(str(flows["V0"].p)) + len(str(flows["V0"].q))
        yield (
            f"grid of {side * side} junctions: exact in {took:.3f} s (the current has {digits} "
            f"digits), numpy in {by_numpy:.4f} s, {off:.0e} V apart"
        )
        if side in GENERAL_SIDES:
            general, slow = _timed(partial(_by_general_solver, network))
            same = all(general[name] == exact[name] for name in exact)
            yield (
                f"grid of {side * side} junctions: sympy's general solve in {slow:.3f} s, "
                f"{'the same' if same else 'OTHER'} values"
            )


def _timed(work: Callable[[], Result]) -> tuple[Result, float]:
    start = time.perf_counter()
    result = work()
    return result, time.perf_counter() - start


def _balances(network: Network) -> dict[str, list[tuple[str, Rational]]]:
    """The conductance from each junction to each neighbour."""
    around: dict[str, list[tuple[str, Rational]]] = {}
    for element in network.elements:
        for here, there in (element.between, element.between[::-1]):
            around.setdefault(here, []).append((there, 1 / element.value))
    return around


def _by_general_solver(network: Network) -> dict[str, Exact]:
    plus, minus = network.terminals
    volts = {name: Symbol(f"v{at}") for at, name in enumerate(network.junctions)}
    equations = [volts[plus] - 12, volts[minus]]
    for here, around in _balances(network).items():
        if here not in network.terminals:
            equations.append(sum(g * (volts[here] - volts[there]) for there, g in around))
    solved = general_solve(equations, list(volts.values()))
    return {name: solved[symbol] for name, symbol in volts.items()}


def _by_numpy(network: Network) -> dict[str, float]:
    names = network.junctions
    at = {name: row for row, name in enumerate(names)}
    matrix, right = np.zeros((len(at), len(at))), np.zeros(len(at))
    for here, around in _balances(network).items():
        row = at[here]
        if here in network.terminals:
            matrix[row, row] = 1
            right[row] = 12 if here == network.terminals[0] else 0
            continue
        for there, conductance in around:
            matrix[row, row] += float(conductance)
            matrix[row, at[there]] -= float(conductance)
    return dict(zip(names, np.linalg.solve(matrix, right).tolist(), strict=True))
