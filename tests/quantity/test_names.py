"""Names of quantities and their symbols."""

from __future__ import annotations

import pytest

from builder.quantity.kinds import KINDS
from builder.quantity.names import Name, Symbol, element_index, kind_letter


@pytest.mark.parametrize(
    ("name", "letter", "index"),
    [
        ("C2", "C", "2"),
        ("C23", "C", "23"),
        ("C_load", "C", "load"),
        ("Cload", "C", "load"),
        ("C", "C", ""),
        ("C_2,10", "C", "2,10"),
        ("lamp", "R", "lamp"),
        ("_lamp", "R", "lamp"),
        ("R1", "C", "R1"),
    ],
)
def test_an_elements_name_gives_the_subscript_of_its_quantities(
    name: str, letter: str, index: str
) -> None:
    """The letter of the kind is dropped; any other name is its own subscript."""
    assert element_index(name, letter) == index


@pytest.mark.parametrize(
    ("symbol", "text"),
    [
        (Symbol("Q", "23"), "Q₂₃"),
        (Symbol("C", "eq"), "C_eq"),
        (Symbol("C", "2,10"), "C_2,10"),
        (Symbol("V"), "V"),
    ],
)
def test_a_symbol_can_be_read_in_plain_text(symbol: Symbol, text: str) -> None:
    """Digits become subscripts; words follow an underscore."""
    assert symbol.text == text


def test_every_kind_has_its_own_letter() -> None:
    """No two kinds of quantity share the letter that stands for them."""
    letters = [kind_letter(kind) for kind in KINDS]
    assert letters == ["C", "Q", "V", "φ", "U", "R", "I", "P", "t", "τ", "d", "A", "E", "ε", "k"]


def test_a_quantity_has_one_word_for_pages_and_data() -> None:
    """The key of a quantity tells what it is and what it belongs to."""
    assert Name("charge", "C2").key == "charge:C2"


def test_a_symbol_may_carry_a_prime() -> None:
    """A value after a change is written with a prime behind its index."""
    assert Symbol("Q", "1", "′").text == "Q₁′"
    assert Symbol("V", mark="″").text == "V″"
    assert Symbol("Q", "load", "′").text == "Q_load′"
