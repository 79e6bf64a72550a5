"""The checks in words: what must hold, and its numbers."""

from __future__ import annotations

from builder.lesson.checked import Shows, and_more, shows
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import Prose, say
from builder.quantity.formula import names_in
from builder.solution.check import Check
from builder.solution.network.checks import NetworkCheck

MOST_OF_A_KIND = 3


def add_up(display: NetworkDisplay) -> tuple[tuple[Shows, ...], Prose]:
    """The checks worth telling, and a sentence on those that hold but are not told."""
    told: list[Shows] = []
    left_out = 0
    counts: dict[str, int] = {}
    seen: set[tuple[str, frozenset[str]]] = set()
    for check in display.solution.checks:
        names = frozenset(name.of for name in (*names_in(check.left), *names_in(check.right)))
        if (check.kind, names) in seen or not _worth_telling(check):
            continue
        seen.add((check.kind, names))
        counts[check.kind] = counts.get(check.kind, 0) + 1
        if counts[check.kind] > MOST_OF_A_KIND:
            left_out += 1
            continue
        told.append(shows(check, _says(check, display), _quantity_of(check, display), display))
    return tuple(told), and_more(left_out)


def _worth_telling(check: Check) -> bool:
    """A junction where only two meet says no more than that they carry the same."""
    return check.kind is not NetworkCheck.JUNCTION or len(check.about) > 3


def _quantity_of(check: Check, display: NetworkDisplay) -> str:
    law = display.law
    return {NetworkCheck.WORK: law.work, NetworkCheck.LOOP: law.drop}.get(
        NetworkCheck(check.kind), law.flow
    )


def _says(check: Check, display: NetworkDisplay) -> Prose:
    match check.kind:
        case NetworkCheck.JUNCTION:
            return _says_junction(check, display)
        case NetworkCheck.LOOP if not any(map(display.source, check.about)):
            return say("Once round the loop through {path}, the voltages cancel:",
                       path=display.elements(check.about))  # fmt: skip
        case NetworkCheck.LOOP:
            return say("Once round the loop through {path}, the voltages add up to those of the "
                       "sources:", path=display.elements(check.about))  # fmt: skip
        case _:
            if display.law.work == "energy":
                return say("The energies of all capacitors make up the energy of the whole:")
            return say("The powers of all resistors make up what the sources deliver:")


def _says_junction(check: Check, display: NetworkDisplay) -> Prose:
    if display.law.flow == "charge":
        return say("Where {names} meet at junction {junction}, the charges on both sides match:",
                   names=display.elements(check.about[1:]),
                   junction=check.about[0])  # fmt: skip
    return say("What flows into junction {junction} flows out of it:", junction=check.about[0])
