"""The tables of all results: elements, sources, potentials."""

from __future__ import annotations

from collections.abc import Iterator

from builder.lesson.lesson import Row, Table
from builder.lesson.network.display import POTENTIAL, NetworkDisplay
from builder.lesson.prose import Prose, say
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name


def tables(display: NetworkDisplay) -> tuple[Table, ...]:
    """All results."""
    made = [_of_elements(display), *_of_sources(display), *_of_potentials(display)]
    if len(made) == 1 and not display.signed:
        (only,) = made
        return (Table((), only.first, only.heads, only.rows),)
    return tuple(made)


def _of_elements(display: NetworkDisplay) -> Table:
    law, values = display.law, display.solution.values
    quantities = law.quantities if display.network.sources else (law.value,)
    rows = [
        Row(_label(id, display), _known([Name(kind, id) for kind in quantities], display))
        for id in display.members
    ]
    whole = [display.resolve(Name(kind, TOTAL)) for kind in quantities]
    if display.resolve(Name(law.value, TOTAL)) in values and len(rows) > 1:
        rows.append(Row(say("Whole circuit"), _known(whole, display), total=True))
    title = say("{ones}s", ones=law.element.capitalize())
    if _some_negative(rows, display):
        title = say("{title}; a minus means against the direction that is named", title=title)
    heads = tuple(KINDS[kind].noun.capitalize() for kind in quantities)
    return Table(title, law.element.capitalize(), heads, tuple(rows))


def _some_negative(rows: list[Row], display: NetworkDisplay) -> bool:
    values = display.solution.values
    return any(values[name] < 0 for row in rows for name in row.names if name is not None)


def _label(id: str, display: NetworkDisplay) -> Prose:
    if not display.signed:
        return (display.element(id),)
    return say("{one}, {way}", one=display.element(id), way=display.way(id))


def _known(names: list[Name], display: NetworkDisplay) -> tuple[Name | None, ...]:
    return tuple(name if name in display.solution.values else None for name in names)


def _of_sources(display: NetworkDisplay) -> Iterator[Table]:
    law = display.law
    sources = display.network.sources
    if len(sources) < 2 or law.work == "energy":
        return  # of one source the last row of the elements tells everything
    kinds = (law.drop, law.flow, law.work)
    rows = tuple(
        Row((display.element(source.name),),
            tuple(display.delivered(source.name, kind) for kind in kinds))
        for source in sources
    )  # fmt: skip
    some = _some_negative(list(rows), display)
    title = say("Sources; a minus means that it takes in" if some else "Sources")
    heads = ("Voltage", "Current delivered", "Power delivered")
    yield Table(title, "Source", heads, rows)


def _of_potentials(display: NetworkDisplay) -> Iterator[Table]:
    """The potentials of all junctions, where the solution worked with them."""
    worked = {name for step in display.solution.steps for name in step.found}
    used = any(name.quantity == POTENTIAL for name in (*worked, *display.solution.problem.find))
    if not used:
        return
    values = display.solution.values
    names = [Name(POTENTIAL, junction) for junction in display.network.junctions]
    rows = tuple(Row(say("Junction {name}", name=name.of), (name,)) for name in names
                 if name in values)  # fmt: skip
    zero = next((step.reference for step in display.solution.steps if step.reference), "")
    title = say("Junctions, against junction {zero}", zero=zero) if zero else say("Junctions")
    yield Table(title, "Junction", ("Potential",), rows)
