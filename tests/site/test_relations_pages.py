"""Pages of equations, plates and unknown elements in a real browser, from a folder."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from tests.conftest import Open
from tests.site.answering import answer_every_question
from tests.site.test_access import AXE, OPEN_AND_ANSWER, RUN_AXE

ROOT = Path(__file__).parents[2]
SLUGS = (
    "one-flash-from-the-reservoir", "two-wires-in-one-heater", "tuner-plates-cut-off",
    "bilge-sensor-layers", "capacitor-without-a-mark", "heater-with-a-lost-label",
)  # fmt: skip
DESIGN = """\
title: The area of a plate
quantities:
  {C: 88.541878188 pF, d: 1 mm, V: 3 kV, A: area, E: field, k: number, D: 177.083756376 pF}
relations: [C = eps0 * A / d, E = V / d, D = k * C]
find: [A, E, k]
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small unit of these problems alone, built strictly."""
    unit = tmp_path_factory.mktemp("unit")
    problems = unit / "content" / "problems"
    problems.mkdir(parents=True)
    for slug in SLUGS:
        text = (ROOT / "content" / "problems" / f"{slug}.yml").read_text(encoding="utf-8")
        (problems / f"{slug}.yml").write_text(text, encoding="utf-8")
    (problems / "design.yml").write_text(DESIGN, encoding="utf-8")
    (unit / "content" / "index.md").write_text("# A unit\n", encoding="utf-8")
    whole = yaml.safe_load((ROOT / "content" / "unit.yml").read_text(encoding="utf-8"))
    kept = {key: whole[key] for key in ("title", "objectives")}
    (unit / "content" / "unit.yml").write_text(yaml.safe_dump(kept), encoding="utf-8")
    config = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
    before, _, after = config.partition("\nnav:")
    rest = after[after.index("\nvalidation:") :]
    (unit / "mkdocs.yml").write_text(before + rest, encoding="utf-8")
    command = [
        sys.executable,
        "-m",
        "mkdocs",
        "build",
        "--strict",
        "--site-dir",
        str(unit / "site"),
    ]
    built = subprocess.run(command, cwd=unit, capture_output=True, text=True, check=False)
    assert built.returncode == 0, built.stdout + built.stderr
    return unit / "site"


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("slug", SLUGS)
def test_axe_finds_nothing_on_these_pages(
    folder: Path, visit: Open, slug: str, scheme: str
) -> None:
    """With everything opened and every question answered, no rule is broken."""
    seen = visit(folder / "problems" / f"{slug}.html", folder, color_scheme=scheme,
                 reduced_motion="reduce")  # fmt: skip
    seen.page.evaluate(AXE)
    seen.page.evaluate(OPEN_AND_ANSWER)
    found = seen.page.evaluate(RUN_AXE)
    assert found["violations"] == []
    assert seen.strays == []


@pytest.mark.parametrize("slug", [*SLUGS, "design"])
def test_every_shown_answer_is_taken_as_right(folder: Path, visit: Open, slug: str) -> None:
    """Typed as shown, every answer is right; of each choice exactly one is."""
    seen = visit(folder / "problems" / f"{slug}.html", folder)
    assert answer_every_question(seen.page) >= 2


@pytest.mark.parametrize(
    ("of", "typed", "reply"),
    [
        ("area:A", "100 cm^2", "Right."),
        ("area:A", "0.01 m²", "Right."),
        ("area:A", "10000 mm2", "Right."),
        ("area:A", "100 cm", "is a unit of length; an area is measured in m²"),
        ("field:E", "3 MV/m", "Right."),
        ("field:E", "3e6 V/m", "Right."),
        ("field:E", "3 MV", "is a unit of voltage"),
        ("ratio:k", "2", "Right."),
        ("ratio:k", "2 V", "pure number"),
    ],
)
def test_units_of_plates_are_typed_as_people_write_them(
    folder: Path, visit: Open, of: str, typed: str, reply: str
) -> None:
    """Squared prefixes count twice, and a pure number takes no unit."""
    page = visit(folder / "problems" / "design.html", folder).page
    form = page.locator(".sw-questions form[data-question=typed]").filter(
        has=page.locator(f'[data-q="{of}"]')
    )
    form.locator("input[type=text]").fill(typed)
    form.locator("button[type=submit]").click()
    assert reply in form.locator("[role=status]").inner_text()


@pytest.mark.parametrize("slug", SLUGS)
def test_nothing_is_wider_than_a_phone(folder: Path, visit: Open, slug: str) -> None:
    """At 360 pixels a page scrolls down only."""
    page = visit(folder / "problems" / f"{slug}.html", folder,
                 viewport={"width": 360, "height": 740}).page  # fmt: skip
    page.evaluate(OPEN_AND_ANSWER)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
