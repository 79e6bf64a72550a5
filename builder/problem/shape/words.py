"""The shape of an author's own words and questions."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import ConfigDict, Field

from builder.problem.model import GENERATED
from builder.problem.shape.keys import QUANTITY_WORDS, Shape, only


class StepWordsShape(Shape):
    """Your own words for one step."""

    goal: str | None = Field(
        None, description="What the step is for; its heading.", examples=["Merge the lamp pair"]
    )
    reason: str | None = Field(
        None,
        description="Why the move is allowed.",
        examples=["{R1.name} and {R2.name} share both junctions."],
    )


class ChoiceShape(Shape):
    """One option of a question."""

    text: str = Field(description="What the option says.", examples=["It grows"])
    right: bool | Literal["yes", "no"] = Field(
        False, description="yes for the one right option.", examples=["yes"]
    )
    reply: str | None = Field(
        None,
        description="What the page answers when the option is chosen.",
        examples=["It would if the current stayed the same."],
    )


class QuestionShape(Shape):
    """A question of your own, answered by a quantity or by a choice."""

    model_config = ConfigDict(
        json_schema_extra={"oneOf": [{"required": ["answer"]}, {"required": ["choices"]}]}
    )

    ask: str = Field(description="The question.", examples=["What is the charge on {C2.name}?"])
    answer: (
        str
        | Annotated[
            dict[str, str | dict[str, str]],
            Field(min_length=1, max_length=1, json_schema_extra=only(QUANTITY_WORDS)),
        ]
        | None
    ) = Field(
        None,
        description="The quantity whose value is the answer.",
        examples=[{"charge": "C2"}, "equivalent"],
    )
    choices: list[ChoiceShape | str] | None = Field(
        None,
        description="The options, exactly one of them right; a plain text is a wrong one.",
        examples=[[{"text": "It grows", "right": "yes"}, "It falls"]],
        min_length=2,
    )
    instead_of: str | None = Field(
        None,
        alias="instead-of",
        description="The generated question whose place yours takes.",
        examples=["first-move"],
        json_schema_extra={"enum": list(GENERATED)},
    )
