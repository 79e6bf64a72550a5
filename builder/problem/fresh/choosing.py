"""The values that each stated value of a problem may take: its author's, or sensible ones."""

from __future__ import annotations

from collections.abc import Mapping

from builder.problem.fresh.following import follows
from builder.problem.fresh.sensible import fitting_series, sensible
from builder.problem.model import Problem
from builder.problem.varying.spelled import is_spelled, spelled_values
from builder.problem.varying.stated import StatedValue, stated_values
from builder.quantity.exact import as_fraction
from builder.quantity.names import Name


def choices(problem: Problem) -> Mapping[Name, tuple[str, ...]]:
    """What may be typed in the place of each value that varies, in the order of the file.

    Only leaders stand here; ``follows`` says what goes with them. What stands nowhere stays as it
    is. A problem whose texts spell out a *result* has no choices of its own either, but that
    shows only when it is solved (``spelled_results`` of ``builder.solution.spelled``).

    Returns:
        At least two texts for each name; nothing where nothing may vary.
    """
    if problem.vary is not None:
        return {name: typed for name, typed in problem.vary.values.items() if len(typed) > 1}
    stated = stated_values(problem)
    held = _held(problem, stated)
    series = fitting_series(stated, problem.text)
    found = {}
    for value in stated:
        if value.name not in held:
            typed = sensible(value, problem.text, series.get(value.name.quantity))
            if len(typed) > 1:
                found[value.name] = typed
    return found


def _held(problem: Problem, stated: tuple[StatedValue, ...]) -> set[Name]:
    """Followers, and what texts spell out together with what goes with it."""
    spelled = spelled_values(problem)
    leaders = {name: follower.leader for name, follower in follows(problem).items()}
    told = {
        leaders.get(value.name, value.name)
        for value in stated
        if is_spelled(value.measure.kind, as_fraction(value.measure.value), spelled)
    }
    return told | set(leaders)
