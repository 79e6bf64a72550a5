"""Write the table of glyph widths that figures are laid out with.

Run as ``python builder/figure/fonts/make_widths.py FONTS``, where FONTS is the folder with
``stix-two-text-regular.woff2`` and ``stix-two-text-italic.woff2``. Needs ``fontTools`` and
``brotli``. Writes ``builder/figure/glyph_widths.json``: advance widths in thousandths of the
type size, by face and character.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from fontTools.ttLib import TTFont

TARGET = Path(__file__).parent.parent / "glyph_widths.json"
FACES = {"upright": "stix-two-text-regular.woff2", "italic": "stix-two-text-italic.woff2"}


def main(fonts: Path) -> None:
    """Read both faces in ``fonts`` and write the table."""
    table = {face: _widths(fonts / file) for face, file in FACES.items()}
    text = json.dumps(table, ensure_ascii=False, indent=0, sort_keys=True)
    TARGET.write_text(text + "\n", encoding="utf-8")


def _widths(path: Path) -> dict[str, int]:
    font = TTFont(path)
    scale = 1000 / font["head"].unitsPerEm
    advances = font["hmtx"].metrics
    return {chr(c): round(advances[name][0] * scale) for c, name in font.getBestCmap().items()}


if __name__ == "__main__":
    main(Path(sys.argv[1]))
