"""One question that needs no arithmetic, asked before the solution is opened."""

from __future__ import annotations

from collections.abc import Callable

from builder.circuit.network import Element
from builder.lesson.network.bridges import Bridge, bridge_of
from builder.lesson.network.chains import chain_of
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.what_if import only, solved
from builder.lesson.prose import Prose, say, sentences
from builder.lesson.questions import ChoiceQuestion, Option
from builder.lesson.vocabulary import vocabulary
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.network.step import NetworkMove


def predict(display: NetworkDisplay) -> ChoiceQuestion:
    """The question that fits the network best."""
    for ask in _ASKERS:
        question = ask(display)
        if question is not None:
            return question
    return _doubled(display)


def _flow(id: str, display: NetworkDisplay) -> Exact | None:
    return display.solution.values.get(Name(display.law.flow, id))


def _across_the_bridge(display: NetworkDisplay) -> ChoiceQuestion | None:
    """Which way the middle of a bridge flows, or whether it does at all."""
    bridge = bridge_of(display.network)
    flow = None if bridge is None else _flow(bridge.middle, display)
    if bridge is None or flow is None:
        return None
    first, second = display.between(bridge.middle)
    voc, middle = vocabulary(display.law), display.element(bridge.middle)
    why = _why_bridge(bridge, flow, display)
    verdicts = [flow > 0, flow < 0, flow == 0]
    if voc.flow == "charge":
        ask = say("Which plate of {middle} becomes the positive one?", middle=middle)
        texts = [say("The one at {first}", first=first), say("The one at {second}", second=second),
                 say("Neither: no charge gathers there")]  # fmt: skip
    else:
        ask = say("Which way will the current flow through {middle}?", middle=middle)
        texts = [say("From {first} to {second}", first=first, second=second),
                 say("From {second} to {first}", first=first, second=second),
                 say("Neither way: no current flows there")]  # fmt: skip
    options = tuple(
        Option(text, right, sentences(say("Yes." if right else "No."), why))
        for text, right in zip(texts, verdicts, strict=True)
    )
    return ChoiceQuestion(ask, options, None)


def _why_bridge(bridge: Bridge, flow: Exact, display: NetworkDisplay) -> Prose:
    """Compares how the two sides divide the voltage when the middle is left out."""
    sides = [display.elements(bridge.arms_at(end), "and") for end in bridge.ends]
    if flow == 0:
        return say("{first} divide the voltage in the same ratio as {second}, so both ends of "
                   "{middle} are at the same potential.", first=sides[0], second=sides[1],
                   middle=display.element(bridge.middle))  # fmt: skip
    first, second = display.between(bridge.middle)
    high, low = (first, second) if flow > 0 else (second, first)
    comes = "the plate there becomes the positive one" if display.law.flow == "charge" else (
        f"the current flows from {high} to {low}"
    )  # fmt: skip
    return say("Imagine {middle} taken out: junction {high} would then keep more of the voltage "
               "than junction {low}, so it is at the higher potential, and {comes}.",
               middle=display.element(bridge.middle), high=high, low=low, comes=comes)  # fmt: skip


def _alike(display: NetworkDisplay) -> ChoiceQuestion | None:
    """Which junction is like another by symmetry."""
    step = next((s for s in display.solution.steps if s.kind is NetworkMove.JOIN), None)
    if step is None:
        return None
    sets = [names for names in step.joined.values() if len(names) > 1]
    one, other = sets[0][:2]
    strangers = [
        *(names[0] for names in sets[1:]),
        *(name for name in display.network.junctions if not any(name in names for names in sets)),
    ][:2]
    if not strangers:
        return None
    why = say("Seen from the two terminals, junctions {one} and {other} are alike: whatever is "
              "said of one could be said of the other.", one=one, other=other)  # fmt: skip
    no = say("Look at how each of the two lies between + and −: they differ.")
    options = [
        Option(say("Junction {name}", name=name), name == other,
               sentences(say("Yes."), why) if name == other else sentences(say("No."), no, why))
        for name in sorted([other, *strangers])
    ]  # fmt: skip
    ask = say("Which of these junctions is at the same potential as junction {one}?", one=one)
    return ChoiceQuestion(ask, tuple(options), None)


def _greatest_power(display: NetworkDisplay) -> ChoiceQuestion | None:
    """How the power into a load depends on it."""
    if all(step.kind is not NetworkMove.MATCH for step in display.solution.steps):
        return None
    why = say("At nearly no resistance there is nearly no voltage across the load, and at a huge "
              "resistance nearly no current through it. In between, both are there.")  # fmt: skip
    options = (
        Option(say("It falls all the time"), False, sentences(say("No."), why)),
        Option(say("It grows, then falls"), True, sentences(say("Yes."), why)),
        Option(say("It grows all the time"), False, sentences(say("No."), why)),
    )
    ask = say("Let the resistance of the load grow from nearly nothing to very much. What does the "
              "power in it do?")  # fmt: skip
    return ChoiceQuestion(ask, options, None)


def _charging(display: NetworkDisplay) -> ChoiceQuestion | None:
    """Which of several batteries takes current in."""
    sources = [one for one in display.network.sources if one.quantity == display.law.drop]
    flows = {one.name: _flow(one.name, display) for one in sources}
    charged = [name for name, flow in flows.items() if flow is not None and flow < 0]
    if len(sources) < 2 or len(charged) != 1 or display.law.flow != "current":
        return None
    weak = display.element(charged[0])
    why = say("The others drive current into {weak} against its own voltage, so that it takes "
              "energy in.", weak=weak) if len(sources) > 2 else say(
        "{strong} drives current into {weak} against its own voltage, so that it takes energy in.",
        strong=display.element(next(one.name for one in sources if one.name != charged[0])),
        weak=weak)  # fmt: skip
    options = [
        Option((display.element(one.name),), one.name == charged[0],
               sentences(say("Yes."), why) if one.name == charged[0]
               else sentences(say("No, it delivers."), why))
        for one in sources
    ]  # fmt: skip
    none = "Neither: both deliver" if len(sources) == 2 else "Not one of them: all deliver"
    options.append(Option(say(none), False, sentences(
        say("Sources do not have to deliver."), why)))  # fmt: skip
    return ChoiceQuestion(say("Which of the batteries is being charged here?"), tuple(options),
                          None)  # fmt: skip


def _between_inner_junctions(display: NetworkDisplay) -> ChoiceQuestion | None:
    """Which way an element flows that touches no source."""
    element = _far_from_sources(display)
    flow = None if element is None else _flow(element.name, display)
    if element is None or flow is None or flow == 0 or display.law.flow != "current":
        return None
    first, second = element.between
    high, low = (first, second) if flow > 0 else (second, first)
    why = say("Current flows from the higher potential to the lower, and junction {high} comes out "
              "higher than junction {low}.", high=high, low=low)  # fmt: skip
    options = tuple(
        Option(say(text, first=first, second=second), right,
               sentences(say("Yes." if right else "No."), why))
        for text, right in (("From {first} to {second}", flow > 0),
                            ("From {second} to {first}", flow < 0),
                            ("Neither way: both ends are alike", False))
    )  # fmt: skip
    ask = say("Which way will the current flow through {one}?", one=display.element(element.name))
    return ChoiceQuestion(ask, options, None)


def _turned_off(display: NetworkDisplay) -> ChoiceQuestion | None:
    """What becomes of a current when one of two sources is turned off."""
    sources = display.network.sources
    chains = {one for source in sources for one in chain_of(source, display.network).elements}
    shared = [one for one in display.members if one not in chains]
    if len(sources) != 2 or not shared or display.law.flow != "current":
        return None
    name = Name(display.law.flow, shared[0])
    stays, goes = sources
    alone = solved(only(display.network, stays.name), display.law).get(name)
    whole = display.solution.values[name]
    if alone is None or alone in (0, whole):
        return None
    along = (alone > 0) == (whole - alone > 0)
    one, other = display.element(shared[0]), display.element(goes.name)
    first = display.element(stays.name)
    why = (
        say("Both drive current through {one} in the same direction, so with {first} alone less "
            "is left.", one=one, first=first)
        if along
        else say("The two drive current through {one} in opposite directions, so with {first} "
                 "alone the current is no longer hindered.", one=one, first=first)
    )  # fmt: skip
    grows = abs(alone) > abs(whole)
    options = tuple(
        Option(say(text), right, sentences(say("Yes." if right else "No."), why))
        for text, right in (("It grows", grows), ("It stays the same", False),
                            ("It falls", not grows))
    )  # fmt: skip
    ask = say("{other} is taken out and a wire put in its place. What happens to the size of the "
              "current through {one}?", other=other, one=one)  # fmt: skip
    if goes.quantity != display.law.drop:
        return None
    return ChoiceQuestion(ask, options, None)


def _far_from_sources(display: NetworkDisplay) -> Element | None:
    poles = {end for source in display.network.sources for end in source.between}
    return next((element for element in display.network.elements
                 if not poles & set(element.between)), None)  # fmt: skip


def _doubled(display: NetworkDisplay) -> ChoiceQuestion:
    voc, sources = vocabulary(display.law), display.network.sources
    if not sources:
        return _doubled_values(display)
    inner = display.solution.problem.inner.values()
    one = display.element(next(member for member in display.members if member not in inner))
    why = say("Every {flow} of the circuit grows in step with its sources.", flow=voc.flow)
    options = (
        Option(say("It stays the same"), False, sentences(say("No."), why)),
        Option(say("It doubles"), True, sentences(say("Yes."), why)),
        Option(say("It becomes four times as large"), False,
               say("That is true of the {work}, not of the {flow}. {why}", work=voc.work,
                   flow=voc.flow, why=why)),
    )  # fmt: skip
    which = "the source" if len(sources) == 1 else "every source"
    ask = say("Suppose {which} were twice as strong. What would happen to the {flow} {word} {one}?",
              which=which, flow=voc.flow, word=voc.flow_word, one=one)  # fmt: skip
    return ChoiceQuestion(ask, options, None)


def _doubled_values(display: NetworkDisplay) -> ChoiceQuestion:
    voc = vocabulary(display.law)
    why = say("Every rule for equivalents keeps that factor: twice every {value} makes twice the "
              "equivalent.", value=voc.value)  # fmt: skip
    options = (
        Option(say("It becomes half as large"), False, sentences(say("No."), why)),
        Option(say("It stays the same"), False, sentences(say("No."), why)),
        Option(say("It doubles"), True, sentences(say("Yes."), why)),
    )
    ask = say("Suppose every {value} were twice as large. What would happen to the equivalent "
              "{value}?", value=voc.value)  # fmt: skip
    return ChoiceQuestion(ask, options, None)


_ASKERS: tuple[Callable[[NetworkDisplay], ChoiceQuestion | None], ...] = (
    _greatest_power, _across_the_bridge, _alike, _charging, _between_inner_junctions,
    _turned_off,
)  # fmt: skip
"""Asked in this order; the first that fits the network is the question."""
