"""Curves of charging and discharging against a numerical integration by scipy."""

from __future__ import annotations

import numpy
import pytest
from scipy.integrate import solve_ivp

from builder.problem.transient.moments import START, at
from builder.quantity.names import Name
from builder.solution.transient.solve import TransientSolution, solve_transient
from tests.solution.transient.circuits import random_circuit


def _into_store(solution: TransientSolution, volts: float) -> float:
    """The current into the store while it holds ``volts``, by numpy's nodal equations."""
    circuit, (plus, minus) = solution.problem.circuit, solution.store.ends
    points = [point for point in circuit.junctions if point != minus]
    drives = [(s.between, float(s.value)) for s in circuit.sources] + [((plus, minus), volts)]
    size = len(points) + len(drives)
    matrix, right = numpy.zeros((size, size)), numpy.zeros(size)
    for resistor in circuit.resistors:
        signs = zip(resistor.between, (1.0, -1.0), strict=True)
        row = numpy.zeros(size)
        for point, sign in signs:
            if point != minus:
                row[points.index(point)] = sign
        matrix += numpy.outer(row, row) / float(resistor.value)
    for column, (ends, height) in enumerate(drives, start=len(points)):
        for point, sign in zip(ends, (1.0, -1.0), strict=True):
            if point != minus:
                matrix[points.index(point), column] -= sign
                matrix[column, points.index(point)] += sign
        right[column] = height
    return -float(numpy.linalg.solve(matrix, right)[-1])


@pytest.mark.parametrize("seed", range(100))
def test_the_curve_is_that_of_the_integrated_equation(seed: int) -> None:
    """C·dv/dt is the current into the store: integrated, it meets the exact curve within 1e-6."""
    solution = solve_transient(random_circuit(seed))
    values, store = solution.values, solution.store.id
    capacity = float(values[Name("capacitance", store)])
    slope, height = (_into_store(solution, v) for v in (1.0, 0.0))
    start = float(values[at("voltage", store, START)])
    moments = {when: float(values[Name("time", when)]) for when in ("t1", "t2")}
    curve = solve_ivp(
        lambda _, v: (height + (slope - height) * v) / capacity,
        (0.0, max(moments.values())), [start], t_eval=sorted(moments.values()),
        method="LSODA", rtol=1e-10, atol=1e-12,
    )  # fmt: skip
    for when, integrated in zip(("t1", "t2"), curve.y[0], strict=True):
        exact = float(values[at("voltage", store, when)])
        assert exact == pytest.approx(integrated, rel=1e-6, abs=1e-9)
