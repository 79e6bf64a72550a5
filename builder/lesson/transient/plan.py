"""The plan of a solution in a line or two."""

from __future__ import annotations

from builder.lesson.prose import Prose, Written, listed, say, sentences
from builder.lesson.transient.display import TransientDisplay
from builder.solution.transient.step import TransientMove


def plan(display: TransientDisplay) -> Prose:
    """What will be done, in order, before any detail; the author's own plan if there is one."""
    problem = display.solution.problem
    if problem.plan:
        return (Written(problem.plan),)
    kinds = [step.kind for step in display.solution.steps]
    several = len(display.solution.stores) > 1
    it, start, head = ("they", "start", "are") if several else ("it", "starts", "is")
    asks: list[Prose | str] = []
    if TransientMove.BEFORE in kinds or TransientMove.START in kinds:
        asks.append(f"where {it} {start}")
    if TransientMove.END in kinds:
        asks.append(f"where {it} {head} heading")
    if TransientMove.CONSTANT in kinds:
        asks.append("how fast it goes")
    first = say("Ask of {store} {asks}.", store=display.store, asks=listed(asks)) if asks else ()
    rest: Prose = ()
    if TransientMove.AT in kinds or TransientMove.REACH in kinds:
        rest = say("Everything in between follows from one exponential.")
    work = say("Charge, energy or power come last.") if TransientMove.WORK in kinds else ()
    if not (first or rest or work):
        return say("What is asked is given already.")
    return sentences(first, rest, work)
