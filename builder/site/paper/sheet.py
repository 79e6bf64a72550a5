"""A worksheet and its key: the same problems with room to work, and worked."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from markupsafe import Markup

from builder.figure import STYLE_SHEET
from builder.site.page import TEMPLATES, ProblemPage, render
from builder.site.paper.choosing import Chosen

MADE_BY = '<meta name="generator" content="Stepwell sheet">'
"""Stands in every worksheet and key, so that they can be told from other files."""

PAPERS = {"a4": "A4", "letter": "letter"}
SPACES = {"small": 4, "medium": 7, "large": 14, "page": 36}
"""Lines of 7.5 mm to work on below each problem; ``page`` fills the rest of its page."""

_SITE = Path(__file__).parent.parent
_FONT = re.compile(r'url\("([\w-]+\.woff2)"\)')
_ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # Crockford's base 32: no letter looks like a digit
_MARK_LENGTH = 5


@dataclass(frozen=True)
class Layout:
    """How a sheet lies on paper.

    Attributes:
        paper: one of ``PAPERS``.
        space: one of ``SPACES``.
        ruled: whether the space has lines.
    """

    paper: str = "a4"
    space: str = "medium"
    ruled: bool = True


@dataclass(frozen=True)
class Sheet:
    """A worksheet and the key that matches it, each a whole page of HTML.

    Attributes:
        title: as printed.
        mark: five letters and digits that both carry: a hash of what both say, whatever the paper.
        worksheet: without answers.
        key: results, steps in short and checks.
        number: of the set that their numbers are of; 0 for those that are written.
    """

    title: str
    mark: str
    worksheet: str
    key: str
    number: int = 0


def make_sheet(chosen: Chosen, title: str = "", layout: Layout | None = None) -> Sheet:
    """Write a worksheet and its key.

    Args:
        chosen: the problems.
        title: the title line; the unit's title if empty.
        layout: by default A4 with a medium space, ruled.
    """
    layout = layout or Layout()
    title = title.strip() or chosen.unit.title or "Worksheet"
    pages = [
        ProblemPage(lesson, unit, f"n{number}")
        for number, (lesson, unit) in enumerate(chosen.lessons, start=1)
    ]
    lines = SPACES[layout.space]
    tasks = _each("sheet/task.html", pages, lines=lines, ruled=layout.ruled)
    solved = _each("sheet/solved.html", pages)
    mark = _mark(title, chosen.unit.title, *_each("sheet/task.html", pages, lines=0, ruled=False),
                 *solved)  # fmt: skip

    def whole(kind: str, sections: Iterable[Markup]) -> str:
        of_set = f", set {chosen.number}" if chosen.number else ""
        foot = f"{title}: {kind} {mark}{of_set}"
        return str(render(
            "sheet/frame.html", title=title, kind=kind, mark=mark, unit_title=chosen.unit.title,
            of_set=of_set, sections=sections, styles=_styles(), paper=PAPERS[layout.paper],
            space=layout.space, foot=Markup(_css_string(foot)), made_by=Markup(MADE_BY),
        ))  # fmt: skip

    return Sheet(title, mark, whole("worksheet", tasks), whole("key", solved), chosen.number)


def _each(template: str, pages: Iterable[ProblemPage], **values: object) -> list[Markup]:
    return [page.filled(template, number=n, **values) for n, page in enumerate(pages, start=1)]


def _mark(*texts: str) -> str:
    """Five letters and digits: one in 33 million that two different sheets share them."""
    digest = hashlib.sha256("\0".join(texts).encode()).digest()
    number = int.from_bytes(digest[:8], "big")
    return "".join(_ALPHABET[number >> 5 * place & 31] for place in range(_MARK_LENGTH))


@cache
def _styles() -> Markup:
    """All styles in one text, with the fonts in it, so that a sheet needs no other file."""

    def inlined(match: re.Match[str]) -> str:
        content = (_SITE / "fonts" / match[1]).read_bytes()
        return f'url("data:font/woff2;base64,{base64.b64encode(content).decode("ascii")}")'

    own = (TEMPLATES / "sheet" / "sheet.css").read_text(encoding="utf-8")
    return Markup(_FONT.sub(inlined, own) + STYLE_SHEET.read_text(encoding="utf-8"))


def _css_string(text: str) -> str:
    """A text as a string of CSS that can end neither itself nor its style element."""
    return '"' + re.sub(r"[^\w .,:;-]", lambda m: f"\\{ord(m[0]):x} ", text) + '"'
