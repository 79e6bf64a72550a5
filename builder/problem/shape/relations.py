"""The shape of plain equations and of two plates."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from builder.problem.shape.keys import KIND_NAMES, Physical, Shape


class QuantityShape(Shape):
    """A quantity in its long form."""

    value: str | float | None = Field(
        None, description="The value of what is given, with its unit.", examples=["1 mm"]
    )
    kind: str | None = Field(
        None,
        description="The kind of what is unknown.",
        examples=["capacitance"],
        json_schema_extra={"enum": list(KIND_NAMES)},
    )
    is_: str | None = Field(
        None,
        alias="is",
        description="What it is, to go on after “find”.",
        examples=["the gap between the plates"],
    )
    choose: Literal["larger", "smaller"] | None = Field(
        None,
        description="Which value is meant where an equation leaves two.",
        examples=["larger"],
    )


class RelationShape(Shape):
    """An equation with the reason why it holds."""

    equation: str = Field(description="Left side = right side.", examples=["C = eps0 * k * A / d"])
    because: str | None = Field(
        None,
        description="Why it holds, in a sentence.",
        examples=["The field between the plates is the same everywhere."],
    )


class PartShape(Shape):
    """One layer or slab between two plates."""

    thickness: Physical | None = Field(
        None, description="The thickness of a layer, with its unit.", examples=["1 mm"]
    )
    area: Physical | None = Field(
        None, description="The area of a slab, with its unit.", examples=["20 cm^2"]
    )
    kappa: str | float = Field(
        description="Its relative permittivity, as stated here.", examples=["2.5"]
    )
    called: str | None = Field(None, description="What it is called.", examples=["glass"])
    strength: Physical | None = Field(
        None, description="The field strength that it stands.", examples=["14 MV/m"]
    )


class FillingShape(Shape):
    """What lies between two plates: one of kappa, layers, slabs and metal."""

    kappa: str | float | None = Field(
        None,
        description="The relative permittivity of one material in the whole gap.",
        examples=["2.5"],
    )
    called: str | None = Field(None, description="What it is called.", examples=["glass"])
    strength: Physical | None = Field(
        None, description="The field strength that it stands.", examples=["14 MV/m"]
    )
    layers: list[PartShape] | None = Field(
        None,
        description="One on the other, from the + plate on; what they leave is empty.",
        examples=[[{"thickness": "1 mm", "kappa": "4"}]],
    )
    slabs: list[PartShape] | None = Field(
        None,
        description="Side by side between the plates; what they leave is empty.",
        examples=[[{"area": "20 cm^2", "kappa": "4"}]],
    )
    metal: Physical | None = Field(
        None,
        description="The thickness of a metal slab that touches no plate.",
        examples=["0.5 mm"],
    )


class PlatesShape(Shape):
    """Two parallel plates."""

    area: Physical | None = Field(
        None, description="The area of one plate, with its unit.", examples=["80 cm^2"]
    )
    gap: Physical | None = Field(
        None, description="The distance between the plates, with its unit.", examples=["2 mm"]
    )
    capacitance: Physical | None = Field(
        None,
        description="The capacitance of the empty plates, where area and gap are not told.",
        examples=["20 pF"],
    )
    voltage: Physical | None = Field(
        None, description="The voltage of the battery, with its unit.", examples=["12 V"]
    )
    charge: Physical | None = Field(
        None, description="The charge on the plates, in place of a voltage.", examples=["6 nC"]
    )
    battery: Literal["connected", "removed"] | None = Field(
        None,
        description="Whether the battery stays connected while the filling is put in; without "
        "this, it was there from the start.",
        examples=["removed"],
    )
    filling: FillingShape | None = Field(
        None, description="What lies between the plates.", examples=[{"kappa": "2.5"}]
    )
