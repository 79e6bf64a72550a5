"""One sound problem of each kind, in which tests make something odd."""

ALONE = """\
title: The current of the foghorn
scenario: |
  The plate of the foghorn says {P} at {V}. Which fuse and which cable does it need?
quantities:
  V: 12 V
  P: 24 W
  I: {kind: current, is: the current that the fuse must let through}
  R: resistance
relations:
  - equation: P = V * I
    because: Power is voltage times current.
  - R = V / I
find: [I, R]
"""

SHEET = """\
title: A sheet slides in
scenario: |
  In the harbour's tank gauge, two plates of {A.value} stand {d.value} apart on a battery.
  A plastic sheet with κ = {kappa.value} slides in and fills the gap.
plates:
  area: 80 cm^2
  gap: 2 mm
  voltage: 12 V
  battery: connected
  filling: {kappa: 2.5, called: the plastic sheet}
find: [C, Q, W_in]
"""

LABEL = """\
title: The chart lamp's lost label
scenario: |
  The lamp on the chart table, {R2.name}, has lost its label. It hangs behind {R1} on
  the {V0} supply, and a clamp meter shows the current in the line.
circuit:
  source: {V0: 12 V}
  series:
    - R1: 2 ohm
    - R2: unknown
measured:
  current: {R1: 2 A}
find: [R2, {power: R2}]
"""

RESERVE = """\
title: The reserve joins in
scenario: |
  The lantern's reservoir, {C1}, stands on a {V0} battery. A reserve, {C2}, still holds
  some charge of its own. The battery is taken off, and the two are joined.
circuit:
  branches:
    V0: {emf: 12 V, between: [plus, minus]}
    C1: {capacitance: 4 uF, between: [top, minus]}
    C2: {capacitance: 2 uF, charged: 6 V, between: [reserve, minus]}
    S1: {switch: closed, between: [plus, top]}
    S2: {switch: open, between: [top, reserve]}
stages:
  - {open: S1, close: S2}
find:
  - voltage: C1
  - charge: {C1: before, C2: after 1}
  - energy: lost
"""

CHARGER = """\
title: The charger and the battery share a lamp
scenario: |
  The cabin lamp of the work boat, {R3}, is fed by a charger of {E1} and by a battery of
  {E2}, each over a cable of its own: {R1} and {R2}.
circuit:
  method: junctions
  reference: ground
  branches:
    E1: {emf: 16 V, inner: 1 ohm, between: [left, ground]}       # + first
    R1: {resistance: 1 ohm, between: [left, lamp]}
    R3: {resistance: 12 ohm, between: [lamp, ground]}
    R2: {resistance: 1 ohm, between: [lamp, right]}
    E2: {emf: 10 V, inner: 1 ohm, between: [right, ground]}
  place: {left: [0, 1], lamp: [1, 1], right: [2, 1], ground: [1, 0]}
find:
  - potential: lamp
  - current: [E1, E2, R3]
  - power: E2
"""

FADING = """\
title: The lamp's memory fades
scenario: |
  A beacon keeps its settings in {C1} while {V0} feeds it through {R1}, with {R2} as the
  load. Then {S1} opens, and the load empties the capacitor.
circuit:
  branches:
    V0: {emf: 10 V, between: [plus, minus]}
    S1: {switch: closed, between: [plus, feed]}
    R1: {resistance: 1 kohm, between: [feed, top]}
    R2: {resistance: 4 kohm, between: [top, minus]}
    C1: {capacitance: 500 uF, between: [top, minus]}
change: {open: S1}
find:
  - voltage: {C1: [start, 2 s]}
  - current: {R2: start}
  - time-constant
  - time: {C1: 4 V}
"""
