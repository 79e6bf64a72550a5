"""Names of quantities as symbols."""

from __future__ import annotations

import pytest

from builder.lesson.relations.display import symbol_for


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("C", "C"),
        ("V1", "V₁"),
        ("C_air", "C_air"),
        ("eps0", "ε₀"),
        ("kappa", "κ"),
        ("kappa2", "κ₂"),
        ("E_max1", "E_max,1"),
        ("DeltaU", "ΔU"),
        ("W_in", "W_in"),
        ("Rchain", "R_chain"),
        ("x'1", "x₁"),
        ("R2'1", "R_2,1"),
        ("pile", "p_ile"),
    ],
)
def test_a_name_becomes_a_letter_with_an_index(name: str, text: str) -> None:
    """The first letter, or a Greek one spelled out, carries the rest as its index."""
    assert symbol_for(name).text == text
