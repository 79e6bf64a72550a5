"""Our fonts in a picture, so that its letters look the same wherever it is shown.

A program that draws an SVG with the fonts it finds may take letters that are wider than the layout
counts on. Those that read fonts out of a file, as browsers do, then need none of their own.
"""

from __future__ import annotations

import base64
from pathlib import Path

_FONTS = Path(__file__).parent.parent / "fonts"
_UPRIGHT = ("STIX Two Text", "normal", "stix-two-text-regular.woff2")
_ITALIC = ("STIX Two Text", "italic", "stix-two-text-italic.woff2")
_SIGNS = ("STIX Two Math", "normal", "stix-two-math.woff2")


def with_fonts(picture: str, *, signs: bool = True) -> str:
    """A picture with our fonts in it.

    Args:
        picture: an SVG that stands alone.
        signs: whether the rare signs come along that only the font for formulas has.
    """
    italic = 'font-style="italic"' in picture
    faces = (_UPRIGHT, *((_ITALIC,) if italic else ()), *((_SIGNS,) if signs else ()))
    rules = "".join(
        f"@font-face{{font-family:'{family}';font-style:{style};src:url(data:font/woff2;base64,"
        f"{base64.b64encode((_FONTS / name).read_bytes()).decode()})}}"
        for family, style, name in faces
    )
    return picture.replace("<title", f"<style>{rules}</style><title", 1)
