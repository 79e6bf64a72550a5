"""What a YAML error means to a person who is no programmer."""

from __future__ import annotations

from collections.abc import Callable

import yaml

from builder.problem.faults.gathering import START, Mark, quoted
from builder.problem.yaml_text import layout_mistakes as layout
from builder.problem.yaml_text import mistakes as signs
from builder.problem.yaml_text.mistakes import Explained, Trouble

_EXPLANATIONS: tuple[Callable[[Trouble], Explained | None], ...] = (
    signs.tab,
    signs.open_quote,
    signs.escape,
    signs.no_space,
    signs.second_colon,
    signs.no_colon,
    signs.after_quote,
    layout.starts_with_bracket,
    layout.open_bracket,
    layout.misindented,
    layout.dash,
    layout.odd_start,
    layout.block_text,
    layout.too_deep,
    layout.outside,
)
"""Asked in this order; the first that knows the mistake tells it."""


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
    for explanation in _EXPLANATIONS:
        explained = explanation(trouble)
        if explained is not None:
            return explained
    return Explained(
        trouble.at,
        quoted(trouble.line(trouble.at)) + " where YAML cannot go on",
        "keys with a colon and a space, and lists with dashes",
        "Compare the indentation and the quotes of this line and the one above with an example.",
    )


def _mark(mark: yaml.Mark | None) -> Mark | None:
    return None if mark is None else Mark(mark.line + 1, mark.column + 1)
