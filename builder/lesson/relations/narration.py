"""What a teacher says at each step: which relation is used, why it can be, what is done to it."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from builder.lesson.prose import Prose, SymbolOf, Written, listed, say, sentences
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.relations.plates import stands
from builder.lesson.words import Words
from builder.problem.relations.model import Relation
from builder.quantity.formula import names_in
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name
from builder.solution.relations.step import RelationMove, RelationStep

_UNDONE = {
    "divide": "divide by what multiplies it",
    "multiply": "multiply by what divides it",
    "subtract": "take away what is added to it",
    "add": "add what is taken away from it",
    "root": "take the square root",
    "square": "square both sides",
    "power": "take the root that undoes its exponent",
    "logarithm": "take the natural logarithm",
    "exponential": "raise e to both sides",
}


def narrate(step: RelationStep, display: RelationsDisplay) -> Words:
    """The words of a step."""
    reason = sentences(_because(step), _NARRATORS[step.kind](step, display))
    fields = [stands(name, display) for name in step.solved_for]
    remark = sentences(_choice(step, display), *fields, _constants(step, display))
    return Words(goal(step, display), reason, remark)


def in_turn(parts: list[Prose]) -> Prose:
    """``a, then b, then c``."""
    told: list[Prose] = []
    for part in parts:
        told += [say(", then ")] if told else []
        told.append(part)
    return tuple(piece for part in told for piece in part)


def goal(step: RelationStep, display: RelationsDisplay) -> Prose:
    """``Find the capacitance C``."""
    return say("Find {what}", what=listed([display.asks_for(name) for name in step.solved_for]))


def _because(step: RelationStep) -> Prose:
    """The author's reasons for the relations, each as a sentence of its own."""
    reasons = [relation.because for relation in step.relations if relation.because]
    return sentences(*((Written(reason),) for reason in reasons))


def _gives(step: RelationStep, display: RelationsDisplay) -> Prose:
    (name,) = step.solved_for
    if any(relation.because for relation in step.relations):
        return ()
    before = _found_before(step, display)
    if before:
        return say("Now that {before} {is_} known, this relation tells {what} outright.",
                   before=_symbols(before), is_=_is(before), what=SymbolOf(name))  # fmt: skip
    return say("{what} stands alone on one side of this relation, and everything on the other "
               "side is given.", what=SymbolOf(name))  # fmt: skip


def _rearrange(step: RelationStep, display: RelationsDisplay) -> Prose:
    (name,) = step.solved_for
    before = _found_before(step, display)
    opening = say("{what} is the only unknown in this relation", what=SymbolOf(name))
    if before:
        opening = say("Now that {before} {is_} known, {what} is the only unknown in this "
                      "relation", before=_symbols(before), is_=_is(before),
                      what=SymbolOf(name))  # fmt: skip
    return sentences(say("{opening}.", opening=opening), _how(step, name))


def _how(step: RelationStep, name: Name) -> Prose:
    """What is done to both sides until the unknown stands alone."""
    what = SymbolOf(name)
    if step.undone == ("turn",):
        return say("It stands below the line: multiply both sides by it, and divide by what it is "
                   "equal to then.")  # fmt: skip
    if "collect" in step.undone:
        root = " Then take the square root." if "root" in step.undone else ""
        return say("It occurs more than once, so bring every term with {what} to one side and "
                   "divide by what multiplies it.{root}", what=what, root=root)  # fmt: skip
    moves = [_UNDONE[word] for word in step.undone if word in _UNDONE]
    turned = "turn" in step.undone
    if turned:
        moves = ["bring it above the line", *moves]
    if not moves:
        return say("Read from right to left, it tells {what}.", what=what)
    return say(
        "To leave {what} alone, {moves}, on both sides alike.",
        what=what,
        moves=in_turn([say(move) for move in moves]),
    )


def _quadratic(step: RelationStep, display: RelationsDisplay) -> Prose:
    (name,) = step.solved_for
    return say("{what} is the only unknown, but its square occurs as well. Order the relation by "
               "powers of {what}: a quadratic equation, which the usual formula solves.",
               what=SymbolOf(name))  # fmt: skip


def _together(step: RelationStep, display: RelationsDisplay) -> Prose:
    return say("{opening} Each is linear in {them}, so {they} form a system that has one "
               "solution.", opening=_no_single(step), them=_symbols(step.solved_for),
               they="the relations")  # fmt: skip


def _powers(step: RelationStep, display: RelationsDisplay) -> Prose:
    return say("{opening} They only multiply, divide and raise, so multiplying or dividing them by "
               "each other makes one unknown drop out.", opening=_no_single(step))  # fmt: skip


def _substitute(step: RelationStep, display: RelationsDisplay) -> Prose:
    quadratic = step.choice is not None and step.choice.both
    ending = " That is a quadratic equation, which the usual formula solves." if quadratic else ""
    return say("{opening} Solve one relation for one of them and put that into the other, until "
               "a single unknown is left.{ending}",
               opening=_no_single(step), ending=ending)  # fmt: skip


def _no_single(step: RelationStep) -> Prose:
    count = len(step.relations)
    each = "Both relations hold" if count == 2 else "Each of these relations holds"
    return say(
        "{each} more than one unknown, so no single one gives {them}.",
        each=each,
        them=listed([SymbolOf(name) for name in step.solved_for], "or"),
    )


def _choice(step: RelationStep, display: RelationsDisplay) -> Prose:
    choice = step.choice
    if choice is None:
        return ()
    a_noun = KINDS[choice.name.quantity].a_noun
    if not choice.both:
        if choice.why == "only-positive":
            return say("The negative root satisfies the relation as well, but {a_noun} is never "
                       "negative.", a_noun=a_noun)  # fmt: skip
        return say("The negative root satisfies the relation as well: it is the same size, counted "
                   "in the other direction.")  # fmt: skip
    one, other = (SymbolOf(name) for name in choice.both)
    if choice.why == "only-positive":
        return say("Of {one} and {other} only one is above zero, and {a_noun} is never "
                   "negative.", one=one, other=other, a_noun=a_noun)  # fmt: skip
    if choice.why == "double":
        return say("{one} and {other} are the same.", one=one, other=other)
    return say("{one} and {other} both satisfy the relation; the {which} of the two is meant "
               "here.", one=one, other=other, which=choice.why)  # fmt: skip


def _constants(step: RelationStep, display: RelationsDisplay) -> Prose:
    """Where a constant comes from, at the first step that uses it."""
    told: list[Prose] = []
    for stated in display.solution.problem.quantities:
        users = [s for s in display.solution.steps if _uses(s, stated.name)]
        if stated.source and users and users[0] is step:
            told.append(say("{symbol} is {means} ({source}).", symbol=SymbolOf(stated.name),
                            means=stated.means, source=stated.source))  # fmt: skip
    return sentences(*told)


def _uses(step: RelationStep, name: Name) -> bool:
    return any(name in names_in(line.formula) for line in step.lines)


def _found_before(step: RelationStep, display: RelationsDisplay) -> tuple[Name, ...]:
    """What the step's relations use that earlier steps found."""
    used = dict.fromkeys(name for relation in step.relations for name in _names(relation))
    return tuple(
        name for name in used if display.found_before(name) and name not in step.solved_for
    )


def _names(relation: Relation) -> tuple[Name, ...]:
    return (*names_in(relation.left), *names_in(relation.right))


def _symbols(names: tuple[Name, ...]) -> Prose:
    return listed([SymbolOf(name) for name in names])


def _is(names: tuple[Name, ...]) -> str:
    return "is" if len(names) == 1 else "are"


_NARRATORS: dict[StrEnum, Callable[[RelationStep, RelationsDisplay], Prose]] = {
    RelationMove.GIVES: _gives,
    RelationMove.REARRANGE: _rearrange,
    RelationMove.QUADRATIC: _quadratic,
    RelationMove.TOGETHER: _together,
    RelationMove.POWERS: _powers,
    RelationMove.SUBSTITUTE: _substitute,
}
