"""Small mends of the theme's markup where it leaves people out.

Each is one attribute in a partial of the theme. Overriding the partial would mean to copy it whole
and to keep the copy up with the theme; a mend that no longer fits is noticed by a test.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape
from typing import Any

from markupsafe import Markup
from markupsafe import escape as as_markup

MENDS = (
    # A dialog without a name is announced as nothing but "dialog".
    (
        'data-md-component="search" role="dialog"',
        'data-md-component="search" role="dialog" aria-label="Search"',
    ),
    # What can have the focus must say what it is.
    (
        'class="md-search__scrollwrap" tabindex="0"',
        'class="md-search__scrollwrap" tabindex="0" role="region" aria-label="Search results"',
    ),
)
"""What the theme writes, and what stands there instead."""


_TITLE = re.compile(r"<title>([^\n]*)</title>(?=\n)")
"""The theme takes the tags out of a title and then writes it as it stands, so that what was
written as characters would be markup again: all of the line is the title."""


def as_characters(text: str | None) -> Markup:
    """A setting as the theme can write it, sign for sign, though it takes settings for markup."""
    return as_markup(" ".join((text or "").split()))


def name_characters(items: Iterable[Any]) -> None:
    """The same for the titles that an author gives the pages and sections of the menu."""
    for item in items:
        # A page without such a title takes its heading, which is markup already.
        if title := vars(item).get("title"):
            item.title = as_characters(title)
        name_characters(item.children or ())


def characters_of(page: Any) -> None:
    """The same for what an author says of a page before its text: title, description, author."""
    if title := page.meta.get("title"):
        page.title = page.meta["title"] = as_characters(str(title))
    for name in ("description", "author"):
        if told := page.meta.get(name):
            page.meta[name] = as_characters(str(told))


def mended(html: str, name: str = "", own: str = "") -> str:
    """A page with the theme's markup mended.

    Args:
        html: as the theme made it.
        name: of the site, as markup; every title ends in it.
        own: the title that stands before the text of the page, as markup, if one does.
    """
    for found, instead in MENDS:
        html = html.replace(found, instead, 1)

    def titled(title: re.Match[str]) -> str:
        written = title[1].removesuffix(name)
        right = own and written.removesuffix(" - ") == own
        first = written if right else escape(written, quote=False)
        return f"<title>{first}{title[1][len(written) :]}</title>"

    return _TITLE.sub(titled, html, 1)
