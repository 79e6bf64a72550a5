"""Unknown elements of a nest, found through the nest's own relations and put back into it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from builder.circuit.law import SERIES
from builder.circuit.tree import Group, Leaf, Tree, groups, leaves
from builder.errors import Fault, FaultyFile
from builder.problem.faults.gathering import START, Mark, all_of, one_of
from builder.problem.model import NestProblem
from builder.problem.relations.measured import Fact
from builder.problem.relations.model import EXTRA, Relation, RelationsProblem, Stated
from builder.problem.relations.unknowns import UnknownProblem
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Ref, Sum, names_in
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown, show
from builder.quantity.symbolic import same
from builder.solution.nest.solve import NestSolution, solve_nest
from builder.solution.nest.stepwise import Naming
from builder.solution.program import run
from builder.solution.relations.step import RelationStep
from builder.solution.relations.walk import needed_steps, walk
from builder.solution.solution import Solution, refuse_difference


@dataclass(frozen=True)
class UnknownSolution(Solution):
    """A nest whose unknown elements were found.

    Attributes:
        problem: what was solved.
        steps, every_step: the moves.
        nest: the nest with the found values put back, solved by merging and by nodes.
    """

    problem: UnknownProblem
    steps: tuple[RelationStep, ...]
    every_step: tuple[RelationStep, ...]
    nest: NestSolution

    def resolve(self, name: Name) -> Name:
        """The name under which a quantity is kept; ``total`` stands for the whole circuit."""
        return self.nest.resolve(name)


def naming_of(problem: UnknownProblem) -> Naming:
    """How the quantities are named: as in any nest."""
    return Naming(problem.law, problem.tree.id, problem.network.source)


def solve_unknown(problem: UnknownProblem) -> UnknownSolution:
    """Find the unknown elements, put them back, and solve the whole nest by nodes.

    Raises:
        FaultyFile: if the facts do not tell the unknowns, tell impossible ones, or contradict
            each other.
        Disagreement: if the nest with the found values does not show what was measured, or in
            anything else differs from what the steps found.
    """
    count = len(problem.unknown)
    used, spare = problem.facts[:count], problem.facts[count:]
    _refuse_what_tells_nothing(problem)
    relations = as_relations(problem, used)
    steps = needed_steps(walk(relations).steps, (*relations.find, *relations.unknowns))
    known = {s.name: s.value for s in relations.quantities if s.known}
    by_steps = run(steps, known)
    naming = naming_of(problem)
    nest = solve_nest(with_values(problem, by_steps))
    for fact in spare:
        _refuse_spare(problem, fact, nest.value(fact.name))
    for name, value in by_steps.items():
        if name in nest.values and not same(value, nest.values[name]):
            raise refuse_difference(problem.slug, name.of, name.quantity, value,
                                    nest.values[name])  # fmt: skip
    asked = tuple(naming.resolve(name) for name in problem.find)
    return UnknownSolution(
        problem=problem,
        steps=needed_steps(steps, asked),
        every_step=steps,
        givens=_givens(problem, relations),
        values={**nest.values, **by_steps},
        second={name: value for name, value in nest.second.items()
                if naming.resolve(name) in by_steps},
        checks=nest.checks,
        nest=nest,
    )  # fmt: skip


def _givens(problem: UnknownProblem, relations: RelationsProblem) -> dict[Name, Shown]:
    """What is stated, the elements in their author's order first."""
    order = [Name(problem.law.value, element.name) for element in problem.network.elements]
    stated = {s.name: s.shown for s in relations.quantities if s.shown is not None}
    return {name: stated[name] for name in (*order, *stated) if name in stated}


def with_values(problem: UnknownProblem, found: Mapping[Name, Exact]) -> NestProblem:
    """The nest with the found values in the place of its unknowns."""
    law = problem.law
    elements = tuple(
        replace(
            element,
            value=found[Name(law.value, element.name)],
            shown=show(found[Name(law.value, element.name)], law.value, problem.digits),
        )
        if element.name in problem.unknown
        else element
        for element in problem.network.elements
    )
    return NestProblem(
        slug=problem.slug, path=problem.path, title=problem.title, level=problem.level,
        objectives=problem.objectives, scenario=problem.scenario, find=problem.find,
        digits=problem.digits, plan=problem.plan, words=problem.words, leave_out=problem.leave_out,
        questions=problem.questions, law=law,
        network=replace(problem.network, elements=elements), tree=problem.tree,
    )  # fmt: skip


def _refuse_what_tells_nothing(problem: UnknownProblem) -> None:
    """Each fact must depend on an unknown, and each unknown must show in a fact."""
    law = problem.law
    stand_ins = {Name(law.value, e.name): e.value for e in problem.network.elements}
    first = solve_nest(with_values(problem, stand_ins))
    facts = problem.facts
    shows: dict[str, bool] = {}
    moved: set[Name] = set()
    for of in problem.unknown:
        name = Name(law.value, of)
        other = solve_nest(with_values(problem, {**stand_ins, name: stand_ins[name] * 2}))
        changed = {f.name for f in facts if other.value(f.name) != first.value(f.name)}
        shows[of] = bool(changed)
        moved |= changed
    for fact in facts:
        if fact.name not in moved:
            noun = KINDS[fact.name.quantity].noun
            raise _fault(problem, fact.at,
                         f"a measured {noun} of {_of_words(fact.name)}, which is the same whatever "
                         f"{one_of(problem.unknown)} may be",
                         "a fact that depends on what is unknown",
                         "Measure something else.")  # fmt: skip
    for of, shown in shows.items():
        if not shown:
            raise _fault(problem, problem.unknown[of],
                         f"{of} unknown, which no measured fact depends on",
                         "one fact for each unknown element",
                         f"Measure something that changes with {of}.")  # fmt: skip
    if len(facts) < len(problem.unknown):
        last = tuple(problem.unknown)[-1]
        raise _fault(problem, problem.unknown[last],
                     f"{len(problem.unknown)} unknown elements for "
                     f"{len(facts)} measured fact{'' if len(facts) == 1 else 's'}",
                     "one fact for each unknown element",
                     "Measure one thing more, or give one of them a value.")  # fmt: skip


def _fault(problem: UnknownProblem, at: Mark, found: str, expected: str, advice: str) -> FaultyFile:
    return FaultyFile((Fault(problem.path, at.line, at.column, found, expected, advice),))


def _refuse_spare(problem: UnknownProblem, fact: Fact, value: Exact) -> None:
    """A fact more than there are unknowns is a fault, whether it agrees or not."""
    noun, of = KINDS[fact.name.quantity].noun, _of_words(fact.name)
    if same(fact.measure.value, value):
        found = f"the {noun} of {of}, which follows from the other facts already"
        advice = "Delete it, or make one more element unknown."
    else:
        found = (f"a measured {noun} of {of} of {fact.measure.shown.text}, where the other facts "
                 f"lead to {show(value, fact.name.quantity).text}")  # fmt: skip
        advice = "Correct one of the facts, or delete this one."
    raise _fault(problem, fact.at, found, "one fact for each unknown element", advice)


def _of_words(name: Name) -> str:
    return "the whole circuit" if name.of == TOTAL else name.of


def as_relations(problem: UnknownProblem, facts: tuple[Fact, ...]) -> RelationsProblem:
    """The nest's own relations, with what is given and what was measured.

    Args:
        problem: the nest.
        facts: as many as there are unknown elements.
    """
    naming = naming_of(problem)
    given = {stated.name: stated for stated in _given(problem, facts, naming)}
    at = facts[0].at if facts else START
    relations = tuple(replace(one, at=at) for one in _relations(problem, facts, naming))
    names = dict.fromkeys(name for one in relations for name in _names(one))
    quantities = [
        given.get(name) or Stated(name, at=problem.unknown.get(name.of, at)) for name in names
    ]
    asked = tuple(naming.value(of) for of in problem.unknown)
    return RelationsProblem(
        slug=problem.slug, path=problem.path, title=problem.title, level=problem.level,
        objectives=(), scenario="", find=asked, digits=problem.digits,
        quantities=tuple(quantities), relations=relations,
    )  # fmt: skip


def _names(relation: Relation) -> Iterator[Name]:
    yield from names_in(relation.left)
    yield from names_in(relation.right)


def _given(problem: UnknownProblem, facts: tuple[Fact, ...], naming: Naming) -> Iterator[Stated]:
    for element in problem.network.elements:
        if element.name not in problem.unknown:
            yield Stated(naming.value(element.name), element.value, element.shown)
    source = problem.network.source
    if source is not None:
        yield Stated(Name(source.quantity, source.name), source.value, source.shown)
    for fact in facts:
        name = naming.resolve(fact.name)
        yield Stated(name, fact.measure.value, fact.measure.shown, at=fact.at)


def _relations(
    problem: UnknownProblem, facts: tuple[Fact, ...], naming: Naming
) -> Iterator[Relation]:
    law, source = problem.law, problem.network.source
    for group in groups(problem.tree):
        members = tuple(Ref(naming.value(part.id)) for part in group.parts)
        merged = law.merged(group.connection, members)
        extra = source is not None
        yield _relation(Ref(naming.value(group.id)), merged, "merge", group, extra=extra)
        if source is not None:
            yield from _shared(group, naming)
    if source is None:
        return
    for part in _every_part(problem.tree):
        value, flow, drop = (Ref(of(part.id)) for of in (naming.value, naming.flow, naming.drop))
        extra = isinstance(part, Group)
        yield _relation(flow, law.flow_from(value, drop), "law", part, extra=extra)
    worked = {name.of for name in problem.find if name.quantity == law.work}
    measured = {fact.name.of for fact in facts if fact.name.quantity == law.work}
    worked |= measured
    for part in _every_part(problem.tree):
        if part.id in worked or (part.id == problem.tree.id and TOTAL in worked):
            flow, drop = Ref(naming.flow(part.id)), Ref(naming.drop(part.id))
            work = law.work_from_flow_and_drop(flow, drop)
            if part.id in measured and part.id not in problem.unknown and isinstance(part, Leaf):
                work = law.work_from_flow(Ref(naming.value(part.id)), flow)
            yield _relation(Ref(naming.work(part.id)), work, "work", part)


def _shared(group: Group, naming: Naming) -> Iterator[Relation]:
    """What the members of a group share, and what adds up."""
    series = group.connection == SERIES
    shared, added = (naming.flow, naming.drop) if series else (naming.drop, naming.flow)
    for part in group.parts:
        yield _relation(Ref(shared(part.id)), Ref(shared(group.id)), "shared", group)
    total: Formula = Sum(tuple(Ref(added(part.id)) for part in group.parts))
    yield _relation(Ref(added(group.id)), total, "added", group)


def _every_part(tree: Tree) -> Iterator[Tree]:
    yield tree
    if isinstance(tree, Group):
        for part in tree.parts:
            yield from _every_part(part)


def _relation(
    left: Formula, right: Formula, word: str, part: Tree, *, extra: bool = False
) -> Relation:
    """A relation of the nest; ``extra`` if it follows from the others."""
    written = {
        "merge": f"the equivalent of {all_of(leaves(part))}",
        "shared": f"what {all_of(leaves(part))} share",
        "added": f"what adds up over {all_of(leaves(part))}",
        "law": f"the law of {all_of(leaves(part))}",
        "work": f"the energy or power of {all_of(leaves(part))}",
    }[word]
    return Relation(left, right, written, about=(word, part.id, *((EXTRA,) if extra else ())))
