"""Symbols that each are right may still not go together in one circuit."""

from __future__ import annotations

from collections.abc import Iterator

from builder.circuit.law import Law
from builder.problem.faults.gathering import quoted
from builder.problem.limits import MOST_LETTERS
from builder.problem.parts import Given, Parts
from builder.quantity.kinds import KINDS
from builder.quantity.letters import kind_of, letter_of, letter_symbol
from builder.quantity.names import Symbol, element_index

"""Of elements; each further one multiplies the length of formulas and the time they take."""


def refuse_clashing_letters(parts: Parts, law: Law) -> None:
    """Note faults of letters that mean two things, or look like something else on the page."""
    _refuse_many(parts)
    kinds: dict[str, str] = {}
    for name, given in _all(parts):
        for letter, kind in _letters(given):
            first = kinds.setdefault(letter, kind)
            if first != kind:
                parts.faults.add(
                    given.at.at, f"{quoted(letter)} as a {KINDS[kind].noun}, which is a "
                    f"{KINDS[first].noun} above", "one meaning for each letter",
                    "Give one of the two another letter.")  # fmt: skip
            elif letter != name:
                _refuse_lookalike(letter, given, parts, law)


def _refuse_many(parts: Parts) -> None:
    seen: dict[str, Given] = {}
    for given in parts.elements.values():
        for letter, _ in _letters(given):
            seen.setdefault(letter, given)
    if len(seen) > MOST_LETTERS:
        first_too_many = list(seen.values())[MOST_LETTERS]
        parts.faults.add(first_too_many.at.at, f"{len(seen)} different letters",
                         f"at most {MOST_LETTERS}",
                         "Let some elements be multiples of one letter, or give them "
                         "numbers.")  # fmt: skip


def _all(parts: Parts) -> Iterator[tuple[str, Given]]:
    if parts.source is not None:
        yield parts.source.name.value, parts.source
    yield from parts.elements.items()


def _letters(given: Given) -> list[tuple[str, str]]:
    if given.measure is None:
        return []
    symbols = given.measure.value.free_symbols
    return sorted((letter_of(symbol), kind_of(symbol)) for symbol in symbols)


def _refuse_lookalike(letter: str, given: Given, parts: Parts, law: Law) -> None:
    if letter in parts.elements:
        parts.faults.add(given.at.at, f"{quoted(letter)}, which is an element of the circuit",
                         "a letter of its own, or the element's own name as its value",
                         f"Let both be multiples of one letter, such as {law.letter} and "
                         f"2*{law.letter}.")  # fmt: skip
        return
    printed = letter_symbol(letter)
    for name in parts.elements:
        index = element_index(name, law.letter)
        for quantity in (law.flow, law.drop, law.work):
            if index and printed == Symbol(KINDS[quantity].symbol, index):
                parts.faults.add(
                    given.at.at, f"{quoted(letter)}, which would be printed like the {quantity} "
                    f"of {name}", "a letter that looks different on the page",
                    "Choose a letter without an index, or with another one.")  # fmt: skip
                return
