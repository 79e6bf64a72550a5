"""A table of capacitors, batteries and switches, and the stages beside it, become a problem."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from fractions import Fraction

from builder.circuit.network import Element, Network, Source
from builder.circuit.settling import settled
from builder.circuit.switching import LOST, BatteryLoop, Charged, Stage, Switch, wire_up
from builder.problem.faults.gathering import (
    Faults,
    Mark,
    all_of,
    did_you_mean,
    meant,
    nearest,
    one_of,
    quoted,
)
from builder.problem.parts import ALL, Given, Parts, read_value
from builder.problem.placing import read_place
from builder.problem.stages.stage_list import ReadStage, read_stages, starts_closed
from builder.problem.table import SWITCH, Row, Table
from builder.problem.together import check_together
from builder.problem.yaml_text.located import Entry, Map
from builder.quantity.exact import Exact
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, element_index

STAGES = "stages"
_TAKEN = ("branches", "place")
_CHARGED = "a voltage such as 12 V, or a charge such as 60 uC"


@dataclass
class StagesReading:
    """A problem in stages as far as it could be read.

    Attributes:
        table: the branches.
        faults: of the file.
        network: capacitors and batteries; None if there is a fault.
        switches, charged, place: as ``StagesProblem`` has them.
        stages: with the places of what they name.
    """

    table: Table
    faults: Faults
    network: Network | None = None
    switches: tuple[Switch, ...] = ()
    charged: dict[str, Charged] = field(default_factory=dict)
    stages: tuple[ReadStage, ...] = ()
    place: dict[str, tuple[Fraction, Fraction]] = field(default_factory=dict)


def read_in_stages(
    circuit: Map, table: Table, stages: Entry | None, faults: Faults
) -> StagesReading:
    """Read a problem in stages.

    Args:
        circuit: what stands under ``circuit:``.
        table: its branches, read already.
        stages: the entry ``stages:``, or None without one.
        faults: takes what is wrong.
    """
    reading = StagesReading(table, faults)
    _refuse_other_keys(circuit, faults)
    _check_rows(reading)
    reading.switches = tuple(
        Switch(row.name.value, row.between, starts_closed(row)) for row in table.of(SWITCH)
    )
    _read_charged(reading)
    junctions = tuple(dict.fromkeys(end for row in table.rows for end in row.between))
    reading.place = read_place(circuit, junctions, faults)
    if stages is None:
        first = next((row for row in table.rows if row.kind == SWITCH or "charged" in row.more),
                     None)  # fmt: skip
        faults.add(first.name.at if first else table.at.at, "switches or charges without stages",
                   "stages: with what is done, such as - close: S1",
                   "Add stages: below the circuit, one line for each stage.")  # fmt: skip
    else:
        reading.stages = read_stages(stages, table, faults)
    if table.sound and not len(faults):
        _refuse_loose(table, faults)
    if table.sound and not len(faults):
        reading.network = _network(table)
        _try(reading)
    return reading


def _refuse_other_keys(circuit: Map, faults: Faults) -> None:
    for entry in circuit.entries:
        key = entry.key
        if key.value == "source":
            faults.add(key.at, "source beside branches that switches join", one_of(_TAKEN),
                       "Write the battery among the branches: V0: {emf: 12 V, between: "
                       "[top, bottom]}.")  # fmt: skip
        elif key.value not in _TAKEN:
            faults.add(key.at, f"{quoted(key.value)} beside stages", one_of(_TAKEN),
                       meant(key.value, _TAKEN, "Put all elements under branches:."))  # fmt: skip


def _check_rows(reading: StagesReading) -> None:
    """Refuse what does not settle, and names that would be printed alike or mean something."""
    faults, parts = reading.faults, Parts(reading.faults)
    printed: dict[tuple[str, str], str] = {}
    for row in reading.table.rows:
        name = row.name
        if name.value in (LOST, TOTAL, ALL):
            faults.add(name.at, f"the name {quoted(name.value)}",
                       "a name that means nothing else here",
                       "Choose a name such as C1, V0 or S1.")  # fmt: skip
        if row.kind == "resistance":
            faults.add(name.at, f"the resistor {name.value} in a circuit with stages",
                       "capacitors, batteries and switches",
                       "A resistor only slows the charge down: what the capacitors hold in the end "
                       "is the same without it. Leave it out.")  # fmt: skip
        elif row.kind == "current":
            faults.add(name.at, f"the current source {name.value} in a circuit with stages",
                       "batteries, with emf",
                       "A steady current would charge the capacitors for ever. Write emf: with a "
                       "voltage.")  # fmt: skip
        elif row.kind == "capacitance":
            parts.elements[name.value] = Given(name, row.at, row.value)
        _refuse_inner(row, faults)
        if row.kind in ("emf", SWITCH):
            letter = KINDS["voltage"].symbol if row.kind == "emf" else "S"
            key = (letter, element_index(name.value, letter))
            if key in printed:
                faults.add(name.at, f"the names {quoted(printed[key])} and {quoted(name.value)}",
                           "names that look different on the page",
                           "Both would be printed alike. Give one of them another "
                           "name.")  # fmt: skip
            printed.setdefault(key, name.value)
    check_together(parts)
    if reading.table.kinds_known and "capacitance" not in reading.table.named.values():
        faults.add(reading.table.at.at, "a circuit with stages and without capacitors",
                   "at least one capacitor", "Add the capacitors.")  # fmt: skip


def _refuse_inner(row: Row, faults: Faults) -> None:
    inner = row.more.get("inner")
    if inner is not None:
        faults.add(inner.key.at, "inner, in a circuit of capacitors",
                   "batteries without internal resistance",
                   "Delete it: it changes nothing once no charge moves any more.")  # fmt: skip


def _read_charged(reading: StagesReading) -> None:
    for row in reading.table.of("capacitance"):
        entry = row.more.get("charged")
        if entry is None:
            continue
        measure = read_value(entry.value, ("voltage", "charge"), _CHARGED, reading.faults)
        if measure is not None and measure.value < 0:
            advice = (f"The first junction of {row.name.value} is the + one: write its junctions "
                      "the other way round, without the minus sign.")  # fmt: skip
            reading.faults.add(entry.value.at, f"a capacitor charged to {measure.shown.text}",
                               "a voltage or a charge above zero", advice)  # fmt: skip
        elif measure is not None and measure.value == 0:
            reading.faults.add(entry.value.at, f"a capacitor charged to {measure.shown.text}",
                               "a voltage or a charge above zero",
                               "Delete charged: a capacitor without it starts empty.")  # fmt: skip
        elif measure is not None:
            reading.charged[row.name.value] = Charged(measure.kind, measure.value, measure.shown)


def _refuse_loose(table: Table, faults: Faults) -> None:
    """A junction at which a single branch ends is most often a misspelled one."""
    ends = Counter(end for row in table.rows for end in row.between)
    for row in table.rows:
        for place in row.ends:
            if ends[place.value] > 1:
                continue
            near = nearest(place.value, [end for end in ends if end != place.value])
            faults.add(place.at, f"the junction {quoted(place.value)}, where nothing but "
                       f"{row.name.value} ends", "at least two branches at each junction",
                       did_you_mean(place.value, near) if near
                       else f"Connect something else there, or leave {row.name.value} "
                       "out.")  # fmt: skip


def _network(table: Table) -> Network:
    rows = [row for row in table.rows if row.value is not None]
    elements = tuple(
        Element(row.name.value, row.value.value, row.value.shown, row.between)
        for row in rows
        if row.kind == "capacitance" and row.value is not None
    )
    batteries = tuple(
        Source(row.name.value, "voltage", row.value.value, row.value.shown, row.between)
        for row in rows
        if row.kind == "emf" and row.value is not None
    )
    return Network(elements, (batteries or elements)[0].between, batteries)


def _try(reading: StagesReading) -> None:
    """Let the start and each stage settle, to find what cannot be."""
    network = reading.network
    assert network is not None
    charges = _first_charges(network, reading.charged)
    closed = frozenset(switch.name for switch in reading.switches if switch.closed)
    place = _first_battery(reading)
    wiring = None
    for number, stage in enumerate((None, *(read.stage for read in reading.stages))):
        if stage is not None:
            closed = (closed | set(stage.close)) - set(stage.open)
            place = reading.stages[number - 1].named[0].at
        try:
            wiring = wire_up(network, reading.switches, closed)
        except BatteryLoop as loop:
            _refuse_loop(loop, stage, place, reading)
            reading.network = None
            return
        if stage is None:
            after = settled(network, wiring, charges)
            _refuse_restless(reading, charges, after)


def _first_charges(network: Network, charged: dict[str, Charged]) -> dict[str, Exact]:
    charges: dict[str, Exact] = {}
    for element in network.elements:
        stated = charged.get(element.name)
        size = element.value if stated and stated.quantity == "voltage" else 1
        charges[element.name] = stated.value * size if stated else element.value * 0
    return charges


def _first_battery(reading: StagesReading) -> Mark:
    return next((row.name.at for row in reading.table.of("emf")), reading.table.at.at)


def _refuse_loop(loop: BatteryLoop, stage: Stage | None, at: Mark, reading: StagesReading) -> None:
    names, by = all_of(loop.batteries), f", closed by {all_of(stage.close)}" if stage else ""
    if len(loop.batteries) == 1:
        reading.faults.add(at, f"a wire straight across the battery {names}{by}",
                           "a capacitor in every loop", "Nothing would limit what flows: the "
                           "battery would be shorted. Open another switch first, or put a "
                           "capacitor there.")  # fmt: skip
    elif loop.volts == 0:
        reading.faults.add(at, f"{names} in a loop without a capacitor{by}",
                           "a capacitor in every loop", "Their voltages agree, but nothing tells "
                           "which of them delivers how much. Leave one of them out.")  # fmt: skip
    else:
        reading.faults.add(at, f"{names} in a loop without a capacitor{by}",
                           "voltages that agree round every loop", "Their voltages differ, and "
                           "nothing would limit what flows. Put a capacitor between them, or "
                           "leave a switch open.")  # fmt: skip


def _refuse_restless(
    reading: StagesReading, before: dict[str, Exact], after: dict[str, Exact]
) -> None:
    """A stated charge must be one that stays until a switch is thrown."""
    for row in reading.table.of("capacitance"):
        name = row.name.value
        if name in reading.charged and before[name] != after[name]:
            entry = row.more["charged"]
            shown = reading.charged[name].shown.text
            reading.faults.add(entry.value.at, f"{name} charged to {shown}, which it would lose or "
                               "add to before any switch is thrown",
                               "a charge that stays until the first stage",
                               "Delete charged, or leave a switch open beside it.")  # fmt: skip
            reading.network = None
