"""Where the elements of a part whose figures were listed are in the part with drawn figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.site.fresh.tokens import Tokens, attributes, tag_name

_NAMING = frozenset({"title", "desc"})


def found_again(listed: Tokens, drawn: Tokens) -> Mapping[int, tuple[int, ...]]:
    """The places of tags of a listed part in the drawn one, by their places in the listed part.

    Raises:
        ValueError: if they differ in anything else than in figures.
    """
    found: dict[int, tuple[int, ...]] = {}
    there = iter(range(1, len(drawn), 2))
    here = iter(range(1, len(listed), 2))
    for at in here:
        other = next(there)
        if listed[at].startswith("<svg data-figure="):
            found.update(_in_figure(listed, here, drawn, there))
        elif listed[at] != drawn[other]:
            raise ValueError(f"a page differs from its list: {listed[at]} and {drawn[other]}")
        else:
            found[at] = (other,)
    return found


def _in_figure(
    listed: Tokens, here: Iterator[int], drawn: Tokens, there: Iterator[int]
) -> Mapping[int, tuple[int, ...]]:
    """The same inside a figure, by its name, its description and its marks."""
    by_role: dict[str, list[int]] = {}
    for at in _until_end(drawn, there):
        if role := _role(drawn[at]):
            by_role.setdefault(role, []).append(at)
    return {at: tuple(by_role.get(_role(listed[at]), ())) for at in _until_end(listed, here)}


def _until_end(tokens: Tokens, places: Iterator[int]) -> Iterator[int]:
    for at in places:
        if tokens[at] == "</svg>":
            return
        yield at


def _role(tag: str) -> str:
    """What a tag of a figure is for; empty where no number can stand."""
    name = tag_name(tag)
    if tag.startswith("</"):
        return ""
    return attributes(tag).get("data-m", "") if name == "tspan" else name * (name in _NAMING)
