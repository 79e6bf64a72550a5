"""What all shapes have in common: how keys are listed, names spelled and values written."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

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
