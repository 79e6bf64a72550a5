"""What an author says of other numbers for a problem: checked and immutable."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from builder.quantity.names import Name


@dataclass(frozen=True)
class Follower:
    """A value that is always so many times another.

    Attributes:
        leader: the other value.
        times: how often it is taken; 1 for equal values.
    """

    leader: Name
    times: Fraction = Fraction(1)


@dataclass(frozen=True)
class Vary:
    """The author's own choice of other values; without it, sensible ones are found.

    Attributes:
        values: what may be typed in the place of a stated value, at least one text for each; what
            is not named stays as it is. Empty for no fresh numbers at all.
        follows: the values that follow another one, none of them in ``values``.
    """

    values: Mapping[Name, tuple[str, ...]] = field(default_factory=dict)
    follows: Mapping[Name, Follower] = field(default_factory=dict)


@dataclass(frozen=True)
class Keep:
    """What must be so with other values as well.

    Attributes:
        digits: asked values end within so many significant digits; None leaves it open.
        ranges: the least and the largest size of a quantity that is asked for, in SI units, both
            positive.
        apart: the ids of wrong rules whose number must be told from the right one, each with its
            line and column.
        same_order: whether given values of a kind stay in the same order by size.
    """

    digits: int | None = None
    ranges: Mapping[Name, tuple[Fraction, Fraction]] = field(default_factory=dict)
    apart: Mapping[str, tuple[int, int]] = field(default_factory=dict)
    same_order: bool = False
