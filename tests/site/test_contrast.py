"""The contrast of every colour of text and figures, computed from the styles themselves.

Ratios and least values: WCAG 2.2, criteria 1.4.3 (text), 1.4.6 (more contrast) and 1.4.11
(graphics and controls). https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

STATIC = Path(__file__).parents[2] / "builder" / "site" / "static"
STYLES = [*sorted(STATIC.glob("*.css")), *sorted((STATIC.parent / "paper").glob("*.css"))]
MORE = "(prefers-contrast: more)"
NIGHT = '[data-md-color-scheme="slate"]'

TEXT, GRAPHICS, MORE_TEXT = 4.5, 3.0, 7.0

# What is written or drawn on what. Papers: the page, the plate of a figure, bars and replies.
WRITTEN = [
    *((ink, paper) for ink in ("ink", "soft", "lead", "mark-text", "right", "wrong", "caution")
      for paper in ("paper", "sheet")),
    ("paper", "lead"),  # a pressed button, the number of an open step
    ("ink", "lead-paper"), ("lead", "lead-paper"),
    ("ink", "right-paper"), ("right", "right-paper"), ("lead", "right-paper"),
    ("ink", "wrong-paper"), ("wrong", "wrong-paper"), ("lead", "wrong-paper"),
    ("ink", "caution-paper"), ("caution", "caution-paper"), ("soft", "caution-paper"),
]  # fmt: skip
DRAWN = [
    *((ink, paper) for ink in ("ink", "mark", "lead", "soft", "trace-a", "trace-b")
      for paper in ("paper", "sheet")),
    ("right", "right-paper"), ("wrong", "wrong-paper"), ("caution", "paper"),
]  # fmt: skip


def _rules(css: str) -> list[tuple[str, str, str]]:
    """Media, selector and declarations of every rule that sets one of our colours."""
    css = re.sub(r"/\*.*?\*/", "", css, flags=re.DOTALL)
    media = [
        (match.start(), match.end() + _length(css[match.end() :]), match[1].strip())
        for match in re.finditer(r"@media([^{]+)\{", css)
    ]
    found = []
    for match in re.finditer(r"([^{}]+)\{([^{}]*--sw-[^{}]*)\}", css):
        at = match.start(2)
        inside = next((name for start, end, name in media if start < at < end), "")
        found.append((inside, match[1].strip(), match[2]))
    return found


def _length(css: str) -> int:
    """Where the block ends that ``css`` begins in."""
    depth = 1
    for position, character in enumerate(css):
        depth += {"{": 1, "}": -1}.get(character, 0)
        if depth == 0:
            return position
    return len(css)


def palette(scheme: str, more: bool) -> dict[str, str]:
    """Our colours by day (``light``) or by night (``dark``), with more contrast if asked for."""
    layers: list[dict[str, str]] = [{}, {}, {}, {}]
    for path in STYLES:
        for media, selector, body in _rules(path.read_text(encoding="utf-8")):
            colours = dict(re.findall(r"--sw-([\w-]+):\s*(#[0-9a-fA-F]{6})\b", body))
            if media not in ("", MORE) or selector not in (":root", NIGHT):
                continue
            # A value set nearer to the text, on the page's body, goes before one of the root.
            layers[2 * (selector == NIGHT) + (media == MORE)] |= colours
    day, day_more, night, night_more = layers
    chosen = day | (day_more if more else {})
    if scheme == "dark":
        chosen |= night | (night_more if more else {})
    return chosen


def _light(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(first: str, second: str) -> float:
    """The ratio of two colours, 1 to 21."""
    lights = sorted((_light(first), _light(second)))
    return (lights[1] + 0.05) / (lights[0] + 0.05)


def test_the_ratio_is_the_published_one() -> None:
    """Black on white is 21; the grey #767676 is the palest of greys that passes for text."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    # https://webaim.org/articles/contrast/ names #767676 on white: 4.54.
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("more", [False, True])
def test_every_colour_stands_out(scheme: str, more: bool) -> None:
    """Text reaches 4.5, graphics 3, and text 7 where more contrast is asked for."""
    colours = palette(scheme, more)
    least = MORE_TEXT if more else TEXT
    weak = [(a, b, round(contrast(colours[a], colours[b]), 2)) for a, b in WRITTEN
            if contrast(colours[a], colours[b]) < least]  # fmt: skip
    weak += [(a, b, round(contrast(colours[a], colours[b]), 2)) for a, b in DRAWN
             if contrast(colours[a], colours[b]) < GRAPHICS]  # fmt: skip
    assert weak == []


def test_no_colour_is_left_out() -> None:
    """Every colour of the palette is measured, but the hairline that only parts what is apart."""
    used = {name for pair in [*WRITTEN, *DRAWN] for name in pair}
    assert set(palette("dark", True)) - used == {"rule"}


@pytest.mark.parametrize(
    ("first", "second", "least"),
    [
        ("#fffdf8", "#12303f", TEXT),  # words in the bar at the top, by day
        ("#fffdf8", "#0a131c", TEXT),  # and by night
        ("#dfe6e4", "#12303f", TEXT),
        ("#e69f00", "#12303f", GRAPHICS),  # the focus in that bar
        ("#e69f00", "#0a131c", GRAPHICS),
    ],
)
def test_the_bar_at_the_top(first: str, second: str, least: float) -> None:
    """Words and focus stand out in the dark bar, whose colours the styles hold as here."""
    css = (STATIC / "theme.css").read_text(encoding="utf-8")
    assert first in css
    assert second in css
    assert contrast(first, second) >= least
