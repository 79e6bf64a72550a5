"""Which file was meant by a name that no file has."""

from __future__ import annotations

from pathlib import Path

from builder.problem.faults.gathering import nearest

_ENDING = ".yml"


def near_file(path: Path) -> str:
    """Advice that proposes the nearest problem's file or folder for one that is not there.

    Args:
        path: as it was typed.

    Returns:
        Empty if nothing there is like it.
    """
    folder = path.parent
    while not folder.is_dir() and folder != folder.parent:
        path, folder = folder, folder.parent
    try:
        names = [each.name for each in sorted(folder.iterdir()) if _may_be_meant(each)]
    except OSError:
        return ""
    with_ending = f"{path.name}{_ENDING}"
    near = with_ending if with_ending in names else nearest(path.name, names)
    return f'Did you mean "{folder / near}"?' if near else ""


def _may_be_meant(path: Path) -> bool:
    return not path.name.startswith(".") and (path.suffix == _ENDING or path.is_dir())


def problems_in(folder: Path) -> str:
    """Advice that names problems in a folder that stands where a file should."""
    names = [str(each) for each in sorted(folder.glob(f"*{_ENDING}"))]
    if not names:
        return "Name a file that ends in .yml."
    return f"Name one of its files, such as {' or '.join(names[:2])}."
