"""One question that needs no arithmetic, asked before the solution is opened."""

from __future__ import annotations

from builder.lesson.prose import Prose, say, sentences
from builder.lesson.questions import ChoiceQuestion, Option
from builder.lesson.transient.display import TransientDisplay
from builder.problem.transient.moments import CONSTANT, END, START, at


def predict(display: TransientDisplay) -> ChoiceQuestion | None:
    """When the current is largest, or what a larger resistance changes."""
    values, store = display.solution.values, display.solution.store
    if CONSTANT not in values:
        return None
    start, end = (values[at("voltage", store.id, when)] for when in (START, END))
    return _when_largest(display) if abs(end - start) > 0 else None


def _when_largest(display: TransientDisplay) -> ChoiceQuestion:
    why: Prose = say("The current is driven by what is left to go, and most is left at first. It "
                     "dies down as the voltage comes closer to where it is heading.")  # fmt: skip
    options = (
        Option(say("At the first instant"), True, sentences(say("Yes."), why)),
        Option(say("Halfway through"), False, sentences(say("By then it is smaller."), why)),
        Option(say("At the end"), False,
               sentences(say("At the end nothing flows into a capacitor any more."), why)),
        Option(say("It is the same all the time"), False,
               sentences(say("Then the voltage would go on climbing for ever."), why)),
    )  # fmt: skip
    ask = say("When does the largest current flow into or out of {store}?", store=display.store)
    return ChoiceQuestion(ask, options, None)
