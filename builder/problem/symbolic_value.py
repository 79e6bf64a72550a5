"""Values that are symbols: ``2*C``, ``R/3``, ``V`` where a number with a unit could stand."""

from __future__ import annotations

import re
from collections.abc import Iterable

from sympy import Symbol, cancel

from builder.problem.faults.gathering import Faults, quoted
from builder.problem.yaml_text.located import Text
from builder.quantity.expression import Expression, parse_expression, to_exact
from builder.quantity.formula import Exp, Formula, Ln, Power, Ref, Root, parts_of
from builder.quantity.kinds import KINDS
from builder.quantity.letters import LETTER, letter_of, symbol_of
from builder.quantity.measure import Measure
from builder.quantity.show import show
from builder.quantity.symbolic import sign_of
from builder.quantity.tokens import ExpressionError

_LETTER = re.compile(r"[A-Za-zΑ-Ωα-ω](?:[0-9]{1,3}|_[A-Za-z0-9]{1,10})?")
_OPERATION = re.compile(r"[*·×⋅()^√]|^\s*[A-Za-zΑ-Ωα-ω][A-Za-z0-9_₀-₉]*\s*(?:[-+/−]|$)")
_ONE_LETTER = re.compile(r"\s*[0-9./]+\s*([A-Za-z])\s*")
KIND_LETTERS = {
    "C": "capacitance", "R": "resistance", "r": "resistance", "V": "voltage", "E": "voltage",
    "U": "voltage", "I": "current", "Q": "charge",
}  # fmt: skip
"""What a letter usually stands for; the name of an element or a source goes before it."""
_SYMBOLS = "a symbol, alone or with a number, such as 2*C or R/3"


def seems_symbolic(text: str) -> bool:
    """Whether a value that is no number with a unit was meant as an expression of symbols."""
    alone = _ONE_LETTER.fullmatch(text)
    if alone is not None:  # "10 f" is rather a mistyped unit than ten times f
        return alone[1] in KIND_LETTERS
    try:
        letters = parse_expression(text).letters
    except ExpressionError:
        return bool(_OPERATION.search(text))
    return bool(letters) and all(_LETTER.fullmatch(letter) for letter in letters)


def read_symbolic(
    text: Text, kinds: tuple[str, ...], name: str | None, faults: Faults
) -> Measure | None:
    """An expression of positive symbols, all of one kind.

    Args:
        text: what was typed.
        kinds: the quantity kinds that may stand here.
        name: of the element or source, if it has one.
        faults: takes whatever is wrong.
    """
    try:
        read = parse_expression(text.value)
    except ExpressionError as error:
        at = text.inside(error.column, error.word, faults.lines)
        faults.add(at, f"{error.found} in {quoted(text.value)}", error.expected, error.advice)
        return None
    kind = _kind(read, kinds, name)
    if kind is None:
        faults.add(text.at, f"{quoted(text.value)}, which may be of several kinds",
                   "a symbol whose first letter tells its kind: C, R, V, I or Q",
                   _kind_advice(kinds, text.value))  # fmt: skip
        return None
    other = next((one for one in read.letters if KIND_LETTERS.get(one[:1], kind) != kind), None)
    if other is not None:
        usual = KINDS[KIND_LETTERS[other[:1]]].noun
        faults.add(
            text.at,
            f"{quoted(text.value)}, whose letter {other} stands for a {usual}",
            f"a {KINDS[kind].noun}: {_SYMBOLS}",
            f"Choose a letter that tells what it is, such as {_letter_of(kind)}.",
        )
        return None
    return _checked(text, read, kind, faults)


def _letter_of(kind: str) -> str:
    return next(letter for letter, meant in KIND_LETTERS.items() if meant == kind)


def _kind(read: Expression, kinds: tuple[str, ...], name: str | None) -> str | None:
    if len(kinds) == 1:
        return kinds[0]
    for word in (name, *read.letters):
        kind = KIND_LETTERS.get(word[:1]) if word else None
        if kind in kinds:
            return kind
    return None


def _kind_advice(kinds: tuple[str, ...], value: str) -> str:
    if "voltage" in kinds:
        return f"Name the source by its kind: source: {{V0: {value}}}."
    return f"Write what it is: {{{kinds[0]}: {value}}}."


def _checked(text: Text, read: Expression, kind: str, faults: Faults) -> Measure | None:
    noun = KINDS[kind].noun
    if not read.letters or any(map(_no_fraction, _walk(read.formula))):
        faults.add(text.at, quoted(text.value), _SYMBOLS,
                   "Use letters and numbers with + − * / only.")  # fmt: skip
        return None
    symbols = {name: symbol_of(name, kind) for name in read.letters}
    try:
        value = cancel(to_exact(read, symbols))
    except ZeroDivisionError:
        faults.add(text.at, f"{quoted(text.value)}, which divides by zero", _SYMBOLS,
                   "Check what stands below the line.")  # fmt: skip
        return None
    grown = Symbol("grown", positive=True)
    larger = value.xreplace({symbol: grown * symbol for symbol in symbols.values()})
    if cancel(larger - grown * value) != 0:
        faults.add(text.at, f"{quoted(text.value)}, which is no {noun}",
                   f"a {noun}: {_SYMBOLS}",
                   f"Each term needs one letter more above the line than below it, as in "
                   f"{read.letters[0]}/2.")  # fmt: skip
        return None
    if sign_of(value) != 1:
        faults.add(text.at, f"{quoted(text.value)}, which may be zero or less",
                   f"a {noun} above zero", "Symbols stand for any numbers above zero, so leave "
                   "out minus signs.")  # fmt: skip
        return None
    return Measure(kind, value, show(value, kind))


def _walk(formula: Formula) -> Iterable[Formula]:
    yield formula
    for part in parts_of(formula):
        yield from _walk(part)


def _no_fraction(formula: Formula) -> bool:
    match formula:
        case Root() | Exp() | Ln():
            return True
        case Power(_, exponent):
            return exponent.denominator != 1
        case Ref(name):
            return name.quantity != LETTER
        case _:
            return False


def lone_letter(measure: Measure | None) -> str | None:
    """The letter of a value that is one symbol and nothing else."""
    value = measure.value if measure else None
    return letter_of(value) if isinstance(value, Symbol) else None
