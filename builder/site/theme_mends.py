"""Small mends of the theme's markup where it leaves people out.

Each is one attribute in a partial of the theme. Overriding the partial would mean to copy it whole
and to keep the copy up with the theme; a mend that no longer fits is noticed by a test.
"""

from __future__ import annotations

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


def mended(html: str) -> str:
    """A page with the theme's markup mended."""
    for found, instead in MENDS:
        html = html.replace(found, instead, 1)
    return html
