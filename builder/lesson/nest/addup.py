"""The checks in words: what must hold, and its numbers."""

from __future__ import annotations

from enum import StrEnum

from builder.circuit.tree import leaves
from builder.lesson.checked import Shows, and_more, shows
from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import Prose, say
from builder.lesson.vocabulary import Vocabulary, vocabulary
from builder.quantity.formula import names_in
from builder.quantity.names import TOTAL
from builder.solution.check import Check
from builder.solution.nest.checks import CheckKind

MOST_OF_A_KIND = 4


def add_up(display: NestDisplay) -> tuple[tuple[Shows, ...], Prose]:
    """The checks worth telling, and a sentence on those that hold but are not told."""
    told: list[Shows] = []
    left_out = 0
    seen: set[tuple[StrEnum, frozenset[str]]] = set()
    counts: dict[StrEnum, int] = {}
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
    return tuple(told), and_more(left_out)


def _worth_telling(check: Check, display: NestDisplay) -> bool:
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


def _sides_look_different(check: Check, display: NestDisplay) -> bool:
    """At the shown digits: “1.00 Ω > 1.00 Ω” would convince nobody."""
    shows = _told(check, display)
    return shows.left_number.text != shows.right_number.text


def _has_forks(display: NestDisplay) -> bool:
    return any(
        check.kind is CheckKind.JUNCTION and len(check.about) > 3
        for check in display.solution.checks
    )


def _told(check: Check, display: NestDisplay) -> Shows:
    return shows(check, _says(check, display), _quantity_of(check, display), display)


def _quantity_of(check: Check, display: NestDisplay) -> str:
    law = display.naming.law
    kinds: dict[StrEnum, str] = {
        CheckKind.WORK: law.work,
        CheckKind.LOOP: law.drop,
        CheckKind.BOUND: law.value,
    }
    return kinds.get(check.kind, law.flow)


def _says(check: Check, display: NestDisplay) -> Prose:
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


def _says_equivalent(check: Check, display: NestDisplay, voc: Vocabulary) -> Prose:
    named = display.elements(check.about)
    if len(check.about) == 1:
        return say("The {flow} of the equivalent is the {flow} {word} {named}, next to the "
                   "source's + terminal:",
                   flow=voc.flow, word=voc.flow_word, named=named)  # fmt: skip
    verb = "hold" if voc.flow == "charge" else "carry"
    return say("The {flow} of the equivalent is what {named} {verb} together:",
               flow=voc.flow, named=named, verb=verb)  # fmt: skip
