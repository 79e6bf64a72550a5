"""Circuits written in a line, and a lesson's words as plain text."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from hypothesis import strategies as st

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.circuit.tree import Group, Leaf, Tree, groups, in_parallel, in_series, leaves
from builder.lesson.display import Display
from builder.lesson.lesson import TaughtStep
from builder.lesson.nest.write import NestLesson, write_nest_lesson
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
from builder.lesson.questions import ChoiceQuestion
from builder.problem.model import NestProblem
from builder.quantity.names import Name
from builder.solution.nest.solve import solve_nest
from builder.solution.nest.step import NestStep
from tests.strategies import UNITS, everything, problem_of, trees, typed_numbers


def series(*parts: Tree | str) -> Tree:
    """A chain, its single elements told by name."""
    return in_series("", *(Leaf(part) if isinstance(part, str) else part for part in parts))


def parallel(*parts: Tree | str) -> Tree:
    """A bank, its single elements told by name."""
    return in_parallel("", *(Leaf(part) if isinstance(part, str) else part for part in parts))


def asking(
    tree: Tree | str,
    source: str | None,
    *asked: str,
    values: Mapping[str, str] | None = None,
    digits: int = 3,
) -> NestProblem:
    """A circuit of which ``quantity:element`` are asked, or everything.

    Args:
        tree: of elements numbered from 1.
        source: as typed.
        asked: ``charge:C2``; everything if there is none.
        values: as typed; by default 10, 20, 30 … microfarads or ohms.
        digits: significant digits of results.
    """
    tree = Leaf(tree) if isinstance(tree, str) else tree
    law = CAPACITORS if leaves(tree)[0].startswith("C") else RESISTORS
    names = sorted(leaves(tree), key=lambda name: int(name[1:]))
    if values is None:
        values = {name: f"{10 * int(name[1:])} {UNITS[law.value]}" for name in names}
    find = tuple(name_of(each) for each in asked) or None
    problem = problem_of(tree, law, values, source, find)
    return replace(problem, digits=digits)


def name_of(key: str) -> Name:
    """``charge:C2`` as a name."""
    return Name(*key.split(":"))


def lesson_of(problem: NestProblem) -> NestLesson:
    """The lesson of a problem."""
    return write_nest_lesson(solve_nest(problem))


def plain(prose: Prose, display: Display) -> str:
    """A text with every symbol and number written out."""
    return "".join(_piece(piece, display) for piece in prose)


def _piece(piece: Piece, display: Display) -> str:
    match piece:
        case NumberOf(name):
            return display.shown(name).text
        case SymbolOf(name):
            return display.symbol(name).text
        case WrongNumber(shown=shown) | Told(shown):
            return shown.text
        case Relation(text):
            return text
        case Written(markdown):
            return markdown
        case str():
            return piece


def words_of(problem: NestProblem, step: str) -> tuple[str, str, str]:
    """Goal, reason and remark of one step."""
    lesson = lesson_of(problem)
    (words,) = (taught.words for taught in lesson.steps if taught.step.id == step)
    return (
        plain(words.goal, lesson.display),
        plain(words.reason, lesson.display),
        plain(words.remark, lesson.display),
    )


def options_of(question: ChoiceQuestion, display: Display) -> list[str]:
    """The options of a choice, the right one marked with a star."""
    return [
        plain(option.text, display) + (" *" if option.right else "") for option in question.options
    ]


@st.composite
def taught_problems(draw: st.DrawFn, most: int = 12) -> NestProblem:
    """A problem of 1 to ``most`` elements with any source or none, of which anything is asked."""
    law = draw(st.sampled_from((CAPACITORS, RESISTORS)))
    driven_by = draw(st.sampled_from((law.drop, law.flow, None)))
    # Of a single element without a source nothing can be asked: the reader refuses that.
    least = 2 if driven_by is None else 1
    tree = draw(trees(least, most, law.letter))
    names = [f"{law.letter}{number}" for number in range(1, len(leaves(tree)) + 1)]
    alike = draw(st.booleans()) and draw(typed_numbers())
    unit = UNITS[law.value]
    values = {name: f"{alike or draw(typed_numbers())} {unit}" for name in names}
    if driven_by is None:
        return problem_of(tree, law, values, None)
    source = f"{draw(typed_numbers())} {UNITS[driven_by]}"
    everyone = everything(law, tree)
    find = draw(st.lists(st.sampled_from(everyone), min_size=1, unique=True))
    return problem_of(tree, law, values, source, tuple(sorted(find, key=everyone.index)))


def move_of(taught: TaughtStep) -> NestStep:
    """The move of a step of a nest's lesson."""
    assert isinstance(taught.step, NestStep)
    return taught.step


def members_of(problem: NestProblem) -> Iterator[tuple[Group, tuple[str, ...]]]:
    """Every group with the ids of its members."""
    for group in groups(problem.tree):
        yield group, tuple(part.id for part in group.parts)
