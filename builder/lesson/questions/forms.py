"""The forms that a question can have. Each has a template and a script of the same name.

``form`` names both: ``site/templates/questions/<form>.html`` and ``site/static/<form>.js``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from builder.lesson.prose import Prose
from builder.lesson.questions.step_forms import FaultyLineQuestion, OrderQuestion
from builder.quantity.names import Name


@dataclass(frozen=True)
class TypedQuestion:
    """A question answered by a number with a unit.

    Attributes:
        ask: the question.
        answer: the quantity asked for.
        look_at: the id of the step that finds it, or None if no step does.
    """

    form: ClassVar[str] = "typed"

    ask: Prose
    answer: Name
    look_at: str | None


@dataclass(frozen=True)
class Option:
    """One option of a choice.

    Attributes:
        text: what it says.
        right: whether it is right.
        reply: what the page answers when it is chosen.
    """

    text: Prose
    right: bool
    reply: Prose


@dataclass(frozen=True)
class ChoiceQuestion:
    """A question with options, exactly one of them right.

    Attributes:
        ask: the question.
        options: in the order in which they are shown.
        look_at: the id of the step that answers it, or None.
    """

    form: ClassVar[str] = "choice"

    ask: Prose
    options: tuple[Option, ...]
    look_at: str | None


@dataclass(frozen=True)
class Ranked:
    """One of the things to rank.

    Attributes:
        what: its name.
        place: its right place, counted from 1; equal ones share one, and none is left out.
    """

    what: Prose
    place: int


@dataclass(frozen=True)
class RankingReason:
    """Why some of the ranked things compare as they do.

    Attributes:
        text: the reason.
        pairs: those it is about, by their positions.
    """

    text: Prose
    pairs: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class RankingQuestion:
    """A question answered by giving each of a few things its place; equal ones share one.

    Attributes:
        ask: the question.
        items: at least three, in the order in which they are shown.
        reasons: together for every two of them.
        order: the right order in one line: ``Q₁ > Q₂ = Q₃``.
        look_at: the id of the step that answers it, or None.
    """

    form: ClassVar[str] = "ranking"

    ask: Prose
    items: tuple[Ranked, ...]
    reasons: tuple[RankingReason, ...]
    order: Prose
    look_at: str | None


@dataclass(frozen=True)
class Pickable:
    """An element that can be picked.

    Attributes:
        id: its name in the figure.
        what: its name.
        right: whether it is to be picked.
        why: why it is, or is not.
    """

    id: str
    what: Prose
    right: bool
    why: Prose


@dataclass(frozen=True)
class PickQuestion:
    """A question answered by picking elements in the figure.

    Attributes:
        ask: the question.
        about: the element that the others are held against, or empty.
        items: at least two, at least one of them right.
        traced: the junctions to trace once it is answered, by name; at most two.
        tracing: what the button says that traces them; empty without any.
        look_at: the id of the step that answers it, or None.
    """

    form: ClassVar[str] = "pick"

    ask: Prose
    about: str
    items: tuple[Pickable, ...]
    traced: tuple[str, ...]
    tracing: Prose
    look_at: str | None


Question = (
    TypedQuestion
    | ChoiceQuestion
    | RankingQuestion
    | PickQuestion
    | OrderQuestion
    | FaultyLineQuestion
)
"""Any question of a lesson."""
