"""What an author says of other numbers, read after the rest of the file."""

from __future__ import annotations

from dataclasses import replace

from builder.problem.faults.gathering import Faults
from builder.problem.model import Problem
from builder.problem.varying.keep import KeepReader
from builder.problem.varying.model import Keep
from builder.problem.varying.stated import stated_in, stated_values
from builder.problem.varying.vary import VaryReader
from builder.problem.yaml_text.located import Map


def read_wishes(problem: Problem | None, root: Map, text: str, faults: Faults) -> Problem | None:
    """The problem with what its file says under ``vary:`` and ``keep:``.

    Args:
        problem: without that; None where the file has faults already, so that only the form of
            what is typed there is looked at.
        root: all of the file.
        text: of the file.
        faults: takes whatever is wrong.
    """
    varying, keeping = root.get("vary"), root.get("keep")
    if varying is None and keeping is None:
        return problem
    stated = stated_values(problem) if problem is not None else stated_in(root)
    by_word = {value.called: value for value in stated}
    vary = VaryReader(by_word, problem, text, faults).read(varying) if varying else None
    find = problem.find if problem is not None else ()
    keep = KeepReader(find, faults).read(keeping) if keeping else Keep()
    return None if problem is None else replace(problem, vary=vary, keep=keep)
