"""The mistakes behind YAML errors: each function knows one, and says what it is.

Here are those of signs: tabs, quotation marks and colons.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from builder.problem.faults.gathering import Mark, quoted, shortened
from builder.problem.shape import CircuitShape, ProblemShape, UnitShape, keys_of
from builder.problem.yaml_text.missing_space import LINE_RUN_TOGETHER, RUN_TOGETHER

_NO_COLON = re.compile(r"^(?P<before>\s*(?:- +)?)(?P<key>[A-Za-z][\w-]*) +(?P<value>[^\s:].*)$")
_ELEMENT = re.compile(r"[A-Z][A-Za-z]?[0-9]{1,2}")
_KEYS = {*keys_of(ProblemShape), *keys_of(UnitShape), *keys_of(CircuitShape)}
_VALUE = re.compile(r"^(?P<before>\s*(?:- +)?(?:[A-Za-z][\w-]*: +)?)(?P<value>\S.*?)\s*$")


@dataclass(frozen=True)
class Explained:
    """What a YAML error means.

    Attributes:
        at: where the mistake lies.
        found: what stands there.
        expected: what should stand there.
        advice: what to do.
        line: what the line should be, perhaps two; empty if that is not clear.
        read_as: what the line is read as, if that is another: one line, as the file keeps its
            count.
        all_lines: what all lines are read as, with the columns that they have, where the same
            mistake stands in many.
        of_layout: whether it is a matter of indentation.
    """

    at: Mark
    found: str
    expected: str
    advice: str
    line: str = ""
    read_as: str = ""
    all_lines: tuple[str, ...] = ()
    of_layout: bool = False


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

    def rest(self, at: Mark) -> Mark:
        """That place with the rest of its line."""
        return Mark(at.line, at.column, max(len(self.from_(at)), 1))

    def before(self, at: Mark) -> Mark | None:
        """The start of the last line with text above ``at``."""
        for number in range(at.line - 1, 0, -1):
            if self.lines[number - 1].strip():
                return Mark(number, 1)
        return None

    def goes_on(self, at: Mark) -> bool:
        """Whether the next line with text is indented below that of ``at``."""
        below = next((line for line in self.lines[at.line :] if line.strip()), "")
        return indentation(below) > indentation(self.line(at))


def indentation(line: str) -> int:
    """How many characters stand before the text of a line."""
    return len(line) - len(line.lstrip())


def in_quotes(text: str) -> str:
    """A text of one line between quotation marks, as it was typed; empty if it has a comment."""
    if " #" in text:
        return ""
    if '"' in text or "\\" in text:
        return "'" + text.replace("'", "''") + "'"
    return f'"{text}"'


def with_rest(line: str, column: int, rest: str) -> str:
    """A line with another rest from a column on; empty if there is none."""
    return line[: column - 1] + rest if rest else ""


def tab(trouble: Trouble) -> Explained | None:
    """A tab where YAML wants spaces."""
    line = trouble.line(trouble.at)
    ahead = line[: indentation(line)]
    if "\t" not in ahead:
        return None
    at = ahead.index("\t")
    indents = {each[: indentation(each)] for each in trouble.lines if each.strip()}
    alike = all(not indent.strip("\t") for indent in indents)
    return Explained(
        Mark(trouble.at.line, at + 1, ahead.count("\t", at)),
        "a tab at the start of a line",
        "spaces",
        "Indent with spaces, two for each level.",
        line=ahead.replace("\t", "  ") + line.lstrip(),
        all_lines=tuple(
            each[: indentation(each)].replace("\t", " ") + each.lstrip() for each in trouble.lines
        )
        if alike
        else (),
    )


def open_quote(trouble: Trouble) -> Explained | None:
    """A quotation mark without a second one."""
    if "quoted scalar" not in trouble.context or "end of stream" not in trouble.problem:
        return None
    text = trouble.from_(trouble.since)
    return Explained(
        trouble.rest(trouble.since),
        f"a quotation mark ({text[:1]}) that is never closed",
        "the same mark again at the end of the text",
        f"Add {text[:1]} at the end of the text, or remove it at the start.",
        line=""
        if trouble.goes_on(trouble.since)
        else trouble.line(trouble.since).rstrip() + text[:1],
    )


def escape(trouble: Trouble) -> Explained | None:
    """A backslash between double quotation marks."""
    if "escape" not in trouble.problem and "hexdecimal" not in trouble.problem:
        return None
    whole = re.match(r'"(?P<text>(?:[^"\\]|\\.)*)"$', trouble.from_(trouble.since))
    plain = whole["text"].replace('\\"', '"').replace("'", "''") if whole else ""
    return Explained(
        trouble.rest(trouble.since),
        "a backslash in double quotes that YAML does not understand",
        "plain characters",
        "Use single quotes, in which a backslash is a backslash.",
        line=with_rest(
            trouble.line(trouble.since), trouble.since.column, f"'{plain}'" if whole else ""
        ),
    )


def no_space(trouble: Trouble) -> Explained | None:
    """A line such as ``title:Foo``, at the error or just above it."""
    if "mapping values" not in trouble.problem and "expected ':'" not in trouble.problem:
        return None
    for at in (trouble.since, trouble.at, trouble.before(trouble.at)):
        line = trouble.line(at) if at else ""
        missing = LINE_RUN_TOGETHER.match(line)
        if at and missing:
            value = missing.start("value")
            return Explained(
                Mark(at.line, value, 1),
                quoted(line),
                "a space after the colon",
                f'Write "{shortened(missing["key"])}: {shortened(missing["value"])}".',
                line=f"{line[:value]} {line[value:]}",
            )
    return _no_space_in_braces(trouble)


def _no_space_in_braces(trouble: Trouble) -> Explained | None:
    """The same between braces, where a bracket follows: ``between:[a, b]``."""
    found = RUN_TOGETHER.match(trouble.from_(trouble.since))
    if found is None:
        return None
    colon = trouble.since.column + len(found["key"])
    line = trouble.line(trouble.since)
    return Explained(
        Mark(trouble.since.line, trouble.since.column, len(found["key"]) + 1),
        quoted(found.string),
        "a space after the colon",
        f'Write "{found["key"]}: {shortened(found["value"])}".',
        line=f"{line[:colon]} {line[colon:]}",
    )


def second_colon(trouble: Trouble) -> Explained | None:
    """A colon in a text, or a key below a key that has its value."""
    if "mapping values" not in trouble.problem or trouble.context.startswith(
        "while parsing a flow"
    ):
        return None
    line = trouble.line(trouble.at)
    key, colon, text = line[: trouble.at.column - 1].partition(": ")
    if colon:
        start = len(key) + 2 + len(text) - len(text.lstrip())
        return Explained(
            trouble.rest(Mark(trouble.at.line, start + 1)),
            f"a text with a colon in it, {quoted(line[start:])}",
            "a text between quotes",
            "Put quotes around the text.",
            line=with_rest(line, start + 1, in_quotes(line[start:].strip())),
        )
    above = trouble.before(trouble.at)
    indent = indentation(trouble.line(above)) if above else 0
    return Explained(
        trouble.rest(Mark(trouble.at.line, indentation(line) + 1)),
        f"{quoted(line)} indented below a line that has its value already",
        "a key that lines up with the one above",
        "Indent it like the line above, or put quotes around a text of several lines.",
        line="" if trouble.goes_on(trouble.at) else " " * indent + line.lstrip(),
        of_layout=True,
    )


def no_colon(trouble: Trouble) -> Explained | None:
    """A line of text among keys."""
    if "expected ':'" not in trouble.problem:
        return None
    line = trouble.line(trouble.since)
    parts = _NO_COLON.match(line)
    known = parts is not None and (parts["key"] in _KEYS or _ELEMENT.fullmatch(parts["key"]))
    return Explained(
        trouble.rest(trouble.since),
        f"{quoted(trouble.from_(trouble.since))} without a colon",
        "a key, a colon and a space",
        "Add the colon, or indent the line if it belongs to the text above.",
        line=f"{parts['before']}{parts['key']}: {parts['value']}" if parts and known else "",
    )


def after_quote(trouble: Trouble) -> Explained | None:
    """Text after a closing quotation mark."""
    line = trouble.line(trouble.at)
    before = line[: trouble.at.column - 1].rstrip()
    if not misplaced(trouble) or before[-1:] not in ("'", '"'):
        return None
    return Explained(
        trouble.rest(trouble.at),
        f"more text after a closing quotation mark, {quoted(trouble.from_(trouble.at))}",
        "the end of the line",
        "Put the whole text into the other kind of quotes, and check that no line above "
        "misses its closing mark.",
        line=_in_other_quotes(line),
    )


def _in_other_quotes(line: str) -> str:
    """A line with its value in the other kind of quotation marks; empty if it has both kinds."""
    parts = _VALUE.match(line)
    if parts is None or parts["value"][0] not in "'\"":
        return ""
    value, quote = parts["value"], parts["value"][0]
    inside = value[1:-1] if value.endswith(quote) else value
    other = '"' if quote == "'" else "'"
    return "" if other in inside or " #" in inside else f"{parts['before']}{other}{inside}{other}"


def misplaced(trouble: Trouble) -> bool:
    """Whether the parser met something where a key or a dash should be."""
    return "block" in trouble.context and any(
        sign in trouble.problem for sign in ("expected key", "'-' indicator", "<block end>")
    )
