"""The lesson of a nest with an unknown element: from what was measured to what is unknown."""

from __future__ import annotations

from builder.circuit.law import SERIES
from builder.circuit.tree import Group
from builder.lesson.general_mistakes import GENERAL_RULES
from builder.lesson.lesson import Lesson, Row, Table, taught_steps
from builder.lesson.nest.addup import add_up
from builder.lesson.nest.caution import caution
from builder.lesson.nest.uses import uses as uses_of_nest
from builder.lesson.prose import Prose, SymbolOf, Written, listed, number_word, say, sentences
from builder.lesson.questions import find_list, self_check
from builder.lesson.relations.unknown_display import UnknownDisplay, part_of
from builder.lesson.relations.wrong_rules.unknowns import RULES
from builder.lesson.slips import every_slip, told_together, worth_a_warning
from builder.lesson.vocabulary import vocabulary
from builder.lesson.words import Words
from builder.problem.model import NestProblem
from builder.problem.relations.unknowns import UnknownProblem
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name
from builder.solution.relations.step import RelationStep
from builder.solution.relations.unknown import UnknownSolution

__all__ = [
    "RULES", "UnknownDisplay", "about", "narrate", "plan", "prompt", "topic", "uses",
    "write_unknown_lesson",
]  # fmt: skip


def narrate(step: RelationStep, display: UnknownDisplay) -> Words:
    """The words of a step: what is sought, and which relation of the nest gives it."""
    goal = say("Find {what}", what=listed([display.asks_for(name) for name in step.solved_for]))
    reasons = [_reason(relation.about, step, display) for relation in step.relations]
    return Words(goal, sentences(*dict.fromkeys(reasons)))


def _reason(about: tuple[str, ...], step: RelationStep, display: UnknownDisplay) -> Prose:
    word, of = about[:2]
    part = part_of(of, display.solution.problem.tree)
    voc = vocabulary(display.solution.problem.law)
    one = display.element(of)
    if not isinstance(part, Group):
        return _of_law(word, of, display)
    named = display.elements(tuple(inner.id for inner in part.parts))
    series = part.connection == SERIES
    if word == "merge":
        adds = part.connection == display.solution.problem.law.adds_in
        values = "capacitances" if voc.value == "capacitance" else "resistances"
        rule = f"their {values} add" if adds else f"the reciprocals of their {values} add"
        way = "one after the other" if series else "side by side"
        return say("{named} lie {way}, so {rule} up to that of {one}. Only {what} is not known "
                   "in this.", named=named, way=way, rule=rule, one=one,
                   what=SymbolOf(step.solved_for[0]))  # fmt: skip
    if word == "shared":
        what = voc.flow if series else "voltage"
        how = "form one chain" if series else "share both junctions"
        return say("{named} {how}, so each of them has the same {what} as {one}.",
                   named=named, how=how, what=what, one=one)  # fmt: skip
    if word == "added":
        what = "voltages" if series else f"{voc.flow}s"
        return say("The {what} of {named} add up to that of {one}, and only one of these is not "
                   "known.", what=what, named=named, one=one)  # fmt: skip
    return _of_law(word, of, display)


def _of_law(word: str, of: str, display: UnknownDisplay) -> Prose:
    voc = vocabulary(display.solution.problem.law)
    one = display.element(of)
    if word == "work":
        if voc.work == "energy":
            return say("Half of its charge times its voltage is stored in {one}.", one=one)
        return say("{one} turns energy into heat at the rate of its voltage times its current.",
                   one=one)  # fmt: skip
    return say("For {one} alone {law} holds, and two of the three are known.",
               one=one, law=voc.flow_law)  # fmt: skip


def prompt(step: RelationStep, display: UnknownDisplay) -> Prose:
    """What the class is asked before a step."""
    word = step.relations[0].about[0]
    what = listed([display.asks_for(name) for name in step.solved_for])
    ask = {
        "merge": "How do the values of a group make up that of its equivalent?",
        "shared": "Who shares the voltage, and who the flow?",
        "added": "What adds up here, and what is the rest?",
        "law": "Of which element are two of the three quantities known by now?",
        "work": "Which formula for this is there?",
    }[word]
    return say("Next comes {what}. {ask}", what=what,
               ask=ask.replace("flow", vocabulary(display.solution.problem.law).flow))  # fmt: skip


def plan(display: UnknownDisplay) -> Prose:
    """From what was measured inwards; the author's own plan if there is one."""
    problem = display.solution.problem
    if problem.plan:
        return (Written(problem.plan),)
    unknown = listed([display.element(of) for of in problem.unknown])
    measured = listed([display.asks_for(fact.name) for fact in problem.facts])
    return say("Start from what was measured, {measured}, and go from relation to relation until "
               "only {unknown} is left. Then put the value back and see whether everything adds "
               "up.", measured=measured, unknown=unknown)  # fmt: skip


def write_unknown_lesson(solution: UnknownSolution) -> Lesson:
    """Write the lesson of a nest with unknown elements."""
    display = UnknownDisplay(solution)
    turns = every_slip(display, (*RULES, *GENERAL_RULES))
    slips = told_together(turns)
    checks, rest = add_up(display.nest)
    return Lesson(
        display=display,
        find=find_list(display),
        predict=None,
        plan=plan(display),
        steps=taught_steps(display, narrate, prompt),
        checks=checks,
        checks_rest=rest,
        tables=(_results(display),),
        second_method="by putting the found value back and solving all junctions at once",
        turns=turns,
        slips=slips,
        warnings=worth_a_warning(turns),
        questions=self_check(display, slips),
        caution=caution(display.nest),
    )


def _results(display: UnknownDisplay) -> Table:
    problem = display.solution.problem
    law = problem.law
    quantities = law.quantities if problem.network.source else (law.value,)
    rows = [
        Row((display.element(id),), tuple(Name(quantity, id) for quantity in quantities))
        for id in display.members
    ]
    whole = tuple(display.resolve(Name(quantity, TOTAL)) for quantity in quantities)
    rows.append(Row(say("Whole circuit"), whole, total=True))
    heads = tuple(KINDS[quantity].noun.capitalize() for quantity in quantities)
    return Table((), law.element.capitalize(), heads, tuple(rows))


def about(problem: UnknownProblem) -> str:
    """``three capacitors, one unknown``."""
    number = len(problem.network.elements)
    one = problem.law.element
    elements = f"{number_word(number)} {one}{'' if number == 1 else 's'}"
    return f"{elements}, {number_word(len(problem.unknown))} unknown"


def topic(problem: UnknownProblem) -> str:
    """What a list of problems can be narrowed down to."""
    return f"{problem.law.element}s"


def uses(problem: UnknownProblem) -> frozenset[str]:
    """Words for all that occurs in a problem: those of its nest, and ``unknown``."""
    nest = NestProblem(
        slug=problem.slug, path=problem.path, title=problem.title, level=problem.level,
        objectives=problem.objectives, scenario=problem.scenario, find=problem.find,
        law=problem.law, network=problem.network, tree=problem.tree,
    )  # fmt: skip
    return uses_of_nest(nest) | {"unknown"}
