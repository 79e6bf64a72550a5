"""Values that are no choice of their own: they follow another value of the problem."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from builder.problem.faults.gathering import START, Faults
from builder.problem.model import Problem
from builder.problem.relations.quantities import read_stated
from builder.problem.varying.model import Follower
from builder.problem.varying.stated import StatedValue, stated_values
from builder.problem.varying.writing import unit_of
from builder.problem.yaml_text.located import Text
from builder.quantity.exact import as_fraction
from builder.quantity.names import Name


def follows(problem: Problem) -> Mapping[Name, Follower]:
    """The values that follow another one; no leader is a follower.

    Where the author does not say what varies, values of one kind that are equal in the file stay
    equal: who writes them so speaks of equal ones, and a method by symmetry would fall otherwise.
    """
    if problem.vary is not None:
        return problem.vary.follows
    leaders: dict[tuple[str, Fraction], Name] = {}
    found: dict[Name, Follower] = {}
    for value in stated_values(problem):
        if value.of_material:
            continue
        key = (value.name.quantity, as_fraction(value.measure.value))
        leader = leaders.setdefault(key, value.name)
        if leader != value.name:
            found[value.name] = Follower(leader)
    return found


def with_followers(problem: Problem, new: Mapping[Name, str]) -> dict[Name, str]:
    """New values together with those that follow them, unless they are told as well."""
    stated = {value.name: value for value in stated_values(problem)}
    whole = dict(new)
    for name, follower in follows(problem).items():
        if follower.leader in new and name not in new:
            whole[name] = _following(stated[name], new[follower.leader], follower, problem)
    return whole


def _following(value: StatedValue, leading: str, follower: Follower, problem: Problem) -> str:
    if follower.times == 1:
        return leading
    read = read_stated(Text(leading, START), Faults(""))
    if read is None:
        raise ValueError(f"{leading!r} is no value")
    led = as_fraction(read.value) * follower.times
    return unit_of(value, problem.text).typed(led)
