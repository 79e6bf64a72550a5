"""The pages that are photographed: of the unit, of its guide, of sheets, and of a preview."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config

from builder.site.starting.new_unit import FIRST, start_unit

ROOT = Path(__file__).parent.parent.parent
UNIT = {
    "front": "index.html",
    "lesson": "sharing-a-junction.html",
    "list": "problems/index.html",
    "problem": "problems/flasher-reservoir.html",
    "caution": "problems/rescue-lamp-bank.html",
    "letters": "problems/flasher-any-size.html",
    "unknown": "problems/capacitor-without-a-mark.html",
    "network": "problems/bench-bridge-astray.html",
    "source": "problems/sensor-supply.html",
    "stages": "problems/tide-gauge-bucket.html",
    "transient": "problems/lantern-switched-over.html",
    "relations": "problems/two-wires-in-one-heater.html",
    "plates": "problems/bilge-sensor-layers.html",
    "formulas": "reference/formulas.html",
    "glossary": "reference/glossary.html",
    "symbols": "reference/symbols.html",
    "board": "problems/solar-panel-heater.html",
    "guide": "guide/authors/first-problem.html",
    "keys": "guide/authors/keys.html",
}
SHEETS = {"sheet": "*-worksheet.html", "key": "*-key.html"}
ON_THE_SHEET = ("flasher-reservoir", "solar-panel-heater", "bilge-sensor-layers",
                "lantern-switched-over")  # fmt: skip
PREVIEW = {"fault": f"problems/{FIRST}.html", "fault-in-place": "one-circuit-slowly.html"}
KINDS = (*UNIT, *SHEETS, *PREVIEW)


def make_pages(folder: Path, kinds: tuple[str, ...]) -> dict[str, Path]:
    """Make what the kinds need, and no more.

    Args:
        folder: to make them in.
        kinds: of ``KINDS``.

    Returns:
        The file of each kind.
    """
    made: dict[str, Path] = {}
    makers: tuple[tuple[dict[str, str], Callable[[Path], Path]], ...] = (
        (UNIT, _unit), (SHEETS, _sheets), (PREVIEW, _preview),
    )  # fmt: skip
    for pages, make in makers:
        wanted = {kind: path for kind, path in pages.items() if kind in kinds}
        if wanted:
            home = make(folder)
            made |= {kind: next(home.glob(path)) for kind, path in wanted.items()}
    return made


def _unit(folder: Path) -> Path:
    """The site of the unit."""
    site = folder / "site"
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--site-dir", str(site)]
    subprocess.run(command, cwd=ROOT, check=True)
    return site


def _sheets(folder: Path) -> Path:
    """A sheet of four problems and its key."""
    out = folder / "sheets"
    stepwell = [sys.executable, "-c", "from builder.cli import main; main()"]
    command = [*stepwell, "sheet", *ON_THE_SHEET, "--title", "Week 3", "--out", str(out)]
    subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    return out


def _preview(folder: Path) -> Path:
    """The preview of a new unit in whose problem a unit is mistyped."""
    start_unit(folder / "unit", "Night lights")
    problem = folder / "unit/content/problems" / f"{FIRST}.yml"
    text = problem.read_text(encoding="utf-8")
    problem.write_text(text.replace(" uF", " uG", 1), encoding="utf-8")
    config = load_config(str(folder / "unit/mkdocs.yml"))
    config.plugins.on_startup(command="serve", dirty=False)
    build(config)
    return folder / "unit/site"
