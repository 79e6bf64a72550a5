"""How a solution is taught: narration, questions, warnings. Words as data, without markup."""

from builder.lesson.lesson import Lesson, write_lesson

__all__ = ["Lesson", "write_lesson"]
