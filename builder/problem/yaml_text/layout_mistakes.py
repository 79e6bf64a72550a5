"""The mistakes behind YAML errors, those of layout: brackets, indentation, dashes, first signs."""

from __future__ import annotations

import re

from builder.problem.faults.gathering import Mark, quoted
from builder.problem.yaml_text.mistakes import (
    Explained,
    Trouble,
    in_quotes,
    indentation,
    misplaced,
    with_rest,
)

_STARTS_BRACKET = re.compile(r"^\s*(?:- +)?[A-Za-z]\w*: +(?P<text>(?P<bracket>[\[{]).*)$")
_NEXT_KEY = re.compile(r"(?<=[^\s,{\[:]) +(?=[A-Za-z]\w*: )")
_CLOSING = {"[": "]", "{": "}"}


def starts_with_bracket(trouble: Trouble) -> Explained | None:
    """A text that YAML takes for a list or for keys."""
    line = _STARTS_BRACKET.match(trouble.line(trouble.at))
    flow = trouble.context.startswith("while parsing a flow")
    if line is None or not (misplaced(trouble) or flow) or trouble.at.column <= line.start("text"):
        return None
    if flow and (trouble.at.line != trouble.since.line or _missing_comma(line["text"])):
        return None
    at = Mark(trouble.at.line, line.start("text") + 1)
    return Explained(
        trouble.rest(at),
        f'a text that starts with "{line["bracket"]}", {quoted(line["text"])}',
        "a text between quotes",
        "Put quotes around the text.",
        line=with_rest(line.string, at.column, in_quotes(line["text"].strip())),
    )


def _missing_comma(text: str) -> bool:
    return bool(_NEXT_KEY.search(text))


def open_bracket(trouble: Trouble) -> Explained | None:
    """A bracket that does not end, or parts without a comma between them."""
    if not trouble.context.startswith("while parsing a flow"):
        return None
    opening = trouble.from_(trouble.since)[:1]
    closing = _CLOSING.get(opening, "closing bracket")
    return Explained(
        trouble.rest(trouble.since),
        f'a "{opening}" that does not end properly',
        f'commas between the parts and a "{closing}" at the end',
        f'Add the missing comma or "{closing}".',
        line=_closed(trouble),
    )


def _closed(trouble: Trouble) -> str:
    """The line with what is missing between its brackets; empty if that is not clear."""
    line = trouble.line(trouble.since).rstrip()
    if trouble.goes_on(trouble.since):
        return ""
    text = _NEXT_KEY.sub(", ", line[trouble.since.column :])
    open_ones = []
    for sign in trouble.from_(trouble.since)[:1] + text:
        if sign in _CLOSING:
            open_ones.append(_CLOSING[sign])
        elif open_ones and sign == open_ones[-1]:
            open_ones.pop()
    return line[: trouble.since.column] + text + "".join(reversed(open_ones))


def misindented(trouble: Trouble) -> Explained | None:
    """A line that lines up with nothing."""
    if not misplaced(trouble):
        return None
    what = trouble.from_(trouble.at)
    item = what.startswith("-")
    return Explained(
        trouble.rest(trouble.at),
        f"{quoted(what)} at an indentation that fits no line above",
        "a dash below the dash above" if item else "a key below the key above",
        "Move the line left or right until it lines up with its neighbours.",
        line=_lined_up(trouble, item=item),
        of_layout=True,
    )


def _lined_up(trouble: Trouble, *, item: bool) -> str:
    """The line at the nearest indentation of its like above; empty if other lines hang on it."""
    line = trouble.line(trouble.at)
    if trouble.goes_on(trouble.at) or indentation(line) != trouble.at.column - 1:
        return ""
    likes = []
    for above in reversed(trouble.lines[: trouble.at.line - 1]):
        text = above.strip()
        if text and not text.startswith("#") and text.startswith("- ") == item:
            likes.append(indentation(above))
        if text and indentation(above) == 0:
            break
    if not likes:
        return ""
    near = min(likes, key=lambda indent: abs(indent - indentation(line)))
    return " " * near + line.lstrip()


def dash(trouble: Trouble) -> Explained | None:
    """A list that starts beside its key."""
    if "sequence entries" not in trouble.problem:
        return None
    line = trouble.line(trouble.at)
    key, text = line[: trouble.at.column - 1].rstrip(), trouble.from_(trouble.at)
    alone = key.endswith(":") and not trouble.goes_on(trouble.at) and not _dash_below(trouble)
    return Explained(
        trouble.rest(trouble.at),
        "a dash after a colon on the same line",
        "each item of a list on a line of its own",
        "Move the dash to the next line, or put quotes around a text that starts with a dash.",
        line=f"{key}\n{' ' * indentation(line)}  {text}" if alone else "",
        read_as=f"{key} [{text.removeprefix('-').strip()}]" if alone else "",
    )


def _dash_below(trouble: Trouble) -> bool:
    below = next((line for line in trouble.lines[trouble.at.line :] if line.strip()), "")
    return below.strip().startswith("- ")


def odd_start(trouble: Trouble) -> Explained | None:
    """A text whose first sign means something to YAML."""
    signs = ("cannot start any token", "alphabetic or numeric", "node content", "tag handle")
    if not any(sign in trouble.problem for sign in signs):
        return None
    sign_first = "an a" in trouble.context or "tag handle" in trouble.problem
    at = trouble.since if sign_first else trouble.at
    text = trouble.from_(at)
    return Explained(
        trouble.rest(at),
        f'a text that starts with "{text[:1]}"' if text else "the end of the line",
        "a text between quotes",
        "Put quotes around the text.",
        line=with_rest(trouble.line(at), at.column, in_quotes(text) if text else ""),
    )


def block_text(trouble: Trouble) -> Explained | None:
    """A text beside the bar that puts it below."""
    if "block scalar" not in trouble.context:
        return None
    at, text = trouble.since, trouble.from_(trouble.since)
    line = trouble.line(at)
    below = f"{line[: at.column]}\n{' ' * indentation(line)}  {text[1:].strip()}"
    return Explained(
        trouble.rest(at),
        f"{quoted(text)} on one line",
        'the text below its "|" or ">"',
        "Start the text on the next line, indented.",
        line=below if text[:1] in ("|", ">") else "",
        read_as=line[: at.column - 1] + text[1:].strip(),
    )


def too_deep(trouble: Trouble) -> Explained | None:
    """Brackets without end."""
    if "nesting depth" not in trouble.problem:
        return None
    return Explained(
        trouble.at,
        "hundreds of opening brackets inside each other",
        "a few",
        "Check the brackets.",
    )


def outside(trouble: Trouble) -> Explained | None:
    """Something before or after the problem."""
    if "document start" not in trouble.problem and "directive" not in trouble.context:
        return None
    above = enumerate(trouble.lines[: trouble.at.line], 1)
    directive = next((Mark(number, 1) for number, line in above if line.startswith("%")), None)
    if directive is not None:
        return Explained(
            trouble.rest(directive),
            f"{quoted(trouble.line(directive))} outside the problem",
            "a key, a colon and a space",
            "Delete the line, or put quotes around a text that starts with %.",
        )
    return Explained(
        trouble.rest(trouble.since),
        f"{quoted(trouble.line(trouble.since))} after the end of the problem",
        "the end of the file",
        "Delete the dots or the brackets before it, which end the problem.",
    )
