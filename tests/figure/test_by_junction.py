"""Circuits told junction by junction."""

from __future__ import annotations

import re

import pytest

from builder.circuit.between import lay_between
from builder.circuit.tree import leaves
from builder.figure import Label, ValueText, describe_by_junction
from builder.figure.by_junction import plain
from builder.quantity.names import Symbol, element_index
from tests.figure.drawings import circuit, labels, random_drawing

TOLD = [
    ("C1", "voltage",
     ["Between the + and the − terminal of the battery lies no junction.",
      "At the + terminal, C1 begins.",
      "At the − terminal, C1 ends."]),
    ("C1+(C2|C3)", "voltage",
     ["Between the + and the − terminal of the battery lies one junction, a.",
      "At the + terminal, C1 begins.",
      "At junction a, C1 ends, and C2 and C3 begin.",
      "At the − terminal, C2 and C3 end."]),
    ("R1|R2|R3", "current",
     ["Between the + and the − terminal of the current source lies no junction.",
      "At the + terminal, R1, R2 and R3 begin.",
      "At the − terminal, R1, R2 and R3 end."]),
    ("C1+C2+C3", "charge",
     ["Between the + and the − terminal lie two junctions, a and b.",
      "At the + terminal, C1 begins.",
      "At junction a, C1 ends, and C2 begins.",
      "At junction b, C2 ends, and C3 begins.",
      "At the − terminal, C3 ends."]),
    ("(R1|R2)+(R3|R4)", None,
     ["Between the + and the − terminal lies one junction, a.",
      "At the + terminal, R1 and R2 begin.",
      "At junction a, R1 and R2 end, and R3 and R4 begin.",
      "At the − terminal, R3 and R4 end."]),
    ("(R1+R2)|(R3+R4)", "voltage",
     ["Between the + and the − terminal of the battery lie two junctions, a and b.",
      "At the + terminal, R1 and R3 begin.",
      "At junction a, R1 ends, and R2 begins.",
      "At junction b, R3 ends, and R4 begins.",
      "At the − terminal, R2 and R4 end."]),
    ("C1+(C2|(C3+(C4|C5)))", "voltage",
     ["Between the + and the − terminal of the battery lie two junctions, a and b.",
      "At the + terminal, C1 begins.",
      "At junction a, C1 ends, and C2 and C3 begin.",
      "At junction b, C3 ends, and C4 and C5 begin.",
      "At the − terminal, C2, C4 and C5 end."]),
    ("R1+(R2|(R3+R4))+R5", "voltage",
     ["Between the + and the − terminal of the battery lie three junctions, a, b and c.",
      "At the + terminal, R1 begins.",
      "At junction a, R1 ends, and R2 and R3 begin.",
      "At junction b, R2 and R4 end, and R5 begins.",
      "At junction c, R3 ends, and R4 begins.",
      "At the − terminal, R5 ends."]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "source", "sentences"), TOLD)
def test_each_junction_has_its_sentence(
    text: str, source: str | None, sentences: list[str]
) -> None:
    """Terminals and junctions are told in order, with what ends and what begins at each."""
    tree = circuit(text)
    told = describe_by_junction(tree, labels(tree), source)
    assert [plain(sentence) for sentence in told] == sentences


def test_names_are_symbols_that_a_page_can_set() -> None:
    """Elements stand in a sentence as symbols; one without a label is told by its name."""
    tree = circuit("C_eq+R_warm_lamp")
    known = {"C_eq": Label(Symbol("C", "eq"), (ValueText("10 µF"),))}
    told = describe_by_junction(tree, known, None)
    assert told[1] == ("At the + terminal, ", Symbol("C", "eq"), " begins", ".")
    assert plain(told[2]) == "At junction a, C eq ends, and R warm lamp begins."


@pytest.mark.parametrize("seed", range(20))
def test_the_sentences_hold_the_whole_circuit(seed: int) -> None:
    """From the sentences alone, both junctions of every element are found again."""
    drawing = random_drawing(seed)
    told = describe_by_junction(drawing.tree, drawing.labels, "voltage")
    found: dict[str, dict[str, str]] = {}
    for sentence in told[1:]:
        text = plain(sentence)
        place = re.match(r"At (?:junction (\w+)|the (.) terminal), ", text)
        assert place is not None
        point = place[1] or place[2]
        for part in text[place.end() :].split(", and "):
            verb = "first" if "begin" in part else "last"
            for name in re.findall(r"[CR]\d+", part):
                found.setdefault(name, {})[verb] = point
    expected = lay_between(drawing.tree)
    assert {name: (at["first"], at["last"]) for name, at in found.items()} == expected
    assert set(found) == set(leaves(drawing.tree))
    assert all(element_index(name, name[0]) for name in found)
