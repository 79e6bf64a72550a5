"""What all shapes have in common: how keys are listed, names spelled and values written."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, JsonValue

NAME_PATTERN = r"^[A-Za-z][A-Za-z0-9_]{0,11}$"
ID_PATTERN = r"^[A-Za-z0-9][A-Za-z0-9-]*$"

FEWEST_DIGITS, MOST_DIGITS = 1, 10

_NUMBER_AND_UNIT = r"[+]?[0-9.].*[^0-9.\s]"
_BETWEEN = r"[0-9.\s()*·×/+^-]"
_LETTER = r"[A-Za-z](?:_[A-Za-z0-9]{1,10})?"
_SYMBOLS = f"{_BETWEEN}*{_LETTER}(?:{_BETWEEN}+{_LETTER})*{_BETWEEN}*"
Value = Annotated[
    str,
    Field(
        description="A number and a unit: 4.7 uF, 1 kohm, 3/2 V.",
        examples=["10 uF"],
        pattern=f"^{_NUMBER_AND_UNIT}$",
    ),
]
ValueOrSymbol = Annotated[
    str,
    Field(
        description="A number and a unit: 4.7 uF, 1 kohm, 3/2 V; or, in circuits of series and "
        "parallel groups, a symbol, alone or with a number: C, 2*C, R/3, V.",
        examples=["10 uF", "2*C"],
        pattern=f"^(?:{_NUMBER_AND_UNIT}|{_SYMBOLS})$",
    ),
]
Physical = Annotated[
    str, Field(json_schema_extra={"pattern": r"^[+]?[0-9.][0-9. /^*×eE+-]*[A-Za-zµμΩ].*$"})
]
"""A number with a unit such as cm², which may end in a digit: 80 cm^2."""

QUANTITY_WORDS = (
    "equivalent", "charge", "voltage", "energy", "current", "power", "potential", "time",
    "capacitance", "resistance",
)  # fmt: skip
"""The words before a colon under ``find:``; the last two are of the total only."""
ALONE_WORDS = (
    "equivalent", "time-constant", "seen-resistance", "open-voltage", "inner-resistance",
    "inner-capacitance", "matching-resistance", "greatest-power",
)  # fmt: skip
"""Words of what is asked that can stand alone."""
MEASURED_WORDS = ("equivalent", "charge", "voltage", "energy", "current", "power")
KIND_NAMES = (
    "capacitance", "charge", "voltage", "energy", "resistance", "current", "power", "time",
    "length", "area", "field", "permittivity", "number",
)  # fmt: skip
"""The words for the kind of an unknown quantity."""


def only(words: tuple[str, ...]) -> dict[str, JsonValue]:
    """What a schema says of a mapping with these words as its keys, so that editors know them."""
    return {"propertyNames": {"enum": list(words)}}


Unknown = Annotated[
    Literal["unknown"],
    Field(description="An element that is to be found, by a fact under measured."),
]
Junction = Annotated[str, Field(description="The name of a junction.", examples=["top"])]
Ends = Annotated[list[Junction], Field(min_length=2, max_length=2)]


class Shape(BaseModel):
    """A mapping with these keys and no others."""

    model_config = ConfigDict(extra="forbid")


def keys_of(shape: type[BaseModel]) -> tuple[str, ...]:
    """The keys that a mapping of that shape may have, as they are typed."""
    return tuple(field.alias or name for name, field in shape.model_fields.items())
