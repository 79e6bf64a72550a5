"""The styles, scripts and fonts that every page needs, shipped with the site."""

from __future__ import annotations

from pathlib import Path

from builder.figure import STYLE_SHEET

_HERE = Path(__file__).parent
BASE = "assets/stepwell"
"""Where a site has them."""

STYLES = (
    f"{BASE}/stepwell.css",
    f"{BASE}/figure.css",
    f"{BASE}/fresh.css",
    f"{BASE}/gaps.css",
    f"{BASE}/picking.css",
    f"{BASE}/working.css",
    f"{BASE}/reading.css",
    f"{BASE}/board.css",
    f"{BASE}/front.css",
    f"{BASE}/guide.css",
    f"{BASE}/access.css",
    f"{BASE}/theme.css",
    f"{BASE}/print.css",
)
SCRIPTS = tuple(
    f"{BASE}/{name}.js"
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
SEARCH_SHIM = f"{BASE}/iframe-worker.min.js"


def asset_files() -> dict[str, Path]:
    """The files to copy, by their address in the site."""
    shipped = [
        STYLE_SHEET,
        *sorted((_HERE / "static").glob("*")),
        *sorted((_HERE / "fonts").glob("*.woff2")),
        *sorted((_HERE / "fonts").glob("*.txt")),
    ]
    return {f"{BASE}/{path.name}": path for path in shipped if path.is_file()}
