"""How each kind of problem is taught, listed and looked up: one entry for each kind."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from builder.errors import FaultyFile
from builder.lesson.display import Display
from builder.lesson.generated import with_generated
from builder.lesson.lesson import Lesson
from builder.lesson.nest.about import about as about_nest
from builder.lesson.nest.about import topic as topic_of_nest
from builder.lesson.nest.display import NestDisplay
from builder.lesson.nest.uses import uses as uses_of_nest
from builder.lesson.nest.write import write_nest_lesson
from builder.lesson.nest.wrong_rules import RULES as RULES_OF_NESTS
from builder.lesson.network.about import about as about_network
from builder.lesson.network.about import topic as topic_of_network
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.uses import uses as uses_of_network
from builder.lesson.network.write import write_network_lesson
from builder.lesson.network.wrong_rules import RULES as RULES_OF_NETWORKS
from builder.lesson.relations.about import about as about_relations
from builder.lesson.relations.about import topic as topic_of_relations
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.relations.unknown import UnknownDisplay, write_unknown_lesson
from builder.lesson.relations.unknown import about as about_unknown
from builder.lesson.relations.unknown import topic as topic_of_unknown
from builder.lesson.relations.unknown import uses as uses_of_unknown
from builder.lesson.relations.uses import uses as uses_of_relations
from builder.lesson.relations.write import write_relations_lesson
from builder.lesson.relations.wrong_rules import RULES as RULES_OF_RELATIONS
from builder.lesson.relations.wrong_rules.unknowns import RULES as RULES_OF_UNKNOWNS
from builder.lesson.stages.about import about as about_stages
from builder.lesson.stages.about import topic as topic_of_stages
from builder.lesson.stages.about import uses as uses_of_stages
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.write import write_stages_lesson
from builder.lesson.stages.wrong_rules import RULES as RULES_OF_STAGES
from builder.lesson.transient.about import about as about_transient
from builder.lesson.transient.about import topic as topic_of_transient
from builder.lesson.transient.about import uses as uses_of_transient
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.transient.write import write_transient_lesson
from builder.lesson.transient.wrong_rules import RULES as RULES_OF_TRANSIENTS
from builder.lesson.wrong_rule import WrongRule
from builder.problem.faults.teaching import shown_in
from builder.problem.model import (
    NestProblem,
    NetworkProblem,
    Problem,
    StagesProblem,
    TransientProblem,
)
from builder.problem.relations.model import RelationsProblem
from builder.problem.relations.unknowns import UnknownProblem
from builder.solution import Solution


@dataclass(frozen=True)
class Kind:
    """How one kind of problem is taught.

    Attributes:
        display: says how a solution's quantities are written.
        write: writes the lesson of a solution.
        about: tells a problem in a few words, for lists: ``five capacitors, three groups``.
        topic: a plural noun that lists can be narrowed down to: ``capacitors``.
        uses: words for all that occurs in a problem, for the reference pages.
        rules: the wrong rules that may fit it, without those that any calculation can have.
    """

    display: Callable[[Any], Display]
    write: Callable[[Any], Lesson]
    about: Callable[[Any], str]
    topic: Callable[[Any], str]
    uses: Callable[[Any], frozenset[str]]
    rules: tuple[WrongRule, ...]


KINDS: dict[type[Problem], Kind] = {
    NestProblem: Kind(
        NestDisplay, write_nest_lesson, about_nest, topic_of_nest, uses_of_nest, RULES_OF_NESTS
    ),
    NetworkProblem: Kind(
        NetworkDisplay,
        write_network_lesson,
        about_network,
        topic_of_network,
        uses_of_network,
        RULES_OF_NETWORKS,
    ),
    UnknownProblem: Kind(
        UnknownDisplay,
        write_unknown_lesson,
        about_unknown,
        topic_of_unknown,
        uses_of_unknown,
        RULES_OF_UNKNOWNS,
    ),
    RelationsProblem: Kind(
        RelationsDisplay,
        write_relations_lesson,
        about_relations,
        topic_of_relations,
        uses_of_relations,
        RULES_OF_RELATIONS,
    ),
    StagesProblem: Kind(
        StagesDisplay,
        write_stages_lesson,
        about_stages,
        topic_of_stages,
        uses_of_stages,
        RULES_OF_STAGES,
    ),
    TransientProblem: Kind(
        TransientDisplay,
        write_transient_lesson,
        about_transient,
        topic_of_transient,
        uses_of_transient,
        RULES_OF_TRANSIENTS,
    ),
}
"""Every kind of problem."""


def display_of(solution: Solution) -> Display:
    """How a solution's quantities are written."""
    return KINDS[type(solution.problem)].display(solution)


def write_lesson(solution: Solution) -> Lesson:
    """Write the lesson of a solution.

    Raises:
        FaultyFile: if its author speaks of steps that it does not have.
    """
    try:
        return with_generated(KINDS[type(solution.problem)].write(solution))
    except FaultyFile as error:
        raise shown_in(solution.problem.text, error) from None


def about(problem: Problem) -> str:
    """A problem in a few words: ``five capacitors, three groups``."""
    return KINDS[type(problem)].about(problem)


def topic(problem: Problem) -> str:
    """What a list of problems can be narrowed down to: ``capacitors``."""
    return KINDS[type(problem)].topic(problem)


def uses(problem: Problem) -> frozenset[str]:
    """Words for all that occurs in a problem."""
    return KINDS[type(problem)].uses(problem)


def used_in(problems: Iterable[Problem]) -> frozenset[str]:
    """What occurs in any of several problems."""
    return frozenset().union(*map(uses, problems))


def rules_of(problem: Problem) -> tuple[WrongRule, ...]:
    """The wrong rules that may fit a problem, without those that any calculation can have."""
    return KINDS[type(problem)].rules
