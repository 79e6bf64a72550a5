"""A few keys and values as an author would type them: short, and without needless signs."""

from __future__ import annotations

from typing import Any

import yaml

_LONGEST = 60
_LONGEST_WORD = 16


def in_yaml(data: Any) -> str:
    """Data as YAML: each key on a line of its own, and what is short within one line.

    Args:
        data: mappings, lists, texts and numbers.
    """
    return "\n".join(_lines(data, 0))


def _lines(data: Any, depth: int) -> list[str]:
    if isinstance(data, dict) and data:
        return [line for key, value in data.items() for line in _entry(_word(key), value, depth)]
    if isinstance(data, list) and data:
        return [line for item in data for line in _after_dash(item, depth)]
    return [_flow(data)]


def _entry(key: str, value: Any, depth: int) -> list[str]:
    if isinstance(value, str) and "\n" in value:
        return [f"{key}: |", *(f"  {line}".rstrip() for line in value.rstrip("\n").split("\n"))]
    if not isinstance(value, dict | list):
        return [f"{key}: {_word(value)}"]
    if not value or _is_short(value, depth):
        return [f"{key}: {_flow(value)}"]
    return [f"{key}:", *(f"  {line}" for line in _lines(value, depth + 1))]


def _is_short(value: Any, depth: int) -> bool:
    """Whether a list or a mapping is read best within a line: of words, or of a few values."""
    if isinstance(value, list):
        return all(len(_flow(item)) <= _LONGEST_WORD and _is_word(item) for item in value)
    simple = all(_is_word(item) or _is_short(item, 0) for item in value.values())
    return simple and depth > 0 and len(_flow(value)) <= _LONGEST


def _is_word(item: Any) -> bool:
    return not isinstance(item, dict | list)


def _after_dash(item: Any, depth: int) -> list[str]:
    if _is_word(item):
        return [f"- {_word(item)}"]
    first, *rest = _lines(item, depth + 1)
    return [f"- {first}", *(f"  {line}" for line in rest)]


def _flow(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{_flow(key)}: {_flow(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    return _word(value, within=True)


def _word(value: Any, *, within: bool = False) -> str:
    """A single value, in quotation marks where YAML would take it for something else.

    Args:
        value: a text or a number.
        within: whether it stands within a line, between brackets or braces.
    """
    if not isinstance(value, str):
        return str(value).lower() if isinstance(value, bool) else str(value)
    line = f"[{value}]" if within else f"- {value}"
    if _texts_in(line) == [value]:
        return value
    if '"' in value or "\\" in value:
        return "'" + value.replace("'", "''") + "'"
    return f'"{value}"'


def _texts_in(line: str) -> list[str] | None:
    """The items of a list of texts, of which nothing is constructed; None of anything else."""
    try:
        node = yaml.compose(line, Loader=yaml.SafeLoader)
    except yaml.YAMLError:
        return None
    if not isinstance(node, yaml.SequenceNode):
        return None
    texts = [item.value for item in node.value if isinstance(item, yaml.ScalarNode)]
    return texts if len(texts) == len(node.value) else None
