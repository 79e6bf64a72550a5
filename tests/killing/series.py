"""A series of killed builds of one unit, which is edited meanwhile, and the build after them."""

from __future__ import annotations

import contextlib
import hashlib
import os
import random
import shutil
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from tests.killing.processes import build, build_killed, wait_until_gone

KEPT = Path(".cache") / "stepwell"
_LONG_AGO = 2 * 3600.0
FROM_NOTHING, ALL_KEPT = KINDS = ("from nothing", "all kept")


@dataclass
class Series:
    """A unit in a folder whose builds are killed.

    Attributes:
        folder: with mkdocs.yml and content.
        dice: choose moments and edits.
        whole: seconds that a build takes from nothing, and if all is kept.
        pages: how many of them a site has.
        found: how often a killed build stood where.
    """

    folder: Path
    dice: random.Random
    whole: dict[str, float] = field(default_factory=dict)
    pages: int = 0
    found: Counter[str] = field(default_factory=Counter)

    def measure(self) -> None:
        """Find out how long builds take."""
        self._forget()
        self.whole = {kind: build(self.folder) for kind in KINDS}
        self.pages = len(list((self.folder / "site").glob("**/*.html")))

    def kill(self, builds: int) -> Iterator[str]:
        """Kill so many builds at moments spread over all that they do; what is wrong after each.

        Half of them begin with nothing kept, so that entries are being written. As most of a short
        build is its beginning, the clock tells only half of the moments: the others come when so
        many entries are kept, or so many files of the site are written.
        """
        moments = [(number + self.dice.random()) / builds for number in range(builds)]
        self.dice.shuffle(moments)
        for number, moment in enumerate(moments):
            kind = KINDS[number % 2]
            by_clock = number % 4 < 2
            self._edit()
            yield from self._kill_once(kind, moment, by_clock=by_clock, whole_group=number % 3 > 0)

    def _kill_once(
        self, kind: str, moment: float, *, by_clock: bool, whole_group: bool
    ) -> Iterator[str]:
        group = 0
        while not group:
            if kind == FROM_NOTHING:
                self._forget()
            reached = self._by_clock(kind, moment) if by_clock else self._by_work(kind, moment)
            group = build_killed(self.folder, reached, whole_group=whole_group)
            if not group:
                moment *= 0.9  # It was quicker than the one that was measured.
                self.found["ended before"] += 1
        if alive := wait_until_gone(group):
            yield f"{len(alive)} processes outlive a build killed at {moment:.2f} of {kind}"
        self.found[self._stood()] += 1

    def _by_clock(self, kind: str, moment: float) -> Callable[[float], bool]:
        return lambda seconds: seconds >= moment * self.whole[kind]

    def _by_work(self, kind: str, moment: float) -> Callable[[float], bool]:
        """When that part of the entries, or of the site's files, is there."""
        folder, pattern, whole = (
            (self.folder / KEPT, "*.kept", self._entries)
            if kind == FROM_NOTHING
            else (self.folder / "site", "**/*.html", self.pages)
        )
        begun = time.time()

        def reached(_seconds: float) -> bool:
            with contextlib.suppress(FileNotFoundError):
                new = [path for path in folder.glob(pattern) if path.stat().st_mtime > begun]
                return len(new) > moment * whole
            return False

        return reached

    @property
    def _entries(self) -> int:
        """How many entries are kept of all problems: a head and a body of each."""
        return 2 * len(list((self.folder / "content" / "problems").glob("*.yml")))

    def _stood(self) -> str:
        """What a killed build was doing, by what it left."""
        site = self.folder / "site"
        kept = len(list((self.folder / KEPT).glob("*.kept")))
        if not kept:
            return "before anything was kept"
        if kept < self._entries:
            return "while pages were made"
        if not site.is_dir() or not any(site.iterdir()):
            return "before the site was written"
        ended = (site / "search" / "search_index.json").is_file()
        return "after the last page" if ended else "while the site was written"

    @property
    def aside(self) -> list[Path]:
        """What killed builds left half written where finished pages are kept."""
        return sorted((self.folder / KEPT).glob(".aside-*"))

    def compare(self, clean: Path) -> Iterator[str]:
        """Build to the end, and a copy without anything kept in ``clean``; how they differ."""
        aside = len(self.aside)
        self.found["halves left aside"] += aside
        build(self.folder)
        shutil.rmtree(clean, ignore_errors=True)
        clean.mkdir()
        shutil.copy(self.folder / "mkdocs.yml", clean)
        shutil.copytree(self.folder / "content", clean / "content")
        build(clean)
        yield from differences(sums(self.folder / "site"), sums(clean / "site"))
        yield from self._strays()

    def tidied(self) -> Iterator[str]:
        """Let hours pass and build again; what is left then."""
        for path in self.aside:
            past = time.time() - _LONG_AGO
            os.utime(path, (past, past))
        build(self.folder)
        yield from (f"{path.name} is left aside" for path in self.aside)

    def _strays(self) -> Iterator[str]:
        for path in sorted(self.folder.iterdir()):
            if path.name not in ("mkdocs.yml", "content", "site", ".cache"):
                yield f"{path.name} is left in the folder"
        for path in sorted((self.folder / ".cache").rglob("*")):
            kept = path.suffix == ".kept" or path.name.startswith(".aside-")
            if path.is_file() and not (kept and path.parent == self.folder / KEPT):
                yield f"{path.relative_to(self.folder)} is left in the folder"

    def _forget(self) -> None:
        shutil.rmtree(self.folder / ".cache", ignore_errors=True)

    def _edit(self) -> None:
        """Change the title of a problem, or rename the last one, which has a page of its own."""
        problems = sorted((self.folder / "content" / "problems").glob("*.yml"))
        if self.dice.random() < 0.5:
            chosen = self.dice.choice(problems)
            first, _, rest = chosen.read_text(encoding="utf-8").partition("title: ")
            title, _, rest = rest.partition("\n")
            word = self.dice.choice(("again", "once more", "by night"))
            chosen.write_text(f"{first}title: {title.split(', ')[0]}, {word}\n{rest}",
                              encoding="utf-8")  # fmt: skip
        else:
            last = problems[-1]
            turned = "zz-last" if last.stem != "zz-last" else "zz-very-last"
            last.rename(last.with_stem(turned))


def sums(folder: Path) -> dict[str, str]:
    """The sum of every file in a folder, by its path."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def differences(one: dict[str, str], other: dict[str, str]) -> Iterator[str]:
    """In which files two sites differ."""
    for path in sorted(one.keys() | other.keys()):
        if path not in other:
            yield f"{path} is left from before"
        elif path not in one:
            yield f"{path} is missing"
        elif one[path] != other[path]:
            yield f"{path} differs from a clean build"
