"""The ``relations:`` of a problem: equations whose units are checked term by term."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from builder.problem.faults.gathering import Faults, quoted
from builder.problem.limits import MOST_RELATIONS
from builder.problem.relations.model import Relation, Stated
from builder.problem.relations.quantities import CONSTANT_QUANTITIES
from builder.problem.shape import RelationShape, keys_of
from builder.problem.typed import as_items, as_text, needed, refuse_unknown_keys
from builder.problem.yaml_text.located import Map, Node, Text
from builder.quantity.dimension import DimensionError, dimension_of, in_words
from builder.quantity.expression import Expression, parse_equation
from builder.quantity.formula import Formula, Num, Quotient, ReciprocalSum, Ref, Sum, names_in
from builder.quantity.letters import CONSTANT
from builder.quantity.names import Name
from builder.quantity.putting import replaced
from builder.quantity.tokens import ExpressionError
from builder.quantity.units import read_unit

_EXPECTED = "an equation such as Q = C * V"


@dataclass(frozen=True)
class Equations:
    """Reads the relations between quantities.

    Attributes:
        stated: the quantities that they may use, by name.
        faults: of the file.
    """

    stated: Mapping[str, Stated]
    faults: Faults

    def read(self, node: Node) -> tuple[Relation, ...]:
        """Read what stands under ``relations:``."""
        listed = as_items(node, "a list of equations", self.faults)
        if listed is None:
            return ()
        if not listed.items:
            self.faults.add(listed.at, "an empty list", "at least one equation",
                            "Write each after a dash, such as - Q = C * V.")  # fmt: skip
        if len(listed.items) > MOST_RELATIONS:
            self.faults.add(listed.items[MOST_RELATIONS].at, f"more than {MOST_RELATIONS} "
                            "equations", f"at most {MOST_RELATIONS}",
                            "Make the problem smaller.")  # fmt: skip
        read = [self._relation(item) for item in listed.items[:MOST_RELATIONS]]
        return tuple(relation for relation in read if relation is not None)

    def _relation(self, item: Node) -> Relation | None:
        if not isinstance(item, Map):
            text = as_text(item, _EXPECTED, self.faults)
            return None if text is None else self._equation(text, "")
        keys = keys_of(RelationShape)
        refuse_unknown_keys(item, keys, self.faults)
        entry = needed(item, "equation", _EXPECTED, keys, self.faults)
        reason = item.get("because")
        because = as_text(reason.value, "why it holds, as a text", self.faults) if reason else None
        text = as_text(entry.value, _EXPECTED, self.faults) if entry else None
        if text is None:
            return None
        return self._equation(text, because.value.strip() if because else "")

    def _equation(self, text: Text, because: str) -> Relation | None:
        try:
            typed = parse_equation(text.value, tuple(self.stated), unit_of=read_unit)
        except ExpressionError as error:
            at = text.inside(error.column, error.word, self.faults.lines)
            self.faults.add(at, error.found, error.expected, error.advice, instead=error.near)
            return None
        left, right = self._named(typed.left), self._named(typed.right)
        if not [*names_in(left), *names_in(right)]:
            self.faults.add(text.at, f"{quoted(text.value)}, without any quantity", _EXPECTED,
                            "Use the names under quantities.")  # fmt: skip
            return None
        if not self._fits(text, left, right, typed.right):
            return None
        return Relation(left, right, " ".join(text.value.split()), because, at=text.at)

    def relation(self, written: str, because: str) -> Relation:
        """A relation that the kind of problem brings along."""
        typed = parse_equation(written, tuple(self.stated))
        left, right = self._named(typed.left), self._named(typed.right)
        return Relation(left, as_reciprocals(right), written, because)

    def _named(self, expression: Expression) -> Formula:
        """The formula with each letter replaced by the quantity that it stands for."""

        def of(name: Name) -> Ref:
            if name.quantity == CONSTANT:
                return Ref(CONSTANT_QUANTITIES[name.of].name)
            return Ref(self.stated[name.of].name)

        return replaced(expression.formula, of)

    def _fits(self, text: Text, left: Formula, right: Formula, typed: Expression) -> bool:
        columns = _columns(text.value, [*names_in(left), *names_in(right)])
        before = sum(1 for _ in names_in(left))
        try:
            one = dimension_of(left)
            other = dimension_of(right, before)
        except DimensionError as error:
            self._refuse_term(text, error, columns)
            return False
        if one == other:
            return True
        start = text.value.index("=") + 1
        start += len(text.value[start:]) - len(text.value[start:].lstrip())
        at = text.inside(start + 1, text.value[start:].rstrip(), self.faults.lines)
        self.faults.add(at, f"{quoted(text.value[start:])}, which is {in_words(other)}",
                        f"{in_words(one)}, as on the left side",
                        "Check what is missing or too much on one of the sides.")  # fmt: skip
        return False

    def _refuse_term(self, text: Text, error: DimensionError, columns: list[int]) -> None:
        column = columns[error.position] if error.position < len(columns) else 1
        rest = text.value[column - 1 :].split()[0]
        where = {
            "term": f"the term from {quoted(rest)} on",
            "exponent": f"the exponent from {quoted(rest)} on",
            "argument": f"the logarithm from {quoted(rest)} on",
        }[error.place]
        expected = in_words(error.expected)
        beside = ", like the terms before it" if error.place == "term" else ""
        self.faults.add(text.inside(column, rest, self.faults.lines),
                        f"{where}, which is {in_words(error.found)}", f"{expected}{beside}",
                        "Only what is measured alike can be added or compared."
                        if error.place == "term"
                        else "Divide it by something of its own kind.")  # fmt: skip


def as_reciprocals(formula: Formula) -> Formula:
    """``1/(1/a + 1/b)`` as the sum of reciprocals that it is."""
    one = Num(Fraction(1))
    match formula:
        case Quotient(over, Sum(terms)) if over == one:
            inside = [t.under for t in terms if isinstance(t, Quotient) and t.over == one]
            return ReciprocalSum(tuple(inside)) if len(inside) == len(terms) else formula
        case Quotient(over, Quotient(top, inner)) if over == one and top == one:
            return inner
        case _:
            return formula


def _columns(text: str, names: list[Name]) -> list[int]:
    """Where each name of an equation stands, from 1, in the order of reading."""
    columns, at = [], 0
    for name in names:
        found = text.find(name.of, at)
        at = found if found >= 0 else at
        columns.append(at + 1)
        at += len(name.of) if found >= 0 else 0
    return columns
