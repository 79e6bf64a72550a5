"""Which move comes first? The first step among tempting moves that are not possible yet."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.circuit.law import PARALLEL, SERIES, Law
from builder.circuit.network import Source
from builder.circuit.tree import Group
from builder.lesson.by_name import shuffled
from builder.lesson.display import Display
from builder.lesson.generated.false_merges import false_merges
from builder.lesson.generated.needs import FORWARD, Need, goes_in, known_at_once, needs_of, used_by
from builder.lesson.lesson import Lesson
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import Prose, say
from builder.lesson.questions import ChoiceQuestion, Option
from builder.lesson.vocabulary import vocabulary
from builder.problem.model import NestProblem, NetworkProblem, StagesProblem
from builder.problem.relations.unknowns import UnknownProblem
from builder.quantity.names import TOTAL, Name
from builder.solution import Line, Step
from builder.solution.nest.step import NestStep, StepKind
from builder.solution.network.step import NetworkMove, NetworkStep

MOST_WRONG = 3
LEAST_WRONG = 2
FAR = 3
"""So many formulas at least lie between what is given and a later step that is surely no first
move: what is nearer, a well-known formula may give at once."""
FAR_OF_STAGES = 4


@dataclass(frozen=True)
class _WrongMove:
    """A tempting move that cannot be the first.

    Attributes:
        sort: what is wrong with it; moves of different sorts are offered first.
        text: the move.
        why: what is wrong with it here.
    """

    sort: str
    text: Prose
    why: Prose


def first_move(lesson: Lesson) -> ChoiceQuestion | None:
    """The question which move comes first, or None where too little could be mistaken for it."""
    if len(lesson.steps) < 2 or _is_partial(lesson.steps[0].step, lesson.display):
        return None
    chosen = _of_every_sort(_wrong_moves(lesson), lesson)
    if len(chosen) < LEAST_WRONG:
        return None
    first = lesson.steps[0]
    simpler = ", and the circuit becomes simpler" if _simplifies(first.step) else ""
    right = Option(first.words.goal, True,
                   say("Yes. It needs nothing but what is given{simpler}.",
                       simpler=simpler))  # fmt: skip
    wrong = [Option(move.text, False, say("No. {why}", why=move.why)) for move in chosen]
    options = shuffled([right, *wrong], lesson, "first move")
    return ChoiceQuestion(say("What is the right first move?"), tuple(options), None)


def _is_partial(step: Step, display: Display) -> bool:
    """Whether a step is about another circuit than the given one, such as that without a load."""
    return (
        isinstance(step, NetworkStep)
        and isinstance(display, NetworkDisplay)
        and step.kind is not NetworkMove.ALONE
        and bool(display.part_of(step))
    )


def _simplifies(step: Step) -> bool:
    return step.kind is StepKind.MERGE or step.kind in FORWARD - {NetworkMove.DRIVE}


def _of_every_sort(moves: Iterator[_WrongMove], lesson: Lesson) -> list[_WrongMove]:
    """A few wrong moves, of as many sorts as there are, each text once."""
    by_sort: dict[str, list[_WrongMove]] = defaultdict(list)
    taken = {lesson.steps[0].words.goal}
    for move in moves:
        if move.text not in taken:
            taken.add(move.text)
            by_sort[move.sort].append(move)
    piles = [shuffled(by_sort[sort], lesson, sort) for sort in by_sort]
    turns = max(map(len, piles), default=0)
    ranked = [pile[turn] for turn in range(turns) for pile in piles if turn < len(pile)]
    return ranked[:MOST_WRONG]


def _wrong_moves(lesson: Lesson) -> Iterator[_WrongMove]:
    problem, display = lesson.solution.problem, lesson.display
    yield from _not_yet(lesson)
    if isinstance(problem, NestProblem | NetworkProblem | UnknownProblem):
        for merge in false_merges(problem.network, problem.law, display):
            yield _WrongMove(merge.connection, merge.text, merge.why)
    if isinstance(problem, NestProblem | NetworkProblem) and len(problem.network.sources) == 1:
        yield from _at_once(problem.network.sources[0], problem.law, display)


def _not_yet(lesson: Lesson) -> Iterator[_WrongMove]:
    """Later steps that need what nobody has found at the start."""
    steps = [taught.step for taught in lesson.steps]
    goals = [taught.words.goal for taught in lesson.steps]
    for taught, needs in zip(lesson.steps, needs_of(lesson), strict=True):
        alone = goals.count(taught.words.goal) == 1
        if needs and alone and _surely_later(taught.step, steps, lesson):
            sort = "merge later" if taught.step.kind in (StepKind.MERGE, NetworkMove.MERGE) else (
                "find later"
            )  # fmt: skip
            yield _WrongMove(sort, taught.words.goal, _lacking(needs[-1]))


def _lacking(need: Need) -> Prose:
    done = "made" if need.made else "found"
    return say("That needs {what}, which nobody has {done} yet.", what=need.what, done=done)


def _surely_later(step: Step, steps: Sequence[Step], lesson: Lesson) -> bool:
    """Whether a step cannot be the first, not even by a formula that the solution does not use."""
    if isinstance(step, NetworkStep) and _possible_at_once(step, lesson):
        return False
    if isinstance(step, NestStep | NetworkStep):
        if step.kind in (StepKind.OPEN, NetworkMove.OPEN):
            return _opens_what_is_deep(step, lesson)
        return not step.lines or not all(_at_once_found(line, lesson) for line in step.lines)
    far = FAR_OF_STAGES if isinstance(lesson.solution.problem, StagesProblem) else FAR
    distance = _distances(steps, lesson)
    return min((distance[line.name] for line in step.lines), default=0) >= far


def _possible_at_once(step: NetworkStep, lesson: Lesson) -> bool:
    """Whether a merge is possible in the given network already."""
    display = lesson.display
    return isinstance(display, NetworkDisplay) and goes_in(step, display.network)


def _opens_what_is_deep(step: NestStep | NetworkStep, lesson: Lesson) -> bool:
    """Whether a walk back starts from an equivalent that the source does not drive alone.

    What lies straight across the source could also be divided at once by a divider's rule.
    """
    if isinstance(step, NetworkStep):
        return all(group.equivalent not in _driven(lesson) for group in step.merged)
    return step.group is not None and step.group.id not in _driven(lesson)


def _driven(lesson: Lesson) -> set[str]:
    """The whole circuit, and every element or equivalent with the source's own drop or flow."""
    problem, values = lesson.solution.problem, lesson.solution.values
    assert isinstance(problem, NestProblem | NetworkProblem)
    given = {(source.quantity, abs(source.value)) for source in problem.network.sources}
    return {TOTAL, *(name.of for name, value in values.items()
                     if (name.quantity, abs(value)) in given)}  # fmt: skip


def _at_once_found(line: Line, lesson: Lesson) -> bool:
    """Whether what is given is enough for a line, or for another law that finds the same."""
    reach = known_at_once(lesson)
    if reach.issuperset(used_by(Step("", StepKind.TOTAL, (line,)))):
        return True
    problem, of = lesson.solution.problem, line.name.of
    assert isinstance(problem, NestProblem | NetworkProblem)
    law = problem.law
    known = Name(law.value, of) in reach
    return known and (Name(law.drop, of) in reach or Name(law.flow, of) in reach)


def _distances(steps: Sequence[Step], lesson: Lesson) -> dict[Name, int]:
    """How many formulas lead to each quantity; to carry one over counts none."""
    distance = dict.fromkeys(lesson.solution.givens, 0)
    for step in steps:
        for line in step.lines:
            used = used_by(Step("", step.kind, (line,)))
            far = max((distance.get(name, 0) for name in used), default=0)
            distance[line.name] = far + (0 if line.carries else 1)
    return distance


def _at_once(source: Source, law: Law, display: Display) -> Iterator[_WrongMove]:
    """An element's quantity from the source's whole voltage or flow, of which it has a part."""
    values, voc = display.solution.values, vocabulary(law)
    driven_by_drop = source.quantity == law.drop
    for element in display.members:
        name = Name(source.quantity, element)
        share = values.get(name)
        if share is None or not _is_less(element, source, law, display):
            continue
        one = display.element(element)
        if driven_by_drop:
            text = say("Find the {flow} {word} {one} from the whole voltage of the source",
                       flow=voc.flow, word=voc.flow_word, one=one)  # fmt: skip
            why = say("{one} does not sit straight across the source, so it gets only a part of "
                      "that voltage.", one=one)  # fmt: skip
        else:
            text = say("Find the voltage across {one} from the whole {flow} of the source",
                       flow=voc.flow, one=one)  # fmt: skip
            why = say("The {flow} of the source divides on its way, and {one} carries only a part "
                      "of it.", flow=voc.flow, one=one)  # fmt: skip
        yield _WrongMove("at once", text, why)


def _is_less(element: str, source: Source, law: Law, display: Display) -> bool:
    """Whether an element has a part of what the source gives, and neither all nor nothing."""
    problem = display.solution.problem
    if isinstance(problem, NestProblem):
        shared = PARALLEL if source.quantity == law.drop else SERIES
        tree = problem.tree
        whole = tree.parts if isinstance(tree, Group) and tree.connection == shared else (tree,)
        return all(part.id != element for part in whole)
    share = display.solution.values[Name(source.quantity, element)]
    return bool(share not in (0, source.value, -source.value))
