"""Which condition stands most in the way where no numbers fit."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from builder.quantity.arrays import ManySets
from builder.quantity.clean import UNCLEAN, digits_of_each
from builder.quantity.names import Name
from builder.solution.fresh.best import Hunt
from builder.solution.fresh.course import Truths, Why
from builder.solution.fresh.grid import Places
from builder.solution.fresh.pool import generator_for
from builder.solution.program import Line

_LOOKED_AT = 20_000


@dataclass(frozen=True)
class Blame:
    """What rules out sets of values.

    Attributes:
        why: the condition to loosen; ``DIGITS`` if numbers are not clean enough.
        about: the quantities that it is about; of digits, the number that is least often clean.
        looked: how many sets this was counted on.
        ruled_out: how many of them it rules out.
        without: how many would fit without it.
        digits: how many digits the cleanest set needs that holds everything else; None if all
            sets need more than can be told.
    """

    why: Why
    about: tuple[Name, ...]
    looked: int
    ruled_out: int
    without: int
    digits: int | None


def blame_for(hunt: Hunt) -> Blame:
    """The condition without which most sets would fit, else the one that rules out most."""
    places = _some(hunt)
    masks, least_often, worst = _judged(hunt, places)
    best: Blame | None = None
    for key, mask in masks.items():
        others = [other for name, other in masks.items() if name != key]
        rest = np.logical_and.reduce(others) if others else np.ones(len(places), np.bool_)
        why, about = key
        needed = int(worst[rest].min()) if why is Why.DIGITS and rest.any() else UNCLEAN
        if why is Why.DIGITS:
            about = (least_often,) if least_often else ()
        one = Blame(
            why, about, len(places), int(np.count_nonzero(~mask)), int(np.count_nonzero(rest)),
            None if needed == UNCLEAN else needed,
        )  # fmt: skip
        if best is None or (one.without, one.ruled_out) > (best.without, best.ruled_out):
            best = one
    assert best is not None
    return best


def _some(hunt: Hunt) -> Places:
    if hunt.grid.size <= _LOOKED_AT:
        return hunt.grid.chunk(0, hunt.grid.size)
    return hunt.grid.sample(generator_for(hunt.first.problem), _LOOKED_AT)


def _judged(hunt: Hunt, places: Places) -> tuple[
    dict[tuple[Why, tuple[Name, ...]], Truths], Name | None, np.ndarray
]:  # fmt: skip
    """Which sets hold each condition; the number least often clean; the worst digits of each."""
    columns = hunt.grid.columns(places)
    for name, value in hunt.course.constants.items():
        columns[name] = np.full(len(places), value)
    sets = ManySets(columns)
    masks: dict[tuple[Why, tuple[Name, ...]], Truths] = {}
    worst = np.ones(len(places), np.int8)
    often: dict[Name, int] = {}
    for part in hunt.course.parts:
        if isinstance(part, Line):
            sets.values[part.name] = sets.value(part.formula)
            if hunt.limits.get(part.name, UNCLEAN) < UNCLEAN:
                digits = digits_of_each(sets.values[part.name])
                often[part.name] = int(np.count_nonzero(digits <= hunt.limits[part.name]))
                worst = np.maximum(worst, digits)
        else:
            # Ranges are loosened one by one, all else as a whole.
            key = (part.why, part.about if part.why is Why.RANGE else ())
            held = part.holds(sets)
            masks[key] = masks[key] & held if key in masks else held
    masks[Why.DIGITS, ()] = worst <= hunt.wanted.digits
    return masks, min(often, key=lambda name: often[name], default=None), worst
