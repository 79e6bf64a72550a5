"""Make the shipped font subsets again from the published npm packages.

Run as ``python builder/site/fonts/make_fonts.py`` (needs ``npm`` and the registry, ``fontTools``
and ``brotli``). It packs ``@fontsource/stix-two-text`` and ``@fontsource/stix-two-math`` into a
temporary folder and writes beside itself:

* ``stix-two-math.woff2``: what MathML formulas of circuits need, with the MATH table, its size
  variants and its assemblies;
* ``stix-two-text-{regular,italic,bold}.woff2``: Latin text with the trade's signs. The
  Latin files of the package lack Greek, ≈, ∞, arrows and lowered digits: Greek comes from the
  package's Greek files, the rest from STIX Two Math, whose design and size are the same;
* ``OFL.txt``: the licence of both.

Afterwards run ``builder/figure/fonts/make_widths.py``, which reads the widths of these files.
"""

from __future__ import annotations

import shutil
import subprocess
import tarfile
import tempfile
from pathlib import Path

from fontTools.merge import Merger
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

HERE = Path(__file__).parent
VERSION = "5.3.0"

ASCII = "".join(map(chr, range(0x20, 0x7F)))
LATIN_1 = "".join(map(chr, range(0xA0, 0x100)))
SIGNS = "–—‘’“”…−×·⋅±÷=≈≠<>≤≥∝∥→⇒√∞‖∕⁄•✓⚠"
FRACTIONS = "½¼¾⅓⅔⅕⅙⅛"
PRIMES = "′″‴⁗"
# Four spaces of other widths than the common one.
SPACES = "\xa0\u2002\u2009\u202f"
SMALL_DIGITS = "₀₁₂₃₄₅₆₇₈₉⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₊₋"
# Authors may name a quantity by any Greek letter that does not look like a Latin one.
GREEK = "ΓΔΘΛΞΠΣΦΨΩαβγδεζηθικλμνξπρστυφχψω"
BOTH = SIGNS + FRACTIONS + PRIMES + SPACES + SMALL_DIGITS + "µ"
TEXT = ASCII + LATIN_1 + BOTH + GREEK
# MathML sets a letter that stands alone in italics, which are characters of their own.
MATH_ITALIC = "".join(map(chr, range(0x1D434, 0x1D468))) + "ℎ"
GREEK_ITALIC = "𝛤𝛥𝛩𝛬𝛯𝛱𝛴𝛷𝛹𝛺𝛼𝛽𝛾𝛿𝜀𝜁𝜂𝜃𝜄𝜅𝜆𝜇𝜈𝜉𝜋𝜌𝜎𝜏𝜐𝜑𝜒𝜓𝜔𝜖𝜙"
# Upright Greek in formulas: units, constants and what LaTeX sets upright.
GREEK_UPRIGHT = "ΔΩμκεϵτπφϕ"
OPERATORS = "\u2061\u2062\u2063∑"
MATH = ASCII + BOTH + MATH_ITALIC + GREEK_ITALIC + GREEK_UPRIGHT + OPERATORS

FACES = {
    "regular": "400-normal",
    "italic": "400-italic",
    "bold": "700-normal",
}


def main() -> None:
    """Fetch, cut, write, and print the size of each file."""
    with tempfile.TemporaryDirectory() as folder:
        text = _unpack("stix-two-text", Path(folder))
        math = _unpack("stix-two-math", Path(folder))
        math_font = math / "files/stix-two-math-latin-400-normal.woff2"
        _write(_cut(math_font, MATH, ["ssty", "kern"]), HERE / "stix-two-math.woff2")
        for face, file in FACES.items():
            font = _text_face(text / "files", file, math_font, Path(folder))
            _write(font, HERE / f"stix-two-text-{face}.woff2")
        shutil.copyfile(text / "LICENSE", HERE / "OFL.txt")
    for path in sorted(HERE.glob("*.woff2")):
        print(f"{path.name}: {path.stat().st_size} bytes")


def _unpack(package: str, folder: Path) -> Path:
    command = ["npm", "pack", "--silent", f"@fontsource/{package}@{VERSION}"]
    subprocess.run(command, cwd=folder, check=True, capture_output=True)
    target = folder / package
    with tarfile.open(folder / f"fontsource-{package}-{VERSION}.tgz") as archive:
        archive.extractall(target, filter="data")
    return target / "package"


def _text_face(files: Path, face: str, math: Path, folder: Path) -> TTFont:
    latin = _cut(files / f"stix-two-text-latin-{face}.woff2", TEXT, ["kern", "liga"])
    have = set(latin.getBestCmap())
    greek = _cut(files / f"stix-two-text-greek-{face}.woff2", _lacking(TEXT, have), [])
    have |= set(greek.getBestCmap())
    signs = _cut(math, _lacking(TEXT, have), [])
    for table in ("MATH", "GSUB", "GPOS", "GDEF"):
        if table in signs:
            del signs[table]
    paths = []
    for number, font in enumerate((latin, greek, signs)):
        paths.append(str(folder / f"part{number}.ttf"))
        font.flavor = None
        font.save(paths[-1])
    merged = Merger().merge(paths)
    # The same input gives the same bytes: no date of the day.
    merged["head"].created = latin["head"].created
    return merged


def _lacking(wanted: str, have: set[int]) -> str:
    return "".join(c for c in wanted if ord(c) not in have)


def _cut(path: Path, characters: str, features: list[str]) -> TTFont:
    options = Options(layout_features=features, hinting=False, notdef_outline=True)
    options.drop_tables += ["STAT"]
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]
    font = TTFont(path, recalcTimestamp=False)
    subsetter = Subsetter(options)
    subsetter.populate(text=characters)
    subsetter.subset(font)
    return font


def _write(font: TTFont, path: Path) -> None:
    font.flavor = "woff2"
    font["head"].modified = font["head"].created
    font.recalcTimestamp = False
    font.save(path)


if __name__ == "__main__":
    main()
