"""All results: a table for the start and for each stage that changes something, and the energy."""

from __future__ import annotations

from collections.abc import Iterator

from builder.circuit.switching import LOST, moment
from builder.lesson.lesson import Row, Table
from builder.lesson.prose import capitalised, say
from builder.lesson.stages.display import StagesDisplay
from builder.quantity.names import TOTAL, Name

_HEADS = ("Capacitance", "Charge", "Voltage", "Energy")
_KINDS = ("charge", "voltage", "energy")


def tables(display: StagesDisplay) -> tuple[Table, ...]:
    """The tables, in order."""
    moments = [
        stage for stage in (0, *display.history.active) if stage or _charged_at_start(display)
    ]
    found = [_of_moment(stage, display) for stage in moments or [0]]
    if display.history.active:
        found.append(_account(display))
    return tuple(found)


def _charged_at_start(display: StagesDisplay) -> bool:
    return any(charge != 0 for charge in display.solution.story.charges[0].values())


def _of_moment(stage: int, display: StagesDisplay) -> Table:
    rows = [
        Row((display.element(name),),
            (Name("capacitance", name),
             *(display.resolve(Name(kind, moment(name, stage))) for kind in _KINDS)))
        for name in display.members
    ]  # fmt: skip
    if len(rows) > 1:
        whole = display.resolve(Name("energy", moment(TOTAL, stage)))
        rows.append(Row(say("All together"), (None, None, None, whole), total=True))
    return Table(capitalised(display.after(stage)), "Capacitor", _HEADS, tuple(rows))


def _account(display: StagesDisplay) -> Table:
    """Where the energy comes from in each stage, and where it goes."""
    batteries = tuple(
        f"Delivered by {display.symbol(Name('voltage', battery)).text}"
        for battery in display.batteries
    )
    heads = ("Stored before", *batteries, "Stored after", "Turned into heat")
    rows = [Row(capitalised(display.after(stage)), tuple(_of_stage(stage, display)))
            for stage in display.history.active]  # fmt: skip
    return Table(say("Where the energy goes"), "Stage", heads, tuple(rows))


def _of_stage(stage: int, display: StagesDisplay) -> Iterator[Name | None]:
    yield Name("energy", moment(TOTAL, display.history.before(stage)))
    yield from (Name("energy", moment(battery, stage)) for battery in display.batteries)
    yield Name("energy", moment(TOTAL, stage))
    yield Name("energy", moment(LOST, stage))
