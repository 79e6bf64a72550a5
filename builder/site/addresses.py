"""What the files of a site refer to: every address in its HTML, CSS and scripts, with its place."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

_LOADING = {
    "audio": ("src",),
    "body": ("background",),
    "button": ("formaction",),
    "embed": ("src",),
    "feimage": ("href", "xlink:href"),
    "form": ("action",),
    "iframe": ("src",),
    "image": ("href", "xlink:href"),
    "img": ("src",),
    "input": ("src", "formaction"),
    "object": ("data",),
    "script": ("src", "href", "xlink:href"),
    "source": ("src",),
    "track": ("src",),
    "use": ("href", "xlink:href"),
    "video": ("src", "poster"),
}
# A link element loads what its relation says; these only tell of other pages.
_TELLING = frozenset("alternate author bookmark canonical help license next prev search".split())
_AUTHORED = frozenset({"article", "nav"})
_SCRIPTS = frozenset({"", "text/javascript", "application/javascript", "module"})

_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_URL = re.compile(
    r"""url\(\s*(?:"([^"]*)"|'([^']*)'|([^)"'\s]*))\s*\)|@import\s*(?:"([^"]*)"|'([^']*)')""",
    re.IGNORECASE,
)
_REFRESH = re.compile(r"^\s*[\d.]*\s*[;,]\s*(?:url\s*=\s*)?['\"]?([^'\"]+)", re.IGNORECASE)
_ABSOLUTE = re.compile(r"""(?:["'`]|\\")((?:(?:https?|wss?):)?//[^\s"'`\\]+)""", re.IGNORECASE)
_ASKING = re.compile(
    r"(?<![\w$.])(?:fetch|import|importScripts)\s*\(|(?<![\w$])(?:window|self)\.fetch\s*\("
    r"|\b(?:XMLHttpRequest|WebSocket|EventSource|sendBeacon)\b"
)


@dataclass(frozen=True)
class Reference:
    """One address that a file refers to.

    Attributes:
        address: as written.
        line, column: of its tag, both from 1; 0 in scripts and styles, which may be one long line.
        loads: whether it is asked for without a click.
        authored: whether it stands where an author's own words stand.
    """

    address: str
    line: int = 0
    column: int = 0
    loads: bool = True
    authored: bool = False


@dataclass
class PageReferences(HTMLParser):
    """Reads a page's references and anchors.

    Attributes:
        references: in order.
        anchors: every id, and every name of an anchor.
        askings: what its scripts ask for files with.
        words: every class and every ``data-md-component``, by which sleeping scripts are woken.
    """

    references: list[Reference] = field(default_factory=list)
    anchors: set[str] = field(default_factory=set)
    askings: list[str] = field(default_factory=list)
    words: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        super().__init__()
        self._around: list[str] = []
        self._inside = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note what a tag refers to."""
        given = {name: value or "" for name, value in attrs}
        if tag in _AUTHORED:
            self._around.append(tag)
        self.anchors |= {given[name] for name in ("id", "name") if given.get(name)}
        self.words |= {*given.get("class", "").split(), given.get("data-md-component", "")}
        for name in _LOADING.get(tag, ()):
            self._add(given.get(name))
        for candidate in given.get("srcset", "").split(","):
            self._add(candidate.strip().split(" ")[0])
        for address in addresses_in_style(given.get("style", "")):
            self._add(address)
        if tag in {"a", "area"}:
            self._add(given.get("href", given.get("xlink:href")), loads=False)
        if tag == "link" and not _TELLING & set(given.get("rel", "").lower().split()):
            self._add(given.get("href"))
        if tag == "meta" and given.get("http-equiv", "").lower() == "refresh":
            match = _REFRESH.match(given.get("content", ""))
            self._add(match[1] if match else None)
        runs = tag == "script" and given.get("type", "").lower() in _SCRIPTS
        self._inside = tag if runs or tag == "style" else ""

    def handle_endtag(self, tag: str) -> None:
        """Leave an element."""
        self._inside = ""
        if self._around and self._around[-1] == tag:
            self._around.pop()

    def handle_data(self, data: str) -> None:
        """Note what a style or a script in the page refers to."""
        found = {"style": addresses_in_style, "script": addresses_in_script}.get(self._inside)
        for address in found(data) if found else ():
            self._add(address)
        if self._inside == "script":
            self.askings.extend(askings_in_script(data))

    def _add(self, address: str | None, *, loads: bool = True) -> None:
        if address is None or (loads and not address.strip()):
            return
        line, column = self.getpos()
        self.references.append(
            Reference(address.strip(), line, column + 1, loads, bool(self._around))
        )


def read_page(html: str) -> PageReferences:
    """The references and anchors of a page of HTML, or of an SVG drawing."""
    page = PageReferences()
    page.feed(html)
    page.close()
    return page


def addresses_in_style(css: str) -> Iterator[str]:
    """What a style sheet loads by ``url()`` and ``@import``."""
    for match in _URL.finditer(_COMMENT.sub("", css)):
        if address := next((group for group in match.groups() if group), ""):
            yield address


def addresses_in_script(script: str) -> Iterator[str]:
    """Every address of another host with which a string in a script begins.

    Comments are searched too: what looks like one may lie inside a string.
    """
    for match in _ABSOLUTE.finditer(script):
        yield match[1]


def askings_in_script(script: str) -> Iterator[str]:
    """Every way of asking for a file that a script uses and that fails in a folder."""
    for match in _ASKING.finditer(script):
        yield match[0].rstrip("( ")
