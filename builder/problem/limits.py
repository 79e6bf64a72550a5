"""How large a problem may be: every limit of a file and of what stands in it, in one place.

A limit keeps reading, solving and teaching within seconds and a fixed amount of memory, whatever
somebody writes; each is far above what a person solves by hand. Numbers and expressions have limits
of their own in ``quantity``, which are listed here too.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.quantity.constant_parts import LARGEST_POWER
from builder.quantity.exact import LARGEST_EXPONENT, LONGEST_NUMBER, MOST_ORDERS
from builder.quantity.parser import DEEPEST as DEEPEST_EXPRESSION
from builder.quantity.tokens import LONGEST_EXPRESSION

LARGEST_FILE = 256 * 1024
"""Bytes of a file; no more of it is ever read."""

MOST_NODES = 20_000
"""Keys and values of a file."""

DEEPEST = 50
"""Levels of keys and lists inside each other."""

LONGEST_TEXT = 8_000
"""Characters of one text."""

MOST_BRACKETS = 300
"""Opening square brackets of one text: Markdown takes the square of their number to read them."""

MOST_ELEMENTS = 60
"""Elements of a circuit; in a table of branches sources and switches count too."""

MOST_SWITCHED = 30
"""Branches of a circuit in which something is switched: it is drawn anew for every instant."""

DEEPEST_NEST = 20
"""Groups inside each other."""

MOST_UNKNOWN = 6
"""Elements that are to be found from what was measured."""

MOST_LETTERS = 6
"""Letters that stand for values in one circuit."""

MOST_STAGES = 12
"""Stages, one after the other."""

MOST_TIME_CONSTANTS = 1_000
"""How many time constants after a change a time may lie."""

MOST_MOMENTS = 12
"""Times, and voltages to be reached, that one change is asked about."""

MOST_QUANTITIES = 40
"""Quantities of a problem of plain equations."""

MOST_RELATIONS = 40
"""Plain equations of a problem."""

MOST_ROOTS = 3
"""Roots inside each other in a quantity that plain equations give."""

MOST_PARTS = 6
"""Layers or slabs between two plates."""

MOST_GIVEN_ASKED, MOST_LINES_ASKED = 24, 120
"""Given values, and lines of a solution, up to which questions are made of it by themselves."""

MOST_VALUES = 200
"""Values that one quantity may have under ``vary:``."""


@dataclass(frozen=True)
class Limit:
    """One limit, as a reference lists it.

    Attributes:
        most: the number.
        what: what there may be so many of, after the number: ``60 elements of a circuit``.
    """

    most: int
    what: str


LIMITS: tuple[Limit, ...] = (
    Limit(LARGEST_FILE // 1024, "KiB in a file"),
    Limit(MOST_NODES, "keys and values in a file"),
    Limit(DEEPEST, "levels of keys and lists inside each other"),
    Limit(LONGEST_TEXT, "characters in a text"),
    Limit(MOST_BRACKETS, "opening square brackets in a text"),
    Limit(MOST_ELEMENTS, "elements in a circuit; among branches, sources and switches count too"),
    Limit(MOST_SWITCHED, "branches in a circuit in which something is switched"),
    Limit(DEEPEST_NEST, "groups inside each other"),
    Limit(MOST_UNKNOWN, "elements that are unknown"),
    Limit(MOST_LETTERS, "letters that stand for values"),
    Limit(MOST_STAGES, "stages"),
    Limit(MOST_TIME_CONSTANTS, "time constants from a change to a time that is asked about"),
    Limit(MOST_MOMENTS, "times and voltages that a change is asked about"),
    Limit(MOST_QUANTITIES, "quantities beside plain equations"),
    Limit(MOST_RELATIONS, "plain equations"),
    Limit(MOST_ROOTS, "roots inside each other, where plain equations give a quantity"),
    Limit(MOST_PARTS, "layers or slabs between two plates"),
    Limit(MOST_GIVEN_ASKED, "given values in a problem that gets generated questions"),
    Limit(MOST_LINES_ASKED, "lines in a solution that gets generated questions"),
    Limit(MOST_VALUES, "values for one quantity under vary"),
    Limit(LONGEST_NUMBER, "characters in a number"),
    Limit(LARGEST_EXPONENT, "as the exponent of ten in a number, above zero or below"),
    Limit(LONGEST_EXPRESSION, "characters in an expression"),
    Limit(DEEPEST_EXPRESSION, "brackets inside each other in an expression"),
    Limit(LARGEST_POWER, "as an exponent of a name in an expression"),
    Limit(MOST_ORDERS, "as the exponent of ten of any result, above zero or below"),
)
"""All of them, in the order in which a file is read."""
