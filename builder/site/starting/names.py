"""Names of new files: good addresses of pages on every system, and proposals where they are not."""

from __future__ import annotations

import re
import unicodedata

from builder.errors import Fault, FaultyFile
from builder.problem.faults.gathering import quoted

LONGEST = 60
_GOOD = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_PAGES = frozenset({"index", "by-objective"})
"""Pages that Stepwell makes beside those of the problems."""

# Names that Windows keeps for devices, whatever their ending (Microsoft, "Naming Files, Paths,
# and Namespaces").
_DEVICES = frozenset(
    ["con", "prn", "aux", "nul"] + [f"{port}{n}" for port in ("com", "lpt") for n in range(10)]
)


def good_name(name: str) -> str:
    """The name of a new problem, without ``.yml``, if it is a good one.

    Raises:
        FaultyFile: if it is not; with the nearest that is.
    """
    bare = name.removesuffix(".yml")
    if bare in _DEVICES:
        _refuse(name, "a name that Windows does not keep for a device")
    if bare in _PAGES:
        _refuse(name, "a name that no page of the lists of problems has")
    if not _GOOD.fullmatch(bare) or len(bare) > LONGEST:
        _refuse(name, f"small letters and digits with hyphens between, {LONGEST} at most")
    return bare


def nearest_good(name: str) -> str:
    """A good name that is near to what was typed."""
    last = re.split(r"[/\\]", name.strip().rstrip("/\\"))[-1].removesuffix(".yml")
    plain = unicodedata.normalize("NFKD", last.casefold()).encode("ascii", "ignore").decode()
    near = re.sub(r"[^a-z0-9]+", "-", plain)[:LONGEST].strip("-") or "my-problem"
    return f"{near}-problem" if near in _DEVICES | _PAGES else near


def _refuse(name: str, expected: str) -> None:
    advice = f"Call it {nearest_good(name)}: the name becomes the address of the page."
    if "/" in name or "\\" in name:
        advice += " In which folder the unit lies is said with --unit."
    raise FaultyFile((Fault("NAME", 0, 0, f"the name {quoted(name)}", expected, advice),))
