"""The formula sheet as data: what the laws say, written out for a few members.

Every formula is made by the law that solves the problems, so that a sheet cannot say anything
else than the solutions do.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from builder.circuit.law import CAPACITORS, LAWS, PARALLEL, RESISTORS, SERIES, Law
from builder.lesson.network.formulas import network_rules
from builder.lesson.stages.formulas import stages_rules
from builder.lesson.transient.formulas import transient_rules
from builder.quantity.formula import Formula, Ref, Sum
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name, Symbol

MEMBERS = ("1", "2", "3")
ONE = ""
"""What a quantity belongs to where the sheet speaks of any single element."""


@dataclass(frozen=True)
class Equality:
    """Quantities that are equal, and what they equal.

    Attributes:
        left: at least one.
        right: a formula.
    """

    left: tuple[Name, ...]
    right: Formula


@dataclass(frozen=True)
class Rule:
    """One entry of the sheet.

    Attributes:
        called: its heading.
        equalities: what holds.
        why: the reason, in a sentence or two.
    """

    called: str
    equalities: tuple[Equality, ...]
    why: str


@dataclass(frozen=True)
class Sheet:
    """The rules of one kind of element.

    Attributes:
        law: of the elements.
        rules: at least one.
    """

    law: Law
    rules: tuple[Rule, ...]


@dataclass(frozen=True)
class Meaning:
    """What a symbol stands for.

    Attributes:
        kind: the name of the quantity kind.
        unit_name: its unit in full.
        means: what it tells, in a phrase.
    """

    kind: str
    unit_name: str
    means: str


@dataclass(frozen=True)
class _Reasons:
    """Why the rules of one law hold."""

    one: str
    shared_in_series: str
    work: str


_PLURALS = {"capacitance": "capacitances", "energy": "energies"}
_REASONS = {
    CAPACITORS.value: _Reasons(
        one="The charge on a capacitor grows in step with its voltage. The capacitance tells how "
        "much charge it takes for each volt.",
        shared_in_series="What leaves one plate must arrive on the next, so every capacitor of a "
        "chain carries the same charge.",
        work="While a capacitor is being charged, its voltage rises from nothing. On average the "
        "charge is moved against half of the final voltage.",
    ),
    RESISTORS.value: _Reasons(
        one="The current through a resistor grows in step with its voltage. The resistance tells "
        "how many volts it takes for each ampere.",
        shared_in_series="Along a chain there is no branch where current could leave or join, so "
        "the same current flows through every resistor.",
        work="Each coulomb that passes gives up as many joules as there are volts across the "
        "resistor, and the current tells how many coulombs pass in a second.",
    ),
}
MEANINGS = (
    Meaning("capacitance", "farad", "how much charge a capacitor takes for each volt"),
    Meaning("resistance", "ohm", "how many volts a resistor needs for each ampere"),
    Meaning("charge", "coulomb", "what has been moved onto one plate and off the other"),
    Meaning("current", "ampere", "how much charge passes in a second"),
    Meaning("voltage", "volt", "what lies between two junctions and drives charge along"),
    Meaning("potential", "volt", "the voltage of a junction against the one that counts as zero"),
    Meaning("energy", "joule", "what a charged capacitor has stored and can give back"),
    Meaning("power", "watt", "how much energy a resistor turns into heat in a second"),
    Meaning("time", "second", "how long something takes"),
    Meaning("time-constant", "second", "how long a charge takes for 63 % of the way ahead of it"),
    Meaning("length", "metre", "how far apart two points are"),
    Meaning("area", "square metre", "how much surface a plate has"),
    Meaning("field", "volt per metre", "how many volts lie along each metre between two plates"),
    Meaning("permittivity", "farad per metre", "how much charge a field of one volt per metre "
            "holds on each square metre of a plate"),
    Meaning("ratio", "no unit", "how many times as large one thing is as another"),
)  # fmt: skip


def sheets(used: Collection[str]) -> tuple[Sheet, ...]:
    """The formula sheet of what occurs in a unit, as ``uses`` tells it."""
    return tuple(
        Sheet(law, tuple(_rules(law, used))) for law in LAWS.values() if law.element in used
    )


def meanings(used: Collection[str]) -> tuple[Meaning, ...]:
    """What the symbols stand for that occur in a unit."""
    return tuple(meaning for meaning in MEANINGS if meaning.kind in used)


def sheet_symbol(name: Name) -> Symbol:
    """How the sheet writes a quantity: Q₁ of a member, C_eq and Q of the whole, C of any one."""
    letter = KINDS[name.quantity].symbol
    if name.of == TOTAL:
        is_value = name.quantity in LAWS
        return Symbol(letter, "eq" if is_value else "")
    return Symbol(letter, name.of)


def _rules(law: Law, used: Collection[str]) -> Iterator[Rule]:
    value, flow, drop = (Ref(Name(kind, ONE)) for kind in (law.value, law.flow, law.drop))
    if law.flow in used:
        both = (
            Equality((flow.name,), law.flow_from(value, drop)),
            Equality((drop.name,), law.drop_from(value, flow)),
        )
        yield Rule(f"One {law.element}", both, _REASONS[law.value].one)
    for connection in (PARALLEL, SERIES):
        if f"{law.element}-{connection}" in used:
            yield _merging(law, connection, told_flow=law.flow in used)
    for called, lines, why in (
        *network_rules(law, used),
        *stages_rules(law, used),
        *transient_rules(law, used),
    ):
        yield Rule(called, tuple(Equality(left, right) for left, right in lines), why)
    if law.work in used:
        ways = (
            law.work_from_flow_and_drop(flow, drop),
            law.work_from_drop(value, drop),
            law.work_from_flow(value, flow),
        )
        work = Name(law.work, ONE)
        equalities = tuple(Equality((work,), way) for way in ways)
        yield Rule(f"{law.work.capitalize()} of one {law.element}", equalities,
                   _REASONS[law.value].work)  # fmt: skip


def _merging(law: Law, connection: str, *, told_flow: bool) -> Rule:
    """What is shared in a connection, what adds up, and what that makes of the values."""
    shared, added = (law.drop, law.flow) if connection == PARALLEL else (law.flow, law.drop)
    equalities = []
    if told_flow:
        one_for_all = tuple(Name(shared, member) for member in (TOTAL, *MEMBERS))
        equalities = [
            Equality(one_for_all[:-1], Ref(one_for_all[-1])),
            Equality((Name(added, TOTAL),), Sum(_members(added))),
        ]
    merged = law.merged(connection, _members(law.value))
    equalities.append(Equality((Name(law.value, TOTAL),), merged))
    reason = _REASONS[law.value].shared_in_series
    if connection == PARALLEL:
        reason = "Branches side by side share both junctions, so the same voltage is across each."
    values = _plural(law.value)
    follows = values if isinstance(merged, Sum) else f"the reciprocals of their {values}"
    owner = "their " if isinstance(merged, Sum) else ""
    where = "side by side" if connection == PARALLEL else "in a chain"
    why = f"{reason} Their {_plural(added)} add up, and so do {owner}{follows}."
    called = f"{law.element.capitalize()}s {where} (in\u00a0{connection})"
    return Rule(called, tuple(equalities), why)


def _members(kind: str) -> tuple[Ref, ...]:
    return tuple(Ref(Name(kind, member)) for member in MEMBERS)


def _plural(kind: str) -> str:
    return _PLURALS.get(kind, f"{kind}s")
