"""The shape of a problem's file: its keys and what each means.

The reader takes its lists of keys from these models, so that what an editor completes is what
is read. The reader's own checks tell a fault with its place; the shape only helps to type.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from builder.problem.model import LEVELS, METHODS

NAME_PATTERN = r"^[A-Za-z][A-Za-z0-9_]{0,11}$"
ID_PATTERN = r"^[A-Za-z0-9][A-Za-z0-9-]*$"
FEWEST_DIGITS, MOST_DIGITS = 1, 10
SYMBOLS = ("iec", "ieee")

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
Junction = Annotated[str, Field(description="The name of a junction.", examples=["top"])]
Ends = Annotated[list[Junction], Field(min_length=2, max_length=2)]


class Shape(BaseModel):
    """A mapping with these keys and no others."""

    model_config = ConfigDict(extra="forbid")


def keys_of(shape: type[BaseModel]) -> tuple[str, ...]:
    """The keys that a mapping of that shape may have, as they are typed."""
    return tuple(field.alias or name for name, field in shape.model_fields.items())


class ElementShape(Shape):
    """An element in its long form."""

    model_config = ConfigDict(json_schema_extra={"minProperties": 1, "maxProperties": 1})

    capacitance: ValueOrSymbol | None = Field(
        None, description="Of a capacitor, with its unit.", examples=["10 uF"]
    )
    resistance: ValueOrSymbol | None = Field(
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
    __pydantic_extra__: dict[str, ValueOrSymbol | ElementShape]

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
    __pydantic_extra__: dict[str, ValueOrSymbol | ElementShape]

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


Asked = str | list[str] | Annotated[dict[str, str], Field(min_length=1)]


class QuantityShape(Shape):
    """A quantity in its long form."""

    value: str | None = Field(
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

    equation: str = Field(
        description="Left side = right side.", examples=["C = eps0 * k * A / d"]
    )
    because: str | None = Field(
        None,
        description="Why it holds, in a sentence.",
        examples=["The field between the plates is the same everywhere."],
    )


class PartShape(Shape):
    """One layer or slab between two plates."""

    thickness: str | None = Field(None, description="Of a layer.", examples=["1 mm"])
    area: str | None = Field(None, description="Of a slab.", examples=["20 cm^2"])
    kappa: str = Field(description="Its relative permittivity, as stated here.", examples=["2.5"])
    called: str | None = Field(None, description="What it is called.", examples=["glass"])
    strength: str | None = Field(
        None, description="The field strength that it stands.", examples=["14 MV/m"]
    )


class FillingShape(Shape):
    """What lies between two plates: one of kappa, layers, slabs and metal."""

    kappa: str | None = Field(
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
        None, description="The thickness of a metal slab that touches no plate.",
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


class QuestionShape(Shape):
    """A question of your own, answered by a quantity or by a choice."""

    ask: str = Field(description="The question.", examples=["What is the charge on {C2.name}?"])
    answer: str | Annotated[dict[str, str], Field(min_length=1, max_length=1)] | None = Field(
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


FindItem = str | Annotated[dict[str, Asked], Field(min_length=1, max_length=1)]


class ProblemShape(Shape):
    """A circuit problem: one YAML file becomes one worked-example page."""

    model_config = ConfigDict(title="A problem of a Stepwell unit")

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
        "name, {C1.value} its value, {V0} the source.",
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
    )
    quantities: dict[str, str | QuantityShape] | None = Field(
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
    find: str | list[FindItem] = Field(
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


class UnitShape(Shape):
    """What all pages of a unit share."""

    model_config = ConfigDict(title="The description of a Stepwell unit")

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
    )
    path: list[str] = Field(
        [],
        description="Lesson pages and problems in teaching order; by default lessons first.",
        examples=[["sharing-a-junction.md", "flasher-reservoir"]],
    )
