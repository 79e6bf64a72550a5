"""What a teacher says of several sources: one at a time, and the equivalent of all of them."""

from __future__ import annotations

from builder.circuit.network import Source
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.equation_words import charged_sources
from builder.lesson.network.walking_words import meaning_of_minus
from builder.lesson.network.what_if import solved, without
from builder.lesson.prose import Prose, listed, say, sentences
from builder.lesson.vocabulary import vocabulary
from builder.lesson.words import Words
from builder.problem.network.asking import INNER, OPEN
from builder.quantity.names import Name
from builder.solution.network.step import NetworkMove, NetworkStep


def acting_alone(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for one source that acts while the others are off."""
    acting = acting_source(step, display)
    goal = say("Let {source} act alone", source=display.element(acting))
    others = tuple(source for source in display.network.sources if source.name != acting)
    reason = sentences(_why_alone(step, display), _off(step, display))
    first = all(other.kind is not NetworkMove.ALONE for other in display.before(step))
    again = say("Now {source} acts, and {others}.", source=display.element(acting),
                others=listed([_off_in_short(one, display) for one in others]))  # fmt: skip
    return Words(goal, reason if first else again, ())


def _off_in_short(source: Source, display: NetworkDisplay) -> Prose:
    place = "a wire" if _is_voltage(source.name, display) else "a gap"
    return say("{place} takes the place of {source}", place=place,
               source=display.element(source.name))  # fmt: skip


def acting_source(step: NetworkStep, display: NetworkDisplay) -> str:
    """The source that acts in a step while the others are off."""
    if "acting" in step.telling:
        return step.telling["acting"]
    left = {source.name for source in step.network.sources}
    return next(source.name for source in display.network.sources if source.name in left)


def _why_alone(step: NetworkStep, display: NetworkDisplay) -> Prose:
    voc = vocabulary(display.law)
    return say("Every {flow} here grows in step with each source, so what all sources do together "
               "is the sum of what each would do alone.", flow=voc.flow)  # fmt: skip


def _off(step: NetworkStep, display: NetworkDisplay) -> Prose:
    acting = acting_source(step, display)
    others = [source for source in display.network.sources if source.name != acting]
    return turned_off([source.name for source in others], display)


def turned_off(names: list[str], display: NetworkDisplay) -> Prose:
    """What takes the place of sources that are off, and why."""
    volts = tuple(name for name in names if _is_voltage(name, display))
    flows = tuple(name for name in names if not _is_voltage(name, display))
    told: list[Prose] = []
    if volts:
        one = len(volts) == 1
        told.append(say("{named}, turned off, {keeps} no voltage between {its} ends, and that is "
                        "what a plain wire does.", named=display.elements(volts),
                        keeps="keeps" if one else "keep",
                        its="its" if one else "their"))  # fmt: skip
    if flows:
        one = len(flows) == 1
        told.append(say("{named}, turned off, {drives} no current, and that is what a gap does.",
                        named=display.elements(flows),
                        drives="drives" if one else "drive"))  # fmt: skip
    return sentences(*told)


def _is_voltage(name: str, display: NetworkDisplay) -> bool:
    source = display.source(name)
    return source is not None and source.quantity == display.law.drop


def adding_up(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for what the sources do together."""
    voc = vocabulary(display.law)
    goal = say("Add up what the sources do alone")
    reason = say("All parts were counted in the same direction, so they simply add, each with its "
                 "sign.")  # fmt: skip
    works = "power" if voc.work == "power" else "energy"
    remark = say("Only {flows}s and voltages add up like this. The {work} goes with the square of "
                 "the {flow}, so it has to be found from the whole {flow}.", flows=voc.flow,
                 work=works, flow=voc.flow)  # fmt: skip
    return Words(goal, reason, sentences(meaning_of_minus(step.found, display),
                                         charged_sources(step.found, display), remark))  # fmt: skip


def first_of_part(step: NetworkStep, display: NetworkDisplay) -> Prose:
    """What is changed in the network before a part of the solution that has no step for that."""
    if display.part not in (OPEN, INNER) or step.kind in (
        NetworkMove.OPEN_VOLTAGE, NetworkMove.INNER
    ):  # fmt: skip
        return ()
    if any(display.part_of(other) == display.part for other in display.before(step)):
        return ()
    return _load_off(display) if display.part == OPEN else _sources_off(display)


def _load_off(display: NetworkDisplay) -> Prose:
    """The load is gone, and what was in a chain with it carries nothing."""
    problem = display.solution.problem
    points = problem.points or problem.network.terminals
    start = say("First the open voltage, with nothing between {points}.", points=listed(points))
    if problem.load is not None:
        start = say("First take {load} off, so that nothing is between {points}.",
                    load=display.element(problem.load), points=listed(points))  # fmt: skip
    return sentences(start, _idle(display))


def _idle(display: NetworkDisplay) -> Prose:
    """Which elements carry nothing while the load is off."""
    voc, problem = vocabulary(display.law), display.solution.problem
    opened = without(problem.network, *([problem.load] if problem.load else []))
    values = solved(opened, display.law)
    idle = tuple(one.name for one in opened.elements
                 if values.get(Name(display.law.flow, one.name)) == 0)  # fmt: skip
    if not idle:
        return ()
    carry, keep = ("carries", "keeps") if len(idle) == 1 else ("carry", "keep")
    return say("{named} then {carry} no {flow} and {keep} no voltage.",
               named=display.elements(idle), carry=carry, keep=keep, flow=voc.flow)  # fmt: skip


def _sources_off(display: NetworkDisplay) -> Prose:
    points = display.solution.problem.points or display.network.terminals
    names = [source.name for source in display.network.sources]
    return sentences(
        say("Now look in from {points} and turn everything off that drives.",
            points=listed(points)),
        turned_off(names, display),
    )  # fmt: skip


def open_voltage(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for the voltage between two points with nothing connected there."""
    points = listed(display.solution.problem.points or step.network.terminals)
    goal = say("Find the open voltage between {points}", points=points)
    told = any(display.part_of(other) == OPEN for other in display.before(step))
    change = () if told else _load_off(display)
    way = say("Go from one point to the other by any way and add up the voltages on it.")
    means = say("Whatever is connected there sees everything else as one source with one "
                "{value}, and this is the voltage of that source.",
                value=vocabulary(display.law).value)  # fmt: skip
    return Words(goal, sentences(change, way, means))


def inner_resistance(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for looking in from two points with the sources off."""
    voc = vocabulary(display.law)
    points = listed(display.solution.problem.points or step.network.terminals)
    goal = say("Look in from {points} with the sources off", points=points)
    told = any(display.part_of(other) == INNER for other in display.before(step))
    if told:
        goal = say("What is left between {points} is the inner {value}", points=points,
                   value=voc.value)  # fmt: skip
    change = () if told else _sources_off(display)
    means = say("What is met between the two points while no source helps or hinders is the inner "
                "{value}.", value=voc.value)  # fmt: skip
    return Words(goal, sentences(change, means))


def loading(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for a load that meets the equivalent source."""
    voc = vocabulary(display.law)
    load = display.elements(step.members or step.marked)
    goal = say("Connect {load} to the equivalent source", load=load)
    reason = say("To {load} the equivalent source is the same as the whole circuit. There is one "
                 "loop: the open voltage drives the {flow} through the inner {value} and through "
                 "{load}, one after the other.", load=load, flow=voc.flow,
                 value=voc.value)  # fmt: skip
    return Words(goal, reason)


def matching(step: NetworkStep, display: NetworkDisplay) -> Words:
    """The words for the load that takes the greatest power."""
    goal = say("Match the load")
    reason = say("A small load takes a large current at hardly any voltage, a large load a high "
                 "voltage at hardly any current. In between, at a load equal to the inner "
                 "resistance, the power is greatest: half the open voltage is then left for "
                 "it.")  # fmt: skip
    remark = say("As much power again is lost inside. Matching is for weak signals and small "
                 "panels, not for a supply that should waste little.")  # fmt: skip
    return Words(goal, reason, remark)
