"""The forms that a question can have. Each has a template and a script of the same name.

``form`` names both: ``site/templates/questions/<form>.html`` and ``site/static/<form>.js``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from builder.lesson.prose import Prose
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


Question = TypedQuestion | ChoiceQuestion
"""Any question of a lesson."""
