"""The shape of a circuit, and of what is done to its switches."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from builder.problem.model import METHODS
from builder.problem.shape.keys import NAME_PATTERN, Ends, Shape, Unknown, Value, ValueOrSymbol


class ElementShape(Shape):
    """An element in its long form."""

    model_config = ConfigDict(json_schema_extra={"minProperties": 1, "maxProperties": 1})

    capacitance: ValueOrSymbol | Unknown | None = Field(
        None, description="Of a capacitor, with its unit.", examples=["10 uF"]
    )
    resistance: ValueOrSymbol | Unknown | None = Field(
        None, description="Of a resistor, with its unit.", examples=["100 ohm"]
    )


class BranchShape(Shape):
    """An element or the source between two named junctions."""

    capacitance: ValueOrSymbol | None = Field(
        None, description="Of a capacitor, with its unit.", examples=["10 uF"]
    )
    resistance: ValueOrSymbol | None = Field(
        None, description="Of a resistor, with its unit.", examples=["100 ohm"]
    )
    emf: ValueOrSymbol | None = Field(
        None, description="The voltage of a source, with its unit.", examples=["9 V"]
    )
    current: ValueOrSymbol | None = Field(
        None,
        description="The current of a source, with its unit; it leaves the source at the first "
        "junction.",
        examples=["2 A"],
    )
    switch: Literal["open", "closed"] | None = Field(
        None, description="A switch, and how it stands at first.", examples=["open"]
    )
    between: Ends = Field(
        description="The two junctions; of a source, the + one first.", examples=[["top", "bottom"]]
    )
    inner: Value | None = Field(
        None,
        description="The internal resistance of a voltage source, in series with it.",
        examples=["0.5 ohm"],
    )
    charged: Value | None = Field(
        None,
        description="What a capacitor holds at first: a voltage or a charge; its first junction "
        "is the + one.",
        examples=["6 V"],
    )


class ItemShape(BaseModel):
    """One item of a series or parallel list: an element, or a group."""

    model_config = ConfigDict(
        extra="allow",
        json_schema_extra={
            "minProperties": 1,
            "maxProperties": 1,
            "propertyNames": {"pattern": NAME_PATTERN},
            "examples": [{"C1": "10 uF"}, {"parallel": [{"C2": "22 uF"}, {"C3": "8 uF"}]}],
        },
    )
    __pydantic_extra__: dict[str, ValueOrSymbol | Unknown | ElementShape]

    series: list[ItemShape] | None = Field(
        None,
        description="Elements or groups one after the other, from the + to the − end.",
        examples=[[{"C1": "10 uF"}, {"C2": "22 uF"}]],
        min_length=2,
    )
    parallel: list[ItemShape] | None = Field(
        None,
        description="Elements or groups side by side.",
        examples=[[{"C1": "10 uF"}, {"C2": "22 uF"}]],
        min_length=2,
    )


class CircuitShape(BaseModel):
    """A source, and a nest of groups, a table of branches, or a single element beside it."""

    model_config = ConfigDict(
        extra="allow",
        json_schema_extra={
            "propertyNames": {"pattern": NAME_PATTERN},
            "examples": [{"source": "12 V", "series": [{"C1": "10 uF"}, {"C2": "22 uF"}]}],
        },
    )
    __pydantic_extra__: dict[str, ValueOrSymbol | Unknown | ElementShape]

    source: (
        ValueOrSymbol
        | Annotated[dict[str, ValueOrSymbol], Field(min_length=1, max_length=1)]
        | None
    ) = Field(
        None,
        description="What drives the circuit, with or without a name: a voltage; for resistors "
        "also a current, for capacitors also the charge given to the whole network. Without a "
        "source only the equivalent can be asked for. A symbol that stands alone is also its name.",
        examples=["12 V", {"V0": "12 V"}],
    )
    series: list[ItemShape] | None = Field(
        None,
        description="From the + terminal round to the − terminal: elements or groups one after "
        "the other.",
        examples=[[{"C1": "10 uF"}, {"C2": "22 uF"}]],
        min_length=2,
    )
    parallel: list[ItemShape] | None = Field(
        None,
        description="Elements or groups side by side.",
        examples=[[{"C1": "10 uF"}, {"C2": "22 uF"}]],
        min_length=2,
    )
    branches: dict[str, BranchShape] | None = Field(
        None,
        description="Elements and the source by name, each between two named junctions.",
        examples=[{"R1": {"resistance": "100 ohm", "between": ["top", "bottom"]}}],
    )
    across: Ends | None = Field(
        None,
        description="The + and the − terminal, where no source among the branches tells them; or "
        "the two points that an equivalent source is to stand for.",
        examples=[["top", "bottom"]],
    )
    method: str | None = Field(
        None,
        description="How branches are to be solved; the shortest way if left out.",
        examples=["junctions"],
        json_schema_extra={"enum": list(METHODS)},
    )
    load: str | None = Field(
        None,
        description="With equivalent-source: the resistor or capacitor that everything else is "
        "the equivalent of a source to.",
        examples=["R3"],
    )
    reference: str | None = Field(
        None, description="The junction whose potential counts as 0 V.", examples=["bottom"]
    )
    place: dict[str, Annotated[list[float], Field(min_length=2, max_length=2)]] | None = Field(
        None,
        description="Where junctions stand in the figure, as [column, row], rows counted upwards; "
        "drawn well without it, too.",
        examples=[{"top": [1, 2], "bottom": [1, 0]}],
    )


class ChangeShape(Shape):
    """What changes at t = 0."""

    model_config = ConfigDict(json_schema_extra={"minProperties": 1})

    close: str | list[str] | None = Field(
        None, description="Switches that are closed.", examples=["S1"]
    )
    open: str | list[str] | None = Field(
        None, description="Switches that are opened.", examples=["S1"]
    )


class StageShape(Shape):
    """What is done at once, after which the charges settle."""

    model_config = ConfigDict(json_schema_extra={"minProperties": 1})

    close: str | list[str] | None = Field(
        None, description="Switches that are closed.", examples=["S1", ["S1", "S2"]]
    )
    open: str | list[str] | None = Field(
        None,
        description="Switches that are opened; beside close, they open first.",
        examples=["S1"],
    )
    turn: str | list[str] | None = Field(
        None,
        description="Capacitors that are taken out, with their charge, and put back the other "
        "way round.",
        examples=["C2"],
    )
