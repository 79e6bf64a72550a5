"""The mistake of splitting equally, also at a fork of a network that is no parallel group."""

from __future__ import annotations

from dataclasses import replace

from builder.lesson.network.chains import chain_of
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.what_if import solved
from builder.lesson.opened_groups import step_of
from builder.lesson.prose import say
from builder.lesson.sharing_mistakes import SHARING_RULES
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on
from builder.quantity.names import Name
from builder.quantity.symbolic import sign_of


def _at_the_source(display: NetworkDisplay) -> list[Wrong]:
    """Where the only source's chain first meets a fork: from there all flows away."""
    network, law = display.network, display.law
    if len(network.sources) != 1:
        return []
    (source,) = network.sources
    chain = chain_of(source, network)
    fork, passed = chain.ends[0], chain.elements
    ways = [one for one in network.elements if fork in one.between and one.name not in passed]
    flow = solved(network, law).get(Name(law.flow, source.name))
    if len(ways) < 2 or flow is None:
        return []
    shares = {Name(law.flow, one.name): flow / len(ways) for one in ways}
    step = step_of(shares, display)
    if step is None:
        return []
    found = {name for taught in display.solution.steps for name in taught.found}
    # In the order of the circuit, so that every build tells the same one first.
    signs = {name: sign_of(display.solution.values[name]) or 0 for name in shares if name in found}
    happens = say("splitting the {flow} equally between {ways} at junction {fork}", flow=law.flow,
                  ways=display.elements(tuple(one.name for one in ways)), fork=fork)  # fmt: skip
    altered = {name: shares[name] * sign for name, sign in signs.items()}
    return list(carried_on(display, step, altered, happens))


def _with_forks(rule: WrongRule) -> WrongRule:
    if rule.id != "equal-flows":
        return rule
    return replace(rule, find=lambda display: [*_at_the_source(display), *rule.find(display)])


NETWORK_SHARING_RULES: tuple[WrongRule, ...] = tuple(
    map(_with_forks, sorted(SHARING_RULES, key=lambda rule: rule.id != "equal-flows"))
)
"""The rules of sharing; networks have more forks than chains, so that forks come first."""
