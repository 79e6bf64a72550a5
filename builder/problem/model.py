"""Problems and units, as read: checked, exact and immutable."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from builder.circuit.law import Law
from builder.circuit.mixed import MixedCircuit
from builder.circuit.network import Network
from builder.circuit.switching import Charged, Stage, Switch
from builder.circuit.tree import Tree
from builder.problem.varying.model import Keep, Vary
from builder.quantity.measure import Measure
from builder.quantity.names import Name

LEVELS = ("intro", "core", "stretch")

REDUCTIONS = ("merge", "balance", "symmetry", "delta-star")
"""The methods that make a network of one source smaller and smaller."""
METHODS = (*REDUCTIONS, "junctions", "loops", "superposition", "equivalent-source")
"""How an author may want a network of branches to be solved."""

GENERATED = (
    "predict", "pick", "ranking", "first-move", "order", "faulty-line", "what-if",
)  # fmt: skip
"""The questions that a lesson gets without its author writing them, by the words for them in
files: the prediction, and every maker of ``lesson.generated``."""


@dataclass(frozen=True)
class StepWords:
    """An author's own words for one step; None keeps the generated ones.

    Attributes:
        goal: its heading.
        reason: why the move is allowed.
        at: line and column of the step's id in the file.
    """

    goal: str | None = None
    reason: str | None = None
    at: tuple[int, int] = field(default=(0, 0), compare=False)


@dataclass(frozen=True)
class Choice:
    """One option of an author's own question."""

    text: str
    right: bool
    reply: str = ""


@dataclass(frozen=True)
class OwnQuestion:
    """A question that the author wrote.

    Attributes:
        ask: the question.
        answer: the quantity whose value is the typed answer, or None for a choice.
        choices: at least two, exactly one of them right; empty for a typed answer.
        instead_of: the generated question whose place it takes, one of ``GENERATED``, or None.
    """

    ask: str
    answer: Name | None = None
    choices: tuple[Choice, ...] = ()
    instead_of: str | None = None


@dataclass(frozen=True, kw_only=True)
class Problem:
    """One problem: what all kinds have in common. Each kind is a class of its own.

    Attributes:
        slug: the file's name without its ending; the name of its page.
        path: the file.
        title, level, objectives: for listings; ``level`` is one of ``LEVELS``.
        scenario: Markdown; ``{C1}``, ``{C1.name}`` and ``{C1.value}`` stand for an element,
            ``{C1.charged}`` for what a capacitor starts with.
        find: what is asked, in the author's order, each once.
        digits: significant digits of shown results.
        plan: the author's own plan, or None.
        words: the author's own words for steps, by step id.
        questions: the author's own questions.
        leave_out: the generated questions that are not wanted here, of ``GENERATED``.
        vary: which other values the author wants; None for sensible ones.
        keep: what must be so with other values as well.
        text: of the file, without a byte order mark; empty for a problem without a file.
        find_at: line and column of ``find:``, for faults that only solving shows.
    """

    slug: str
    path: str
    title: str
    level: str
    objectives: tuple[str, ...]
    scenario: str
    find: tuple[Name, ...]
    digits: int = 3
    plan: str | None = None
    words: Mapping[str, StepWords] = field(default_factory=dict)
    questions: tuple[OwnQuestion, ...] = ()
    leave_out: tuple[str, ...] = ()
    vary: Vary | None = None
    keep: Keep = field(default_factory=Keep)
    text: str = field(default="", compare=False, repr=False)
    find_at: tuple[int, int] = field(default=(1, 1), compare=False)


@dataclass(frozen=True, kw_only=True)
class NestProblem(Problem):
    """A nest of series and parallel groups with one source or none.

    Attributes:
        law: of the elements.
        network: the raw network, for the nodal method.
        tree: the nest of groups, each named, for the steps.
    """

    law: Law
    network: Network
    tree: Tree


@dataclass(frozen=True, kw_only=True)
class NetworkProblem(Problem):
    """Any connected network of one kind of element, with any number of sources.

    Attributes:
        law: of the elements.
        network: elements and sources between named junctions.
        method: how the author wants it solved; None for the shortest route.
        place: where the author wants junctions drawn, as column and row; may be empty.
        reference: the junction that the author takes as 0 V, or None.
        points: the two points that the author wants looked into, or None.
        load: the element that the equivalent of everything else is to meet, or None.
        inner: the element that is a source's internal resistance, by the source's name.
        method_at: line and column of the method in the file, for faults that only solving shows.
    """

    law: Law
    network: Network
    method: str | None = None
    place: Mapping[str, tuple[Fraction, Fraction]] = field(default_factory=dict)
    reference: str | None = None
    points: tuple[str, str] | None = None
    load: str | None = None
    inner: Mapping[str, str] = field(default_factory=dict)
    method_at: tuple[int, int] = (0, 0)


@dataclass(frozen=True, kw_only=True)
class StagesProblem(Problem):
    """Capacitors and batteries whose switches open and close, one stage after the other.

    Attributes:
        network: the capacitors, and the batteries as its sources.
        switches: in the author's order, as they stand at first.
        charged: what is stated of the capacitors that start charged, by name; the others start
            without charge, and settle before the first stage if a battery is joined to them.
        stages: at least one.
        place: where the author wants junctions drawn, as column and row; may be empty.
    """

    network: Network
    switches: tuple[Switch, ...]
    charged: Mapping[str, Charged]
    stages: tuple[Stage, ...]
    place: Mapping[str, tuple[Fraction, Fraction]] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class TransientProblem(Problem):
    """Resistors and capacitors after a change at t = 0.

    Attributes:
        circuit: what is connected, and which switches change.
        charged: what is stated of the capacitors that start charged, by name; the others have
            settled before the change, or start without charge if nothing has charged them.
        times: the times that are asked about, ``t1`` first, by that word.
        levels: the voltages whose time is asked for, by the names of ``level_of``.
        shares: the parts of the whole way whose time is asked for, by the name of that time.
        place: where the author wants junctions drawn, as column and row; may be empty.
        places: line and column of each time, level and share, by the name of its time, for
            faults that only solving shows.
        at: line and column of the change, or of the branches, for other such faults.
    """

    circuit: MixedCircuit
    charged: Mapping[str, Charged] = field(default_factory=dict)
    times: Mapping[str, Measure] = field(default_factory=dict)
    levels: Mapping[Name, Measure] = field(default_factory=dict)
    shares: Mapping[Name, Fraction] = field(default_factory=dict)
    place: Mapping[str, tuple[Fraction, Fraction]] = field(default_factory=dict)
    places: Mapping[Name, tuple[int, int]] = field(default_factory=dict)
    at: tuple[int, int] = (0, 0)


@dataclass(frozen=True)
class Unit:
    """The whole site, as ``content/unit.yml`` describes it.

    Attributes:
        title: of the unit.
        digits: significant digits where a problem does not say.
        symbols: ``iec`` (IEC 60617) or ``ieee`` (IEEE 315) shapes in figures.
        objectives: what each objective says, by its id, in teaching order.
        path: lesson pages (they end in ``.md``) and problems' names in teaching order; empty
            for the usual order.
        leave_out: the generated questions that are wanted nowhere, of ``GENERATED``.
    """

    title: str
    digits: int = 3
    symbols: str = "iec"
    objectives: Mapping[str, str] = field(default_factory=dict)
    path: tuple[str, ...] = ()
    leave_out: tuple[str, ...] = ()
