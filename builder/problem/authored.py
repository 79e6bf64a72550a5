"""An author's own texts: their placeholders, words for steps, and questions."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass, replace

from builder.problem.body import Body
from builder.problem.faults.gathering import Faults, Mark, meant, one_of, quoted
from builder.problem.leaving_out import check_places, read_instead_of
from builder.problem.model import Choice, OwnQuestion, StepWords
from builder.problem.shape import ChoiceShape, QuestionShape, StepWordsShape, keys_of
from builder.problem.typed import (
    as_items,
    as_map,
    as_text,
    needed,
    refuse_unknown_keys,
    yes_or_no,
)
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text, Unusable

_MATHS = re.compile(r"\\\$|\$\$[^$]+\$\$|\$(?![\s$])[^$\n]+?(?<!\s)\$(?!\d)")
_MOST_PLACED = 30
_PIECE = re.compile(r"\{\{|\}\}|\{([^{}]*)\}|[{}]")
_PARTS = ("name", "value")
_CHARGED = "charged"


@dataclass(frozen=True)
class Authored:
    """Reads an author's own texts.

    Attributes:
        body: what the problem is about.
        faults: of the file.
    """

    body: Body
    faults: Faults

    def text(self, node: Node, expected: str) -> str | None:
        """A text whose placeholders have been checked."""
        text = as_text(node, expected, self.faults)
        if text is None:
            return None
        self._check_placeholders(text)
        return text.value.strip()

    def _check_placeholders(self, text: Text) -> None:
        without_maths = _MATHS.sub(lambda maths: " " * len(maths.group()), text.value)
        for piece in _PIECE.finditer(without_maths):
            if piece.group() in ("{{", "}}"):
                continue
            if piece.group() in ("{", "}"):
                self.faults.add(self._place(text, piece), f'a single "{piece.group()}" in the text',
                                "braces around a name, such as {C1}",
                                'Complete the pair, or double it ("{{" or "}}") to print a '
                                "brace.")  # fmt: skip
            elif self.body.mentions is not None:
                self._check_reference(text, piece, self.body.mentions)

    def _place(self, text: Text, piece: re.Match[str]) -> Mark:
        """Where a piece of a text stands; of more than anybody reads, where the text does."""
        if len(self.faults) >= _MOST_PLACED:
            return text.at
        before = text.value[: piece.start()]
        return text.place_of(piece.group(), self.faults.lines, before=before)

    def _check_reference(self, text: Text, piece: re.Match[str], names: tuple[str, ...]) -> None:
        reference = piece.group(1)
        of, dot, part = reference.partition(".")
        found = f'the placeholder "{{{" ".join(reference.split())[:40]}}}"'
        few = names if len(names) <= 8 else (*names[:7], "another element")
        if of not in names:
            advice = "Correct the name, or double the braces to print them: {{ and }}."
            advice = self.body.advice_on(of) or advice
            at, expected = self._place(text, piece), f"a name of the circuit: {one_of(few)}"
            self.faults.add(at, found, expected, meant(of, names, advice))
        elif dot and part not in self._parts_of(of):
            known = [f"{of}.{known}" for known in self._parts_of(of)]
            at, expected = self._place(text, piece), one_of([f"{{{one}}}" for one in (of, *known)])
            self.faults.add(at, found, expected, meant(reference, known, "Choose one of these."))

    def _parts_of(self, of: str) -> tuple[str, ...]:
        """What may stand after the point."""
        return (*_PARTS, _CHARGED) if of in self.body.charged else _PARTS

    def words(self, entry: Entry) -> dict[str, StepWords]:
        """The author's own words for steps, by step id."""
        node = as_map(entry.value, "step ids with your words", self.faults)
        if node is None:
            return {}
        known = self.body.step_ids
        words = {}
        for step in node.entries:
            if known and step.key.value not in known:
                few = known if len(known) <= 8 else (*known[:7], "another step's id")
                self.faults.add(step.key.at, f"the step {quoted(step.key.value)}", one_of(few),
                                meant(step.key.value, known,
                                      "Run stepwell solve to see all ids."))  # fmt: skip
            at = (step.key.at.line, step.key.at.column)
            words[step.key.value] = replace(self._step_words(step.value), at=at)
        return words

    def _step_words(self, node: Node) -> StepWords:
        if not isinstance(node, Map):
            return StepWords(reason=self.text(node, "the reason, or goal: and reason: below"))
        mapping = as_map(node, "goal or reason", self.faults)
        if mapping is None:
            return StepWords()
        refuse_unknown_keys(mapping, keys_of(StepWordsShape), self.faults)
        own = {
            entry.key.value: self.text(entry.value, f"the {entry.key.value} as a text")
            for entry in mapping.entries
        }
        return StepWords(own.get("goal"), own.get("reason"))

    def questions(self, entry: Entry, left_out: Collection[str]) -> tuple[OwnQuestion, ...]:
        """The author's own questions.

        Args:
            entry: ``questions:`` with its list.
            left_out: the generated questions that the same file leaves out.
        """
        listed = as_items(entry.value, "a list of questions", self.faults)
        if listed is not None:
            check_places(listed, left_out, self.faults)
        read = [self._question(item) for item in listed.items] if listed else []
        return tuple(question for question in read if question is not None)

    def _question(self, item: Node) -> OwnQuestion | None:
        expected = "a question with its answer or its choices"
        node = as_map(item, expected, self.faults)
        if node is None:
            return None
        refuse_unknown_keys(node, keys_of(QuestionShape), self.faults)
        asked = needed(node, "ask", "ask: with the question", keys_of(QuestionShape), self.faults)
        ask = self.text(asked.value, "the question as a text") if asked else None
        answer, choices = node.get("answer"), node.get("choices")
        instead_of = read_instead_of(node, self.faults)
        if answer is not None and choices is not None:
            self.faults.add(choices.key.at, "choices beside an answer", "only one of the two",
                            "Delete one of them.")  # fmt: skip
        elif answer is not None:
            name = self.body.answer(answer.value)
            return OwnQuestion(ask, name, instead_of=instead_of) if ask and name else None
        elif choices is not None:
            options = self._choices(choices)
            return OwnQuestion(ask, None, options, instead_of) if ask and options else None
        elif asked is not None:
            self.faults.add(asked.key.at, "a question without an answer or choices",
                            "answer: with a quantity, or choices: with options",
                            "Add answer: with a quantity, such as {charge: C2}, or "
                            "choices:.")  # fmt: skip
        return None

    def _choices(self, entry: Entry) -> tuple[Choice, ...]:
        listed = as_items(entry.value, "a list of options", self.faults)
        if listed is None:
            return ()
        before = len(self.faults)
        read = [self._choice(item) for item in listed.items]
        options = tuple(choice for choice in read if choice is not None)
        if len(self.faults) > before or len(options) < len(read):
            return ()
        if len(options) < 2:
            self.faults.add(entry.key.at, f"{_number(len(options))} to choose from",
                            "at least two options",
                            "Add the others, each after a dash.")  # fmt: skip
            return ()
        self._check_right(entry, options)
        self._check_distinct(listed, options)
        return options

    def _choice(self, item: Node) -> Choice | None:
        if isinstance(item, Text):
            text = self.text(item, "an option")
            return Choice(text, right=False) if text else None
        if isinstance(item, Unusable):
            return None
        node = as_map(item, "an option with its text", self.faults)
        if node is None:
            return None
        refuse_unknown_keys(node, keys_of(ChoiceShape), self.faults)
        written = needed(
            node, "text", "text: with what the option says", keys_of(ChoiceShape), self.faults
        )
        text = self.text(written.value, "what the option says") if written else None
        right, reply = node.get("right"), node.get("reply")
        is_right = yes_or_no(right.value, self.faults) if right else False
        answer = self.text(reply.value, "the reply as a text") if reply else None
        return Choice(text, is_right, answer or "") if text else None

    def _check_right(self, entry: Entry, options: tuple[Choice, ...]) -> None:
        right = sum(choice.right for choice in options)
        if right != 1:
            self.faults.add(entry.key.at,
                            "options none of which is right" if right == 0
                            else f"{right} options that are right",
                            "exactly one right option",
                            "Add right: yes to one of them." if right == 0
                            else "Keep right: yes at one of them.")  # fmt: skip

    def _check_distinct(self, listed: Items, options: tuple[Choice, ...]) -> None:
        seen: set[str] = set()
        for item, choice in zip(listed.items, options, strict=True):
            if choice.text in seen:
                self.faults.add(item.at, f"the option {quoted(choice.text)} a second time",
                                "options that differ", "Change one of the two.")  # fmt: skip
            seen.add(choice.text)


def _number(count: int) -> str:
    return "only one option" if count == 1 else "no options"
