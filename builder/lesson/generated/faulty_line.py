"""A worked solution with one mistake in it, carried on to the end: which line is the first?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from builder.lesson.display import Display
from builder.lesson.formula_prose import formula_prose, goes_in_line
from builder.lesson.generated.drawn import shuffled
from builder.lesson.generated.wrong_formulas import wrong_formula
from builder.lesson.lesson import Lesson, TaughtStep
from builder.lesson.prose import NumberOf, Prose, SymbolOf, WrongNumber, number_word, say
from builder.lesson.questions.step_forms import FaultyLineQuestion, WorkedLine
from builder.lesson.wrong_rule import Wrong, WrongRule
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Solved, evaluate, names_in
from builder.quantity.names import Name
from builder.quantity.show import Shown, show
from builder.quantity.symbolic import same, sign_of
from builder.solution import Line, Step
from builder.solution.altered import rerun

MOST_LINES = 6
LEAST_LINES = 3
MOST_RESULTS = 4
"""So many formulas of a step are shown at most."""
MARK = "faulty-line"
"""What the wrong numbers of the question are marked with."""


@dataclass(frozen=True)
class _Mistake:
    """A wrong rule at one step.

    Attributes:
        rule: what is done wrong.
        wrong: the first number that it gets wrong.
        at: the position of the step.
        formulas: what it writes in the place of the step's own lines, or only the value where
            the right formula does not go in one line and is not shown either.
        values: all values that come out with them.
    """

    rule: WrongRule
    wrong: Wrong
    at: int
    formulas: Mapping[Name, Formula | Exact]
    values: Mapping[Name, Exact]


def faulty_line(lesson: Lesson) -> FaultyLineQuestion | None:
    """The question, or None where no mistake can be worked out in full."""
    if len(lesson.steps) < LEAST_LINES:
        return None
    mistakes = list(_mistakes(lesson))
    rules = shuffled(list(dict.fromkeys(mistake.rule.id for mistake in mistakes)), lesson, "rules")
    mistakes = shuffled(mistakes, lesson, "faulty line")
    # What is carried on teaches more than what ends with the mistake, and the first line is the
    # likeliest guess.
    mistakes.sort(key=lambda one: (_misled_after(one, lesson) == 0, one.at == 0,
                                   rules.index(one.rule.id)))  # fmt: skip
    if not mistakes:
        return None
    mistake = mistakes[0]
    start, end = _window(mistake, lesson)
    lines = tuple(_line(at, lesson.steps[at], mistake, lesson.display) for at in range(start, end))
    return FaultyLineQuestion(
        _ask(start, end, len(lesson.steps)), lines, _told(mistake, lesson.display),
        lesson.steps[mistake.at].step.id,
    )  # fmt: skip


def _rules(lesson: Lesson) -> list[WrongRule]:
    """The rules that lead to a wrong number here, likeliest first."""
    rules = (one.rule for slip in lesson.slips for one in (slip, *slip.also))
    return list({rule.id: rule for rule in rules if not rule.arithmetic}.values())


def _mistakes(lesson: Lesson) -> Iterator[_Mistake]:
    """Every rule at every step at which it can be worked out."""
    for rule in _rules(lesson):
        by_name = {wrong.name: wrong for wrong in rule.find(lesson.display)}
        for at, taught in enumerate(lesson.steps):
            wrongs = [by_name[name] for name in taught.step.found if name in by_name]
            formulas = _formulas(rule, wrongs, taught, lesson)
            mistake = _carried_out(rule, wrongs, at, formulas, lesson) if formulas else None
            if mistake:
                yield mistake


def _formulas(
    rule: WrongRule, wrongs: list[Wrong], taught: TaughtStep, lesson: Lesson
) -> dict[Name, Formula | Exact] | None:
    """What the rule writes at a step; None if it is not known for all that it gets wrong."""
    wrong_of, values = {wrong.name: wrong for wrong in wrongs}, lesson.solution.values
    known = [*lesson.solution.givens, *taught.known_before]
    formulas: dict[Name, Formula | Exact] = {}
    for line in taught.step.lines:
        wrong = wrong_of.get(line.name)
        if wrong is not None:
            instead = wrong_formula(rule.id, line, wrong.value, known, lesson.display)
            if instead is None and not _is_hidden(line.formula):
                return None
            formulas[line.name] = wrong.value if instead is None else instead
        known.append(line.name)
    # What the mistake hits by chance is written like what it gets wrong.
    for line in taught.step.lines:
        for name, instead in list(formulas.items()):
            if (line.name not in formulas and line.name.quantity == name.quantity
                    and not line.carries and isinstance(instead, Formula)
                    and same(evaluate(instead, values), values[line.name])):  # fmt: skip
                formulas[line.name] = instead
    return formulas


def _is_hidden(formula: Formula) -> bool:
    """Whether the right formula is not shown either, though the step is told by it alone."""
    return not goes_in_line(formula) and not isinstance(formula, Solved)


def _carried_out(
    rule: WrongRule,
    wrongs: list[Wrong],
    at: int,
    formulas: dict[Name, Formula | Exact],
    lesson: Lesson,
) -> _Mistake | None:
    """A mistake with all that follows from it; None if what follows cannot be believed."""
    right, display = lesson.solution.values, lesson.display
    values = rerun(lesson.solution, formulas)
    for taught in lesson.steps:
        for name in taught.step.found:
            if name not in values or sign_of(values[name]) != sign_of(right[name]):
                return None
    seen = [name for name in formulas
            if show(values[name], name.quantity, display.digits).text
            != show(right[name], name.quantity, display.digits).text]  # fmt: skip
    if not seen:
        return None
    first = next(wrong for wrong in wrongs if wrong.name == seen[0])
    return _Mistake(rule, first, at, formulas, values)


def _misled_after(mistake: _Mistake, lesson: Lesson) -> int:
    """How many steps after the mistake go on with a wrong number."""
    later = (taught.step for taught in lesson.steps[mistake.at + 1 :])
    return sum(_differs(step, mistake, lesson.display) for step in later)


def _differs(step: Step, mistake: _Mistake, display: Display) -> bool:
    right = display.solution.values
    return any(not same(mistake.values[name], right[name]) for name in step.found)


def _window(mistake: _Mistake, lesson: Lesson) -> tuple[int, int]:
    """The steps that are shown: all, or a few in a row, the mistake and what follows from it."""
    count, at = len(lesson.steps), mistake.at
    if count <= MOST_LINES + 1:
        return 0, count
    misled = next((later for later in range(at + 1, count)
                   if _differs(lesson.steps[later].step, mistake, lesson.display)), at)  # fmt: skip
    start = min(at, max(at - 2, misled - MOST_LINES + 1))
    start = max(0, min(start, count - MOST_LINES))
    return start, start + MOST_LINES


def _line(at: int, taught: TaughtStep, mistake: _Mistake, display: Display) -> WorkedLine:
    state: Literal["fine", "fault", "misled"] = "fine"
    if at == mistake.at:
        state = "fault"
    elif _differs(taught.step, mistake, display):
        state = "misled"
    results = tuple(
        _result(line, mistake, display) for line in _shown_lines(taught.step, mistake, display)
    )
    return WorkedLine(taught.step.id, at + 1, taught.words.goal, results, state)


def _shown_lines(step: Step, mistake: _Mistake, display: Display) -> list[Line]:
    """The lines of a step that are shown: what is wrong above all, then the results."""
    lines = list(step.lines)
    inner = {name for line in lines for name in names_in(line.formula)}
    for dropped in (
        [line for line in lines if line.carries and line.name in inner],
        [line for line in lines if line.name in inner],
        [line for line in lines if line.carries],
    ):
        for line in dropped:
            if len(lines) > MOST_RESULTS and line.name not in mistake.formulas and line in lines:
                lines.remove(line)
    return lines[:MOST_RESULTS]


def _result(line: Line, mistake: _Mistake, display: Display) -> Prose:
    """``C₂₃ = C₂ + C₃ = 30 µF``; without the formula where it does not go in one line."""
    instead = mistake.formulas.get(line.name, line.formula)
    formula = formula_prose(instead, display) if isinstance(instead, Formula) else ()
    value, right = mistake.values[line.name], display.solution.values[line.name]
    symbol = SymbolOf(line.name)
    if same(value, right):
        shown = display.shown(line.name)
        number: NumberOf | WrongNumber = NumberOf(line.name)
    else:
        shown = show(value, line.name.quantity, display.digits)
        number = WrongNumber(MARK, line.name, shown)
    if not formula or _says_the_same(formula, shown, display):
        return say("{symbol} {sign} {number}", symbol=symbol, sign=shown.sign, number=number)
    return say("{symbol} = {formula} {sign} {number}", symbol=symbol, formula=formula,
               sign=shown.sign, number=number)  # fmt: skip


def _says_the_same(formula: Prose, shown: Shown, display: Display) -> bool:
    """Whether a formula of letters is its own result."""
    letters = (display.symbol(piece.name).text if isinstance(piece, SymbolOf) else str(piece)
               for piece in formula)  # fmt: skip
    return "".join(letters).replace(" · ", "") == shown.text.replace(" · ", "")


def _told(mistake: _Mistake, display: Display) -> Prose:
    """Which mistake it is, why one falls for it, and what is right."""
    name = mistake.wrong.name
    return say("The mistake: {happens}. {why} Right is {symbol} {sign} {number}.",
               happens=mistake.wrong.happens,
               why=mistake.rule.tempting(mistake.wrong, display), symbol=SymbolOf(name),
               sign=display.shown(name).sign, number=NumberOf(name))  # fmt: skip


def _ask(start: int, end: int, count: int) -> Prose:
    made = "Somebody made one mistake in this solution and went on with what it gave."
    if (start, end) == (0, count):
        part = ""
    elif start == 0:
        part = f" These are its first {number_word(end)} steps."
    else:
        part = f" These are steps {start + 1} to {end}; what comes before them is right."
    return say("{made}{part} Which line is the first wrong one?", made=made, part=part)
