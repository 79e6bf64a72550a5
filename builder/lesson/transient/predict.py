"""One question that needs no arithmetic, asked before the solution is opened."""

from __future__ import annotations

from builder.lesson.by_name import turn
from builder.lesson.prose import Prose, Relation, say, sentences
from builder.lesson.questions import ChoiceQuestion, Option
from builder.lesson.transient.display import TransientDisplay
from builder.problem.transient.moments import CONSTANT, END, START, at


def predict(display: TransientDisplay) -> ChoiceQuestion | None:
    """When the current is largest, or how the voltage goes its way: by the problem's name."""
    values, store = display.solution.values, display.solution.store
    if CONSTANT not in values:
        return None
    start, end = (values[at("voltage", store.id, when)] for when in (START, END))
    if not abs(end - start) > 0:
        return None
    askers = (_when_largest, _which_half, _after_twice)
    return turn(display.solution.problem.slug, "predict", askers)(display)


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


def _which_half(display: TransientDisplay) -> ChoiceQuestion:
    """The way is not gone at one pace."""
    why: Prose = say("The less is left to go, the smaller the current, so the voltage moves ever "
                     "more slowly.")  # fmt: skip
    options = (
        Option(say("From the start to halfway"), False,
               sentences(say("No, that goes fastest."), why)),
        Option(say("From halfway to nine tenths of the way"), True, sentences(say("Yes."), why)),
        Option(say("Both take the same time"), False,
               sentences(say("They would if the current stayed the same."), why)),
    )  # fmt: skip
    ask = say("The voltage across {store} moves from its first value to its last one. Which part "
              "of this way takes longer?", store=display.store)  # fmt: skip
    return ChoiceQuestion(ask, options, None)


def _after_twice(display: TransientDisplay) -> ChoiceQuestion:
    """After one time constant all is not done, and after two it is not twice as much."""
    why: Prose = say("In each time constant it goes the same part of what is then left: about "
                     "two thirds, and then about two thirds of the last third.")  # fmt: skip
    options = (
        Option(say("About two thirds of the way, and no more afterwards"), False,
               sentences(say("It goes on for as long as anything is left to go."), why)),
        Option(say("Nearly nine tenths of the way"), True, sentences(say("Yes."), why)),
        Option(say("All of the way"), False,
               sentences(say("It comes closer and closer, but it has not arrived."), why)),
    )  # fmt: skip
    ask = say("How far has the voltage across {store} come after two time constants ({law})?",
              store=display.store, law=Relation("t = 2τ"))  # fmt: skip
    return ChoiceQuestion(ask, options, None)
