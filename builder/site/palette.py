"""The palettes as the style sheets give them, and how strongly their colours contrast."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

_STATIC = Path(__file__).parent / "static"
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_COLOUR = re.compile(r"--sw-([\w-]+):\s*(#[0-9a-fA-F]{6})\s*;")
_STRONGER = re.compile(r"@media \(prefers-contrast: more\)\s*$")
_NIGHT = '[data-md-color-scheme="slate"]'

TEXT, GRAPHICS = 4.5, 3.0
"""The least contrast of text and of lines that carry meaning (WCAG 2.2, 1.4.3 and 1.4.11)."""

PAIRS = (
    *((text, on, TEXT) for text in ("ink", "soft", "lead") for on in ("paper", "sheet")),
    ("lead", "lead-paper", TEXT),
    ("mark-text", "paper", TEXT),
    *((one, f"{one}-paper", TEXT) for one in ("right", "wrong", "caution")),
    *(("ink", f"{one}-paper", TEXT) for one in ("right", "wrong", "caution", "lead")),
    ("right", "paper", TEXT),
    ("mark", "paper", GRAPHICS),
    ("mark", "sheet", GRAPHICS),
    ("trace-a", "sheet", GRAPHICS),
    ("trace-b", "sheet", GRAPHICS),
)
"""What stands on what, and the least contrast it needs."""


@dataclass(frozen=True)
class Palette:
    """The colours of one scheme.

    Attributes:
        called: the scheme.
        colours: hexadecimal sRGB values by name.
    """

    called: str
    colours: dict[str, str]

    @property
    def contrasts(self) -> list[tuple[str, str, float, float]]:
        """Foreground, background, their contrast ratio and the least that it may be."""
        return [
            (text, on, contrast(self.colours[text], self.colours[on]), least)
            for text, on, least in PAIRS
            if text in self.colours and on in self.colours
        ]

    @property
    def css(self) -> str:
        """The palette as declarations for a ``style`` attribute."""
        return "".join(f"--sw-{name}:{colour};" for name, colour in self.colours.items())


def palettes() -> tuple[Palette, ...]:
    """Every palette, as all style sheets together give it."""
    found: dict[tuple[bool, bool], dict[str, str]] = {}
    for sheet in sorted(_STATIC.glob("*.css")):
        for stronger, selector, body in _rules(_COMMENT.sub("", sheet.read_text("utf-8"))):
            colours = dict(_COLOUR.findall(body))
            if colours and selector in (":root", _NIGHT):
                found.setdefault((selector == _NIGHT, stronger), {}).update(colours)
    day, night = found[False, False], found[True, False]
    strong_day, strong_night = found.get((False, True), {}), found.get((True, True), {})
    return (
        Palette("By day", day),
        Palette("By night", day | night),
        Palette("By day, more contrast", day | strong_day),
        Palette("By night, more contrast", day | night | strong_night),
    )


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours, from 1 to 21 (WCAG 2.2, "contrast ratio")."""
    lighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour (WCAG 2.2, "relative luminance")."""
    red, green, blue = (_linear(int(colour[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(part: float) -> float:
    return float(part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4)


def _rules(css: str, *, stronger: bool = False) -> Iterator[tuple[bool, str, str]]:
    """Each rule: whether it is for more contrast, its selector and its declarations.

    Rules of other media, such as print, are left out.
    """
    at = 0
    while (opening := css.find("{", at)) != -1:
        selector = css[at:opening].strip()
        closing = _closing(css, opening)
        body = css[opening + 1 : closing]
        if _STRONGER.search(selector):
            yield from _rules(body, stronger=True)
        elif not selector.startswith("@"):
            yield stronger, selector, body
        at = closing + 1


def _closing(css: str, opening: int) -> int:
    depth = 0
    for at in range(opening, len(css)):
        depth += {"{": 1, "}": -1}.get(css[at], 0)
        if depth == 0:
            return at
    return len(css)
