"""Words become HTML. Every number of a solution is marked with the name of its quantity."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property, lru_cache

from markupsafe import Markup, escape

from builder.lesson.display import Display
from builder.lesson.prose import (
    NumberOf,
    Piece,
    Prose,
    Relation,
    SymbolOf,
    Told,
    Written,
    WrongNumber,
)
from builder.quantity.compact import compact
from builder.quantity.letters import letter_symbol
from builder.quantity.names import Name, Symbol
from builder.quantity.show import Shown, ShownExpression
from builder.site.author_text import inline

NO_BREAK = "\u00a0"


@lru_cache(maxsize=4096)
def symbol_html(symbol: Symbol, of: str = "") -> Markup:
    """A symbol with an italic letter and an upright index.

    Args:
        symbol: what is written.
        of: the element whose quantity it is, carried as ``data-of``.
    """
    index = f"<sub>{escape(symbol.index)}</sub>" if symbol.index else ""
    whose = f' data-of="{escape(of)}"' if of else ""
    letter, mark = escape(symbol.letter), escape(symbol.mark)
    return Markup(f'<span class="sw-sym"{whose}><i>{letter}</i>{index}{mark}</span>')


@lru_cache(maxsize=64)
def relation_html(text: str) -> Markup:
    """A law in one line, with its letters in italics: ``Q = CV``; ``^( )`` raises a power."""
    lettered = re.sub(r"([A-Z]+)", r"<i>\1</i>", str(escape(text)))
    return Markup('<span class="sw-sym">{}</span>').format(
        Markup(re.sub(r"\^\(([^)]*)\)", _raised, lettered))
    )


def _raised(power: re.Match[str]) -> str:
    """An exponent, its letters in italics."""
    inner = re.sub(r"([a-zτ]+)", r"<i>\1</i>", power.group(1))
    return f"<sup>{inner}</sup>"


@lru_cache(maxsize=4096)
def escaped(text: str) -> Markup:
    """A piece of a sentence; most are said again with every set of numbers."""
    return escape(text)


def expression_html(shown: ShownExpression) -> Markup:
    """An expression in one line, its letters in italics."""
    # As plain text, since markup would escape the markup that is joined to it.
    text = compact(shown.expression, lambda name: str(symbol_html(letter_symbol(name.of))))
    return Markup(re.sub(r"(?<=[0-9]) (?=[A-Za-zµΩ])", NO_BREAK, text))


def quantity_text(shown: Shown) -> str:
    """Number and unit that stay on one line."""
    number = shown.number.replace(" ", NO_BREAK)
    return f"{number}{NO_BREAK}{shown.unit}" if shown.unit else number


def told_value(shown: Shown) -> Markup:
    """A value that belongs to no quantity of the page."""
    if isinstance(shown, ShownExpression):
        return expression_html(shown)
    return escape(quantity_text(shown))


def marked_number(key: str, shown: Shown) -> Markup:
    """A number with its unit, or an expression, marked with the key of its quantity."""
    # Put together as plain text that is escaped already; to format markup takes ten times as long.
    if isinstance(shown, ShownExpression):
        told = expression_html(shown)
        return Markup(f'<span class="sw-n sw-expression" data-q="{escape(key)}">{told}</span>')
    told = escape(quantity_text(shown))
    return Markup(f'<span class="sw-n" data-q="{escape(key)}">{told}</span>')


@dataclass(frozen=True)
class Writer:
    """Writes the words of one lesson as HTML.

    Attributes:
        display: how the lesson's quantities are written.
    """

    display: Display

    def number(self, name: Name) -> Markup:
        """The number of a quantity, marked."""
        found = self._numbers.get(name)
        if found is None:
            found = marked_number(self.display.resolve(name).key, self.display.shown(name))
            self._numbers[name] = found
        return found

    def symbol(self, name: Name) -> Markup:
        """The symbol of a quantity."""
        found = self._symbols.get(name)
        if found is None:
            found = self._symbols[name] = symbol_html(self.display.symbol(name), name.of)
        return found

    def prose(self, prose: Prose) -> Markup:
        """A text."""
        # Each piece is escaped already; to join them as markup would look at each again.
        return Markup("".join(map(self._piece, prose)))

    def named_number(self, name: Name) -> Markup:
        """``C₁ = 10 µF``, with ≈ for a rounded number; what is its own symbol is told once."""
        if self.display.names_itself(name):
            return self.symbol(name)
        sign = self.display.shown(name).sign
        return Markup(f"{self.symbol(name)} {sign} {self.number(name)}")

    def signed_number(self, name: Name) -> Markup:
        """A number for a table: with ≈ before it only if it is rounded."""
        sign = "" if self.display.shown(name).exact else f"≈{NO_BREAK}"
        return Markup(f"{sign}{self.number(name)}")

    @cached_property
    def _numbers(self) -> dict[Name, Markup]:
        """The numbers that were written already: most stand in many places of a page."""
        return {}

    @cached_property
    def _symbols(self) -> dict[Name, Markup]:
        """The symbols that were written already."""
        return {}

    def _piece(self, piece: Piece) -> Markup:
        match piece:
            case str():
                return escaped(piece)
            case NumberOf(name):
                return self.number(name)
            case SymbolOf(name):
                return self.symbol(name)
            case WrongNumber(rule, name, shown):
                return marked_number(f"wrong:{rule}:{name.key}", shown)
            case Told(shown):
                return told_value(shown)
            case Relation(text):
                return relation_html(text)
            case Written(markdown):
                return inline(markdown, self.placeholder)

    def placeholder(self, reference: str) -> Markup | None:
        """What ``{C1}``, ``{C1.name}`` or ``{C1.value}`` stands for in an author's text.

        A source is told by its value, an element by its name and value; ``{C1.charged}`` is the
        voltage or the charge that it starts with.
        """
        of, _, part = reference.partition(".")
        mention = self.display.mention(of)
        if mention is None:
            return None
        symbol = self.symbol(mention.symbol)
        if part == "charged":
            return None if mention.charged is None else self.number(mention.charged)
        if mention.number is None:
            return symbol
        number = self.number(mention.number)
        both = Markup(f"{symbol} ({number})") if mention.both else number
        if self.display.names_itself(mention.number):
            return symbol
        return {"name": symbol, "value": number}.get(part, both)
