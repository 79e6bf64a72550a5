"""The shape of a whole file: of a problem, and of a unit."""

from __future__ import annotations

from typing import Annotated

from pydantic import ConfigDict, Field

from builder.problem.model import GENERATED, LEVELS
from builder.problem.shape.circuit import ChangeShape, CircuitShape, StageShape
from builder.problem.shape.keys import (
    ALONE_WORDS,
    FEWEST_DIGITS,
    ID_PATTERN,
    MEASURED_WORDS,
    MOST_DIGITS,
    QUANTITY_WORDS,
    Shape,
    only,
)
from builder.problem.shape.relations import PlatesShape, QuantityShape, RelationShape
from builder.problem.shape.varying import KeepShape, Vary
from builder.problem.shape.words import QuestionShape, StepWordsShape

SYMBOLS = ("iec", "ieee")

Asked = str | list[str] | Annotated[dict[str, str | list[str]], Field(min_length=1)]
LeftOut = list[Annotated[str, Field(json_schema_extra={"enum": list(GENERATED)})]]
FindItem = (
    Annotated[str, Field(examples=list(ALONE_WORDS))]
    | Annotated[
        dict[str, Asked],
        Field(min_length=1, max_length=1, json_schema_extra=only(QUANTITY_WORDS)),
    ]
)


class ProblemShape(Shape):
    """A circuit problem: one YAML file becomes one worked-example page."""

    model_config = ConfigDict(
        title="A problem of a Stepwell unit",
        json_schema_extra={
            "examples": [
                {
                    "title": "Two lamps",
                    "circuit": {"source": "12 V", "series": [{"R1": "10 ohm"}, {"R2": "20 ohm"}]},
                    "find": ["equivalent", {"current": "total"}],
                }
            ]
        },
    )

    title: str = Field(
        description="The heading of the page.", examples=["Two reservoirs behind one lamp"]
    )
    level: str = Field(
        "core",
        description="How hard it is.",
        examples=["core"],
        json_schema_extra={"enum": list(LEVELS)},
    )
    objectives: list[str] = Field(
        [],
        description="What it teaches: ids of objectives in unit.yml.",
        examples=[["merge-parallel", "same-voltage"]],
    )
    scenario: str | None = Field(
        None,
        description="The story, in Markdown. {C1} is an element with its value, {C1.name} its "
        "name, {C1.value} its value, {C1.charged} what it starts with, {V0} the source.",
        examples=["The lamp is fed from {C1}."],
    )
    circuit: CircuitShape | None = Field(
        None,
        description="The source and the elements.",
        examples=[{"source": "12 V", "series": [{"C1": "10 uF"}, {"C2": "22 uF"}]}],
    )
    measured: dict[str, str | dict[str, str]] | None = Field(
        None,
        description="Beside an element that is unknown: a fact to find it by, one for each.",
        examples=[{"equivalent": "8 uF"}, {"charge": {"C1": "40 uC"}}],
        min_length=1,
        json_schema_extra=only(MEASURED_WORDS),
    )
    quantities: dict[str, str | float | QuantityShape] | None = Field(
        None,
        description="Of a problem of plain equations: each name with its value, or with the kind "
        "of what is unknown. The constants eps0 and pi need not be stated.",
        examples=[{"A": "8 cm^2", "d": "1 mm", "C": "capacitance"}],
        min_length=1,
    )
    plates: PlatesShape | None = Field(
        None,
        description="Of a problem of two plates: area, gap, what fills it, and what drives it.",
        examples=[{"area": "80 cm^2", "gap": "2 mm", "voltage": "12 V"}],
    )
    relations: list[str | RelationShape] | None = Field(
        None,
        description="The equations that hold between the quantities. Their units are checked; "
        "which equation gives which unknown is found.",
        examples=[["C = eps0 * A / d", "Q = C * V"]],
        min_length=1,
    )
    stages: list[StageShape] | None = Field(
        None,
        description="What is done to the switches of a circuit of capacitors, one stage after "
        "the other; what is asked for is found after the last, or `after` one of them.",
        examples=[[{"close": "S1"}, {"open": "S1"}, {"close": ["S2", "S3"]}]],
        min_length=1,
    )
    change: ChangeShape | None = Field(
        None,
        description="What changes at t = 0 in a circuit of resistors and capacitors. Without it "
        "the sources are switched on then, or charged capacitors start to discharge.",
        examples=[{"close": "S1"}],
    )
    find: str | Annotated[list[FindItem], Field(min_length=1)] = Field(
        description="What is asked for. Of capacitors: equivalent, charge, voltage, energy; of "
        "resistors: equivalent, current, voltage, power. Each of all, total, or elements. Of "
        "branches also: potential of junctions, voltage between two junctions, and what sources "
        "deliver; of an equivalent source: open-voltage, inner-resistance, greatest-power.",
        examples=["equivalent", ["equivalent", {"charge": "all"}, {"voltage": ["C1", "C2"]}]],
    )
    digits: int | None = Field(
        None,
        description="Significant digits of results; those of the unit if left out.",
        examples=[3],
        ge=FEWEST_DIGITS,
        le=MOST_DIGITS,
    )
    plan: str | None = Field(
        None,
        description="Your own plan of the solution, in a line or two.",
        examples=["Merge the pair, then walk back."],
    )
    words: dict[str, str | StepWordsShape] = Field(
        {},
        description="Your own words for steps, by the step's id as `stepwell solve` shows it; a "
        "plain text is the reason.",
        examples=[{"merge-C23": "The two share both junctions."}],
    )
    questions: list[QuestionShape] = Field(
        [],
        description="Your own questions for the self-check.",
        examples=[[{"ask": "What is the charge on {C2.name}?", "answer": {"charge": "C2"}}]],
    )
    leave_out: LeftOut = Field(
        [],
        alias="leave-out",
        description="Generated questions that you do not want on this page.",
        examples=[["order", "predict"]],
    )
    vary: Vary | None = Field(
        None,
        description="Which other values the page may have under “fresh numbers”: for each a list, "
        "a range with a step, a series E3, E6, E12 or E24 of standard values (a decade round the "
        "value, or from … to …), or another value with a number. What is not named stays. Without "
        "this key, sensible values are found; none for no fresh numbers.",
        examples=[
            {"C1": "E12", "C2": ["4.7 uF", "10 uF"], "V0": "6 V to 24 V step 3 V"},
            {"R1": "E24 from 100 ohm to 1 kohm", "R2": "2*R1"},
            "none",
        ],
    )
    keep: KeepShape | None = Field(
        None,
        description="What must be so with other values as well: digits of results, a range for a "
        "kind of quantity that is asked for, wrong rules that must be told apart, the same order.",
        examples=[{"digits": 3, "charge": "1 uC to 1 mC", "order": "same"}],
    )


class UnitShape(Shape):
    """What all pages of a unit share."""

    model_config = ConfigDict(
        title="The description of a Stepwell unit",
        json_schema_extra={
            "examples": [
                {
                    "title": "Harbour Lights",
                    "objectives": {"merge-parallel": "Merge a parallel group into one equivalent"},
                }
            ]
        },
    )

    title: str = Field(description="The name of the unit.", examples=["Harbour Lights"])
    digits: int = Field(
        3,
        description="Significant digits of results where a problem does not say.",
        examples=[3],
        ge=FEWEST_DIGITS,
        le=MOST_DIGITS,
    )
    symbols: str = Field(
        "iec",
        description="Shapes in figures: iec (IEC 60617) or ieee (IEEE 315).",
        examples=["iec"],
        json_schema_extra={"enum": list(SYMBOLS)},
    )
    objectives: dict[str, str] = Field(
        {},
        description="What each objective says, by its id, in teaching order.",
        examples=[{"merge-parallel": "Merge a parallel group into one equivalent"}],
        json_schema_extra={"propertyNames": {"pattern": ID_PATTERN}},
    )
    path: list[str] = Field(
        [],
        description="Lesson pages and problems in teaching order; by default lessons first.",
        examples=[["sharing-a-junction.md", "flasher-reservoir"]],
    )
    leave_out: LeftOut = Field(
        [],
        alias="leave-out",
        description="Generated questions that you do not want on any page.",
        examples=[["order"]],
    )
