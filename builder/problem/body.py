"""What a problem is about, as far as it could be read: one class for each kind."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from typing import Any

from builder.problem.model import Problem
from builder.problem.yaml_text.located import Entry, Node
from builder.quantity.names import Name


class Body(ABC):
    """The part of a problem that differs from kind to kind."""

    @property
    @abstractmethod
    def mentions(self) -> tuple[str, ...] | None:
        """The names that an author's texts may use in braces; None if not all are known."""

    @property
    @abstractmethod
    def step_ids(self) -> tuple[str, ...]:
        """The ids of all steps that a solution can have; empty if they are not known."""

    @abstractmethod
    def find(self, entry: Entry) -> tuple[Name, ...]:
        """The names under ``find:``, each once, in the author's order."""

    @abstractmethod
    def answer(self, node: Node) -> Name | None:
        """The one quantity that answers a question of the author's own."""

    @abstractmethod
    def problem(self, common: Mapping[str, Any]) -> Problem | None:
        """The problem, or None if a fault keeps it from being built.

        Args:
            common: what all kinds have in common, by the names of ``Problem``'s fields.
        """

    @property
    def charged(self) -> tuple[str, ...]:
        """The names of which a text may tell what they are charged with at first."""
        return ()

    def advice_on(self, mention: str) -> str | None:
        """What to do about a name in braces that is none of ``mentions``; None for the usual."""
        return None
