"""What is wrong with problems in stages, told in plain words."""

from __future__ import annotations

import pytest

from builder.errors import FaultyFile
from builder.problem import read_problem_text

BRANCHES = """\
title: A transfer
circuit:
  branches:
    V0: {emf: 12 V, between: [p, g]}
    C1: {capacitance: 4 uF, between: [a, g]}
    C2: {capacitance: 2 uF, charged: 6 V, between: [b, g]}
    S1: {switch: open, between: [p, a]}
    S2: {switch: open, between: [a, b]}
"""
STAGES = "stages:\n  - close: S1\n  - open: S1\n  - close: S2\n"
FIND = "find: charge\n"


def faults_in(text: str) -> list[str]:
    """What reading says, a line for each fault."""
    with pytest.raises(FaultyFile) as caught:
        read_problem_text(text, "problem.yml")
    return [str(fault) for fault in caught.value.faults]


def _stages(*lines: str) -> str:
    return f"{BRANCHES}stages:\n" + "".join(f"  {line}\n" for line in lines) + FIND


def _branch(line: str) -> str:
    return f"{BRANCHES}    {line}\n{STAGES}{FIND}"


FAULTS = {
    "closed-already": (
        _stages("- close: S1", "- close: S1"),
        "11:12: found S1, which is closed already; expected a switch that is open by then. "
        "Delete it, or say before it when S1 is opened.",
    ),
    "open-already": (
        _stages("- open: S2"),
        "10:11: found S2, which is open already; expected a switch that is closed by then. "
        "Delete it, or say before it when S2 is closed.",
    ),
    "unknown-switch": (
        _stages("- close: S12"),
        '10:12: found "S12", which is no switch of the circuit; expected S1 or S2. Did you mean '
        '"S2"?',
    ),
    "capacitor-closed": (
        _stages("- close: C1"),
        '10:12: found "C1", which is no switch of the circuit; expected S1 or S2. Only switches '
        "open and close: put one beside C1.",
    ),
    "switch-turned": (
        _stages("- turn: S1"),
        '10:11: found "S1", which is no capacitor of the circuit; expected C1 or C2. Name a '
        "capacitor of this circuit.",
    ),
    "list-without-brackets": (
        _stages("- close: S1, S2"),
        '10:12: found "S1, S2", which is no switch of the circuit; expected S1 or S2. Write '
        "several in square brackets: [S1, S2].",
    ),
    "both": (
        _stages("- close: S1", "- {open: S1, close: S1}"),
        "11:23: found S1 both opened and closed in one stage; expected one of the two. Make two "
        "stages of it.",
    ),
    "twice": (
        _stages("- close: [S1, S1]"),
        '10:17: found "S1" a second time; expected each switch once in a stage. Delete one of the '
        "two.",
    ),
    "no-stage": (
        f"{BRANCHES}stages: []\n{FIND}",
        "9:9: found an empty list; expected at least one stage. Say what is done, such as - close: "
        "S1.",
    ),
    "stage-without-key": (
        _stages("- S1"),
        '10:5: found "S1"; expected what is done, such as close: S1. Write close:, open: or turn: '
        "with names.",
    ),
    "misspelled-key": (
        _stages("- closes: S1"),
        '10:5: found the key "closes"; expected close, open or turn. Did you mean "close"?',
    ),
    "without-stages": (
        f"{BRANCHES}{FIND}",
        "6:5: found switches or charges without stages; expected stages: with what is done, such "
        "as - close: S1. Add stages: below the circuit, one line for each stage.",
    ),
    "nest": (
        "title: A nest\ncircuit:\n  source: 12 V\n  series:\n    - C1: 1 uF\n    - C2: 2 uF\n"
        f"{STAGES}{FIND}",
        "7:1: found stages beside a circuit without branches; expected branches: with the ends of "
        "each capacitor, battery and switch. Write the circuit as a table of branches, or delete "
        "stages.",
    ),
    "resistor": (
        _branch("R1: {resistance: 5 ohm, between: [a, b]}"),
        "9:5: found the resistor R1 in a circuit with stages; expected capacitors, batteries and "
        "switches. A resistor only slows the charge down: what the capacitors hold in the end is "
        "the same without it. Leave it out.",
    ),
    "current-source": (
        _branch("I1: {current: 5 A, between: [a, b]}"),
        "9:5: found the current source I1 in a circuit with stages; expected batteries, with emf. "
        "A steady current would charge the capacitors for ever. Write emf: with a voltage.",
    ),
    "inner": (
        _branch("V1: {emf: 5 V, inner: 1 ohm, between: [c, g]}"),
        "9:20: found inner, in a circuit of capacitors; expected batteries without internal "
        "resistance. Delete it: it changes nothing once no charge moves any more.",
    ),
    "lost": (
        _branch("lost: {capacitance: 1 uF, between: [b, g]}"),
        '9:5: found the name "lost"; expected a name that means nothing else here. Choose a name '
        "such as C1, V0 or S1.",
    ),
    "short-in-a-stage": (
        f"{BRANCHES}    S3: {{switch: open, between: [a, g]}}\n"
        f"stages:\n  - close: S1\n  - close: S3\n{FIND}",
        "12:12: found a wire straight across the battery V0, closed by S3; expected a capacitor in "
        "every loop. Nothing would limit what flows: the battery would be shorted. Open another "
        "switch first, or put a capacitor there.",
    ),
    "short-at-first": (
        _branch("S3: {switch: closed, between: [p, g]}"),
        "4:5: found a wire straight across the battery V0; expected a capacitor in every loop. "
        "Nothing would limit what flows: the battery would be shorted. Open another switch first, "
        "or put a capacitor there.",
    ),
    "batteries-disagree": (
        f"{BRANCHES}    V1: {{emf: 9 V, between: [q, g]}}\n"
        f"    S3: {{switch: open, between: [q, a]}}\nstages:\n  - close: S1\n  - close: S3\n{FIND}",
        "13:12: found V0 and V1 in a loop without a capacitor, closed by S3; expected voltages "
        "that agree round every loop. Their voltages differ, and nothing would limit what flows. "
        "Put a capacitor between them, or leave a switch open.",
    ),
    "batteries-agree": (
        f"{BRANCHES}    V1: {{emf: 12 V, between: [p, g]}}\n{STAGES}{FIND}",
        "4:5: found V0 and V1 in a loop without a capacitor; expected a capacitor in every loop. "
        "Their voltages agree, but nothing tells which of them delivers how much. Leave one of "
        "them out.",
    ),
    "misspelled-junction": (
        _branch("C3: {capacitance: 1 uF, between: [a, gg]}"),
        '9:42: found the junction "gg", where nothing but C3 ends; expected at least two branches '
        'at each junction. Did you mean "g"?',
    ),
    "loose-end": (
        _branch("C3: {capacitance: 1 uF, between: [a, mast]}"),
        '9:42: found the junction "mast", where nothing but C3 ends; expected at least two '
        "branches at each junction. Connect something else there, or leave C3 out.",
    ),
    "charged-but-restless": (
        BRANCHES.replace("between: [b, g]", "between: [p, g]").replace("[a, b]", "[a, p]")
        + "stages:\n  - close: S2\n"
        + FIND,
        "6:38: found C2 charged to 6 V, which it would lose or add to before any switch is thrown; "
        "expected a charge that stays until the first stage. Delete charged, or leave a switch "
        "open beside it.",
    ),
    "charged-to-nothing": (
        BRANCHES.replace("charged: 6 V", "charged: 0 V") + STAGES + FIND,
        "6:38: found a capacitor charged to 0 V; expected a voltage or a charge above zero. Delete "
        "charged: a capacitor without it starts empty.",
    ),
    "charged-backwards": (
        BRANCHES.replace("charged: 6 V", "charged: -6 V") + STAGES + FIND,
        "6:38: found a capacitor charged to −6 V; expected a voltage or a charge above zero. The "
        "first junction of C2 is the + one: write its junctions the other way round, without the "
        "minus sign.",
    ),
    "charged-in-farads": (
        BRANCHES.replace("charged: 6 V", "charged: 6 uF") + STAGES + FIND,
        '6:38: found "6 uF", a capacitance; expected a voltage such as 12 V, or a charge such as '
        "60 uC. Change the unit: µF measures capacitance.",
    ),
    "source-beside": (
        BRANCHES.replace("circuit:\n", "circuit:\n  source: 12 V\n") + STAGES + FIND,
        "3:3: found source beside branches that switches join; expected branches or place. Write "
        "the battery among the branches: V0: {emf: 12 V, between: [top, bottom]}.",
    ),
    "no-capacitor": (
        "title: None\ncircuit:\n  branches:\n    V0: {emf: 12 V, between: [p, g]}\n"
        "    S1: {switch: open, between: [p, a]}\nstages:\n  - close: S1\nfind: charge\n",
        "3:3: found a circuit with stages and without capacitors; expected at least one capacitor. "
        "Add the capacitors.",
    ),
    "current-asked": (
        f"{BRANCHES}{STAGES}find: current\n",
        '13:7: found "current"; expected charge, voltage or energy. Charges settle at one value: '
        "ask for charge, voltage or energy.",
    ),
    "stage-out-of-range": (
        f"{BRANCHES}{STAGES}find:\n  - charge: {{C1: after 4}}\n",
        '14:18: found "after 4" in a problem of 3 stages; expected a stage from 1 to 3. Stages are '
        "counted from 1, in the order of the list.",
    ),
    "strange-moment": (
        f"{BRANCHES}{STAGES}find:\n  - charge: {{C1: later}}\n",
        '14:18: found "later"; expected before, or after and the number of a stage, such as after '
        "1. Write the moment that is meant.",
    ),
    "lost-before": (
        f"{BRANCHES}{STAGES}find:\n  - energy: {{lost: before}}\n",
        '14:14: found "lost" before the first stage; expected a stage, such as in 1. Nothing is '
        "lost or delivered before a switch is thrown.",
    ),
    "charge-lost": (
        f"{BRANCHES}{STAGES}find:\n  - charge: lost\n",
        '14:13: found charge of "lost"; expected an element, or energy: lost. Only energies are '
        "added up: write energy: lost.",
    ),
    "given-asked": (
        f"{BRANCHES}{STAGES}find:\n  - voltage: V0\n",
        "14:14: found the voltage of V0, which is given; expected a quantity that is not given. "
        "Ask for charge: V0 or energy: V0: what it moves and delivers.",
    ),
    "unknown-asked": (
        f"{BRANCHES}{STAGES}find:\n  - charge: C3\n",
        '14:13: found "C3", which is no capacitor of the circuit; expected C1, C2, all, total or '
        "lost. Name a capacitor or a battery of this circuit.",
    ),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_told_with_its_place(name: str) -> None:
    """One fault in a file gives one line, which says what to do."""
    text, message = FAULTS[name]
    assert faults_in(text) == [f"problem.yml:{message}"]


def test_all_faults_of_a_file_are_told_at_once() -> None:
    """A fault in one stage does not hide that of the next, nor that of what is asked."""
    text = _stages("- close: S9", "- open: S2").replace(FIND, "find: current\n")
    assert [fault.split(":")[1] for fault in faults_in(text)] == ["10", "11", "12"]
