"""The mutated file of a number: the same number and seed give the same bytes."""

from __future__ import annotations

import copy
from functools import cache
from pathlib import Path
from random import Random

from tests.mutations import circuit_changes, text_changes, tree_changes
from tests.mutations.circuit_changes import without_texts
from tests.mutations.tree import Tree, tree_of, written

PROBLEMS = Path(__file__).parents[2] / "content" / "problems"
UNIT = PROBLEMS.parent / "unit.yml"


@cache
def _sources() -> tuple[str, ...]:
    return tuple(path.read_text("utf-8") for path in sorted(PROBLEMS.glob("*.yml")))


@cache
def _trees() -> tuple[Tree, ...]:
    return tuple(tree_of(text) for text in _sources())


def mutated(number: int, seed: int) -> bytes:
    """A problem of the unit, changed in one to six ways.

    Args:
        number: which one; any number is one.
        seed: another seed gives other files for the same numbers.
    """
    random = Random(f"{seed}:{number}")
    text = _changed_tree(random) if random.random() < 0.9 else random.choice(_sources())
    if random.random() < 0.12:
        for _ in range(random.choice((1, 1, 2))):
            text = random.choice(text_changes.TEXT)(text, random)
    raw = text.encode("utf-8", "surrogatepass")
    if random.random() < 0.04:
        raw = random.choice(text_changes.BYTES)(raw, random)
    return raw


def _changed_tree(random: Random) -> str:
    tree = copy.deepcopy(random.choice(_trees()))
    if random.random() < 0.6:  # else most changes would only be refused for what texts speak of
        without_texts(tree)
    for _ in range(random.choice((1, 1, 1, 1, 2, 2, 3, 6))):
        donor = random.choice(_trees())
        about = circuit_changes if random.random() < 0.4 else tree_changes
        random.choice(about.CHANGES)(tree, random, donor)
    return written(tree, random, odd=random.random() < 0.2)
