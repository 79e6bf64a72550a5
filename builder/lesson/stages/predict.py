"""One question that needs no arithmetic, asked before the solution is opened."""

from __future__ import annotations

from builder.lesson.prose import Prose, say, sentences
from builder.lesson.questions import ChoiceQuestion, Option
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.plates import signs_of
from builder.quantity.names import Name
from builder.solution.stages.step import StagesMove, StagesStep


def predict(display: StagesDisplay) -> ChoiceQuestion | None:
    """Where a shared voltage will lie, what a battery's energy becomes, or whether it is kept."""
    steps = display.solution.every_step
    share = next((step for step in steps if step.kind is StagesMove.SHARE), None)
    if share is not None:
        signs = {sign for sign in signs_of(share, display).values() if sign}
        if len(share.members) == 2:
            return _between(share, display) if len(signs) == 1 else _opposed(share, display)
    charging = next((step for step in steps if step.kind is StagesMove.DELIVERED and step.stage
                     and not any(display.solution.story.charges[step.stage - 1].values())),
                    None)  # fmt: skip
    if charging is not None and len(charging.batteries) == 1:
        return _delivered(charging, display)
    lossy = next((step for step in steps if step.kind is StagesMove.LOST
                  and step.stage in display.history.active), None)  # fmt: skip
    return _kept(lossy, display) if lossy is not None else None


def _between(step: StagesStep, display: StagesDisplay) -> ChoiceQuestion:
    """Like plates are joined: the voltage ends between the two."""
    first, second = display.elements(step.members[:1]), display.elements(step.members[1:])
    if _alike(step, display):
        return _kept(step, display)
    why = say("Charge moves from the higher voltage to the lower one: the one falls, the other "
              "rises, until they meet in between.")  # fmt: skip
    above = Option(say("Above the higher of the two"), False, sentences(
        say("No. Nothing could drive charge towards a higher voltage."), why))  # fmt: skip
    top = Option(say("At the higher of the two"), False, sentences(
        say("That would need a battery to keep it up."), why))  # fmt: skip
    middle = Option(say("Just halfway between, whatever the capacitors"), False, sentences(
        say("Only if they are alike: the larger one moves the voltage less."), why))  # fmt: skip
    if _same_size(step, display):
        right = Option(say("Between the two"), True, sentences(say("Yes."), why))
        options: tuple[Option, ...] = (above, top, right)
    else:
        right = Option(say("Between the two, closer to that of the larger capacitor"), True,
                       sentences(say("Yes."), why))  # fmt: skip
        options = (above, top, middle, right)
    ask = say("{first} and {second} have different voltages when {done}. Where will the voltage "
              "that they then share lie?", first=first, second=second,
              done=display.done(step.stage))  # fmt: skip
    return ChoiceQuestion(ask, options, None)


def _opposed(step: StagesStep, display: StagesDisplay) -> ChoiceQuestion:
    why = say("Where + meets −, charge fills what is missing. Only the difference is left to be "
              "shared.")  # fmt: skip
    options = (
        Option(say("More than if like plates were joined"), False,
               sentences(say("No, less."), why)),
        Option(say("Just as much as if like plates were joined"), False,
               sentences(say("It matters which plates meet."), why)),
        Option(say("Less than if like plates were joined"), True,
               sentences(say("Yes."), why)),
    )  # fmt: skip
    ask = say("When {done}, a + plate meets a − plate. How much charge is then left on the joined "
              "plates?", done=display.done(step.stage))  # fmt: skip
    return ChoiceQuestion(ask, options, None)


def _delivered(step: StagesStep, display: StagesDisplay) -> ChoiceQuestion:
    why = say("The battery moves the whole charge across its whole voltage, but while the "
              "capacitor fills, only half of that on average is across it.")  # fmt: skip
    options = (
        Option(say("All of it: energy is not lost"), False,
               sentences(say("It is not lost from the world, but not all of it is stored."), why)),
        Option(say("Half of it, whatever the wires"), True, sentences(say("Yes."), why)),
        Option(say("It depends on how much the wires resist"), False,
               sentences(say("They decide how long it takes, not how much is stored."), why)),
    )  # fmt: skip
    changed = display.history.changed[step.stage]
    named = tuple(name for name in display.members if changed[name] == step.stage)
    ask = say("When {done}, {battery} charges {named}. How much of the energy that the battery "
              "delivers is stored in the end?", done=display.done(step.stage),
              battery=display.elements(step.batteries),
              named=display.elements(named))  # fmt: skip
    return ChoiceQuestion(ask, options, None)


def _kept(step: StagesStep, display: StagesDisplay) -> ChoiceQuestion:
    why: Prose = say("While charge flows it passes wires and a spark, and energy turns into heat "
                     "there. Nothing can bring it back.")  # fmt: skip
    options = (
        Option(say("It stays the same, as the charge does"), False,
               sentences(say("The charge stays, the energy does not."), why)),
        Option(say("Some of it turns into heat"), True, sentences(say("Yes."), why)),
        Option(say("None is lost if the wires are thick enough"), False,
               sentences(say("Thick wires only make it faster."), why)),
    )  # fmt: skip
    ask = say("When {done}, charge flows. What happens to the energy?",
              done=display.done(step.stage))  # fmt: skip
    return ChoiceQuestion(ask, options, None)


def _alike(step: StagesStep, display: StagesDisplay) -> bool:
    """Whether the voltages are the same, but for their signs."""
    story, values = display.solution.story, display.solution.values
    sizes = {abs(story.charges[step.stage - 1][name] / values[Name("capacitance", name)])
             for name in step.members}  # fmt: skip
    return len(sizes) == 1


def _same_size(step: StagesStep, display: StagesDisplay) -> bool:
    return len({display.solution.values[Name("capacitance", name)] for name in step.members}) == 1
