"""Which files of a unit are its problems."""

from __future__ import annotations

from pathlib import Path, PurePosixPath

from builder.errors import Fault, FaultyFile


def problem_sources(content: Path, folder: str) -> list[Path]:
    """The files of a unit's problems, in the order of their names.

    Args:
        content: the folder of the unit.
        folder: the folder of the problems in it.

    Raises:
        FaultyFile: if ``folder`` is no folder inside ``content``, or if a file in it would be
            passed over without a word.
    """
    files, faults = sources_and_faults(content, folder)
    if faults:
        raise FaultyFile(faults)
    return files


def sources_and_faults(content: Path, folder: str) -> tuple[list[Path], tuple[Fault, ...]]:
    """The same files, and what is wrong with others in the folder, or with the folder itself."""
    inside = PurePosixPath(folder)
    if inside.is_absolute() or ".." in inside.parts or not inside.parts:
        outside = Fault("mkdocs.yml", 0, 0, f'the folder "{folder}" for problems',
                        f'a folder inside "{content.name}"',
                        "Write its name alone, such as problems.")  # fmt: skip
        return [], (outside,)
    home = content / folder
    if not home.is_dir():
        missing = Fault(f"{content.name}/{folder}", 0, 0, "no such folder",
                        "the folder of the unit's problems",
                        "Make the folder, or name another one in mkdocs.yml.")  # fmt: skip
        return [], (missing,)
    files: list[Path] = []
    faults: list[Fault] = []
    for path in sorted(home.rglob("*")):
        if path.suffix.lower() not in (".yml", ".yaml"):
            continue
        name = path.relative_to(content.parent).as_posix()
        if path.parent != home:
            faults.append(Fault(name, 0, 0, "a problem in a folder of its own",
                                f'all problems side by side in "{content.name}/{folder}"',
                                "Move the file up."))  # fmt: skip
        elif path.suffix != ".yml":
            faults.append(Fault(name, 0, 0, f'a file that ends in "{path.suffix}"',
                                'problems that end in ".yml"', "Rename the file."))  # fmt: skip
        else:
            files.append(path)
    return files, tuple(faults)
