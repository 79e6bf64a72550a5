"""The styles, scripts and fonts that every page needs, shipped with the site."""

from __future__ import annotations

from pathlib import Path

from builder.figure import STYLE_SHEET

_HERE = Path(__file__).parent
_BASE = "assets/stepwell"

STYLES = (
    f"{_BASE}/stepwell.css",
    f"{_BASE}/figure.css",
    f"{_BASE}/fresh.css",
    f"{_BASE}/gaps.css",
    f"{_BASE}/picking.css",
    f"{_BASE}/working.css",
    f"{_BASE}/reading.css",
    f"{_BASE}/board.css",
    f"{_BASE}/front.css",
    f"{_BASE}/guide.css",
    f"{_BASE}/access.css",
    f"{_BASE}/theme.css",
    f"{_BASE}/print.css",
)
SCRIPTS = tuple(
    f"{_BASE}/{name}.js"
    for name in (
        "fresh",
        "questions",
        "choice",
        "reading-units",
        "reading-numbers",
        "judging",
        "expressions",
        "judging-letters",
        "typed",
        "ranking",
        "pick",
        "order",
        "faulty-line",
        "stepwell",
        "gaps",
        "reading",
        "board",
        "front",
        "keeping",
        "progress",
        "print",
    )
)
SEARCH_SHIM = f"{_BASE}/iframe-worker.min.js"


def asset_files() -> dict[str, Path]:
    """The files to copy, by their address in the site."""
    shipped = [
        STYLE_SHEET,
        *sorted((_HERE / "static").glob("*")),
        *sorted((_HERE / "fonts").glob("*.woff2")),
        *sorted((_HERE / "fonts").glob("*.txt")),
    ]
    return {f"{_BASE}/{path.name}": path for path in shipped if path.is_file()}
