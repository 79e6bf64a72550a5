"""The words of a typed expression: numbers, names, signs, amounts with units."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from builder.quantity.exact import LARGEST_EXPONENT, LONGEST_NUMBER

LONGEST_EXPRESSION = 200
_SIGNS = {
    "·": "*", "×": "*", "⋅": "*", "∗": "*", "•": "*", "*": "*", "÷": "/", "∕": "/", "⁄": "/",
    "/": "/", "−": "-", "–": "-", "-": "-", "+": "+", "^": "^", "(": "(", ")": ")", "=": "=",
    "[": "(", "]": ")",
}  # fmt: skip
_VULGAR = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4), "⅕": (1, 5), "⅙": (1, 6),
    "⅛": (1, 8),
}  # fmt: skip
_TO_PLAIN = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺₀₁₂₃₄₅₆₇₈₉\u00b5", "0123456789-+0123456789\u03bc")
_SUPERSCRIPT = re.compile("[⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+")
_NUMBER = re.compile(
    r"(?P<digits>[0-9]+\.?[0-9]*|\.[0-9]+)"
    r"(?:[eE](?P<e>[+\-−]?[0-9]+)"
    r"|\s*[×x*·]\s*10\s*(?:(?:\^|\*\*)\s*(?P<ten>[+\-−]?[0-9]+)|(?P<raised>[⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)))?"
)
_LETTER = "A-Za-zΑ-Ωα-ω\u00b5"
_WORD = re.compile(f"[{_LETTER}][{_LETTER}0-9_₀₁₂₃₄₅₆₇₈₉]*")
_UNIT = re.compile(
    r"\s*((?:[A-Za-zµμΩΩ]+(?:\^?-?[0-9]|[⁻]?[²³¹])?)"
    r"(?:[/·*](?:[A-Za-zµμΩΩ]+(?:\^?-?[0-9]|[⁻]?[²³¹])?))*)"
)
_COMMA = re.compile(r"[0-9]+,[0-9]+")

UnitOf = Callable[[str], tuple[str, Fraction] | None]
"""What a typed unit measures and its size in SI units; None if it is no unit."""


class ExpressionError(ValueError):
    """Raised when a text is no expression that is understood.

    Attributes:
        column: where in the text, from 1.
        found: what stands there.
        expected: what should stand there.
        advice: what to do about it.
        word: what stands there, as it was typed; empty where nothing more is known of it.
        near: what was probably meant in its place; None if that is not clear.
    """

    def __init__(
        self, column: int, found: str, expected: str, advice: str, *, word: str = "",
        near: str | None = None,
    ) -> None:  # fmt: skip
        super().__init__(column, found, expected, advice)
        self.word = word
        self.near = near
        self.column = column
        self.found = found
        self.expected = expected
        self.advice = advice

    def __str__(self) -> str:
        return f"{self.column}: found {self.found}; expected {self.expected}. {self.advice}"


class Token(NamedTuple):
    """One word or sign of an expression.

    Attributes:
        kind: ``number``, ``amount``, ``word``, ``raised`` (an exponent written small), ``end``,
            or the sign itself.
        text: as typed.
        column: from 1.
        spaced: whether a space stands before it.
        value: of a number, an amount (in SI units) or an exponent.
        quantity: the kind of an amount.
    """

    kind: str
    text: str
    column: int
    spaced: bool = False
    value: Fraction = Fraction(0)
    quantity: str = ""


@dataclass(frozen=True)
class Lexer:
    """Cuts a text into tokens.

    Attributes:
        text: the expression.
        names: the names that it may use; they go before units of the same letters.
        unit_of: reads a unit after a number; None if numbers are pure here.
    """

    text: str
    names: Collection[str] | None
    unit_of: UnitOf | None

    def tokens(self) -> Iterator[Token]:
        """The tokens of the text, with an ``end`` at the end.

        Raises:
            ExpressionError: at the first sign that has no place in an expression.
        """
        if len(self.text) > LONGEST_EXPRESSION:
            raise ExpressionError(
                1,
                f"an expression of {len(self.text)} characters",
                f"at most {LONGEST_EXPRESSION}",
                "Write it shorter, or in several lines.",
            )
        at = 0
        while True:
            start = at + len(self.text[at:]) - len(self.text[at:].lstrip())
            spaced = start > at
            if start == len(self.text):
                yield Token("end", "", start + 1, spaced)
                return
            token, at = self._token(start, spaced)
            yield token

    def _token(self, start: int, spaced: bool) -> tuple[Token, int]:
        character, column = self.text[start], start + 1
        if match := _NUMBER.match(self.text, start):
            return self._number(match, spaced)
        if character in _VULGAR:
            value = Fraction(*_VULGAR[character])
            return Token("number", character, column, spaced, value), start + 1
        if match := _SUPERSCRIPT.match(self.text, start):
            power = Fraction(int(match[0].translate(_TO_PLAIN)[:9]))
            return Token("raised", match[0], column, spaced, power), match.end()
        if match := _WORD.match(self.text, start):
            return Token("word", match[0].translate(_TO_PLAIN), column, spaced), match.end()
        if self.text.startswith("**", start):
            return Token("^", "**", column, spaced), start + 2
        if character == "√":
            return Token("√", character, column, spaced), start + 1
        if character in _SIGNS:
            return Token(_SIGNS[character], character, column, spaced), start + 1
        raise _stranger(character, column)

    def _number(self, match: re.Match[str], spaced: bool) -> tuple[Token, int]:
        start = match.start()
        if comma := _COMMA.match(self.text, start):
            raise ExpressionError(
                start + 1,
                f'"{comma[0][:20]}"',
                "a number with a decimal point",
                f'Write the decimal point as a point: "{comma[0][:20].replace(",", ".")}".',
            )
        value = _value(match, start + 1)
        unit = self._unit(match.end())
        if unit is None:
            return Token("number", match[0], start + 1, spaced, value), match.end()
        quantity, size, end = unit
        text = self.text[start:end]
        return Token("amount", text, start + 1, spaced, value * size, quantity), end

    def _unit(self, at: int) -> tuple[str, Fraction, int] | None:
        """The longest unit that stands at ``at`` and holds no name of the expression."""
        match = _UNIT.match(self.text, at) if self.unit_of is not None else None
        if match is None or self.unit_of is None:
            return None
        cuts = [match.end(1), *(cut.start() for cut in re.finditer(r"[/·*]", match[0]))]
        ends = sorted(cuts[:1] + [at + cut for cut in cuts[1:]], reverse=True)
        for end in ends:
            typed = self.text[match.start(1) : end]
            words = re.findall(r"[A-Za-zµμΩΩ]+", typed)
            if any(word in (self.names or ()) for word in words):
                continue
            found = self.unit_of(_as_unit(typed))
            if found is not None and not _goes_on(self.text, end):
                return found[0], found[1], end
        return None


def _as_unit(typed: str) -> str:
    return re.sub("[⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+", lambda raised: "^" + raised[0].translate(_TO_PLAIN), typed)


def _goes_on(text: str, end: int) -> bool:
    """Whether a word or an exponent runs on where a unit was thought to end."""
    return bool(re.match(r"[\w^²³⁻₀-₉]|\*\*|\s*\^", text[end:]))


def _value(match: re.Match[str], column: int) -> Fraction:
    power = match["e"] or match["ten"] or (match["raised"] or "0").translate(_TO_PLAIN)
    if len(match[0]) > LONGEST_NUMBER:
        raise ExpressionError(
            column,
            f"a number of {len(match[0])} characters",
            f"at most {LONGEST_NUMBER}",
            "Write it with fewer digits, or with a power of ten.",
        )
    exponent = int(power.replace("−", "-"))
    if abs(exponent) > LARGEST_EXPONENT:
        raise ExpressionError(
            column,
            f'"{match[0]}"',
            f"a power of ten from −{LARGEST_EXPONENT} to {LARGEST_EXPONENT}",
            "Check the exponent.",
        )
    return Fraction(match["digits"]) * Fraction(10) ** exponent


def _stranger(character: str, column: int) -> ExpressionError:
    shown = f'"{character}"' if character.isprintable() else "a sign that cannot be seen"
    return ExpressionError(
        column,
        shown,
        "numbers, names, + − * / ^ and brackets",
        "Leave it out, or write it in another way.",
    )
