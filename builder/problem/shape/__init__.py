"""The shape of a problem's file: its keys and what each means.

The reader takes its lists of keys from these models, so that what an editor completes is what
is read. The reader's own checks tell a fault with its place; the shape only helps to type.
"""

from builder.problem.shape.circuit import (
    BranchShape,
    ChangeShape,
    CircuitShape,
    ElementShape,
    ItemShape,
    StageShape,
)
from builder.problem.shape.files import SYMBOLS, ProblemShape, UnitShape
from builder.problem.shape.keys import (
    FEWEST_DIGITS,
    ID_PATTERN,
    MOST_DIGITS,
    NAME_PATTERN,
    Shape,
    keys_of,
)
from builder.problem.shape.relations import (
    FillingShape,
    PartShape,
    PlatesShape,
    QuantityShape,
    RelationShape,
)
from builder.problem.shape.varying import KeepShape
from builder.problem.shape.words import ChoiceShape, QuestionShape, StepWordsShape

__all__ = [
    "FEWEST_DIGITS",
    "ID_PATTERN",
    "MOST_DIGITS",
    "NAME_PATTERN",
    "SYMBOLS",
    "BranchShape",
    "ChangeShape",
    "ChoiceShape",
    "CircuitShape",
    "ElementShape",
    "FillingShape",
    "ItemShape",
    "KeepShape",
    "PartShape",
    "PlatesShape",
    "ProblemShape",
    "QuantityShape",
    "QuestionShape",
    "RelationShape",
    "Shape",
    "StageShape",
    "StepWordsShape",
    "UnitShape",
    "keys_of",
]
