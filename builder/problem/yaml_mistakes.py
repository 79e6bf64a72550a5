"""The mistakes behind YAML errors: each function knows one, and says what it is."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from builder.problem.gathering import Mark, quoted

Explained = tuple[Mark, str, str, str]
"""Where, what was found, what was expected, what to do."""

_NO_SPACE = re.compile(r"^\s*(?:- +)?(?P<key>[A-Za-z]\w*):(?P<value>[^\s:/].*)$")
_STARTS_BRACKET = re.compile(r"^\s*(?:- +)?[A-Za-z]\w*: +(?P<text>(?P<bracket>[\[{]).*)$")


@dataclass(frozen=True)
class Trouble:
    """A YAML error with the lines around it.

    Attributes:
        problem: the parser's words.
        context: what it was reading.
        at: where it gave up.
        since: where what it was reading began.
        lines: of the whole file.
    """

    problem: str
    context: str
    at: Mark
    since: Mark
    lines: list[str]

    def line(self, at: Mark) -> str:
        """The whole line of a place; empty past the end of the file."""
        return self.lines[at.line - 1] if at.line <= len(self.lines) else ""

    def from_(self, at: Mark) -> str:
        """The rest of the line from a place on."""
        return self.line(at)[at.column - 1 :].strip()

    def before(self, at: Mark) -> Mark | None:
        """The start of the last line with text above ``at``."""
        for number in range(at.line - 1, 0, -1):
            if self.lines[number - 1].strip():
                return Mark(number, 1)
        return None


def _tab(trouble: Trouble) -> Explained | None:
    line = trouble.line(trouble.at)
    indentation = line[: len(line) - len(line.lstrip())]
    if "\t" not in indentation:
        return None
    return (
        Mark(trouble.at.line, indentation.index("\t") + 1),
        "a tab at the start of a line",
        "spaces",
        "Indent with spaces, two for each level.",
    )


def _open_quote(trouble: Trouble) -> Explained | None:
    if "quoted scalar" not in trouble.context or "end of stream" not in trouble.problem:
        return None
    quote = trouble.from_(trouble.since)[:1]
    return (
        trouble.since,
        f"a quotation mark ({quote}) that is never closed",
        "the same mark again at the end of the text",
        f"Add {quote} at the end of the text, or remove it at the start.",
    )


def _escape(trouble: Trouble) -> Explained | None:
    if "escape" not in trouble.problem and "hexdecimal" not in trouble.problem:
        return None
    return (
        trouble.since,
        "a backslash in double quotes that YAML does not understand",
        "plain characters",
        "Use single quotes, in which a backslash is a backslash.",
    )


def _no_space(trouble: Trouble) -> Explained | None:
    """A line such as ``title:Foo``, at the error or just above it."""
    if "mapping values" not in trouble.problem and "expected ':'" not in trouble.problem:
        return None
    for at in (trouble.since, trouble.at, trouble.before(trouble.at)):
        missing = _NO_SPACE.match(trouble.line(at)) if at else None
        if at and missing:
            return (
                Mark(at.line, missing.start("value")),
                quoted(trouble.line(at)),
                "a space after the colon",
                f'Write "{missing["key"]}: {missing["value"].strip()}".',
            )
    return None


def _second_colon(trouble: Trouble) -> Explained | None:
    if "mapping values" not in trouble.problem:
        return None
    line = trouble.line(trouble.at)
    key, colon, text = line[: trouble.at.column - 1].partition(": ")
    if colon:
        start = len(key) + 2 + len(text) - len(text.lstrip())
        return (
            Mark(trouble.at.line, start + 1),
            f"a text with a colon in it, {quoted(line[start:])}",
            "a text between quotes",
            "Put quotes around the text.",
        )
    return (
        Mark(trouble.at.line, len(line) - len(line.lstrip()) + 1),
        f"{quoted(line)} indented below a line that has its value already",
        "a key that lines up with the one above",
        "Indent it like the line above, or put quotes around a text of several lines.",
    )


def _no_colon(trouble: Trouble) -> Explained | None:
    if "expected ':'" not in trouble.problem:
        return None
    return (
        trouble.since,
        f"{quoted(trouble.from_(trouble.since))} without a colon",
        "a key, a colon and a space",
        "Add the colon, or indent the line if it belongs to the text above.",
    )


def _after_quote(trouble: Trouble) -> Explained | None:
    before = trouble.line(trouble.at)[: trouble.at.column - 1].rstrip()
    if not _misplaced(trouble) or before[-1:] not in ("'", '"'):
        return None
    return (
        trouble.at,
        f"more text after a closing quotation mark, {quoted(trouble.from_(trouble.at))}",
        "the end of the line",
        "Put the whole text into the other kind of quotes, and check that no line above "
        "misses its closing mark.",
    )


def _starts_with_bracket(trouble: Trouble) -> Explained | None:
    line = _STARTS_BRACKET.match(trouble.line(trouble.at))
    flow = trouble.context.startswith("while parsing a flow")
    if line is None or not (_misplaced(trouble) or flow) or trouble.at.column <= line.start("text"):
        return None
    if flow and trouble.at.line != trouble.since.line:
        return None
    return (
        Mark(trouble.at.line, line.start("text") + 1),
        f'a text that starts with "{line["bracket"]}", {quoted(line["text"])}',
        "a text between quotes",
        "Put quotes around the text.",
    )


def _open_bracket(trouble: Trouble) -> Explained | None:
    if not trouble.context.startswith("while parsing a flow"):
        return None
    opening = trouble.from_(trouble.since)[:1]
    closing = {"[": "]", "{": "}"}.get(opening, "closing bracket")
    return (
        trouble.since,
        f'a "{opening}" that does not end properly',
        f'commas between the parts and a "{closing}" at the end',
        f'Add the missing comma or "{closing}".',
    )


def _indentation(trouble: Trouble) -> Explained | None:
    if not _misplaced(trouble):
        return None
    what = trouble.from_(trouble.at)
    item = what.startswith("-")
    return (
        trouble.at,
        f"{quoted(what)} at an indentation that fits no line above",
        "a dash below the dash above" if item else "a key below the key above",
        "Move the line left or right until it lines up with its neighbours.",
    )


def _misplaced(trouble: Trouble) -> bool:
    return "block" in trouble.context and any(
        sign in trouble.problem for sign in ("expected key", "'-' indicator", "<block end>")
    )


def _dash(trouble: Trouble) -> Explained | None:
    if "sequence entries" not in trouble.problem:
        return None
    return (
        trouble.at,
        "a dash after a colon on the same line",
        "each item of a list on a line of its own",
        "Move the dash to the next line, or put quotes around a text that starts with a dash.",
    )


def _odd_start(trouble: Trouble) -> Explained | None:
    signs = ("cannot start any token", "alphabetic or numeric", "node content", "tag handle")
    if not any(sign in trouble.problem for sign in signs):
        return None
    sign_first = "an a" in trouble.context or "tag handle" in trouble.problem
    at = trouble.since if sign_first else trouble.at
    first = trouble.from_(at)[:1]
    return (
        at,
        f'a text that starts with "{first}"' if first else "the end of the line",
        "a text between quotes",
        "Put quotes around the text.",
    )


def _block_text(trouble: Trouble) -> Explained | None:
    if "block scalar" not in trouble.context:
        return None
    return (
        trouble.since,
        f"{quoted(trouble.from_(trouble.since))} on one line",
        'the text below its "|" or ">"',
        "Start the text on the next line, indented.",
    )


def _too_deep(trouble: Trouble) -> Explained | None:
    if "nesting depth" not in trouble.problem:
        return None
    return (
        trouble.at,
        "hundreds of opening brackets inside each other",
        "a few",
        "Check the brackets.",
    )


def _outside(trouble: Trouble) -> Explained | None:
    if "document start" not in trouble.problem and "directive" not in trouble.context:
        return None
    above = enumerate(trouble.lines[: trouble.at.line], 1)
    directive = next((Mark(number, 1) for number, line in above if line.startswith("%")), None)
    if directive is not None:
        return (
            directive,
            f"{quoted(trouble.line(directive))} outside the problem",
            "a key, a colon and a space",
            "Delete the line, or put quotes around a text that starts with %.",
        )
    return (
        trouble.since,
        f"{quoted(trouble.line(trouble.since))} after the end of the problem",
        "the end of the file",
        "Delete the dots or the brackets before it, which end the problem.",
    )


EXPLANATIONS: tuple[Callable[[Trouble], Explained | None], ...] = (
    _tab,
    _open_quote,
    _escape,
    _no_space,
    _second_colon,
    _no_colon,
    _after_quote,
    _starts_with_bracket,
    _open_bracket,
    _indentation,
    _dash,
    _odd_start,
    _block_text,
    _too_deep,
    _outside,
)
