"""The shape of plain equations and of two plates."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from builder.problem.shape.keys import Shape


class QuantityShape(Shape):
    """A quantity in its long form."""

    value: str | float | None = Field(
        None, description="Of what is given, with its unit.", examples=["1 mm"]
    )
    kind: str | None = Field(
        None,
        description="Of what is unknown: capacitance, charge, voltage, energy, length, number …",
        examples=["capacitance"],
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

    thickness: str | None = Field(None, description="Of a layer.", examples=["1 mm"])
    area: str | None = Field(None, description="Of a slab.", examples=["20 cm^2"])
    kappa: str | float = Field(
        description="Its relative permittivity, as stated here.", examples=["2.5"]
    )
    called: str | None = Field(None, description="What it is called.", examples=["glass"])
    strength: str | None = Field(
        None, description="The field strength that it stands.", examples=["14 MV/m"]
    )


class FillingShape(Shape):
    """What lies between two plates: one of kappa, layers, slabs and metal."""

    kappa: str | float | None = Field(
        None, description="Of one material in the whole gap.", examples=["2.5"]
    )
    called: str | None = Field(None, description="What it is called.", examples=["glass"])
    strength: str | None = Field(
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
    metal: str | None = Field(
        None,
        description="The thickness of a metal slab that touches no plate.",
        examples=["0.5 mm"],
    )


class PlatesShape(Shape):
    """Two parallel plates."""

    area: str | None = Field(None, description="Of one plate.", examples=["80 cm^2"])
    gap: str | None = Field(None, description="Between the plates.", examples=["2 mm"])
    capacitance: str | None = Field(
        None,
        description="Of the empty plates, where area and gap are not told.",
        examples=["20 pF"],
    )
    voltage: str | None = Field(None, description="Of the battery.", examples=["12 V"])
    charge: str | None = Field(
        None, description="On the plates, in place of a voltage.", examples=["6 nC"]
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
