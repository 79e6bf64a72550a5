"""A whole new unit, ready to build: all of its files, or none."""

from __future__ import annotations

import shutil
import tempfile
from contextlib import suppress
from pathlib import Path
from string import Template

from builder.errors import Fault, FaultyFile
from builder.problem import read_unit
from builder.problem.faults.gathering import quoted
from builder.problem.unit_of import UNIT_FILE
from builder.site.schema_files import HOME, modeline, schema_files
from builder.site.starting.draft import draft, in_yaml
from builder.site.starting.kinds import FILES, KINDS

CONTENT = "content"
FIRST = "cabin-light"
"""The name of the one problem."""
_KIND = "groups"
_WHERE = {
    "mkdocs.yml": "mkdocs.yml",
    "gitignore": ".gitignore",
    "README.md": "README.md",
    "index.md": f"{CONTENT}/index.md",
    "one-circuit-slowly.md": f"{CONTENT}/one-circuit-slowly.md",
    UNIT_FILE: f"{CONTENT}/{UNIT_FILE}",
}
"""Where each of our files goes."""


def start_unit(folder: Path, title: str = "") -> tuple[str, ...]:
    """Make a new unit in a folder that is empty or not there.

    Args:
        folder: of the unit.
        title: of the unit; made of the folder's name if empty.

    Returns:
        The paths of the files in the folder.

    Raises:
        FaultyFile: if the folder is not empty or cannot be written, or if a unit cannot have
            that title. Nothing is written then.
    """
    if folder.exists():
        _refuse_full(folder)
    if "<" in title or ">" in title:
        raise _fault(Path("--title"), f"the title {quoted(title)}",
                     "words without < and >, which pages would take for markup",
                     "Write it without them.")  # fmt: skip
    try:
        return _made(folder, " ".join(title.split()) or title_of(folder))
    except OSError as error:
        raise _fault(folder, f"a folder that cannot be written ({error.strerror})",
                     "a folder of yours", "Name another one.") from error  # fmt: skip


def title_of(folder: Path) -> str:
    """A title made of a folder's name: ``night-lights`` becomes ``Night lights``."""
    words = folder.resolve().name.replace("-", " ").replace("_", " ").strip()
    return words[:1].upper() + words[1:] or "My unit"


def _refuse_full(folder: Path) -> None:
    if not folder.is_dir():
        raise _fault(folder, "a file", "a folder that is empty or not there",
                     "Name another one.")  # fmt: skip
    inside = sorted(path.name for path in folder.iterdir())
    if inside:
        raise _fault(folder, f"a folder that holds {inside[0]}"
                     + (" and more" if len(inside) > 1 else ""),
                     "a folder that is empty or not there",
                     "Name another one. For a new problem in a unit there is stepwell new.",
                     )  # fmt: skip


def _made(folder: Path, title: str) -> tuple[str, ...]:
    """Write all aside, then move it to its place."""
    there = folder.is_dir()
    folder.parent.mkdir(parents=True, exist_ok=True)
    beside = folder if there else folder.parent
    aside = Path(tempfile.mkdtemp(dir=beside, prefix=".stepwell-", suffix=".part"))
    try:
        whole = aside / "unit"
        for path, text in _texts(aside, title).items():
            (whole / path).parent.mkdir(parents=True, exist_ok=True)
            (whole / path).write_text(text, encoding="utf-8", newline="\n")
        written = sorted(p.relative_to(whole).as_posix() for p in whole.rglob("*") if p.is_file())
        if there:
            _move_into(folder, whole)
        else:
            whole.rename(folder)
    finally:
        shutil.rmtree(aside, ignore_errors=True)
    return tuple(written)


def _move_into(folder: Path, whole: Path) -> None:
    """Move what a folder holds into one that is there and empty; all of it, or nothing."""
    moved: list[Path] = []
    try:
        for part in sorted(whole.iterdir()):
            part.rename(folder / part.name)
            moved.append(folder / part.name)
    except OSError:
        for part in moved:
            with suppress(OSError):
                part.rename(whole / part.name)
        raise


def _texts(aside: Path, title: str) -> dict[str, str]:
    """The text of every file, by its path in the unit."""
    words = {"title": in_yaml(title), "heading": in_markdown(title), "slug": FIRST}
    texts = {
        place: Template((FILES / "unit" / name).read_text(encoding="utf-8")).substitute(words)
        for name, place in _WHERE.items()
    }
    described = f"{CONTENT}/{UNIT_FILE}"
    texts[described] = f"{modeline('unit', '.')}\n{texts[described]}"
    texts |= {f"{CONTENT}/{HOME}/{name}": held.decode() for name, held in schema_files().items()}
    read = aside / CONTENT / UNIT_FILE
    _lay_out(read, texts[described])
    try:
        unit = read_unit(read)
    except FaultyFile as error:
        raise _fault_of_title(title, error) from None
    texts[f"{CONTENT}/problems/{FIRST}.yml"] = draft(KINDS[_KIND], FIRST, unit, level="intro").text
    return texts


def _lay_out(described: Path, text: str) -> None:
    """Put down what the description of a unit is read with: the pages of its path."""
    (described.parent / "problems").mkdir(parents=True)
    described.write_text(text, encoding="utf-8")
    (described.parent / "one-circuit-slowly.md").touch()
    (described.parent / "problems" / f"{FIRST}.yml").touch()


def in_markdown(text: str) -> str:
    """A line of text as Markdown shows it, sign for sign."""
    return "".join(
        f"&#{ord(sign)};" if sign in "&$|" else f"\\{sign}" if sign in r"\`*_{}[]#+!" else sign
        for sign in text
    )


def _fault_of_title(title: str, error: FaultyFile) -> FaultyFile:
    fault = error.faults[0]
    return _fault(Path("--title"), fault.found, fault.expected, fault.advice)


def _fault(path: Path, found: str, expected: str, advice: str) -> FaultyFile:
    return FaultyFile((Fault(str(path), 0, 0, found, expected, advice),))
