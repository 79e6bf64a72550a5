"""What a teacher asks for on the command line, read as the same keys of a file are."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from builder.circuit.law import LAWS
from builder.problem.faults.gathering import Faults, Mark
from builder.problem.fresh import follows, stated_values
from builder.problem.model import Problem
from builder.problem.varying.keep import KeepReader
from builder.problem.varying.model import Keep, Vary
from builder.problem.varying.vary import VaryReader
from builder.problem.yaml_text.located import Entry, Items, Map, Text
from builder.quantity.names import Name

_NOWHERE = Mark(0, 0)  # a command line has no lines


@dataclass(frozen=True)
class Wishes:
    """What is asked for, as typed.

    Attributes:
        series: the series that elements are taken from, such as ``E12``; None for none.
        vary: what single values may be: ``C1=E24``, ``V0=5 V to 14 V step 1 V``.
        keep: what must be so: ``charge=1 uC to 100 uC``, ``order=same``.
    """

    series: str | None = None
    vary: tuple[str, ...] = ()
    keep: tuple[str, ...] = ()


def with_wishes(problem: Problem, wishes: Wishes) -> Problem:
    """The problem with other wishes than its file tells.

    Where values are named, the others stay; where none are, the file's ``vary:`` or sensible
    values hold. Values that are equal in the file stay equal, unless both are named.

    Raises:
        FaultyFile: at the first wish that is not understood, named by its option.
    """
    if wishes.series is not None or wishes.vary:
        problem = replace(problem, vary=_varied(problem, wishes))
    for option in wishes.keep:
        faults = Faults(f"--keep {option}")
        asked = _entry("keep", (_pair(option, "charge=1 uC to 100 uC", faults),))
        found = KeepReader(problem.find, faults).read(asked)
        faults.stop()
        problem = replace(problem, keep=_joined(problem.keep, found))
    return problem


def _varied(problem: Problem, wishes: Wishes) -> Vary:
    values: dict[Name, tuple[str, ...]] = {}
    following = dict(follows(problem))
    for option in wishes.vary:
        faults = Faults(f"--vary {option}")
        pair = _pair(option, "C1=E12", faults)
        found = _read(problem, (pair,), faults)
        for name in (*found.values, *found.follows):
            if name in values or (problem.vary is not None and name in problem.vary.follows):
                faults.add(_NOWHERE, f"{pair.key.value}, which is told already",
                           "each value told once", "Leave this one out.")  # fmt: skip
        faults.stop()
        values |= dict(found.values)
        following = {n: f for n, f in following.items() if n not in found.values}
        following |= dict(found.follows)
    if wishes.series is not None:
        faults = Faults(f"--series {wishes.series}")
        elements = [
            _named(value.called, wishes.series)
            for value in stated_values(problem)
            if value.name.quantity in LAWS and not value.of_material
            and value.name not in values and value.name not in following
        ]  # fmt: skip
        values |= dict(_read(problem, elements, faults).values) if elements else {}
        faults.stop()
    return Vary(values, following)


def _read(problem: Problem, entries: Iterable[Entry], faults: Faults) -> Vary:
    by_word = {value.called: value for value in stated_values(problem)}
    found = VaryReader(by_word, problem, problem.text, faults).read(_entry("vary", entries))
    faults.stop()
    return found


def _pair(option: str, example: str, faults: Faults) -> Entry:
    """What stands before and after the equals sign; commas make a list of what stands after it.

    Raises:
        FaultyFile: if there is no equals sign with something on both sides.
    """
    name, equals, typed = (part.strip() for part in option.partition("="))
    if not (name and equals and typed):
        faults.add(_NOWHERE, f'"{option}"', f"a name, an equals sign and values, such as {example}",
                   "Put the whole between quotation marks if it holds spaces.")  # fmt: skip
        faults.stop()
    return _named(name, typed)


def _named(name: str, typed: str) -> Entry:
    if "," not in typed:
        return Entry(Text(name, _NOWHERE), Text(typed, _NOWHERE))
    listed = tuple(Text(part.strip(), _NOWHERE) for part in typed.split(","))
    return Entry(Text(name, _NOWHERE), Items(listed, _NOWHERE))


def _entry(key: str, entries: Iterable[Entry]) -> Entry:
    return Entry(Text(key, _NOWHERE), Map(tuple(entries), _NOWHERE))


def _joined(old: Keep, new: Keep) -> Keep:
    """What the file wants, and what is asked for besides or instead."""
    return Keep(
        new.digits or old.digits,
        {**old.ranges, **new.ranges},
        {**old.apart, **new.apart},
        new.same_order or old.same_order,
    )
