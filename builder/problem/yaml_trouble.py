"""What a YAML error means to a person who is no programmer."""

from __future__ import annotations

import yaml

from builder.problem.gathering import START, Mark, quoted
from builder.problem.yaml_mistakes import EXPLANATIONS, Explained, Trouble


def explain(error: yaml.YAMLError, lines: list[str]) -> Explained:
    """Translate an error of the YAML parser.

    Args:
        error: as raised by PyYAML, with or without its C library.
        lines: of the file.
    """
    at = _mark(getattr(error, "problem_mark", None)) or START
    trouble = Trouble(
        problem=str(getattr(error, "problem", None) or ""),
        context=str(getattr(error, "context", None) or ""),
        at=at,
        since=_mark(getattr(error, "context_mark", None)) or at,
        lines=lines,
    )
    for explanation in EXPLANATIONS:
        explained = explanation(trouble)
        if explained is not None:
            return explained
    return (
        trouble.at,
        quoted(trouble.line(trouble.at)) + " where YAML cannot go on",
        "keys with a colon and a space, and lists with dashes",
        "Compare the indentation and the quotes of this line and the one above with an example.",
    )


def _mark(mark: yaml.Mark | None) -> Mark | None:
    return None if mark is None else Mark(mark.line + 1, mark.column + 1)
