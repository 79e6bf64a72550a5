"""Reads the tokens of a typed expression into a formula, by descent."""

from __future__ import annotations

import difflib
from collections.abc import Collection, Iterable
from fractions import Fraction

from sympy import Rational

from builder.quantity.constant_parts import constant_of, refuse_giants, sign_of
from builder.quantity.formula import (
    Amount,
    Exp,
    Formula,
    Ln,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    Ref,
    Root,
    Square,
    Sum,
)
from builder.quantity.letters import CONSTANT, CONSTANTS, letter
from builder.quantity.names import Name
from builder.quantity.tokens import ExpressionError, Token
from builder.quantity.visible import visible

DEEPEST = 20
_SPELLINGS = {"π": "pi", "ε0": "eps0", "eps_0": "eps0", "ε_0": "eps0"}
FUNCTIONS: dict[str, type[Root | Exp | Ln]] = {"sqrt": Root, "exp": Exp, "ln": Ln}
_STARTS = ("number", "amount", "word", "(", "√")
_FACTOR = "a number, a name or a bracket"


class Parser:
    """Reads tokens from left to right; each method reads one kind of part."""

    def __init__(self, tokens: Iterable[Token], names: Collection[str] | None) -> None:
        self._tokens = list(tokens)
        self._names = names
        self._at = 0
        self._depth = 0
        self._columns: dict[str, int] = {}

    @property
    def _next(self) -> Token:
        return self._tokens[self._at]

    def _take(self) -> Token:
        token = self._next
        self._at += token.kind != "end"
        return token

    def expression(self) -> tuple[Formula, dict[str, int]]:
        """A sum, up to where none goes on, and the column of each letter in it."""
        self._columns = {}
        return self._sum(), self._columns

    def equals(self) -> None:
        """The sign between the sides of an equation."""
        token = self._take()
        if token.kind != "=":
            raise _misplaced(token, '"="', "Write what equals what: left = right.")

    def end(self) -> None:
        """Nothing more."""
        token = self._next
        if token.kind == ")":
            raise _misplaced(token, "an opening bracket before it", "Remove it, or open one.")
        if token.kind == "=":
            raise _misplaced(token, "no equals sign here", "Write an equation with one =.")
        if token.kind == "raised":
            raise _misplaced(token, "an exponent after what is raised", "Write it as C^2.")
        if token.kind != "end":
            raise _misplaced(token, "the end of the expression", "Put a sign before it, as *.")

    def _sum(self) -> Formula:
        terms = [self._term()]
        while self._next.kind in ("+", "-"):
            minus = self._take().kind == "-"
            term = self._term()
            terms.append(Negative(term) if minus else term)
        return terms[0] if len(terms) == 1 else Sum(tuple(terms))

    def _term(self) -> Formula:
        first = self._at
        product = self._signed()
        divided = False
        while True:
            token = self._next
            if token.kind == "*":
                self._take()
                product, divided = _times(product, self._signed()), False
            elif token.kind == "/":
                self._take()
                product, divided = self._over(product), True
            elif token.kind in _STARTS:
                if divided and not (self._plain_fraction(first) and token.spaced):
                    raise _two_meanings(token)
                product, divided = _times(product, self._power()), False
            else:
                return product

    def _plain_fraction(self, first: int) -> bool:
        """Whether only a fraction of two numbers was read so far, as in ``1/2 C``."""
        kinds = [token.kind for token in self._tokens[first : self._at]]
        return kinds == ["number", "/", "number"]

    def _over(self, over: Formula) -> Formula:
        column = self._next.column
        under = self._signed()
        if sign_of(constant_of(under, column)) == 0:
            raise ExpressionError(
                column, "a division by zero", "something else than zero", "Check what is below."
            )
        if isinstance(over, Num) and isinstance(under, Num):
            return Num(over.value / under.value)
        return Quotient(over, under)

    def _signed(self) -> Formula:
        if self._next.kind not in ("+", "-"):
            return self._power()
        self._deeper(self._next)
        minus = self._take().kind == "-"
        formula = self._signed()
        self._depth -= 1
        return Negative(formula) if minus else formula

    def _power(self) -> Formula:
        column, run = self._next.column, self._next.kind == "word"
        base = self._atom()
        if self._next.kind == "raised":
            power = self._take().value
        elif self._next.kind == "^":
            self._take()
            power = self._exponent()
        else:
            return base
        if self._next.kind in ("^", "raised"):
            raise _misplaced(self._next, "one exponent", "Put brackets round the first power.")
        if power == 0:
            raise ExpressionError(column, "a power of 0", "an exponent other than 0",
                                  "Anything to the power of 0 is 1: write 1.")  # fmt: skip
        before: list[Formula] = []
        if run and isinstance(base, Product):  # in CV² the exponent is that of V alone
            *before, base = base.factors
        refuse_giants(base, power, column)
        formula = Square(base) if power == 2 else Power(base, power)
        constant_of(formula, column)
        return Product((*before, formula)) if before else formula

    def _exponent(self) -> Fraction:
        token = self._next
        sign = -1 if token.kind == "-" else 1
        if token.kind in ("+", "-"):
            self._take()
        inner = self._next
        formula = self._atom() if inner.kind in ("number", "(") else None
        value = constant_of(formula, inner.column) if formula is not None else None
        if not isinstance(value, Rational):
            raise _misplaced(token, "a number as exponent", "For other powers write exp(…).")
        return sign * Fraction(int(value.p), int(value.q))

    def _atom(self) -> Formula:
        token = self._take()
        match token.kind:
            case "number":
                return Num(token.value)
            case "amount":
                return Amount(Rational(token.value.numerator, token.value.denominator),
                              token.quantity)  # fmt: skip
            case "(":
                return self._bracket(token)
            case "√":
                self._deeper(token)
                inner = self._atom()
                self._depth -= 1
                return self._function("sqrt", inner, token.column)
            case "word":
                return self._word(token)
            case _:
                raise _misplaced(token, _FACTOR, "Complete it, or remove what is too much.")

    def _bracket(self, opening: Token) -> Formula:
        self._deeper(opening)
        formula = self._sum()
        token = self._take()
        if token.kind != ")":
            raise _misplaced(
                token, f'")" for the "(" in column {opening.column}', "Close the bracket."
            )
        self._depth -= 1
        return formula

    def _deeper(self, token: Token) -> None:
        self._depth += 1
        if self._depth > DEEPEST:
            raise ExpressionError(
                token.column,
                f"brackets or signs {self._depth} deep",
                f"at most {DEEPEST}",
                "Write it simpler.",
            )

    def _word(self, token: Token) -> Formula:
        word = _SPELLINGS.get(token.text, token.text)
        if word in FUNCTIONS:
            opening = self._take()
            if opening.kind != "(":
                raise _misplaced(opening, f'"(" after {word}', f"Write {word}(…).")
            return self._function(word, self._bracket(opening), token.column)
        if word in CONSTANTS:
            return Ref(Name(CONSTANT, word))
        parts = (word,) if self._names is None else _cut(token, self._names)
        for part in parts:
            self._columns.setdefault(part, token.column)
        return letter(parts[0]) if len(parts) == 1 else Product(tuple(map(letter, parts)))

    def _function(self, word: str, argument: Formula, column: int) -> Formula:
        value = constant_of(argument, column)
        if word == "exp" and value is not None and abs(value) > 700:
            raise ExpressionError(
                column, "a power of e beyond all measure", "at most exp(700)", "Check the exponent."
            )
        formula = FUNCTIONS[word](argument)
        constant_of(formula, column)
        return formula


def _cut(token: Token, names: Collection[str]) -> tuple[str, ...]:
    """The names that a run of letters is made of: ``CV`` is C times V."""
    word = token.text
    if word in names:
        return (word,)
    ways: list[list[tuple[str, ...]]] = [[()]]
    for end in range(1, len(word) + 1):
        here: list[tuple[str, ...]] = []
        for start in range(end):
            if word[start:end] in names:
                here += [(*way, word[start:end]) for way in ways[start]]
        ways.append(here[:2])
    if len(ways[-1]) == 1:
        return ways[-1][0]
    quoted = f'"{_short(word)}"'
    if ways[-1]:
        one, other = (" * ".join(way) for way in ways[-1])
        raise ExpressionError(
            token.column, quoted, "one meaning", f"Write {_short(one)} or {_short(other)}."
        )
    near = difflib.get_close_matches(word, sorted(names), n=1)
    known = ", ".join(sorted(names)[:12]) or "numbers only"
    guess = f"Did you mean {near[0]}?" if near else "Write products with *, as C * V."
    raise ExpressionError(token.column, quoted, f"a name that is known here: {known}", guess,
                          word=word, near=near[0] if near else None)  # fmt: skip


def _times(left: Formula, right: Formula) -> Formula:
    factors = left.factors if isinstance(left, Product) else (left,)
    more = right.factors if isinstance(right, Product) else (right,)
    return Product((*factors, *more))


def _misplaced(token: Token, expected: str, advice: str) -> ExpressionError:
    found = "the end" if token.kind == "end" else f'"{_short(token.text)}"'
    return ExpressionError(token.column, found, expected, advice, word=token.text)


def _two_meanings(token: Token) -> ExpressionError:
    return ExpressionError(
        token.column,
        f'"{_short(token.text)}" after a division, without a sign',
        "one meaning",
        "Write * to multiply, or put what is below the line in brackets: C/(2*R).",
    )


def _short(text: str, most: int = 30) -> str:
    seen = visible(text)
    return seen if len(seen) <= most else seen[: most - 1] + "…"
