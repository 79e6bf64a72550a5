"""Random problems in stages, none of which shorts a battery or starts restless."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from builder.circuit.switching import BatteryLoop, Stage
from builder.problem.model import StagesProblem
from builder.solution.stages.story import givens_at_first, tell
from tests.solution.stages.building import battery, capacitor, staged, switch


def _drawn(random: Random) -> StagesProblem | None:
    """A random problem, or None where batteries would short each other."""
    junctions = [f"n{number}" for number in range(random.randint(2, 6))]

    def ends() -> list[str]:
        return random.sample(junctions, 2)

    capacitors = [
        capacitor(f"C{n + 1}", f"{random.randint(1, 60)}/{random.randint(1, 9)} uF", *ends())
        for n in range(random.randint(1, 7))
    ]
    batteries = [battery(f"V{n}", f"{random.randint(1, 40)}/{random.randint(1, 4)} V", *ends())
                 for n in range(random.randint(0, 2))]  # fmt: skip
    switches = [switch(f"S{n + 1}", *ends(), closed=random.random() < 0.3)
                for n in range(random.randint(1, 5))]  # fmt: skip
    closed = {s.name for s in switches if s.closed}
    stages: list[Stage] = []
    for _ in range(random.randint(1, 4)):
        some = random.sample(switches, random.randint(1, min(2, len(switches))))
        close = tuple(s.name for s in some if s.name not in closed)
        opened = tuple(s.name for s in some if s.name in closed)
        turn = (random.choice(capacitors).name,) if random.random() < 0.2 else ()
        closed = (closed | set(close)) - set(opened)
        stages.append(Stage(close, opened, turn))
    charged = {c.name: f"{random.randint(1, 90)} V" for c in capacitors if random.random() < 0.5}
    problem = staged([*capacitors, *batteries, *switches], stages, charged)
    try:
        story = tell(problem)
    except BatteryLoop:
        return None
    first = givens_at_first(problem)
    at_rest = all(story.charges[0][name] == first[name] for name in charged)
    return problem if at_rest else replace(problem, charged={})


def random_problems(number: int, seed: int = 4) -> list[StagesProblem]:
    """Problems of up to seven capacitors and two batteries, the same for the same seed."""
    random, found = Random(seed), list[StagesProblem]()
    while len(found) < number:
        problem = _drawn(random)
        if problem is not None:
            found.append(problem)
    return found
