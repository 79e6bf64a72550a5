"""The shape of what an author says of other numbers."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import ConfigDict, Field

from builder.problem.shape.keys import FEWEST_DIGITS, MOST_DIGITS, Shape

_MOST = 200
Values = str | Annotated[list[str | float], Field(min_length=2, max_length=_MOST)]
Vary = Literal["none"] | Annotated[dict[str, Values], Field(min_length=1)]


class KeepShape(Shape):
    """What must be so with other numbers as well.

    Besides these keys, a quantity that is asked for may have a range: charge: 1 uC to 1 mC.
    """

    model_config = ConfigDict(extra="allow")
    __pydantic_extra__: dict[str, str]

    digits: int | None = Field(
        None,
        description="Results end within so many significant digits.",
        examples=[3],
        ge=FEWEST_DIGITS,
        le=MOST_DIGITS,
    )
    order: Literal["same"] | None = Field(
        None,
        description="same: what is larger stays larger, for what is given and what is asked.",
        examples=["same"],
    )
    apart: str | Annotated[list[str], Field(min_length=1)] | None = Field(
        None,
        description="Ids of wrong rules whose number must differ from the right one.",
        examples=[["equal-voltages"]],
    )
