"""The checks in words: what must hold, and its numbers."""

from __future__ import annotations

from dataclasses import dataclass

from builder.circuit.tree import leaves
from builder.lesson.display import Display
from builder.lesson.prose import Prose, number_word, say
from builder.lesson.vocabulary import Vocabulary, vocabulary
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, evaluate, names_in
from builder.quantity.names import TOTAL
from builder.quantity.show import Shown, show
from builder.solution.checks import Check, CheckKind

MOST_OF_A_KIND = 4


@dataclass(frozen=True)
class Shows:
    """A check as the page tells it.

    Attributes:
        says: what must hold.
        left, right: the two sides.
        relation: between them.
        left_number, right_number: the value of each side.
    """

    says: Prose
    left: Formula
    relation: str
    right: Formula
    left_number: Shown
    right_number: Shown


def add_up(display: Display) -> tuple[tuple[Shows, ...], Prose]:
    """The checks worth telling, and a sentence on those that hold but are not told."""
    told: list[Shows] = []
    left_out = 0
    seen: set[tuple[CheckKind, frozenset[str]]] = set()
    counts: dict[CheckKind, int] = {}
    for check in display.solution.checks:
        key = (check.kind, frozenset(check.about))
        if key in seen or not _worth_telling(check, display):
            continue
        seen.add(key)
        counts[check.kind] = counts.get(check.kind, 0) + 1
        if counts[check.kind] > MOST_OF_A_KIND:
            left_out += 1
            continue
        told.append(_told(check, display))
    rest = (
        say("{count} more like these hold as well.", count=number_word(left_out).capitalize())
        if left_out > 1
        else say("One more like these holds as well.") if left_out else ()
    )  # fmt: skip
    return tuple(told), rest


def _worth_telling(check: Check, display: Display) -> bool:
    if check.kind is CheckKind.JUNCTION:
        return len(check.about) > 3
    if check.kind is CheckKind.LOOP:
        return len(check.about) > 1
    if check.kind is CheckKind.EQUIVALENT:
        return len(check.about) > 1 or not _has_forks(display)
    if check.kind is CheckKind.BOUND:
        whole = check.about[0] == TOTAL and display.solution.problem.network.source is None
        return whole and _sides_look_different(check, display)
    return True


def _sides_look_different(check: Check, display: Display) -> bool:
    """At the shown digits: “1.00 Ω > 1.00 Ω” would convince nobody."""
    shows = _told(check, display)
    return shows.left_number.text != shows.right_number.text


def _has_forks(display: Display) -> bool:
    return any(
        check.kind is CheckKind.JUNCTION and len(check.about) > 3
        for check in display.solution.checks
    )


def _told(check: Check, display: Display) -> Shows:
    values = display.solution.values
    left, right = evaluate(check.left, values), evaluate(check.right, values)
    kind = _quantity_of(check, display)
    shown = [_shown(value, kind, display) for value in (left, right)]
    return Shows(_says(check, display), check.left, check.relation, check.right, *shown)


def _shown(value: Exact, kind: str, display: Display) -> Shown:
    return show(value, kind, display.digits)


def _quantity_of(check: Check, display: Display) -> str:
    law = display.naming.law
    return {CheckKind.WORK: law.work, CheckKind.LOOP: law.drop, CheckKind.BOUND: law.value}.get(
        check.kind, law.flow
    )


def _says(check: Check, display: Display) -> Prose:
    voc = vocabulary(display.solution.problem.law)
    match check.kind:
        case CheckKind.JUNCTION:
            into = tuple(name.of for name in names_in(check.left))
            out = tuple(name.of for name in names_in(check.right))
            if voc.flow == "charge":
                return say("Where {into} {meet} {out}, the charges on both sides match:",
                           into=display.elements(into), out=display.elements(out),
                           meet="meets" if len(into) == 1 else "meet")  # fmt: skip
            return say("What comes in through {into} goes out through {out}:",
                       into=display.elements(into), out=display.elements(out))  # fmt: skip
        case CheckKind.LOOP:
            if check.about == leaves(display.solution.problem.tree):
                return say("Along the whole chain, the voltages add up to the source's:")
            return say("Along the path through {path}, the voltages add up to the source's:",
                       path=display.elements(check.about))  # fmt: skip
        case CheckKind.EQUIVALENT:
            return _says_equivalent(check, display, voc)
        case CheckKind.WORK if voc.work == "energy":
            return say("The energies of all capacitors make up the energy of the whole:")
        case CheckKind.WORK:
            return say("The powers of all resistors make up what the source delivers:")
        case _:
            way = "less than its smallest part" if check.relation == "<" else (
                "more than its largest part"
            )  # fmt: skip
            return say("The equivalent is {way}:", way=way)


def _says_equivalent(check: Check, display: Display, voc: Vocabulary) -> Prose:
    named = display.elements(check.about)
    if len(check.about) == 1:
        return say("The {flow} of the equivalent is the {flow} {word} {named}, next to the "
                   "source's + terminal:",
                   flow=voc.flow, word=voc.flow_word, named=named)  # fmt: skip
    verb = "hold" if voc.flow == "charge" else "carry"
    return say("The {flow} of the equivalent is what {named} {verb} together:",
               flow=voc.flow, named=named, verb=verb)  # fmt: skip
