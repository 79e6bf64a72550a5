"""Reading a file of YAML into nodes that know their places.

The file is read as a stream of events, so that nothing is constructed, no alias is expanded
and no depth of nesting can exhaust the stack.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

import yaml

from builder.problem.faults.gathering import LINE_END, START, Faults, Mark, quoted
from builder.problem.limits import DEEPEST, LARGEST_FILE, MOST_NODES
from builder.problem.yaml_text.decoding import place_after, too_large
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text, Unusable
from builder.problem.yaml_text.missing_space import missing_space, parted
from builder.problem.yaml_text.mistakes import Explained
from builder.problem.yaml_text.trouble import explain

KEYS = "keys with their values, such as title: Two lamps"
"""What is expected of a file that has none."""
MOST_MENDED = 8
"""After how many lines that are no YAML the rest of a file is left unread."""

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
# The printable characters of YAML 1.1, section 5.1; a byte order mark only at the start.
_NO_TEXT = re.compile(
    "[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)


def compose(text: str, faults: Faults) -> Map:
    """Read a YAML file whose top level is a mapping.

    Args:
        text: the whole file.
        faults: gathers what does not keep the rest from being read: duplicate keys, anchors,
            aliases, tags, and lines that are no YAML where it is clear what was meant.

    Raises:
        FaultyFile: if there is nothing to read on from.
    """
    if len(text) > LARGEST_FILE:
        raise too_large(faults)
    text = text.removeprefix("\ufeff")
    faults.lines = LINE_END.split(text)
    _refuse_control_characters(text, faults)
    root = _composed(text, faults)
    if root is None or (isinstance(root, Text) and not root.value.strip()):
        faults.add(START, "an empty file", KEYS,
                   "Write the file, or delete it.")  # fmt: skip
    elif not isinstance(root, Map):
        what = "a list" if isinstance(root, Items) else _what_text(root)
        faults.add(root.at, what, KEYS,
                   "Start each line with a key, a colon and a space.")  # fmt: skip
    else:
        return root
    raise faults.as_error()


def _composed(text: str, faults: Faults) -> Node | None:
    """What the file holds; a line that is no YAML is read as it was probably meant."""
    for mended in range(MOST_MENDED + 1):
        composer = _Composer(faults)
        try:
            for event in yaml.parse(text, Loader=_LOADER):
                composer.take(event)
        except yaml.YAMLError as error:
            if mended == MOST_MENDED:
                break
            text = _mended(text, error, faults)
        else:
            return composer.root
    raise faults.as_error()


def _mended(text: str, error: yaml.YAMLError, faults: Faults) -> str:
    """The text with one line as it was probably meant.

    Raises:
        FaultyFile: if that is not known, or the file can be read no further with it.
    """
    lines = LINE_END.split(text)
    told = explain(error, lines)
    if told.line:
        read_as = (*lines[: told.at.line - 1], told.read_as or told.line, *lines[told.at.line :])
        after = "\n".join(told.all_lines or read_as)
        following = _unreadable(after)
        if following is None or _is_another(following, told, lines):
            faults.add_mended(told.at, (told.found, told.expected, told.advice), told.line,
                              same_columns=bool(told.all_lines))  # fmt: skip
            return after
    faults.add(told.at, told.found, told.expected, told.advice)
    raise faults.as_error() from None


def _is_another(following: Explained, told: Explained, lines: list[str]) -> bool:
    """Whether what is wrong after one line is mended is a mistake of its own.

    A line that does not line up with the one just mended rather shows that it was another thing
    that was meant.
    """
    between = lines[told.at.line : following.at.line - 1]
    next_to_it = not any(line.strip() for line in between)
    return following.at.line > told.at.line and not (following.of_layout and next_to_it)


def _unreadable(text: str) -> Explained | None:
    """What is wrong with the first line that is no YAML."""
    try:
        for _ in yaml.parse(text, Loader=_LOADER):
            pass
    except yaml.YAMLError as error:
        return explain(error, LINE_END.split(text))
    return None


def _what_text(root: Node) -> str:
    return f"only the text {quoted(root.value)}" if isinstance(root, Text) else "an alias"


def _refuse_control_characters(text: str, faults: Faults) -> None:
    bad = _NO_TEXT.search(text)
    if bad is None:
        return
    faults.add(
        place_after(text[: bad.start()]),
        f"an invisible character that is no text (U+{ord(bad.group()):04X})",
        "text only",
        "Delete the character, or save the file again as plain text.",
    )
    raise faults.as_error()


def _span(event: yaml.ScalarEvent) -> tuple[int, int] | None:
    """Where a value's characters stand; those of a block are indented, so they have no span."""
    if event.style in ("|", ">") or not event.start_mark or not event.end_mark:
        return None
    marks = 1 if event.style in ("'", '"') else 0
    return event.start_mark.index + marks, event.end_mark.index - marks


def _mark_of(event: yaml.Event, lines: list[str]) -> Mark:
    """Where an event starts, and how much of that line it takes."""
    start, end = event.start_mark, event.end_mark
    if not start:
        return START
    if end is None:
        return Mark(start.line + 1, start.column + 1)
    if end.line == start.line:
        return Mark(start.line + 1, start.column + 1, max(end.column - start.column, 1))
    line = lines[start.line].rstrip() if start.line < len(lines) else ""
    return Mark(start.line + 1, start.column + 1, max(len(line) - start.column, 1))


@dataclass
class _Open:
    """A mapping or a list that has not ended yet."""

    at: Mark
    is_map: bool
    flow: bool = False
    items: list[Node] = field(default_factory=list)
    entries: list[Entry] = field(default_factory=list)
    seen: dict[str, Mark] = field(default_factory=dict)
    key: Node | None = None

    def closed(self, end: Mark | None) -> Node:
        at = self.at
        if self.flow and end and end.line == at.line:
            at = replace(at, width=end.column - at.column)
        if self.is_map:
            return Map(tuple(self.entries), at)
        return Items(tuple(self.items), at)


def _is_empty(value: Node) -> bool:
    return isinstance(value, Text) and not value.value


class _Composer:
    """Builds nodes from YAML's events with a stack of its own."""

    def __init__(self, faults: Faults) -> None:
        self.faults = faults
        self.root: Node | None = None
        self._open: list[_Open] = []
        self._nodes = 0
        self._documents = 0

    def take(self, event: yaml.Event) -> None:
        """Take the next event of the file."""
        at = _mark_of(event, self.faults.lines)
        match event:
            case yaml.DocumentStartEvent():
                self._count_document(at)
            case yaml.AliasEvent():
                self.faults.add(at, f'the alias "*{event.anchor}"', "the value itself",
                                "Write the value out, or put a text that starts with * "
                                "between quotes.")  # fmt: skip
                self._put(Unusable(at))
            case yaml.NodeEvent():
                self._refuse_extras(event, at)
                self._start(event, at)
            case yaml.CollectionEndEvent():
                end = event.end_mark
                self._put(self._open.pop().closed(
                    Mark(end.line + 1, end.column + 1) if end else None))  # fmt: skip

    def _count_document(self, at: Mark) -> None:
        self._documents += 1
        if self._documents > 1:
            self._stop(at, 'a second document (after "---")', "one problem in a file",
                       "Give each problem a file of its own.")  # fmt: skip

    def _refuse_extras(self, event: yaml.NodeEvent, at: Mark) -> None:
        if event.anchor is not None:
            self.faults.add(at, f'the anchor "&{event.anchor}"', "the value alone",
                            "Delete it, or put a text that starts with & between "
                            "quotes.")  # fmt: skip
        tag = getattr(event, "tag", None)
        if tag is not None:
            short = tag.replace("tag:yaml.org,2002:", "!!")
            self.faults.add(at, f"the tag {quoted(short)}", "the value alone",
                            "Delete it, or put a text that starts with ! between "
                            "quotes.")  # fmt: skip

    def _start(self, event: yaml.NodeEvent, at: Mark) -> None:
        self._nodes += 1
        if self._nodes > MOST_NODES:
            self._stop(at, f"more than {MOST_NODES} keys and values", "a file of ordinary size",
                       "Check that it is the right file.")  # fmt: skip
        if isinstance(event, yaml.ScalarEvent):
            self._put(self._text(event, at))
            return
        if len(self._open) >= DEEPEST:
            self._stop(at, f"more than {DEEPEST} levels inside each other",
                       f"at most {DEEPEST}", "Check the brackets and the indentation.")  # fmt: skip
        self._open.append(_Open(at, isinstance(event, yaml.MappingStartEvent),
                                flow=bool(getattr(event, "flow_style", False))))  # fmt: skip

    def _text(self, event: yaml.ScalarEvent, at: Mark) -> Node:
        bad = _NO_TEXT.search(event.value)
        if bad is None:
            end = event.end_mark
            until = Mark(end.line + 1, end.column + 1) if end else None
            return Text(event.value, at, span=_span(event), until=until)
        self.faults.add(at, f"an escape for a character that is no text (U+{ord(bad.group()):04X})",
                        "text only", "Delete the escape.")  # fmt: skip
        return Unusable(at)

    def _put(self, node: Node) -> None:
        if not self._open:
            self.root = node
            return
        parent = self._open[-1]
        if not parent.is_map:
            parent.items.append(node)
        elif parent.key is None:
            parent.key = node
        else:
            self._put_entry(parent, parent.key, node)
            parent.key = None

    def _put_entry(self, parent: _Open, key: Node, value: Node) -> None:
        # In braces, a key and its value that run together are a key without a value to YAML.
        spaced = missing_space(key) if parent.flow and _is_empty(value) else None
        if spaced is not None and isinstance(key, Text) and (pair := parted(key)):
            self.faults.add(key.at, quoted(key.value), "a space after the colon", spaced)
            key, value = pair
        if not isinstance(key, Text) or not key.value.strip():
            if not isinstance(key, Unusable):
                what = "an empty key" if isinstance(key, Text) else "a key that is no single word"
                self.faults.add(key.at, what, "a word before the colon",
                                "Put a text that starts with a bracket or a colon "
                                "between quotes.")  # fmt: skip
            return
        first = parent.seen.setdefault(key.value, key.at)
        if first is not key.at:
            self.faults.add(key.at, f"the key {quoted(key.value)} a second time",
                            f"each key once (it stands on line {first.line} already)",
                            "Delete one of the two, or give it another name.")  # fmt: skip
            return
        if isinstance(value, Text) and not value.value:
            value = Text("", key.at, key.value, until=key.until)
        parent.entries.append(Entry(key, value))

    def _stop(self, at: Mark, found: str, expected: str, advice: str) -> None:
        self.faults.add(at, found, expected, advice)
        raise self.faults.as_error()
