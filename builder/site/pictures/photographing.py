"""A picture as PNG by way of an installed browser, which draws it as it draws our pages."""

from __future__ import annotations

import base64
import re
import tempfile
import zlib
from pathlib import Path

from builder.errors import Fault, FaultyFile, NoBrowser, PrintingFailed
from builder.site.page import render
from builder.site.pictures.drawing import MADE_BY, size_of
from builder.site.pictures.lettered import with_fonts
from builder.site.printing import NAMES, VARIABLE, find_browser, run_browser, trouble_of

_SIGNATURE = b"\x89PNG\r\n\x1a\n"
_HEADER = len(_SIGNATURE) + 25  # the signature and the chunk IHDR
_PICTURE = re.compile(r"data:image/png;base64,([A-Za-z0-9+/=]+)")
_PATIENCE = "--virtual-time-budget=10000"


def find_photographer() -> str:
    """The browser to make PNGs with.

    Raises:
        FaultyFile: if there is none.
    """
    try:
        return find_browser()
    except NoBrowser as error:
        found = f'no browser "{error.named}"' if error.named else "no browser on the PATH"
        named = f"Correct ${VARIABLE}" if error.named else f"Install one, name it in ${VARIABLE}"
        expected = "the path of Chromium or Chrome" if error.named else f"one of {', '.join(NAMES)}"
        raise _fault(found, expected, named) from None


def photograph(picture: str, width: int, browser: str) -> bytes:
    """A picture as PNG, cropped to its edges; same picture and browser, same bytes.

    Args:
        picture: an SVG that stands alone.
        width: of the PNG, in pixels; the height follows.
        browser: the program, as from ``find_photographer``.

    Raises:
        FaultyFile: if the browser yields no picture.
    """
    wide, high = size_of(picture)
    page = render("picture.html", picture=with_fonts(picture), width=width,
                  height=max(1, round(width * high / wide)))  # fmt: skip
    with tempfile.TemporaryDirectory(prefix="stepwell-") as folder:
        file = Path(folder) / "picture.html"
        file.write_text(page, encoding="utf-8")
        try:
            done = run_browser(browser, file, "--dump-dom", _PATIENCE)
        except PrintingFailed as error:
            raise _no_picture(error.browser, error.trouble) from error
    found = _PICTURE.search(done.stdout)
    content = base64.b64decode(found[1]) if found else b""
    if not content.startswith(_SIGNATURE):
        raise _no_picture(browser, trouble_of(done))
    return _signed(content)


def _signed(png: bytes) -> bytes:
    """A PNG that says by what it was made, as its standard names that (a tEXt chunk, Software)."""
    text = b"tEXt" + b"Software\0" + MADE_BY.encode("latin-1")
    length, check = len(text) - 4, zlib.crc32(text)
    chunk = length.to_bytes(4, "big") + text + check.to_bytes(4, "big")
    return png[:_HEADER] + chunk + png[_HEADER:]


def _no_picture(browser: str, trouble: str) -> FaultyFile:
    return _fault(f"no picture from {browser} ({trouble})", "a PNG",
                  f"Name another Chromium or Chrome in ${VARIABLE}")  # fmt: skip


def _fault(found: str, expected: str, named: str) -> FaultyFile:
    advice = f"{named}, or leave out --png: the SVG needs no browser."
    return FaultyFile((Fault("--png", 0, 0, found, expected, advice),))
