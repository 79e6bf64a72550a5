"""What is odd about the questions that an author wrote."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from unicodedata import normalize

from builder.errors import Oddity
from builder.lesson.odd.looking import Look
from builder.problem.faults.gathering import quoted
from builder.problem.model import OwnQuestion
from builder.problem.yaml_text.located import Items, Map, Node, Text
from builder.quantity.measure import MeasureError, read_measure

ALIKE_OPTIONS = "alike-options"
LONGEST_IS_RIGHT = "longest-is-right"
GIVEN_AWAY = "given-away"
ASKED_AGAIN = "asked-again"
_PLACEHOLDER = re.compile(r"\{([A-Za-z][A-Za-z0-9_]*)(?:\.(name|value|charged))?\}")
_MARKUP = re.compile(r"[*_`$\\{}]|[.!]+$")
_BY_FAR = 2
_LONG = 40
"""Signs; a short option gives nothing away by being twice as long as another."""


@dataclass(frozen=True)
class _Placed:
    """A question with its place in the file."""

    question: OwnQuestion
    node: Map

    def text(self, key: str) -> Node:
        """The value of one of its keys; the question itself without that key."""
        entry = self.node.get(key)
        return entry.value if entry else self.node

    @property
    def options(self) -> tuple[Text | Map, ...]:
        """The places of its options."""
        listed = self.text("choices")
        items = listed.items if isinstance(listed, Items) else ()
        return tuple(item for item in items if isinstance(item, Text | Map))


def _questions(look: Look) -> tuple[_Placed, ...]:
    """The author's questions; each item of the file's list is one, as the file is sound."""
    nodes = [item for item in look.items("questions") if isinstance(item, Map)]
    return tuple(map(_Placed, look.problem.questions, nodes))


def alike_options(look: Look) -> Iterator[Oddity]:
    """An option that says the same as an earlier one, or the same number in another unit."""
    for placed in _questions(look):
        seen: dict[object, str] = {}
        for choice, node in zip(placed.question.choices, placed.options, strict=True):
            meaning = _number_in(_filled(choice.text, look)) or _said(choice.text, look)
            if meaning in seen:
                yield look.oddity(
                    _text_of(node).at, ALIKE_OPTIONS,
                    f"The option {quoted(choice.text)} says the same as {quoted(seen[meaning])}.",
                    "Change one of the two, so that only one can be right.",
                )  # fmt: skip
            seen.setdefault(meaning, choice.text)


def _text_of(option: Text | Map) -> Node:
    entry = option.get("text") if isinstance(option, Map) else None
    return entry.value if entry else option


def _said(text: str, look: Look) -> str:
    """A text without its markup, and with what its placeholders stand for."""
    plain = _MARKUP.sub("", _filled(text, look))
    # C₁ is what some type for {C1.name}.
    return " ".join(normalize("NFKC", plain).casefold().split())


def _filled(text: str, look: Look) -> str:
    def fill(match: re.Match[str]) -> str:
        mention = look.display.mention(match[1])
        if mention is None:
            return match[0]
        symbol = look.display.symbol(mention.symbol).text
        number = mention.charged if match[2] == "charged" else mention.number
        value = look.display.shown(number).text if number else symbol
        if match[2] is None:
            return f"{symbol} ({value})" if mention.both else value
        return symbol if match[2] == "name" else value

    return _PLACEHOLDER.sub(fill, text)


def _number_in(text: str) -> tuple[str, object] | None:
    """The value of a text that is nothing but a number with its unit."""
    try:
        measure = read_measure(_MARKUP.sub("", text))
    except MeasureError:
        return None
    return measure.kind, measure.value


def longest_is_right(look: Look) -> Iterator[Oddity]:
    """A right option that stands out by its length, as it is often found to.

    Options should be about as long as each other: Haladyna, Downing and Rodriguez, Applied
    Measurement in Education 15, 309 (2002), from memory.
    """
    for placed in _questions(look):
        choices = placed.question.choices
        right = [len(_filled(choice.text, look)) for choice in choices if choice.right]
        wrong = [len(_filled(choice.text, look)) for choice in choices if not choice.right]
        if right and right[0] >= max(_LONG, _BY_FAR * max(wrong)):
            at = next(number for number, choice in enumerate(choices) if choice.right)
            yield look.oddity(
                _text_of(placed.options[at]).at, LONGEST_IS_RIGHT,
                "The right option is at least twice as long as any other.",
                "Shorten it, or move its reason into the reply: whoever guesses takes the longest.",
            )  # fmt: skip


def answers_given_away(look: Look) -> Iterator[Oddity]:
    """A typed answer that the problem states."""
    for placed in _questions(look):
        answer = placed.question.answer
        if answer is None or look.display.resolve(answer) not in look.solution.givens:
            continue
        shown = look.display.shown(answer).text
        yield look.oddity(placed.text("answer").at, GIVEN_AWAY,
                           f"The answer, {shown}, is given in the problem.",
                           "Ask for something that has to be found.")  # fmt: skip


def repeated_questions(look: Look) -> Iterator[Oddity]:
    """A question that says the same as an earlier one."""
    seen: dict[str, int] = {}
    for placed in _questions(look):
        said = _said(placed.question.ask, look)
        if said in seen:
            yield look.oddity(placed.text("ask").at, ASKED_AGAIN,
                               f"The question is the same as the one on line {seen[said]}.",
                               "Ask something else, or delete one of the two.")  # fmt: skip
        seen.setdefault(said, placed.text("ask").at.line)
