"""Put the steps of the solution in order."""

from __future__ import annotations

from builder.lesson.by_name import shuffled
from builder.lesson.generated.needs import Need, needs_of
from builder.lesson.lesson import Lesson
from builder.lesson.prose import Prose, number_word, say
from builder.lesson.questions.step_forms import Lack, OrderQuestion, OrderRow

MOST_AT_ONCE = 7
"""The steps of a solution that are put in order all together …"""
MOST_OF_MORE = 6
"""… and so many of a longer one."""
LEAST = 3
MOST_DRAWN = 20

_Window = tuple[int, int]


def order(lesson: Lesson) -> OrderQuestion | None:
    """The question, or None where there is too little to put in order."""
    needs = needs_of(lesson)
    window = _window(lesson, needs)
    if window is None:
        return None
    start, end = window
    rows = tuple(
        OrderRow(lesson.steps[at].words.goal, _lacks(needs[at], window)) for at in range(start, end)
    )
    plain = OrderQuestion(_ask(window, len(lesson.steps)), rows, tuple(range(len(rows))))
    shown = _mixed(plain, lesson)
    return OrderQuestion(plain.ask, rows, shown) if shown else None


def _window(lesson: Lesson, needs: tuple[tuple[Need, ...], ...]) -> _Window | None:
    """The steps to put in order: all, or those in a row that hang together most."""
    count = len(lesson.steps)
    size = count if count <= MOST_AT_ONCE else MOST_OF_MORE
    if size < LEAST:
        return None
    windows = [(start, start + size) for start in range(count - size + 1)]
    goals = [taught.words.goal for taught in lesson.steps]
    told_apart = [(a, b) for a, b in windows if len(set(goals[a:b])) == size]
    return max(told_apart, key=lambda window: _ties(needs, window), default=None)


def _ties(needs: tuple[tuple[Need, ...], ...], window: _Window) -> int:
    return sum(len(_lacks(needs[at], window)) for at in range(*window))


def _lacks(needs: tuple[Need, ...], window: _Window) -> tuple[Lack, ...]:
    start, end = window
    return tuple(
        Lack(need.step - start, need.what, need.made) for need in needs if start <= need.step < end
    )


def _mixed(question: OrderQuestion, lesson: Lesson) -> tuple[int, ...] | None:
    """An order that is not right; None if hardly any is wrong."""
    for attempt in range(MOST_DRAWN):
        drawn = shuffled(range(len(question.rows)), lesson, f"order {attempt}")
        if question.first_lack(drawn):
            return tuple(drawn)
    return None


def _ask(window: _Window, count: int) -> Prose:
    start, end = window
    if (start, end) == (0, count):
        return say("Put the steps of the solution in order.")
    some = number_word(end - start)
    if start == 0:
        return say("Put the first {some} steps of the solution in order.", some=some)
    if end == count:
        return say("Put the last {some} steps of the solution in order.", some=some)
    return say("Put steps {first} to {last} of the solution in order. What comes before them is "
               "done.", first=str(start + 1), last=str(end))  # fmt: skip
