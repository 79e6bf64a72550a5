"""Changes to the tree of a problem file that know nothing of circuits."""

from __future__ import annotations

import copy
import re
from random import Random
from typing import Any

import yaml

from tests.mutations.tree import Keys, Raw, Spot, Tree, lists, maps, spots, tree_of
from tests.mutations.words import HOSTILE, KEYS, NAMES, UNITS, number

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e-?\d+)?")
_VALUE = re.compile(r"\s*(-?\d[\d./e+-]*)\s*(.*)", re.DOTALL)


def scalars(tree: Tree) -> list[Spot]:
    """The places of all single values."""
    return [spot for spot in spots(tree) if isinstance(spot.value, str)]


def values(tree: Tree) -> list[Spot]:
    """The places of all numbers, with their units."""
    return [spot for spot in scalars(tree) if _NUMBER.match(spot.value)]


def other_number(tree: Tree, random: Random, donor: Tree) -> None:
    """Another plausible number with the same unit, or the number of a neighbour."""
    places = values(tree)
    if not places:
        return
    spot = random.choice(places)
    if random.random() < 0.25:
        spot.put(random.choice(places).value)
    else:
        spot.put(_NUMBER.sub(lambda _: number(random), spot.value, count=1))


def all_numbers(tree: Tree, random: Random, donor: Tree) -> None:
    """Another plausible number in every place, or the same one in all."""
    same = number(random) if random.random() < 0.3 else None
    for spot in values(tree):
        if "vary" not in spot.path and random.random() < 0.8:
            spot.put(_NUMBER.sub(lambda _: same or number(random), spot.value, count=1))


def other_unit(tree: Tree, random: Random, donor: Tree) -> None:
    """A number with another unit, or with none."""
    places = values(tree)
    if places:
        spot = random.choice(places)
        match = _VALUE.match(spot.value)
        unit = random.choice(UNITS) if random.random() < 0.9 else ""
        spot.put(f"{match[1] if match else '1'} {unit}".strip())


def hostile_value(tree: Tree, random: Random, donor: Tree) -> None:
    """A hostile text in the place of a value."""
    places = scalars(tree)
    if places:
        random.choice(places).put(random.choice(HOSTILE))


def hostile_inside(tree: Tree, random: Random, donor: Tree) -> None:
    """A hostile text in the midst of a value."""
    places = scalars(tree)
    if places:
        spot = random.choice(places)
        at = random.randint(0, len(spot.value))
        spot.put(spot.value[:at] + random.choice(HOSTILE)[:80] + spot.value[at:])


def drop(tree: Tree, random: Random, donor: Tree) -> None:
    """A key or an item less."""
    holders = [keys.pairs for keys in maps(tree)] + lists(tree)
    full = [holder for holder in holders if holder]
    if full:
        holder = random.choice(full)
        del holder[random.randrange(len(holder))]


def double(tree: Tree, random: Random, donor: Tree) -> None:
    """A key or an item twice."""
    holders: list[list[Any]] = [keys.pairs for keys in maps(tree)] + lists(tree)
    full = [holder for holder in holders if holder]
    if full:
        holder = random.choice(full)
        again = copy.deepcopy(random.choice(holder))
        holder.insert(random.randint(0, len(holder)), again)


def reorder(tree: Tree, random: Random, donor: Tree) -> None:
    """The keys of a mapping or the items of a list in another order."""
    holders: list[list[Any]] = [keys.pairs for keys in maps(tree)] + lists(tree)
    if holders:
        random.shuffle(random.choice(holders))


def rename(tree: Tree, random: Random, donor: Tree) -> None:
    """Another key: one that is known somewhere, a name, a misspelling or something hostile."""
    full = [keys for keys in maps(tree) if keys.pairs]
    if not full:
        return
    pair = random.choice(random.choice(full).pairs)
    key = pair[0] if isinstance(pair[0], str) else ""
    pair[0] = random.choice(
        (random.choice(KEYS), random.choice(NAMES), key[1:], key + key[-1:], key.upper(),
         random.choice(HOSTILE)[:60], Raw(random.choice(("? ", "[a]", "{a: 1}", "<<", "!!str x",
                                                         "&k x", "*k", "''"))))
    )  # fmt: skip


def swap(tree: Tree, random: Random, donor: Tree) -> None:
    """Two values in each other's places."""
    places = spots(tree)
    if len(places) > 1:
        one, other = random.sample(places, 2)
        if one.path[: len(other.path)] != other.path and other.path[: len(one.path)] != one.path:
            first, second = one.value, other.value
            one.put(second)
            other.put(first)


def graft(tree: Tree, random: Random, donor: Tree) -> None:
    """A part of another problem in the place of a part of this one, of the same key if there is."""
    here, there = spots(tree), spots(donor)
    if not here or not there:
        return
    spot = random.choice(here)
    alike = [other for other in there if other.path[-1] == spot.path[-1]]
    chosen = random.choice(alike if alike and random.random() < 0.7 else there)
    spot.put(copy.deepcopy(chosen.value))


def add_key(tree: Tree, random: Random, donor: Tree) -> None:
    """A key of another problem, with its value, beside those that are here."""
    mine, theirs = maps(tree), [keys for keys in maps(donor) if keys.pairs]
    if not mine or not theirs:
        return
    top = random.random() < 0.5 and isinstance(tree, Keys) and isinstance(donor, Keys)
    into = tree if top else random.choice(mine)
    source = donor if top and donor.pairs else random.choice(theirs)
    pair = copy.deepcopy(random.choice(source.pairs))
    into.pairs.insert(random.randint(0, len(into.pairs)), pair)


def other_type(tree: Tree, random: Random, donor: Tree) -> None:
    """A list for a text, a text for keys, and so on."""
    places = spots(tree)
    if not places:
        return
    spot = random.choice(places)
    value = spot.value
    spot.put(random.choice(([value], [value, value], Keys([["a", value]]), [], Keys(), "", [[]],
                            "text", "12", Keys([["value", value]]), [Keys([["C9", value]])],
                            Raw("[[[[[[]]]]]]"), Raw("{a: {b: {c: {}}}}"))))  # fmt: skip


def yaml_feature(tree: Tree, random: Random, donor: Tree) -> None:
    """An anchor, an alias, a tag, a merge: what YAML knows and problem files do not."""
    places = spots(tree)
    if not places:
        return
    spot = random.choice(places)
    shown = spot.value if isinstance(spot.value, str) and spot.value.isalnum() else "x"
    spot.put(Raw(random.choice((
        f"&a {shown}", "*a", "*undefined", f"!!str {shown}", "!!python/object/apply:os.getcwd []",
        "!!python/name:os.system", "!!binary aGVsbG8=", "!!float 1", "!custom {a: 1}", "!!set {a}",
        "{<<: *a}", "{<<: {a: 1}}", "&a [*a, *a]", "&a {a: *a}", f"! {shown}", "!<tag:x> y",
        "? a", "|2\n   x", ">+\n  x\n\n", "'it''s'", '"\\x41\\u00e9\\U0001F600"', '"\\ud800"',
        '"\\0"', '"\\', "'", "%YAML 1.1", "--- x", "... ", "\n...\n---\ntitle: x", "# only",
    ))))  # fmt: skip


def rename_everywhere(tree: Tree, random: Random, donor: Tree) -> None:
    """One name of the file changed wherever it stands: into a new one, or one that is taken."""
    names = names_in(tree)
    if not names:
        return
    old = random.choice(names)
    new = random.choice(names) if random.random() < 0.3 else random.choice(NAMES)
    word = re.compile(rf"(?<![A-Za-z0-9_]){re.escape(old)}(?![A-Za-z0-9_])")
    for keys in maps(tree):
        for pair in keys.pairs:
            if isinstance(pair[0], str):
                pair[0] = word.sub(lambda _: new, pair[0])
    for spot in scalars(tree):
        spot.put(word.sub(lambda _: new, spot.value))


def names_in(tree: Tree) -> list[str]:
    """The names of elements, sources, switches, quantities and junctions, each once."""
    found: dict[str, None] = {}
    for spot in spots(tree):
        key = spot.path[-1]
        if re.fullmatch(r"[A-Za-z]{1,5}_?[0-9A-Z]{0,3}", key) and key not in KEYS:
            found[key] = None
        if "between" in spot.path and isinstance(spot.value, str):
            found[spot.value] = None
    return list(found)


def fresh_tree(text: str) -> Tree:
    """The tree of a text that a generator wrote, or the text itself if it is no YAML."""
    try:
        return tree_of(text)
    except (yaml.YAMLError, ValueError):  # then it is a text
        return Raw(text)


CHANGES = (
    *(other_number,) * 8, *(all_numbers,) * 14, other_unit, hostile_value, hostile_value,
    hostile_inside, drop, double, reorder, rename, swap, graft, graft, add_key, add_key, other_type,
    yaml_feature, rename_everywhere,
)  # fmt: skip
