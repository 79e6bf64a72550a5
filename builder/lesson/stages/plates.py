"""Sentences about plates: which sign comes in, who gets more, whose sign has turned."""

from __future__ import annotations

from collections.abc import Mapping

from builder.circuit.switching import split_moment
from builder.lesson.prose import Prose, say, sentences
from builder.lesson.stages.display import StagesDisplay
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.stages.step import StagesStep


def signs_of(step: StagesStep, display: StagesDisplay) -> Mapping[str, int]:
    """The sign of what each member brings to the first island, or holds, before the step's stage.

    1 for plus, −1 for minus, 0 for an empty capacitor.
    """
    before = display.solution.story.charges[step.stage - 1] if step.stage else {}
    signs: dict[str, int] = {}
    for name in step.members:
        charge: Exact = before.get(name, 0)
        turned = -1 if name in step.turned else 1
        signs[name] = _sign(charge) * turned * step.plates.get(name, 1)
    return signs


def _sign(value: Exact) -> int:
    return 0 if value == 0 else 1 if value > 0 else -1


def comes_in(step: StagesStep, display: StagesDisplay) -> Prose:
    """How the charges of joined plates count: added, or one against the other."""
    signs = signs_of(step, display)
    charged = [name for name, sign in signs.items() if sign]
    empty = tuple(name for name, sign in signs.items() if not sign)
    turned = tuple(name for name in step.turned if signs.get(name))
    about_turned = (
        say("{named} {was} turned round, so {its} other plate is here.",
            named=display.elements(turned), was="was" if len(turned) == 1 else "were",
            its="its" if len(turned) == 1 else "their") if turned else ()
    )  # fmt: skip
    nothing = (
        say("{empty} {bring} nothing along", empty=display.elements(empty),
            bring="brings" if len(empty) == 1 else "bring") if empty else ()
    )  # fmt: skip
    if len(charged) == 1:
        tells = say("{nothing}, so all of it comes from {one}.", nothing=nothing,
                    one=display.element(charged[0]))  # fmt: skip
        return sentences(about_turned, tells)
    if len({signs[name] for name in charged}) == 1:
        which = "The others" if empty else "Both" if len(charged) == 2 else "All"
        tells = say("{which} are + plates, so their charges add.", which=which)
    else:
        tells = say("Here a + plate meets a − plate. What is missing on the one is filled from "
                    "the other, so the charges count against each other.")  # fmt: skip
    return sentences(about_turned, say("{nothing}.", nothing=nothing) if empty else (), tells)


def each_holds(whose: tuple[str, ...], stage: int, display: StagesDisplay) -> Prose:
    """Who gets more, where capacitors share a voltage."""
    if not any(display.solution.story.charges[stage][name] for name in whose):
        return ()
    sizes = {name: display.solution.values[Name("capacitance", name)] for name in whose}
    if len(sizes) < 2 or len(set(sizes.values())) == 1:
        return ()
    largest = max(sizes, key=lambda name: sizes[name])
    size = "larger" if len(sizes) == 2 else "largest"
    return say("The {size} capacitance, {one}, holds the {size} charge.",
               size=size, one=display.element(largest))  # fmt: skip


def turned_over(step: StagesStep, display: StagesDisplay) -> Prose:
    """A sentence on members whose plates have changed roles, or that lie the other way round."""
    story, values = display.solution.story, display.solution.values
    if not step.stage:
        return ()
    negative = tuple(dict.fromkeys(
        split_moment(name.of)[0] for name in step.found
        if split_moment(name.of)[0] in display.members and values[name] < 0
    ))  # fmt: skip
    before = story.charges[step.stage - 1]
    swapped = tuple(name for name in negative if before[name] > 0 and name not in step.turned)
    if swapped:
        return say("The minus sign tells that {named} {has} turned over: the plate that was + is "
                   "now −.", named=display.elements(swapped),
                   has="has" if len(swapped) == 1 else "have")  # fmt: skip
    if negative:
        return say("A minus sign tells that the first plate of {named}, from which we count, is "
                   "the − one.", named=display.elements(negative))  # fmt: skip
    return ()
