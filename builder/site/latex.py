"""Formulas that an author writes in LaTeX become MathML."""

from __future__ import annotations

import re

from latex2mathml.converter import convert

_NEVER = re.compile(r"<(?!/?(?:math|m[a-z]+|semantics|annotation)\b)", re.IGNORECASE)


def formula(latex: str, *, display: bool = False) -> str:
    """MathML of an author's formula; text that is no formula is shown as it stands.

    Args:
        latex: LaTeX without its dollar signs.
        display: whether it stands on a line of its own.
    """
    from markupsafe import escape

    try:
        mathml = convert(latex, display="block" if display else "inline")
    except Exception:  # noqa: BLE001 - the library raises many unrelated classes
        return str(escape(f"${latex}$"))
    return _NEVER.sub("&lt;", mathml)
