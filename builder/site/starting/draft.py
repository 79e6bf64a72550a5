"""The text of a new problem: a ready one with its author's title, level and values in place."""

from __future__ import annotations

from dataclasses import dataclass, replace
from string import Template

import yaml

from builder.errors import FaultyFile
from builder.problem import read_problem_text
from builder.problem.faults.gathering import Faults, quoted
from builder.problem.model import Problem, Unit
from builder.problem.relations.quantities import read_stated
from builder.problem.varying.stated import StatedValue, stated_values
from builder.problem.yaml_text.located import Text
from builder.quantity.kinds import KINDS as QUANTITIES
from builder.site.schema_files import modeline
from builder.site.starting.kinds import Kind
from builder.solution import solve

_COMMENTS = 28
"""The room for a level, so that the comment after it stands below the others."""


class NotThat(Exception):
    """Raised when something typed cannot stand where it should; says why in a sentence."""


@dataclass(frozen=True)
class Draft:
    """A problem that is being written.

    Attributes:
        text: of its file, which can be read.
        slug: its name.
        unit: that it will belong to.
    """

    text: str
    slug: str
    unit: Unit

    @property
    def problem(self) -> Problem:
        """The problem as it can be read."""
        return read_problem_text(self.text, f"{self.slug}.yml", self.unit)

    @property
    def values(self) -> tuple[StatedValue, ...]:
        """The values that it states, in its order."""
        return stated_values(self.problem)

    def typed(self, value: StatedValue) -> str:
        """A value as it stands in the text."""
        return self.text[value.start : value.end]

    def with_value(self, number: int, typed: str) -> Draft:
        """The same with another value; ``number`` counts the stated ones from 0.

        Raises:
            NotThat: if that is no value which can stand there.
        """
        place = self.values[number]
        typed = " ".join(typed.split())
        faults, expected = Faults(""), self._expected(place)
        measure = read_stated(Text(typed, place.at), faults, expected) if typed else None
        if len(faults):
            raise NotThat(sentence(faults.as_error()))
        if measure is None or measure.kind != place.measure.kind:
            raise NotThat(f"found {quoted(typed)}; expected {expected}.")
        changed = replace(self, text=self.text[: place.start] + typed + self.text[place.end :])
        try:
            changed.problem  # noqa: B018 - reading it tells whether it can be read
        except FaultyFile as error:
            raise NotThat(sentence(error)) from None
        return changed

    def _expected(self, place: StatedValue) -> str:
        return f"{QUANTITIES[place.measure.kind].a_noun} such as {self.typed(place)}"

    def solved(self) -> None:
        """Solve it, to see that it has an answer.

        Raises:
            NotThat: if it has none.
        """
        try:
            solve(self.problem)
        except FaultyFile as error:
            raise NotThat(sentence(error)) from None


def sentence(error: FaultyFile) -> str:
    """The first fault, without its place."""
    fault = error.faults[0]
    return f"found {fault.found}; expected {fault.expected}. {fault.advice}".strip()


def draft(kind: Kind, slug: str, unit: Unit, *, title: str = "", level: str = "core") -> Draft:
    """The ready problem of a kind.

    Args:
        kind: what to start from.
        slug: its name.
        unit: gives the objectives that it may name.
        title: its heading; that of the ready problem if empty.
        level: intro, core or stretch.

    Raises:
        FaultyFile: if a problem cannot have that title.
    """
    text = Template(kind.text()).substitute(
        title=in_yaml(title or kind.title),
        level=f"{level:{_COMMENTS}}",
        objectives=_objectives(kind, unit),
    )
    made = Draft(f"{modeline('problem', '..')}\n{text}", slug, unit)
    made.problem  # noqa: B018 - reading it tells whether it can be read
    return made


def _objectives(kind: Kind, unit: Unit) -> str:
    """The line that names objectives: those that the unit has, or else how to name them."""
    there = [id for id in kind.objectives if id in unit.objectives]
    if there:
        return f"objectives: [{', '.join(there)}]"
    example = next(iter(unit.objectives), "my-objective")
    return f"# objectives: [{example}]      # what it teaches, by the ids in unit.yml"


def in_yaml(text: str) -> str:
    """A line of text as it stands in YAML, in quotation marks where it needs them."""
    line = " ".join(text.split())
    return yaml.safe_dump([line], allow_unicode=True, width=10_000)[2:].strip()
