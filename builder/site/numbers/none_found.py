"""What to say where no numbers fit: what stands most in the way, and what to loosen."""

from __future__ import annotations

from builder.errors import NoNumbers
from builder.lesson.kinds import display_of
from builder.quantity.names import Name
from builder.site.plain_text import plain_prose
from builder.solution.fresh.best import Catch, Hunt
from builder.solution.fresh.blame import Blame, blame_for
from builder.solution.fresh.course import Why

_EXPECTED = {
    Why.DIFFERENT: "values that stay different where they differ in the file",
    Why.SIGN: "quantities that are possible and keep the signs that they have in the file",
    Why.STATEMENT: "values with which the steps of the solution are still allowed",
    Why.FADED: "values with which what charges or discharges is still on its way at the times "
    "that are asked about",
    Why.ORDER: "answers that are told apart, and stay in their order where that is wanted",
}
_ADVICE = {
    Why.DIFFERENT: "Offer more values to choose from.",
    Why.SIGN: "Offer values nearer to those in the file.",
    Why.STATEMENT: "Offer values in the same proportions, such as a series for each of them; or "
    "choose another method in the file.",
    Why.FADED: "Offer larger resistances or capacitances.",
    Why.ORDER: "Offer more values, or leave out the wish for the same order.",
}


def nothing_fits(hunt: Hunt, catch: Catch) -> NoNumbers:
    """The error that says which condition rules out most sets, and what to loosen."""
    path = hunt.first.problem.path
    if catch.seemed:
        return NoNumbers(
            path, catch.looked, "values for which the solution takes the same steps as in the file",
            f"{catch.seemed} with clean numbers were solved exactly, but then other steps lead "
            "to the answers, or a wish under keep: does not hold.",
            "Name a method in the file, or loosen the wishes.",
        )  # fmt: skip
    blame = blame_for(hunt)
    share = _share(blame.ruled_out, blame)
    ruled_out = "None of them gives that" if share == "all" else f"{share} of them do not give that"
    without = f"; if it did not count, {_share(blame.without, blame)} would fit"
    return NoNumbers(
        path, catch.looked, _expected(blame, hunt),
        f"{ruled_out}{without if blame.without else ''}.", _advice(blame, hunt),
    )  # fmt: skip


def _share(count: int, blame: Blame) -> str:
    if count == blame.looked:
        return "all"
    share = min(99, round(100 * count / blame.looked))
    return f"{share} %" if share else "a few"


def _expected(blame: Blame, hunt: Hunt) -> str:
    if blame.why is Why.DIGITS:
        noun = "digit" if hunt.wanted.digits == 1 else "digits"
        worst = f" (most rarely so: {_called(blame.about[0], hunt)})" if blame.about else ""
        return f"every number of the steps told whole by {hunt.wanted.digits} {noun}{worst}"
    if blame.why is Why.RANGE:
        return f"{_called(blame.about[0], hunt)} in the range that it is to keep"
    return _EXPECTED[blame.why]


def _advice(blame: Blame, hunt: Hunt) -> str:
    if blame.why is Why.DIGITS:
        if blame.digits is None:
            return "Offer more values to choose from, with --vary or a finer --series."
        return f"Allow more, with --digits {blame.digits}; or offer more values, with --vary."
    if blame.why is Why.RANGE:
        return "Widen the range, or offer values that lead into it."
    return _ADVICE[blame.why]


def _called(name: Name, hunt: Hunt) -> str:
    display = display_of(hunt.first)
    return plain_prose(display.asks_for(name), display)
