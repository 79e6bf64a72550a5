"""Random networks: connected, nothing loose, with sources that do not contradict each other."""

from __future__ import annotations

from dataclasses import dataclass, field

from hypothesis import strategies as st

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from tests.strategies import UNITS, typed_numbers

MOST_JUNCTIONS = 12


@dataclass
class Wiring:
    """A table of branches as it grows.

    Attributes:
        law: of the elements.
        rows: of the table, as an author types them.
        junctions: how many there are.
        ties: the set of junctions that voltage sources tie together, by each member.
        counts: how many elements and sources of each letter there are.
    """

    law: Law
    rows: list[str] = field(default_factory=list)
    junctions: int = 0
    ties: dict[int, int] = field(default_factory=dict)
    counts: dict[str, int] = field(default_factory=dict)

    def junction(self) -> int:
        """A new junction."""
        self.ties[self.junctions] = self.junctions
        self.junctions += 1
        return self.junctions - 1

    def add(self, letter: str, key: str, value: str, ends: tuple[int, int]) -> None:
        """A new row."""
        self.counts[letter] = self.counts.get(letter, 0) + 1
        name = f"{letter}{self.counts[letter]}"
        between = f"[j{ends[0]}, j{ends[1]}]"
        self.rows.append(f"{name}: {{{key}: {value}, between: {between}}}")

    def tie(self, ends: tuple[int, int]) -> bool:
        """Tie two junctions by a voltage source, if they are not tied yet."""
        first, second = self.ties[ends[0]], self.ties[ends[1]]
        if first == second:
            return False
        self.ties = {j: first if t == second else t for j, t in self.ties.items()}
        return True


@st.composite
def tables(draw: st.DrawFn, law: Law | None = None, most_sources: int = 4) -> tuple[Law, str]:
    """The law and the YAML lines of a table that can be solved, with one to four sources.

    A ring of branches comes first, then branches from one junction to another, so that
    everything lies in a loop. A branch is an element, two in series, an element with a source,
    or a source alone.
    """
    law = law or draw(st.sampled_from((RESISTORS, CAPACITORS)))
    wiring = Wiring(law)
    sources = draw(st.integers(1, most_sources))
    nodes = [wiring.junction() for _ in range(draw(st.integers(2, 5)))]
    ring = list(zip(nodes, [*nodes[1:], nodes[0]], strict=True))
    more = draw(st.integers(0, 4))
    ears = [tuple(draw(st.permutations(nodes))[:2]) for _ in range(more)]
    plain = draw(st.integers(0, len(ring) - 1))
    for at, ends in enumerate([*ring, *ears]):
        kind = "element" if at == plain else draw(
            st.sampled_from(("element", "chain", "sourced", "source", "current"))
        )  # fmt: skip
        if at in range(len(ring)) and kind == "current":
            kind = "element"
        sources -= _branch(draw, wiring, kind, (ends[0], ends[1]), sources)
    if not any(letter in wiring.counts for letter in "EJ"):
        _branch(draw, wiring, "sourced", ring[0], 1)
    return law, "\n".join(f"    {row}" for row in wiring.rows)


def _branch(draw: st.DrawFn, wiring: Wiring, kind: str, ends: tuple[int, int], sources: int) -> int:
    """Add a branch; how many sources it used up."""
    law = wiring.law
    room = wiring.junctions < MOST_JUNCTIONS

    def element(pair: tuple[int, int]) -> None:
        wiring.add(law.letter, law.value, f"{draw(typed_numbers())} {UNITS[law.value]}", pair)

    if kind == "current" and sources > 0 and law is RESISTORS:
        wiring.add("J", "current", f"{draw(typed_numbers())} mA", ends)
        return 1
    if kind == "source" and sources > 0 and wiring.tie(ends):
        wiring.add("E", "emf", f"{draw(typed_numbers())} V", ends)
        return 1
    if kind in ("chain", "sourced") and room:
        middle = wiring.junction()
        if kind == "sourced" and sources > 0:
            wiring.tie((ends[0], middle))
            flip = draw(st.booleans())
            pair = (middle, ends[0]) if flip else (ends[0], middle)
            wiring.add("E", "emf", f"{draw(typed_numbers())} V", pair)
            element((middle, ends[1]))
            return 1
        element((ends[0], middle))
        element((ends[1], middle))
        return 0
    element(ends)
    return 0
