"""Changes to the text and to the bytes of a problem file."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from tests.mutations.words import HOSTILE

_SIGNS = "{}[]:,-|>&*!%@`#'\"?\t \n\r\x85\u2028\u2029\ufeff\u202e\u200b\x00\x1b\ufffe"


def cut(text: str, random: Random) -> str:
    """Only what stands before some place."""
    return text[: random.randrange(len(text) + 1)]


def cut_lines(text: str, random: Random) -> str:
    """Some lines less."""
    lines = text.splitlines(keepends=True)
    at = random.randrange(len(lines) + 1)
    return "".join(lines[:at] + lines[at + random.randint(1, 4) :])


def sign(text: str, random: Random) -> str:
    """A sign that means something to YAML, somewhere."""
    at = random.randrange(len(text) + 1)
    return text[:at] + random.choice(_SIGNS) + text[at + random.randint(0, 1) :]


def hostile(text: str, random: Random) -> str:
    """A hostile text somewhere."""
    at = random.randrange(len(text) + 1)
    return text[:at] + random.choice(HOSTILE) + text[at:]


def move_line(text: str, random: Random) -> str:
    """A line in another place, or twice, or further in or out."""
    lines = text.splitlines()
    if not lines:
        return text
    at, to = random.randrange(len(lines)), random.randrange(len(lines))
    match random.randrange(4):
        case 0:
            lines.insert(to, lines[at])
        case 1:
            lines[at], lines[to] = lines[to], lines[at]
        case 2:
            lines[at] = " " * random.randint(1, 4) + lines[at]
        case _:
            lines[at] = lines[at][random.randint(1, 3) :]
    return "\n".join(lines) + "\n"


def tabs(text: str, random: Random) -> str:
    """Tabs where spaces were."""
    return text.replace("  ", "\t", random.choice((1, -1)))


def endings(text: str, random: Random) -> str:
    """Other line ends, everywhere or mixed."""
    end = random.choice(("\r\n", "\r", "\x85", "\u2028"))
    return text.replace("\n", end, random.choice((1, 3, -1)))


def around(text: str, random: Random) -> str:
    """Something before or after all: documents, directives, marks, the same again."""
    before = random.choice(("---\n", "%YAML 1.2\n---\n", "\ufeff", "# x\n", "\n\n", "- x\n", "x\n",
                            "title: again\n", "&a\n", "!!map\n", "{", ""))  # fmt: skip
    after = random.choice(("", "---\n", "...\n", "}", "\x00", text, "---\n" + text, "\n\t\n",
                           ": x"))  # fmt: skip
    return before + text + after


def quotes(text: str, random: Random) -> str:
    """A quotation mark that is not closed, or a straight one made curly."""
    marks = ("'", '"', "\u201c", "\u2019", "`")
    at = random.randrange(len(text) + 1)
    return text[:at] + random.choice(marks) + text[at:]


def flipped(raw: bytes, random: Random) -> bytes:
    """Some bits changed."""
    flips = bytearray(raw)
    for _ in range(random.choice((1, 1, 1, 3, 20)) if flips else 0):
        flips[random.randrange(len(flips))] ^= 1 << random.randrange(8)
    return bytes(flips)


def cut_bytes(raw: bytes, random: Random) -> bytes:
    """Only the bytes before some place, which may lie within a sign."""
    return raw[: random.randrange(len(raw) + 1)]


def encoded(raw: bytes, random: Random) -> bytes:
    """The text in another encoding."""
    text = raw.decode("utf-8", "replace")
    encoding = random.choice(("utf-16", "utf-16-le", "utf-16-be", "utf-32", "latin-1", "cp1252",
                              "cp437", "utf-7", "utf-8-sig"))  # fmt: skip
    return text.encode(encoding, "replace")


def stray(raw: bytes, random: Random) -> bytes:
    """Bytes that are no text somewhere."""
    at = random.randrange(len(raw) + 1)
    bad = random.choice((b"\xff", b"\xc3", b"\x00" * 9, b"\xed\xa0\x80", b"\xf4\x90\x80\x80",
                         b"\xc0\xaf", b"\x89PNG\r\n\x1a\n", bytes(range(256))))  # fmt: skip
    return raw[:at] + bad + raw[at:]


TEXT: tuple[Callable[[str, Random], str], ...] = (
    cut, cut_lines, sign, sign, hostile, hostile, move_line, move_line, tabs, endings, around,
    quotes,
)  # fmt: skip
BYTES: tuple[Callable[[bytes, Random], bytes], ...] = (flipped, cut_bytes, encoded, stray)
