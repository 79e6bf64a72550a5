"""A worked solution with one mistake in it, carried on to the end: which line is the first?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from builder.lesson.by_name import lot, shuffled
from builder.lesson.display import Display
from builder.lesson.formula_prose import formula_prose, goes_in_line
from builder.lesson.generated.wrong_formulas import wrong_formula
from builder.lesson.lesson import Lesson, TaughtStep
from builder.lesson.prose import NumberOf, Prose, SymbolOf, WrongNumber, number_word, say
from builder.lesson.questions.step_forms import FaultyLineQuestion, WorkedLine
from builder.lesson.slips import all_found
from builder.lesson.wrong_rule import SIGNED, Wrong, WrongRule
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Solved, evaluate
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
class Mistake:
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
    mistake = _chosen(lesson)
    return worked(mistake, lesson) if mistake is not None else None


def worked(mistake: Mistake, lesson: Lesson) -> FaultyLineQuestion:
    """The question with one mistake in it."""
    start, end = _window(mistake, lesson)
    lines = tuple(_line(at, lesson.steps[at], mistake, lesson.display) for at in range(start, end))
    return FaultyLineQuestion(
        _ask(start, end, len(lesson.steps)), lines, _told(mistake, lesson.display),
        lesson.steps[mistake.at].step.id,
    )  # fmt: skip


def rules_of(lesson: Lesson) -> list[WrongRule]:
    """The rules that lead to a wrong number here, likeliest first."""
    rules = (one.rule for slip in lesson.slips for one in (slip, *slip.also))
    return list({rule.id: rule for rule in rules if not rule.arithmetic}.values())


def _chosen(lesson: Lesson) -> Mistake | None:
    """A mistake that is carried on and is not made in the first line, where there is one.

    What ends with the mistake teaches less, and the first line is the likeliest guess.
    """
    best: tuple[tuple[bool, bool], Mistake] | None = None
    for rule in sorted(rules_of(lesson), key=lambda rule: lot(lesson, rule.id)):
        for mistake in shuffled(list(mistakes_of(rule, lesson)), lesson, rule.id):
            rank = (_misled_shown(mistake, lesson) == 0, mistake.at == 0)
            if best is None or rank < best[0]:
                best = rank, mistake
        if best and best[0] == (False, False):
            break
    return best[1] if best else None


def mistakes_of(rule: WrongRule, lesson: Lesson) -> Iterator[Mistake]:
    """A rule at every step at which it can be worked out."""
    found = all_found(rule, lesson.display)
    for at, taught in enumerate(lesson.steps):
        step = taught.step
        wrongs: dict[Name, Wrong] = {}
        for wrong in found:
            if wrong.step == step.id and wrong.name in step.found:
                wrongs.setdefault(wrong.name, wrong)
        formulas = _formulas(rule, wrongs, taught, lesson) if wrongs else None
        mistake = _carried_out(rule, wrongs, at, formulas, lesson) if formulas else None
        if mistake:
            yield mistake


def _formulas(
    rule: WrongRule, wrongs: Mapping[Name, Wrong], taught: TaughtStep, lesson: Lesson
) -> dict[Name, Formula | Exact] | None:
    """What the rule writes at a step; None if it is not known for all that it gets wrong."""
    values = dict(lesson.solution.values)
    known = [*lesson.solution.givens, *taught.known_before]
    formulas: dict[Name, Formula | Exact] = {}
    for line in taught.step.lines:
        wrong = wrongs.get(line.name)
        if wrong is not None and not _goes_on(line, wrong.value, values, formulas):
            instead = wrong_formula(rule.id, line, wrong.value, known, lesson.display)
            if instead is None and not _is_hidden(line.formula):
                return None
            formulas[line.name] = wrong.value if instead is None else instead
        if wrong is not None:
            values[line.name] = wrong.value
        known.append(line.name)
    return formulas | _hit_by_chance(formulas, taught, lesson)


def _goes_on(
    line: Line, value: Exact, values: Mapping[Name, Exact], formulas: Mapping[Name, object]
) -> bool:
    """Whether a wrong value only follows from what the same step got wrong before."""
    if line.uses.isdisjoint(formulas):
        return False
    return same(evaluate(line.formula, values), value)


def _hit_by_chance(
    formulas: Mapping[Name, Formula | Exact], taught: TaughtStep, lesson: Lesson
) -> dict[Name, Formula | Exact]:
    """What the mistake gets right by chance, written like what it gets wrong."""
    values = lesson.solution.values
    return {
        line.name: instead
        for line in taught.step.lines
        for name, instead in formulas.items()
        if line.name not in formulas and line.name.quantity == name.quantity
        and not line.carries and isinstance(instead, Formula)
        and same(evaluate(instead, values), values[line.name])
    }  # fmt: skip


def _is_hidden(formula: Formula) -> bool:
    """Whether the right formula is not shown either, though the step is told by it alone."""
    return not goes_in_line(formula) and not isinstance(formula, Solved)


def _carried_out(
    rule: WrongRule,
    wrongs: Mapping[Name, Wrong],
    at: int,
    formulas: dict[Name, Formula | Exact],
    lesson: Lesson,
) -> Mistake | None:
    """A mistake with all that follows from it; None if what follows cannot be believed."""
    right, display = lesson.solution.values, lesson.display
    values = rerun(lesson.solution, formulas)
    for taught in lesson.steps:
        for name in taught.step.found:
            if name not in values or not _can_be(name, values[name]):
                return None
    if not all(same(values[name], wrong.value) for name, wrong in wrongs.items()):
        return None
    seen = [name for name in formulas
            if show(values[name], name.quantity, display.digits).text
            != show(right[name], name.quantity, display.digits).text]  # fmt: skip
    if not seen:
        return None
    return Mistake(rule, wrongs[seen[0]], at, formulas, values)


def _can_be(name: Name, value: Exact) -> bool:
    """Whether a value is one that anybody would go on with: nothing measures less than nothing."""
    either_way = name.quantity in SIGNED or name.quantity in ("energy", "power")
    return either_way or sign_of(value) != -1


def _misled_shown(mistake: Mistake, lesson: Lesson) -> int:
    """How many of the steps that are shown go on with what the mistake gave."""
    end = _window(mistake, lesson)[1]
    return sum(at < end for at in _going_on(mistake, lesson))


def _going_on(mistake: Mistake, lesson: Lesson) -> list[int]:
    """The later steps that use what the mistake gave, whether or not it shows in their numbers."""
    altered, steps = set(mistake.formulas), []
    for at, taught in enumerate(lesson.steps[mistake.at :], start=mistake.at):
        for line in taught.step.lines:
            if not altered.isdisjoint(line.uses):
                altered.add(line.name)
                steps.append(at)
    return [at for at in dict.fromkeys(steps) if at > mistake.at]


def _differs(step: Step, mistake: Mistake, display: Display) -> bool:
    right = display.solution.values
    return any(not same(mistake.values[name], right[name]) for name in step.found)


def _window(mistake: Mistake, lesson: Lesson) -> tuple[int, int]:
    """The steps that are shown: all, or a few in a row, the mistake and what follows from it."""
    count, at = len(lesson.steps), mistake.at
    if count <= MOST_LINES + 1:
        return 0, count
    misled = next(iter(_going_on(mistake, lesson)), at)
    start = min(at, max(at - 2, misled - MOST_LINES + 1))
    start = max(0, min(start, count - MOST_LINES))
    return start, start + MOST_LINES


def _line(at: int, taught: TaughtStep, mistake: Mistake, display: Display) -> WorkedLine:
    state: Literal["fine", "fault", "misled"] = "fine"
    if at == mistake.at:
        state = "fault"
    elif _differs(taught.step, mistake, display):
        state = "misled"
    results = tuple(
        _result(line, mistake, display) for line in _shown_lines(taught.step, mistake, display)
    )
    return WorkedLine(taught.step.id, at + 1, taught.words.goal, results, state)


def _shown_lines(step: Step, mistake: Mistake, display: Display) -> list[Line]:
    """The lines of a step that are shown: what is wrong above all, then the results."""
    lines = list(step.lines)
    inner = {name for line in lines for name in line.uses}
    if len(lines) > MOST_RESULTS:
        lines = [line for line in lines if line.name in mistake.formulas
                 or not (line.carries and line.name in inner)]  # fmt: skip
    for line in [line for line in lines if line.name in inner] + [
        one for one in lines if one.carries
    ]:
        if len(lines) > MOST_RESULTS and line.name not in mistake.formulas and line in lines:
            lines.remove(line)
    return lines[:MOST_RESULTS]


def _result(line: Line, mistake: Mistake, display: Display) -> Prose:
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


def _told(mistake: Mistake, display: Display) -> Prose:
    """Which mistake it is, why one falls for it, and what is right."""
    name = mistake.wrong.name
    return say("The mistake: {happens}. {why} It should be {symbol} {sign} {number}.",
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
