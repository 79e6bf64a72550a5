"""What a finished page hangs on besides its problem: this program and what it is made with."""

from __future__ import annotations

import hashlib
import sys
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import builder

_MADE_WITH = ("sympy", "python-flint", "numpy", "networkx", "schemdraw", "Jinja2", "MarkupSafe",
              "Markdown", "PyYAML", "pydantic", "Pint")  # fmt: skip
_READ = frozenset({".py", ".html", ".json", ".txt"})


@cache
def code_version() -> str:
    """One word for the program's own files and the packages that pages are made with."""
    home = Path(builder.__file__).parent
    seen = hashlib.sha256(sys.version.encode())
    for path in sorted(home.rglob("*")):
        if path.suffix in _READ and path.is_file():
            seen.update(path.relative_to(home).as_posix().encode() + b"\0")
            seen.update(hashlib.sha256(path.read_bytes()).digest())
    for package in _MADE_WITH:
        seen.update(f"{package} {_version(package)}\n".encode())
    return seen.hexdigest()


def _version(package: str) -> str:
    try:
        return version(package)
    except PackageNotFoundError:
        return "none"
