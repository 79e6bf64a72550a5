"""A key and its value run together for want of a space: ``C1:10 uF``."""

from __future__ import annotations

import re
from dataclasses import replace

from builder.problem.faults.gathering import Correction, Mark, shortened
from builder.problem.yaml_text.located import Node, Text

_TOGETHER = r"(?P<key>[A-Za-z]\w*):(?P<value>[^\s:/].*)$"
# What is no address: https://… has its colon rightly.
RUN_TOGETHER = re.compile(f"^{_TOGETHER}")
"""A text that was meant to be a key and its value."""
LINE_RUN_TOGETHER = re.compile(rf"^\s*(?:- +)?{_TOGETHER}")
"""The same as a whole line, behind a dash or not."""


def missing_space(node: Node) -> Correction | None:
    """Advice for a text such as ``C1:10 uF``."""
    text = node.value.strip() if isinstance(node, Text) else ""
    found = RUN_TOGETHER.match(text)
    if found is None:
        return None
    spaced = f"{found['key']}: {found['value']}"
    return Correction(f'Put a space after the colon: "{shortened(spaced)}".', text, spaced)


def parted(text: Text) -> tuple[Text, Text] | None:
    """The key and the value that a text was meant to be; None if it is not plain where they are."""
    found = RUN_TOGETHER.match(text.value)
    line, column = text.at.line, text.at.column
    if found is None or text.until != Mark(line, column + len(text.value)):
        return None
    start = found.start("value")
    begun = text.span[0] if text.span else 0
    key = replace(text, value=found["key"], at=Mark(line, column, start - 1),
                  until=Mark(line, column + start - 1),
                  span=(begun, begun + start - 1))  # fmt: skip
    value = replace(text, value=found["value"], at=Mark(line, column + start, len(found["value"])),
                    span=(begun + start, begun + len(text.value)))  # fmt: skip
    return key, value
