"""Problem files that the tests of the reader share."""

from __future__ import annotations

from builder.errors import FaultyFile
from builder.problem import read_problem_text
from builder.problem.faults.gathering import Faults
from builder.problem.model import Unit
from builder.problem.yaml_text.composing import compose

NEST = """\
title: Two lamps
circuit:
  source: 12 V
  series:
    - C1: 10 uF
    - C2: 20 uF
find: equivalent
"""

BRANCHES = """\
title: Two lamps
circuit:
  branches:
    V0: {emf: 9 V, between: [top, bottom]}
    R1: {resistance: 100 ohm, between: [top, left]}
    R2: {resistance: 50 ohm, between: [bottom, left]}
    R3: {resistance: 50 ohm, between: [left, bottom]}
find: equivalent
"""

FULL = """\
title: Two reservoirs behind one lamp
level: stretch
objectives: [merge-parallel, walk-back]
scenario: |
  The board stores its charge in {C2} and {C3.name}, fed through {C1.value} from {V0}.
  Half of it is $\\frac{1}{2}$; braces print as {{ }}.
circuit:
  source: {V0: 12 V}
  series:
    - C1: 15 uF
    - parallel:
        - C2: 22 uF
        - C3: {capacitance: 8 uF}
find:
  - equivalent
  - charge: all
  - voltage: [C1, C2]
  - energy: total
  - charge: C2
digits: 4
plan: Merge the pair behind {C1.name}, then walk back.
words:
  merge-C23: The two sit side by side.
  merge-total:
    goal: Merge the rest
    reason: One chain is left.
questions:
  - ask: What is the charge on {C2.name}?
    answer: {charge: C2}
  - ask: And of the whole?
    answer: equivalent
  - ask: Which one stores more?
    choices:
      - text: C2
        right: yes
        reply: It is larger, at the same voltage.
      - text: C3
        right: no
      - Neither
"""

UNIT = Unit("Harbour Lights", objectives={"merge-parallel": "Merge", "walk-back": "Walk back"})


def faults_of(text: str, unit: Unit | None = None) -> list[str]:
    """What is wrong with a problem file, as it is printed."""
    try:
        read_problem_text(text, "problem.yml", unit)
    except FaultyFile as error:
        return [str(fault) for fault in error.faults]
    return []


def changed(text: str, old: str, new: str) -> str:
    """``text`` with the first ``old`` replaced, which must be there."""
    assert old in text, f"{old!r} is not in the sample"
    return text.replace(old, new, 1)


def yaml_faults_of(text: str) -> list[str]:
    """What keeps a file from being YAML, as it is printed."""
    faults = Faults("problem.yml")
    try:
        compose(text, faults)
        faults.stop()
    except FaultyFile as error:
        return [str(fault) for fault in error.faults]
    return []
