"""Changes to the tree of a problem file that know what circuits are made of."""

from __future__ import annotations

import copy
from random import Random
from typing import Any

from tests.mutations.tree import Keys, Tree, lists, maps, spots
from tests.mutations.tree_changes import fresh_tree, names_in
from tests.mutations.words import (
    GENERATED,
    HOSTILE,
    KINDS,
    METHODS,
    NAMES,
    expression,
    find_item,
    number,
)

_VALUE_UNITS = {"R": "ohm", "C": "uF", "V": "V", "E": "V", "I": "A", "r": "ohm"}


def value_for(name: str, random: Random) -> str:
    """A value for an element of that name."""
    return f"{number(random)} {_VALUE_UNITS.get(name[:1], 'ohm')}"


def put(tree: Tree, key: str, value: Tree) -> None:
    """A value under a key of the top, in the place of what stands there."""
    if isinstance(tree, Keys):
        tree.pairs[:] = [pair for pair in tree.pairs if pair[0] != key] + [[key, value]]


def put_text(tree: Tree, key: str, text: str) -> None:
    """The same, with the value as YAML."""
    put(tree, key, fresh_tree(text))


def got(tree: Tree, key: str) -> Tree:
    """What stands under a key of the top."""
    pairs = tree.pairs if isinstance(tree, Keys) else []
    return next((pair[1] for pair in pairs if pair[0] == key), None)


def _branches(tree: Tree) -> Keys | None:
    circuit = got(tree, "circuit")
    found = got(circuit, "branches")
    return found if isinstance(found, Keys) else None


def _groups(tree: Tree) -> list[list[Any]]:
    found = [spot.value for spot in spots(tree) if spot.path[-1] in ("series", "parallel")]
    return [group for group in found if isinstance(group, list)]


def deepen(tree: Tree, random: Random, donor: Tree) -> None:
    """A member of a group inside further groups, each with a new element beside it."""
    groups = [group for group in _groups(tree) if group]
    if not groups:
        return
    group = random.choice(groups)
    at = random.randrange(len(group))
    kind = "C" if "uF" in str(group) or "nF" in str(group) else "R"
    inner = group[at]
    for depth in range(random.choice((1, 1, 2, 3, 6, 25, 60))):
        name = f"{kind}{90 + depth}"
        word = ("series", "parallel")[depth % 2 if random.random() < 0.9 else 0]
        inner = Keys([[word, [inner, Keys([[name, value_for(name, random)]])]]])
    group[at] = inner


def widen(tree: Tree, random: Random, donor: Tree) -> None:
    """Many more members of a group, rows of a table or items of a list."""
    count = random.choice((2, 3, 5, 12, 40, 150, 300, 900))
    holders: list[list[Any]] = [*_groups(tree), *lists(tree)]
    table = _branches(tree)
    if table is not None and table.pairs and random.random() < 0.5:
        shape = random.choice(table.pairs)
        kind = str(shape[0])[:1]
        table.pairs += [[f"{kind}{100 + n}", copy.deepcopy(shape[1])] for n in range(count)]
    elif holders:
        holder = random.choice(holders)
        member = random.choice(holder) if holder else "x"
        for n in range(count):
            again = copy.deepcopy(member)
            if isinstance(again, Keys) and again.pairs and len(str(again.pairs[0][0])) < 4:
                again.pairs[0][0] = f"{str(again.pairs[0][0])[:1]}{100 + n}"
            holder.append(again)


def reconnect(tree: Tree, random: Random, donor: Tree) -> None:
    """A branch, or all of them, between other junctions: loops, islands, shorts, one junction."""
    table = _branches(tree)
    if table is None:
        return
    ends = [spot for spot in spots(table) if spot.path[1:2] == ("between",)
            and isinstance(spot.value, str)]  # fmt: skip
    known = sorted({spot.value for spot in ends}) or ["a"]
    way = random.random()
    if way < 0.5 and ends:
        random.choice(ends).put(random.choice((*known, *known, "new", "", "top")))
    elif way < 0.65:
        for spot in ends:
            spot.put(random.choice(known[: random.randint(1, len(known))]))
    elif way < 0.8 and len(ends) > 1:
        one, other = random.sample(ends, 2)
        old, new = one.value, other.value
        for spot in ends:  # two junctions become one
            if spot.value == old:
                spot.put(new)
    else:
        both = [spot.value for spot in spots(table) if spot.path[-1] == "between"]
        if both:
            pair = random.choice(both)
            if isinstance(pair, list):
                pair.reverse()


def new_branch(tree: Tree, random: Random, donor: Tree) -> None:
    """One more branch: an element, a source or a switch, between junctions that may be there."""
    table = _branches(tree)
    if table is None:
        return
    ends = sorted({spot.value for spot in spots(table) if "between" in spot.path
                   and isinstance(spot.value, str)}) or ["a", "b"]  # fmt: skip
    a, b = random.choice(ends), random.choice([*ends, "new"])
    elements = [str(pair) for pair in table.pairs]
    what = random.choice(("resistance", "capacitance", "emf", "current", "switch", "inner"))
    if random.random() < 0.6:
        what = "capacitance" if "capacitance" in str(elements) else "resistance"
    name = {"resistance": "R", "capacitance": "C", "emf": "E", "current": "J", "switch": "S",
            "inner": "E"}[what] + str(random.randint(1, 99))  # fmt: skip
    value = {"resistance": "resistance: {} ohm", "capacitance": "capacitance: {} uF",
             "emf": "emf: {} V", "current": "current: {} A", "switch": "switch: open",
             "inner": "emf: {0} V, inner: {0} ohm"}[what].format(number(random))  # fmt: skip
    if what == "switch" and random.random() < 0.5:
        value = "switch: closed"
    if what == "capacitance" and random.random() < 0.3:
        value += f", charged: {number(random)} {random.choice(('V', 'uC'))}"
    table.pairs.append([name, fresh_tree(f"{{{value}, between: [{a}, {b}]}}")])


def into_branches(tree: Tree, random: Random, donor: Tree) -> None:
    """A nest, or whatever stands there, becomes a random network of one kind or of several."""
    kinds = random.choice((("R",), ("R",), ("C",), ("R", "C"), ("R", "C", "S")))
    junctions = "abcdefgh"[: random.randint(2, 6)]
    rows = [f"V0: {{emf: {number(random)} V, between: [a, b]}}"]
    for n in range(random.randint(1, 9)):
        kind = random.choice(kinds)
        a, b = random.sample(junctions, 2)
        value = {"R": f"resistance: {number(random)} ohm", "C": f"capacitance: {number(random)} uF",
                 "S": f"switch: {random.choice(('open', 'closed'))}"}[kind]  # fmt: skip
        rows.append(f"{kind}{n + 1}: {{{value}, between: [{a}, {b}]}}")
    if random.random() < 0.3:
        a, b = random.sample(junctions, 2)
        rows.append(f"E2: {{emf: {number(random)} V, inner: 1 ohm, between: [{a}, {b}]}}")
    method = f"method: {random.choice(METHODS)}, " if random.random() < 0.4 else ""
    put_text(tree, "circuit", f"{{{method}branches: {{{', '.join(rows)}}}}}")
    names = [row.split(":")[0] for row in rows]
    kind = "current" if "R1" in names else "charge"
    put_text(tree, "find", f"[{{{kind}: all}}, {find_item(random, names)}]")
    without_texts(tree)


def without_texts(tree: Tree) -> None:
    """Leave out what speaks of the circuit, and what is wished for it."""
    if isinstance(tree, Keys):
        gone = ("scenario", "words", "questions", "vary", "keep", "plan", "measured")
        tree.pairs[:] = [pair for pair in tree.pairs if pair[0] not in gone]


def other_find(tree: Tree, random: Random, donor: Tree) -> None:
    """Something else is asked for."""
    names = names_in(tree)
    items = [find_item(random, names) for _ in range(random.choice((1, 1, 1, 2, 3)))]
    old = got(tree, "find")
    if random.random() < 0.5 and isinstance(old, list):
        old.extend(fresh_tree(f"[{', '.join(items)}]") if _sound(items) else items)
    else:
        put_text(tree, "find", f"[{', '.join(items)}]")


def _sound(items: list[str]) -> bool:
    return isinstance(fresh_tree(f"[{', '.join(items)}]"), list)


def new_method(tree: Tree, random: Random, donor: Tree) -> None:
    """Another method, reference, load or terminals."""
    circuit, table = got(tree, "circuit"), _branches(tree)
    if not isinstance(circuit, Keys) or table is None:
        return
    names = names_in(tree) or ["a"]
    key = random.choice(("method", "method", "reference", "load", "across", "place"))
    value: Tree = random.choice(METHODS) if key == "method" else random.choice(names)
    if key == "across":
        value = [random.choice(names), random.choice(names)]
    if key == "place":
        value = Keys([[name, [number(random), random.choice(("0", "1", "-1", "1e9", "x", "2.5"))]]
                      for name in names])  # fmt: skip
    circuit.pairs[:] = [pair for pair in circuit.pairs if pair[0] != key] + [[key, value]]


def new_stages(tree: Tree, random: Random, donor: Tree) -> None:
    """Switches thrown in another way, in one stage or in many; or a change."""
    names = [name for name in names_in(tree) if name[:1] in "SC"] or ["S1"]

    def thrown() -> str:
        word = random.choice(("open", "close", "close", "turn"))
        whose = random.choice((random.choice(names), f"[{', '.join(random.choices(names, k=2))}]"))
        return f"{word}: {whose}"

    count = random.choice((1, 1, 2, 3, 5, 12, 13, 50))
    stages = [f"{{{thrown()}}}" if random.random() < 0.8 else f"{{{thrown()}, {thrown()}}}"
              for _ in range(count)]  # fmt: skip
    if random.random() < 0.7:
        put_text(tree, "stages", f"[{', '.join(stages)}]")
    else:
        put_text(tree, "change", stages[0])


def new_relation(tree: Tree, random: Random, donor: Tree) -> None:
    """A further equation, or other ones, and a further quantity."""
    quantities = got(tree, "quantities")
    names = [str(pair[0]) for pair in quantities.pairs] if isinstance(quantities, Keys) else []
    if not names or random.random() < 0.1:
        names = ["x", "y", "V", "R", "I"]
        put_text(tree, "quantities", f"{{x: {number(random)}, y: number, V: {number(random)} V, "
                 f"R: {number(random)} ohm, I: current}}")  # fmt: skip
        put_text(tree, "find", "[y, I]")
    left = random.choice(names) if random.random() < 0.6 else expression(random, names)
    equation = f"{left} = {expression(random, names)}"
    relations = got(tree, "relations")
    if isinstance(relations, list) and random.random() < 0.7:
        if relations and random.random() < 0.5:
            relations[random.randrange(len(relations))] = equation
        else:
            relations.append(equation)
    else:
        put(tree, "relations", [equation])
    if random.random() < 0.3 and isinstance(quantities, Keys):
        quantities.pairs.append([random.choice(("x", "y", "z", "W")), random.choice(KINDS)])


def new_plates(tree: Tree, random: Random, donor: Tree) -> None:
    """Two plates with some of what can be told of them."""

    def part() -> str:
        size = random.choice(("thickness: {} mm", "area: {} cm^2", "thickness: {} um"))
        kappa = random.choice((", kappa: {}", ", kappa: {}", "", ", called: glass", ", kappa: 0.5"))
        return "{" + (size + kappa).replace("{}", number(random)) + "}"

    filling = random.choice((
        f"kappa: {number(random)}", f"layers: [{part()}]", f"layers: [{part()}, {part()}]",
        f"slabs: [{part()}]", f"slabs: [{part()}, {part()}]", f"metal: {number(random)} um",
        f"kappa: 2, metal: {number(random)} mm", "{}", f"layers: [{', '.join([part()] * 8)}]",
    ))  # fmt: skip
    drive = random.choice((f"voltage: {number(random)} V", f"charge: {number(random)} nC",
                           "voltage: 1 V, charge: 1 nC", ""))  # fmt: skip
    size = random.choice((f"area: {number(random)} cm^2, gap: {number(random)} mm",
                          f"capacitance: {number(random)} pF"))  # fmt: skip
    battery = random.choice(("", ", battery: connected", ", battery: removed"))
    put_text(tree, "plates", f"{{{size}{', ' if drive else ''}{drive}{battery}, "
             f"filling: {{{filling}}}}}")  # fmt: skip
    find = random.sample(("C", "Q", "V", "U", "E", "C0", "Q0", "V0", "U0", "E0", "C1", "V1", "E1",
                          "E2", "DeltaU", "DeltaQ", "W", "W_in", "V_max", "d", "x"), 2)  # fmt: skip
    put(tree, "find", find)
    without_texts(tree)
    if isinstance(tree, Keys):
        tree.pairs[:] = [p for p in tree.pairs if p[0] not in ("circuit", "relations")]


def new_measured(tree: Tree, random: Random, donor: Tree) -> None:
    """An element that is unknown, and what was measured."""
    groups = [group for group in _groups(tree) if group]
    if not groups:
        return
    member = random.choice(random.choice(groups))
    if isinstance(member, Keys) and member.pairs:
        member.pairs[0][1] = "unknown"
    names = names_in(tree) or ["C1"]
    kind, unit = random.choice((("charge", "uC"), ("voltage", "V"), ("current", "A"),
                                ("energy", "uJ"), ("power", "W")))  # fmt: skip
    unit_of_total = random.choice(("uF", "ohm"))
    put_text(tree, "measured", random.choice((
        f"{{equivalent: {number(random)} {unit_of_total}}}",
        f"{{{kind}: {{{random.choice(names)}: {number(random)} {unit}}}}}",
        f"{{{kind}: {{total: {number(random)} {unit}}}, equivalent: 5 uF}}",
    )))  # fmt: skip


def new_wishes(tree: Tree, random: Random, donor: Tree) -> None:
    """Other values for fresh numbers, sensible or not."""
    names = names_in(tree) or ["C1"]

    def span() -> str:
        unit = random.choice(("V", "uF", "ohm", "mm"))
        return random.choice((
            f"{number(random)} {unit} to {number(random)} {unit} step {number(random)} {unit}",
            f"1 {unit} to 1e30 {unit} step 1e-9 {unit}", f"E{random.choice((3, 12, 24, 96, 7))}",
            f"E24 from 1 {unit} to 1e20 {unit}", f"[{number(random)} {unit}, 7 {unit}]",
            f"{number(random)}*{random.choice(names)}", random.choice(names), "none", "[]",
            f"{expression(random, names)}", "[" + ", ".join(f"{n} V" for n in range(1, 300)) + "]",
        ))  # fmt: skip

    if random.random() < 0.7:
        rows = [f"{name}: {span()}" for name in random.sample(names, min(len(names), 3))]
        put_text(tree, "vary", f"{{{', '.join(rows)}}}")
    else:
        put_text(tree, "keep", random.choice((
            f"{{digits: {random.choice((0, 1, 3, 6, 99, 'x'))}}}", "{order: same}",
            "{order: other}",
            f"{{charge: {number(random)} uC to {number(random)} uC}}", "{apart: equal-voltages}",
            "{apart: [no-such-rule, equal-voltages]}", "{voltage: 1 V to 1e400 V}", "none", "[]",
        )))  # fmt: skip


def new_words(tree: Tree, random: Random, donor: Tree) -> None:
    """Own words, questions and what is left out, sensible or not."""
    names = names_in(tree) or ["C1"]
    text = random.choice((f"See {{{random.choice(names)}}}.", random.choice(HOSTILE), "Look.",
                          "[x](javascript:alert(1))", "![x](http://x/y.png)", "$x$ and $$y$$",
                          "{C1.charged} {V0.value} {C1.name}", "- a\n- b", "# h",
                          "|a|b|"))  # fmt: skip
    key = random.choice(("scenario", "plan", "words", "questions", "questions", "leave-out"))
    if key in ("scenario", "plan"):
        put(tree, key, text)
    elif key == "words":
        step = random.choice(("merge-C23", "merge-total", "merge-R12", "find-charge", "x",
                              f"walk-{random.choice(names)}"))  # fmt: skip
        put(tree, key, Keys([[step, random.choice((text, Keys([["goal", text]]), [text]))]]))
    elif key == "leave-out":
        put(tree, key, random.choices(GENERATED, k=random.randint(0, 3)))
    else:
        answer = fresh_tree(find_item(random, names))
        choices: Tree = [Keys([["text", text], ["right", random.choice(("yes", "no", "x"))]]),
                         random.choice(("It falls", text, Keys([["reply", text]])))]  # fmt: skip
        question = Keys([["ask", text], random.choice((["answer", answer], ["choices", choices]))])
        if random.random() < 0.3:
            question.pairs.append(["instead-of", random.choice(GENERATED)])
        put(tree, key, [question])


def one_name_twice(tree: Tree, random: Random, donor: Tree) -> None:
    """Two elements of one name, or a name that is a word of the trade."""
    keys = [found for found in maps(tree) if found.pairs]
    if keys:
        pair = random.choice(random.choice(keys).pairs)
        pair[0] = random.choice((*names_in(tree), *NAMES))


CHANGES = (
    deepen, deepen, widen, *(reconnect,) * 4, *(new_branch,) * 4, *(into_branches,) * 3,
    *(other_find,) * 4, *(new_method,) * 2, *(new_stages,) * 2, *(new_relation,) * 4, new_plates,
    new_plates, new_measured, new_measured, new_wishes, new_wishes, new_words, new_words,
    one_name_twice,
)  # fmt: skip
