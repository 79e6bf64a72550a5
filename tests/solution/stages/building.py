"""Problems in stages, built without a file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.circuit.network import Element, Network, Source
from builder.circuit.switching import Charged, Stage, Switch
from builder.problem.model import StagesProblem
from builder.quantity.measure import read_measure
from builder.quantity.names import Name
from builder.solution.solve import solve
from builder.solution.stages.solve import StagesSolution

Ends = tuple[str, str]


def capacitor(name: str, value: str, *between: str) -> Element:
    """A capacitor between two junctions."""
    measure = read_measure(value)
    first, second = between
    return Element(name, measure.value, measure.shown, (first, second))


def battery(name: str, value: str, *between: str) -> Source:
    """A battery between two junctions, the + one first."""
    measure = read_measure(value)
    plus, minus = between
    return Source(name, "voltage", measure.value, measure.shown, (plus, minus))


def switch(name: str, *between: str, closed: bool = False) -> Switch:
    """A switch, open at first."""
    first, second = between
    return Switch(name, (first, second), closed)


def staged(
    parts: Iterable[Element | Source | Switch],
    stages: Iterable[Stage],
    charged: Mapping[str, str] | None = None,
    find: Iterable[tuple[str, str]] = (("charge", "C1"),),
) -> StagesProblem:
    """A problem; ``charged`` gives values as an author types them."""
    every = tuple(parts)
    elements = tuple(part for part in every if isinstance(part, Element))
    measures = {name: read_measure(text) for name, text in (charged or {}).items()}
    return StagesProblem(
        slug="staged",
        path="staged.yml",
        title="Staged",
        level="core",
        objectives=(),
        scenario="",
        find=tuple(Name(quantity, of) for quantity, of in find),
        network=Network(
            elements,
            elements[0].between,
            tuple(part for part in every if isinstance(part, Source)),
        ),
        switches=tuple(part for part in every if isinstance(part, Switch)),
        charged={n: Charged(m.kind, m.value, m.shown) for n, m in measures.items()},
        stages=tuple(stages),
    )


def solved(problem: StagesProblem) -> StagesSolution:
    """A solved problem in stages."""
    solution = solve(problem)
    assert isinstance(solution, StagesSolution)
    return solution


CLOSE = Stage(close=("S",))


def two_joined(
    first: str = "4 uF",
    second: str = "2 uF",
    charged: Mapping[str, str] | None = None,
    *,
    alike: bool = True,
) -> StagesProblem:
    """Two capacitors that a switch joins, plates alike or unlike at the first junction."""
    ends = ("b", "g") if alike else ("g", "b")
    return staged(
        [capacitor("C1", first, "a", "g"), capacitor("C2", second, *ends), switch("S", "a", "b")],
        [CLOSE],
        charged or {"C1": "12 V"},
        [("charge", "all"), ("energy", "lost")][1:],
    )
