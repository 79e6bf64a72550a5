"""Is a site whole in itself? Nothing may be asked of another host, and every link must lead on."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from urllib.parse import unquote

from builder.errors import Fault
from builder.site.addresses import (
    PageReferences,
    Reference,
    addresses_in_script,
    addresses_in_style,
    askings_in_script,
    read_page,
)

_SCHEME = re.compile(r"^([a-z][a-z0-9+.-]*):", re.IGNORECASE)
_CLICKED = frozenset({"mailto", "tel"})
_NAMES = ("http://www.w3.org/",)
"""Namespaces are names that look like addresses; nobody asks for them."""

_THEME_SCRIPTS = "assets/javascripts/"
_ASLEEP = {
    "https://unpkg.com/mermaid@": "mermaid",
    "https://api.github.com/": "source",
    "https://${e}/api/v4/": "source",
    # Asked only by browsers of before 2020, which do not show our pages anyway.
    "https://unpkg.com/resize-observer-polyfill": "",
}
"""Addresses in the theme's scripts, each with the class or component of a page that wakes it."""


@dataclass(frozen=True)
class _Site:
    files: Mapping[str, bytes]
    pages: Mapping[str, PageReferences]


def faults_of(files: Mapping[str, bytes]) -> tuple[Fault, ...]:
    """Everything that keeps a site from working in a folder without a network.

    Args:
        files: the content of every file, by its path in the site, with forward slashes.

    Returns:
        In the order of the files; each names the file and the address. A script that puts an
        address together from pieces is not seen through.
    """
    pages = {
        path: read_page(_text(content))
        for path, content in files.items()
        if path.endswith((".html", ".svg"))
    }
    site = _Site(files, pages)
    return tuple(fault for path in files for fault in _faults_in(path, site))


def _faults_in(path: str, site: _Site) -> Iterator[Fault]:
    if path in site.pages:
        page = site.pages[path]
        for reference in page.references:
            if not _is_name(reference.address):
                yield from _judge(path, reference, site)
        for asked in page.askings:
            yield _asks(path, asked)
    elif path.endswith(".css"):
        for address in addresses_in_style(_text(site.files[path])):
            yield from _judge(path, Reference(address), site)
    elif path.endswith(".js") and not path.startswith("search/"):
        yield from _faults_in_script(path, _text(site.files[path]), site)


def _faults_in_script(path: str, script: str, site: _Site) -> Iterator[Fault]:
    themes = path.startswith(_THEME_SCRIPTS)
    for address in addresses_in_script(script):
        waker = next((waker for start, waker in _ASLEEP.items() if address.startswith(start)), None)
        if _is_name(address) or (themes and waker is not None and not _awake(waker, site)):
            continue
        yield _outside(path, Reference(address))
    if not themes:
        for asked in askings_in_script(script):
            yield _asks(path, asked)


def _awake(waker: str, site: _Site) -> bool:
    return bool(waker) and any(waker in page.words for page in site.pages.values())


def _is_name(address: str) -> bool:
    return address.startswith(_NAMES)


def _judge(path: str, reference: Reference, site: _Site) -> Iterator[Fault]:
    """The fault of one reference, if it has any."""
    address = reference.address
    scheme = _SCHEME.match(address)
    if scheme or address.startswith("//"):
        kind = scheme[1].lower() if scheme else "https"
        if kind == "data" or (kind in _CLICKED and not reference.loads):
            return
        if reference.loads or not reference.authored or kind not in {"http", "https"}:
            yield _outside(path, reference)
        return
    file, _, anchor = address.partition("#")
    target = _target(path, unquote(file.partition("?")[0]))
    if target is None or target not in site.files:
        yield _fault(path, reference, "where no file of the site is", "the path of a file",
                     "Correct the address; in a folder it must end in a file's name.")  # fmt: skip
        return
    anchor = unquote(anchor.partition(":~:")[0])
    known = site.pages.get(target)
    if anchor and anchor != "top" and known is not None and anchor not in known.anchors:
        yield _fault(path, reference, "where no such anchor is", f"an id in {target}",
                     "Correct what follows the #.")  # fmt: skip


def _target(path: str, file: str) -> str | None:
    """The path in the site that a relative address means; None if it leaves the site."""
    if not file:
        return path
    if file.startswith("/"):
        return None
    return posixpath.normpath(posixpath.join(posixpath.dirname(path), file)) + (
        "/" if file.endswith("/") else ""
    )


def _outside(path: str, reference: Reference) -> Fault:
    if reference.loads:
        return _fault(path, reference, "outside the site", "a file of the site",
                      "Put the file into the content and refer to it there.")  # fmt: skip
    advice = "Take it out of the frame of the page, in mkdocs.yml, or write it in a lesson."
    return _fault(path, reference, "outside the site", "a link that the author wrote", advice)


def _asks(path: str, asked: str) -> Fault:
    return _fault(path, Reference(asked), "in a script", "data that the page brings along",
                  "A page in a folder may ask for nothing; write the data into it.")  # fmt: skip


def _fault(path: str, reference: Reference, where: str, expected: str, advice: str) -> Fault:
    found = f'"{reference.address[:120]}", {where}'
    return Fault(path, reference.line, reference.column, found, expected, advice)


def _text(content: bytes) -> str:
    return content.decode("utf-8", errors="replace")
