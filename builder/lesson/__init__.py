"""How a solution is taught: narration, questions, warnings. Words as data, without markup."""

from builder.lesson.kinds import write_lesson
from builder.lesson.lesson import Lesson

__all__ = ["Lesson", "write_lesson"]
