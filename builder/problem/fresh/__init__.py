"""Fresh numbers: which values of a problem may be others, and the problem with other ones."""

from builder.problem.fresh.following import Follower, follows
from builder.problem.fresh.renewing import renewed, rewritten
from builder.problem.fresh.stated import StatedValue, stated_values

__all__ = ["Follower", "StatedValue", "follows", "renewed", "rewritten", "stated_values"]
