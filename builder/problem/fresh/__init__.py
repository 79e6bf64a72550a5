"""Fresh numbers: which values of a problem may be others, and the problem with other ones."""

from builder.problem.fresh.choosing import choices
from builder.problem.fresh.following import follows, with_followers
from builder.problem.fresh.renewing import renewed, rewritten
from builder.problem.varying.model import Follower, Keep, Vary
from builder.problem.varying.spelled import spelled_values
from builder.problem.varying.stated import StatedValue, stated_values

__all__ = [
    "Follower",
    "Keep",
    "StatedValue",
    "Vary",
    "choices",
    "follows",
    "renewed",
    "rewritten",
    "spelled_values",
    "stated_values",
    "with_followers",
]
