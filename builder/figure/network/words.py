"""A network told in sentences: as the text alternative of its figure, and junction by junction."""

from __future__ import annotations

from builder.figure.by_junction import Sentence
from builder.figure.network.request import CURRENT_SOURCE, VOLTAGE_SOURCE, Branch, NetworkDrawing
from builder.figure.request import Label, ValueText
from builder.figure.words import spoken
from builder.quantity.names import Symbol

_NOUNS = {
    "capacitor": "the capacitor",
    "resistor": "the resistor",
    VOLTAGE_SOURCE: "the battery",
    CURRENT_SOURCE: "the current source",
    "switch-open": "the open switch",
    "switch-closed": "the closed switch",
    "wire": "a plain wire",
    "gap": "an open gap",
    "ammeter": "an ammeter",
    "voltmeter": "a voltmeter",
}
_NAMELESS = frozenset({"wire", "gap", "ammeter", "voltmeter"})
_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def describe_network(drawing: NetworkDrawing) -> str:
    """What is connected with what, in spoken English.

    Returns:
        A sentence with the junctions, one for each pair of junctions with what lies between
        them, and what is found, marked or drawn besides: ``The figure has three junctions: A,
        B and C. Between A and B lies the resistor R1, 10 Ω. …``
    """
    told = [_junctions_told(drawing)]
    if drawing.terminals is not None:
        plus, minus = (_said(drawing, junction) for junction in drawing.terminals)
        told.append(f"The open terminals are {plus}, the +, and {minus}, the −.")
    pairs: dict[frozenset[str], list[Branch]] = {}
    for branch in drawing.branches:
        pairs.setdefault(frozenset(branch.between), []).append(branch)
    told += [_pair_told(drawing, branches) for branches in pairs.values()]
    if drawing.grounded is not None:
        told.append(f"{_capital(_said(drawing, drawing.grounded))} is grounded.")
    told += [sentence for branch in drawing.branches for sentence in _shown_at(drawing, branch)]
    told += [
        f"The loop arrow {spoken(loop.name)} turns inside the loop of "
        f"{_listed([_said(drawing, j) for j in loop.junctions])}."
        for loop in drawing.loops
    ]
    marked = [_name(branch) for branch in drawing.branches if branch.marked]
    if marked:
        told.append(f"{_capital(_listed(marked))} {'is' if len(marked) == 1 else 'are'} marked.")
    found = [text for branch in drawing.branches for text in _found(branch.label)]
    if found:
        told.append(f"Found so far: {_listed(found)}.")
    return " ".join(told)


def network_by_junction(drawing: NetworkDrawing) -> tuple[Sentence, ...]:
    """What meets at each junction.

    Returns:
        An overview, then one sentence for each junction: ``At junction A, R1, R2 and the + of
        the battery V0 meet.`` No numbers, so that the sentences hold whatever the values are.
    """
    told: list[Sentence] = [_overview(drawing)]
    for junction in _junctions(drawing):
        meeting: list[Sentence] = []
        for branch in drawing.branches:
            ends = [end for end, at in enumerate(branch.between) if at == junction]
            if len(ends) == 2:
                meeting.append(("both ends of ", *_named(branch)))
            else:
                meeting += [_end_named(branch, end) for end in ends]
        for sign, terminal in zip(("+", "−"), drawing.terminals or (), strict=False):
            if terminal == junction:
                meeting.append((f"the {sign} terminal",))
        verb = " ends" if len(meeting) == 1 else " meet"
        grounded = ", and it is grounded" if junction == drawing.grounded else ""
        name = drawing.junction_names.get(junction, junction)
        told.append(("At junction ", name, ", ", *_joined(meeting), verb, f"{grounded}."))
    return tuple(told)


def _junctions(drawing: NetworkDrawing) -> tuple[str, ...]:
    """All junctions, in the order in which the branches meet them, the + terminal first."""
    ordered = dict.fromkeys(drawing.terminals[:1] if drawing.terminals else ())
    for branch in drawing.branches:
        ordered |= dict.fromkeys(branch.between)
    return tuple(ordered)


def _count(number: int, one: str) -> str:
    word = _WORDS[number] if number < len(_WORDS) else str(number)
    return f"{word} {one}" if number == 1 else f"{word} {one}s"


def _junctions_told(drawing: NetworkDrawing) -> str:
    junctions = [_said(drawing, junction) for junction in _junctions(drawing)]
    return f"The figure has {_count(len(junctions), 'junction')}: {_listed(junctions)}."


def _overview(drawing: NetworkDrawing) -> Sentence:
    names: list[Sentence] = [
        (drawing.junction_names.get(junction, junction),) for junction in _junctions(drawing)
    ]
    return (f"The circuit has {_count(len(names), 'junction')}: ", *_joined(names), ".")


def _pair_told(drawing: NetworkDrawing, branches: list[Branch]) -> str:
    things = _listed([_thing(drawing, branch) for branch in branches])
    lie = "lies" if len(branches) == 1 else "lie"
    first, second = branches[0].between
    if first == second:
        return f"From {_said(drawing, first)} back to itself {_lead(branches)} {things}."
    return f"Between {_said(drawing, first)} and {_said(drawing, second)} {lie} {things}."


def _lead(branches: list[Branch]) -> str:
    return "leads" if len(branches) == 1 else "lead"


def _thing(drawing: NetworkDrawing, branch: Branch) -> str:
    own = _own(branch.label)
    said = _noun(branch) + (f", {_approximate(own)}" if own is not None else "")
    if branch.kind == VOLTAGE_SOURCE:
        return f"{said}, with its + at {_said(drawing, branch.between[0])}"
    if branch.kind == CURRENT_SOURCE:
        return f"{said}, driving towards {_said(drawing, branch.between[0])}"
    return said


def _shown_at(drawing: NetworkDrawing, branch: Branch) -> list[str]:
    """Sentences on what stands at a branch's ends and on its wire."""
    first, second = (_said(drawing, junction) for junction in branch.between)
    told: list[str] = []
    if branch.polarity and branch.plates is None:
        told.append(f"The + of {_name(branch)} is at {first}.")
    if branch.plates is not None:
        told.append(
            f"The plate of {_name(branch)} at {first} carries {branch.plates[0].text}, "
            f"the one at {second} {branch.plates[1].text}."
        )
    arrow = branch.arrow
    if arrow is not None:
        symbol = arrow.symbol or (arrow.text.symbol if arrow.text is not None else None)
        start, end = (first, second) if arrow.forward else (second, first)
        of = f"of {spoken(symbol)}" if symbol is not None else f"at {_name(branch)}"
        value = f", {_approximate(arrow.text)}," if arrow.text is not None else ""
        told.append(f"The arrow {of}{value} points from {start} to {end}.")
    return told


def _said(drawing: NetworkDrawing, junction: str) -> str:
    name = drawing.junction_names.get(junction, junction)
    return spoken(name) if isinstance(name, Symbol) else name


def _noun(branch: Branch) -> str:
    noun = _NOUNS[branch.kind]
    if branch.kind in _NAMELESS and branch.label is None:
        return noun
    return f"{noun} {_name(branch)}"


def _name(branch: Branch) -> str:
    return spoken(branch.label.symbol) if branch.label is not None else branch.id.replace("_", " ")


def _named(branch: Branch) -> Sentence:
    if branch.label is not None:
        return (branch.label.symbol,)
    return (_NOUNS[branch.kind] if branch.kind in _NAMELESS else branch.id.replace("_", " "),)


def _end_named(branch: Branch, end: int) -> Sentence:
    if branch.kind == VOLTAGE_SOURCE:
        return (f"the {'−' if end else '+'} of the battery ", *_named(branch))
    if branch.kind == CURRENT_SOURCE:
        return (f"the {'back' if end else 'head'} of the current source ", *_named(branch))
    return _named(branch)


def _own(label: Label | None) -> ValueText | None:
    first = label.values[0] if label is not None and label.values else None
    return first if first is not None and first.symbol is None else None


def _found(label: Label | None) -> list[str]:
    values = label.values if label is not None else ()
    return [
        f"{spoken(value.symbol)} is {_approximate(value)}"
        for value in values
        if value.symbol is not None
    ]


def _approximate(value: ValueText) -> str:
    return f"about {value.text}" if value.sign == "≈" else value.text


def _listed(items: list[str]) -> str:
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} and {items[-1]}"


def _joined(items: list[Sentence]) -> Sentence:
    joined: list[str | Symbol] = []
    for position, item in enumerate(items):
        if position:
            joined.append(" and " if position == len(items) - 1 else ", ")
        joined += item
    return tuple(joined)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
