"""Reading the files of problems and of a unit."""

from __future__ import annotations

import re
import stat
from dataclasses import dataclass
from pathlib import Path

from pydantic import BaseModel

from builder.errors import FaultyFile
from builder.problem.authored import Authored
from builder.problem.choosing import read_body
from builder.problem.faults.gathering import NOWHERE, START, Faults, meant, one_of, quoted
from builder.problem.faults.near_file import near_file, problems_in
from builder.problem.faults.teaching import shown_in
from builder.problem.leaving_out import read_left_out
from builder.problem.limits import LARGEST_FILE
from builder.problem.model import LEVELS, Problem, Unit
from builder.problem.shape import (
    FEWEST_DIGITS,
    MOST_DIGITS,
    SYMBOLS,
    ProblemShape,
    UnitShape,
    keys_of,
)
from builder.problem.teaching_path import read_path
from builder.problem.typed import (
    as_items,
    as_map,
    as_text,
    check_id,
    choice_of,
    needed,
    refuse_unknown_keys,
    whole_number,
)
from builder.problem.varying.reading import read_wishes
from builder.problem.yaml_text.composing import compose
from builder.problem.yaml_text.decoding import decode
from builder.problem.yaml_text.located import Map, Node, Text, Unusable

_KEYS = keys_of(ProblemShape)
_SLUG = re.compile(r"(?!(?:index|by-objective)$)\w[\w-]*", re.IGNORECASE)


def read_problem(path: Path, *, unit: Unit | None = None, name: str | None = None) -> Problem:
    """Read the file of a problem.

    Args:
        path: the file; its name without ending becomes the problem's slug.
        unit: gives the default of ``digits`` and the objectives that a problem may name;
            without one, any objective is taken.
        name: how faults name the file; the path if None.

    Raises:
        FaultyFile: with all faults that can be found in one run, in the order of the file.
    """
    faults = Faults(name or str(path))
    text = decode(_bytes_of(path, faults), faults)
    return _problem(text, faults, path, unit, with_wishes=True)


def read_problem_text(
    text: str, path_name: str, unit: Unit | None = None, *, with_wishes: bool = True
) -> Problem:
    """Read a problem from the text of its file.

    Args:
        text: YAML.
        path_name: how faults name the file; gives the slug.
        unit: as for ``read_problem``.
        with_wishes: whether what it says of other numbers is read too; no page needs it.

    Raises:
        FaultyFile: with all faults, in the order of the file.
    """
    return _problem(text, Faults(path_name), Path(path_name), unit, with_wishes=with_wishes)


def read_unit(path: Path, *, folder: str = "problems") -> Unit:
    """Read the file that describes a unit.

    Args:
        path: the file; the lesson pages that it names stand in its folder.
        folder: the folder of the problems, seen from there.

    Raises:
        FaultyFile: with all faults, in the order of the file.
    """
    faults = Faults(str(path))
    text = decode(_bytes_of(path, faults), faults)
    try:
        return _unit(compose(text, faults), path.parent, folder, faults)
    except FaultyFile as error:
        raise shown_in(text, error, UnitShape) from None


def _unit(root: Map, home: Path, folder: str, faults: Faults) -> Unit:
    refuse_unknown_keys(root, keys_of(UnitShape), faults)
    title = _title(root, UnitShape, "Harbour Lights", faults)
    digits = _digits(root, faults)
    symbols = root.get("symbols")
    chosen = choice_of(symbols.value, SYMBOLS, faults) if symbols else None
    objectives = _sentences(root, faults)
    stops = root.get("path")
    taught = read_path(stops, home, folder, faults) if stops else ()
    left = root.get("leave-out")
    left_out = read_left_out(left, faults) if left else ()
    faults.stop()
    return Unit(title, digits or Unit.digits, chosen or Unit.symbols, objectives, taught,
                left_out)  # fmt: skip


def _bytes_of(path: Path, faults: Faults) -> bytes:
    try:
        if path.is_dir():
            faults.add(NOWHERE, "a folder", "a YAML file", problems_in(path))
        elif not stat.S_ISREG(path.stat().st_mode):
            faults.add(NOWHERE, "something that is no file", "a YAML file",
                       "Check the name and the folder.")  # fmt: skip
        else:
            with path.open("rb") as file:
                return file.read(LARGEST_FILE + 1)
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        faults.add(NOWHERE, f"no file that can be read ({reason})", "a YAML file",
                   near_file(path) or "Check the name and the folder.")  # fmt: skip
    raise faults.as_error()


def _problem(
    text: str, faults: Faults, path: Path, unit: Unit | None, *, with_wishes: bool
) -> Problem:
    if not _SLUG.fullmatch(path.stem):
        faults.add(START, f"the file name {quoted(path.name)}",
                   "letters, digits, hyphens and underscores, not index or by-objective",
                   "Rename the file: its name becomes the address of the page.")  # fmt: skip
    text = text.removeprefix("\ufeff")
    try:
        reading = _Reading(compose(text, faults), text, faults, unit)
        problem = reading.problem(path)
        if with_wishes:
            problem = reading.with_wishes(problem)
        faults.stop()
    except FaultyFile as error:
        raise shown_in(text, error) from None
    assert problem is not None
    return problem


@dataclass(frozen=True)
class _Reading:
    """One problem's file on its way to a problem."""

    root: Map
    text: str
    faults: Faults
    unit: Unit | None

    def problem(self, path: Path) -> Problem | None:
        """The problem, or None if there is any fault."""
        root, faults = self.root, self.faults
        refuse_unknown_keys(root, _KEYS, faults)
        title = _title(root, ProblemShape, "Two lamps", faults)
        body = read_body(root, faults)
        asked = needed(root, "find", "what is asked for, such as find: equivalent", _KEYS, faults)
        if body is None:
            self._level()
            self._objectives()
            _digits(root, faults)
            return None
        find = body.find(asked) if asked else ()
        own = Authored(body, faults)
        words, questions, left = root.get("words"), root.get("questions"), root.get("leave-out")
        left_out = read_left_out(left, faults) if left else ()
        common = {
            "slug": path.stem,
            "path": faults.path,
            "title": title,
            "find": find,
            "find_at": (asked.key.at.line, asked.key.at.column) if asked else (1, 1),
            "level": self._level(),
            "objectives": self._objectives(),
            "scenario": self._own_text("scenario", own) or "",
            "digits": _digits(root, faults) or (self.unit.digits if self.unit else Unit.digits),
            "plan": self._own_text("plan", own),
            "words": own.words(words) if words else {},
            "questions": own.questions(questions, left_out) if questions else (),
            "leave_out": (*left_out, *(self.unit.leave_out if self.unit else ())),
            "text": self.text,
        }
        return None if len(faults) else body.problem(common)

    def with_wishes(self, problem: Problem | None) -> Problem | None:
        """The problem with what its file says of other numbers."""
        return read_wishes(problem, self.root, self.text, self.faults)

    def _level(self) -> str:
        entry = self.root.get("level")
        level = choice_of(entry.value, LEVELS, self.faults) if entry else None
        return level or "core"

    def _own_text(self, key: str, own: Authored) -> str | None:
        entry = self.root.get(key)
        return own.text(entry.value, f"the {key} as a text") if entry else None

    def _objectives(self) -> tuple[str, ...]:
        entry = self.root.get("objectives")
        if entry is None:
            return ()
        listed = as_items(entry.value, "a list of objectives, such as [merge-parallel]",
                          self.faults)  # fmt: skip
        ids: dict[str, Node] = {}
        for item in listed.items if listed else ():
            text = as_text(item, "the id of an objective", self.faults)
            if text is None:
                continue
            if text.value in ids:
                self.faults.add(text.at, f"the objective {quoted(text.value)} a second time",
                                "each objective once", "Delete one of the two.")  # fmt: skip
            ids[text.value] = text
            self._check_objective(text)
        return tuple(ids)

    def _check_objective(self, text: Text) -> None:
        if self.unit is None:
            check_id(text, "an objective", self.faults)
            return
        known = tuple(self.unit.objectives)
        if text.value in known:
            return
        few = known if len(known) <= 12 else (*known[:11], "another objective of unit.yml")
        self.faults.add(text.at, f"the objective {quoted(text.value)}",
                        one_of(few) if few else "an objective of unit.yml, which has none",
                        meant(text.value, known, "Add it to unit.yml, or choose another "
                              "one."))  # fmt: skip


def _title(root: Map, shape: type[BaseModel], example: str, faults: Faults) -> str:
    expected = f"a heading, such as title: {example}"
    entry = needed(root, "title", expected, keys_of(shape), faults)
    text = as_text(entry.value, "a heading as a text", faults) if entry else None
    return " ".join(text.value.split()) if text else ""


def _digits(root: Map, faults: Faults) -> int | None:
    entry = root.get("digits")
    return whole_number(entry.value, FEWEST_DIGITS, MOST_DIGITS, faults) if entry else None


def _sentences(root: Map, faults: Faults) -> dict[str, str]:
    entry = root.get("objectives")
    if entry is None or isinstance(entry.value, Unusable):
        return {}
    node = as_map(entry.value, "ids of objectives, each with a sentence", faults,
                  'Write each on a line of its own: "merge-series: Merge a chain into '
                  'one".')  # fmt: skip
    sentences: dict[str, str] = {}
    for objective in node.entries if node else ():
        check_id(objective.key, "an objective", faults)
        text = as_text(objective.value, "what the objective says", faults)
        if text is not None:
            sentences[objective.key.value] = " ".join(text.value.split())
    return sentences
