"""Formulas that an author writes in LaTeX become MathML Core, and nothing else."""

from __future__ import annotations

from xml.etree import ElementTree

from latex2mathml.converter import convert
from markupsafe import escape

MATHML = "http://www.w3.org/1998/Math/MathML"
# MathML Core, W3C editor's draft: the elements that browsers lay out, less those that act.
ELEMENTS = frozenset(
    "math merror mfrac mi mmultiscripts mn mo mover mpadded mphantom mprescripts mroot mrow ms "
    "mspace msqrt mstyle msub msubsup msup mtable mtd mtext mtr munder munderover none".split()
)
ATTRIBUTES = frozenset(
    "accent accentunder columnalign columnspan dir display displaystyle fence form height "
    "largeop linethickness lspace mathvariant maxsize minsize movablelimits rowspan rspace "
    "scriptlevel separator stretchy symmetric voffset width".split()
)


def formula(latex: str, *, display: bool = False) -> str:
    """MathML of an author's formula; what is no formula is shown as it was typed.

    Args:
        latex: LaTeX without its dollar signs.
        display: whether it stands on a line of its own.
    """
    as_typed = str(escape(f"$${latex}$$" if display else f"${latex}$"))
    try:
        mathml = convert(latex, display="block" if display else "inline")
        root = ElementTree.fromstring(mathml)  # noqa: S314 - a document type cannot stand inside
    except Exception:  # noqa: BLE001 - the library raises many unrelated classes
        return as_typed
    for node in root.iter():
        node.tag = node.tag.removeprefix(f"{{{MATHML}}}")
        if node.tag not in ELEMENTS:
            return as_typed
        for name in set(node.attrib) - ATTRIBUTES:
            del node.attrib[name]
    return ElementTree.tostring(root, encoding="unicode")
