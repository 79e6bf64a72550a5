"""Where chains and rails run on the grid, whoever has laid them out."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.figure.network.skeleton import Chain

Cell = tuple[int, int]


@dataclass(frozen=True)
class Route:
    """The way of a chain.

    Attributes:
        chain: what runs there.
        cells: its corners, crossings and ends from start to end.
        crossed: the places among them where it only crosses another one.
        lead: whether it stands at the left with its first source upright.
        seat: the straight piece where its first element belongs; None for any.
    """

    chain: Chain
    cells: tuple[Cell, ...]
    crossed: frozenset[Cell] = frozenset()
    lead: bool = False
    seat: int | None = None


@dataclass(frozen=True)
class RailRun:
    """A plain wire within one junction."""

    junction: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True)
class Course:
    """A whole figure on the grid.

    Attributes:
        routes: the chains.
        rails: plain wires of junctions with many edges.
        spots: where each junction that is a point lies.
    """

    routes: tuple[Route, ...]
    rails: tuple[RailRun, ...]
    spots: dict[str, Cell]

    def shifted(self, columns: int) -> Course:
        """The same figure so many columns further right."""

        def move(cells: tuple[Cell, ...]) -> tuple[Cell, ...]:
            return tuple((column + columns, row) for column, row in cells)

        return Course(
            tuple(
                replace(r, cells=move(r.cells), crossed=frozenset(move(tuple(r.crossed))))
                for r in self.routes
            ),
            tuple(RailRun(rail.junction, move(rail.cells)) for rail in self.rails),
            {junction: move((cell,))[0] for junction, cell in self.spots.items()},
        )

    def pressed(self) -> Course:
        """The same figure without the columns and rows that nothing stands on."""
        cells = {cell for run in self._all() for cell in run} | set(self.spots.values())
        column = {c: n for n, c in enumerate(sorted({c for c, _ in cells}))}
        row = {r: n for n, r in enumerate(sorted({r for _, r in cells}))}

        def press(cell: Cell) -> Cell:
            return column[cell[0]], row[cell[1]]

        return Course(
            tuple(
                replace(
                    r, cells=tuple(map(press, r.cells)), crossed=frozenset(map(press, r.crossed))
                )
                for r in self.routes
            ),
            tuple(RailRun(rail.junction, tuple(map(press, rail.cells))) for rail in self.rails),
            {point: press(cell) for point, cell in self.spots.items()},
        )

    @property
    def columns(self) -> int:
        """The number of columns."""
        return 1 + max(c for cells in self._all() for c, _ in cells)

    @property
    def rows(self) -> int:
        """The number of rows."""
        return 1 + max(r for cells in self._all() for _, r in cells)

    def _all(self) -> list[tuple[Cell, ...]]:
        return [*(route.cells for route in self.routes), *(rail.cells for rail in self.rails)]
