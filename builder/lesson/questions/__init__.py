"""Questions of a lesson: their forms, and how they are made without the author writing them."""

from builder.lesson.questions.asked import asked_names, find_list
from builder.lesson.questions.forms import ChoiceQuestion, Option, Question, TypedQuestion
from builder.lesson.questions.self_check import own_question, self_check

__all__ = [
    "ChoiceQuestion", "Option", "Question", "TypedQuestion", "asked_names", "find_list",
    "own_question", "self_check",
]  # fmt: skip
