"""Which of the questions that a lesson gets by itself an author leaves out or puts another for."""

from __future__ import annotations

from collections.abc import Collection

from builder.problem.faults.gathering import Faults, quoted
from builder.problem.model import GENERATED
from builder.problem.typed import as_items, choice_of
from builder.problem.yaml_text.located import Entry, Items, Map


def read_left_out(entry: Entry, faults: Faults) -> tuple[str, ...]:
    """The questions that ``leave-out:`` names, each once.

    Args:
        entry: the key with its list.
        faults: takes words that are no question's, and words that stand twice.
    """
    listed = as_items(entry.value, "a list of questions, such as [order, predict]", faults)
    left_out: dict[str, None] = {}
    for item in listed.items if listed else ():
        word = choice_of(item, GENERATED, faults)
        if word is None:
            continue
        if word in left_out:
            faults.add(item.at, f"{quoted(word)} a second time", "each question once",
                       "Delete one of the two.")  # fmt: skip
        left_out[word] = None
    return tuple(left_out)


def read_instead_of(question: Map, faults: Faults) -> str | None:
    """The generated question whose place an author's own one takes, or None."""
    entry = question.get("instead-of")
    return choice_of(entry.value, GENERATED, faults) if entry else None


def check_places(questions: Items, left_out: Collection[str], faults: Faults) -> None:
    """Note a fault where two questions want one place, or one that is left out as well."""
    taken: set[str] = set()
    for question in questions.items:
        entry = question.get("instead-of") if isinstance(question, Map) else None
        word = getattr(entry.value, "value", None) if entry else None
        if entry is None or word not in GENERATED:
            continue
        if word in taken:
            faults.add(entry.value.at, f"a second question instead of {quoted(word)}",
                       "one question for each place",
                       "Take instead-of: out of one of them.")  # fmt: skip
        elif word in left_out:
            faults.add(entry.value.at, f"a question instead of {quoted(word)}, which leave-out: "
                       "names as well", "only one of the two",
                       f"Take {word} out of leave-out:; your question replaces it.")  # fmt: skip
        taken.add(word)
