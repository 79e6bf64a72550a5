"""One question that needs no arithmetic: a given is doubled, what becomes of the answer?"""

from __future__ import annotations

from sympy import Integer, Rational

from builder.lesson.prose import Prose, SymbolOf, say
from builder.lesson.questions import ChoiceQuestion, Option
from builder.lesson.relations.altered import values_with
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.relations.plates import predict_of_plates
from builder.quantity.exact import Exact
from builder.quantity.names import Name

_BECOMES: dict[Exact, str] = {
    Integer(4): "It becomes four times as large", Integer(2): "It doubles",
    Integer(1): "It stays the same", Rational(1, 2): "It falls to half",
    Rational(1, 4): "It falls to a quarter",
}  # fmt: skip
_WHY: dict[Exact, str] = {
    Integer(4): "{cause} enters with its square, so twice as much of it gives four times as much.",
    Integer(2): "{effect} grows in step with {cause}.",
    Integer(1): "{cause} has no part in it.",
    Rational(1, 2): "{effect} is inversely proportional to {cause}.",
    Rational(1, 4): "{cause} enters below the line with its square.",
}

_THRICE: dict[Exact, Exact] = {
    Integer(4): Integer(9), Integer(2): Integer(3), Integer(1): Integer(1),
    Rational(1, 2): Rational(1, 3), Rational(1, 4): Rational(1, 9),
}  # fmt: skip


def predict(display: RelationsDisplay) -> ChoiceQuestion | None:
    """The question about the last thing asked; None where no given changes it simply."""
    plates = display.solution.problem.plates
    about_plates = predict_of_plates(plates) if plates is not None else None
    if about_plates is not None:
        return about_plates
    for effect in reversed(display.solution.problem.find):
        found = _simple_causes(effect, display)
        for ratio in (Rational(1, 2), Integer(4), Rational(1, 4), Integer(2)):
            if ratio in found:
                return _question(found[ratio], effect, ratio, display)
    return None


def _simple_causes(effect: Name, display: RelationsDisplay) -> dict[Exact, Name]:
    """A given for each simple ratio by which the answer changes when that given is doubled."""
    causes: dict[Exact, Name] = {}
    for stated in display.solution.problem.quantities:
        if stated.value is None or stated.source or stated.value == 0:
            continue
        # Twice as much alone may give a simple ratio by accident; a power gives it three times too.
        twice, thrice = (_ratio(effect, stated.name, stated.value, n, display) for n in (2, 3))
        if twice in _BECOMES and thrice == _THRICE[twice]:
            causes.setdefault(twice, stated.name)
    return causes


def _ratio(
    effect: Name, cause: Name, value: Exact, times: int, display: RelationsDisplay
) -> Exact | None:
    """What the answer becomes, against what it is, if a given were so many times as large."""
    before = display.solution.values[effect]
    values = values_with(display, {cause: value * times})
    return values[effect] / before if effect in values and before != 0 else None


def _question(cause: Name, effect: Name, right: Exact, display: RelationsDisplay) -> ChoiceQuestion:
    named = {"cause": SymbolOf(cause), "effect": SymbolOf(effect)}
    why: Prose = say(_WHY[right], **named)
    options = tuple(
        Option(say(text), ratio == right,
               say("{verdict} {why}", verdict="Yes:" if ratio == right else "No:", why=why))
        for ratio, text in _BECOMES.items()
    )  # fmt: skip
    ask = say("Suppose {cause} were twice as large and everything else that is given stayed. What "
              "would become of {effect}?", **named)  # fmt: skip
    return ChoiceQuestion(ask, options, None)
