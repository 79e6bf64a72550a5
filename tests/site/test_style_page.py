"""The palettes and the page that shows all parts to contributors."""

from __future__ import annotations

from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from builder.site.palette import PAIRS, Palette, contrast, palettes
from tests.conftest import Open
from tests.site.pages import FLASHER, HEATER, Markup, write_unit


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        # The ends of the scale are 21:1 and 1:1 by the definition in WCAG 2.2; #767676 on white
        # is the lightest grey that reaches 4.5:1 there (WebAIM, "Contrast and Color
        # Accessibility", gives 4.54).
        ("#000000", "#ffffff", 21.0),
        ("#123456", "#123456", 1.0),
        ("#767676", "#ffffff", 4.54),
        ("#ffffff", "#767676", 4.54),
    ],
)
def test_contrast_is_measured_as_the_guidelines_define_it(
    one: str, other: str, ratio: float
) -> None:
    """Two colours have the published ratio, whichever comes first."""
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize("palette", palettes(), ids=lambda palette: palette.called)
def test_every_colour_is_strong_enough(palette: Palette) -> None:
    """Text reaches 4.5 to 1 and lines that carry meaning 3 to 1, in each of the four palettes."""
    assert len(palette.contrasts) == len(PAIRS)
    assert [pair for pair in palette.contrasts if pair[2] < pair[3]] == []


def test_more_contrast_is_more() -> None:
    """A reader who asks for more contrast gets no pair of colours with less."""
    day, night, strong_day, strong_night = palettes()
    for plain, strong in ((day, strong_day), (night, strong_night)):
        assert plain.colours != strong.colours
        for before, after in zip(plain.contrasts, strong.contrasts, strict=True):
            assert after[2] >= before[2], after


def test_the_style_page_shows_all_parts(tmp_path: Path, visit: Open) -> None:
    """With the option on, all parts stand side by side by day and by night; without, nothing."""
    write_unit(tmp_path, {"flasher": FLASHER, "heater": HEATER})
    config = tmp_path / "mkdocs.yml"
    build(load_config(str(config), strict=True, site_dir=str(tmp_path / "plain")))
    assert not (tmp_path / "plain" / "style.html").exists()
    text = config.read_text(encoding="utf-8").replace(
        "stepwell]", "{stepwell: {style_page: true}}]"
    )
    config.write_text(text, encoding="utf-8")
    build(load_config(str(config), strict=True, site_dir=str(tmp_path / "site")))
    page = tmp_path / "site" / "style.html"
    html = page.read_text(encoding="utf-8")
    article = html.split("<article", 1)[1].split(">", 1)[1].split("</article>")[0]
    checked = Markup(article)
    assert checked.faults == []
    ids = [attributes["id"] for _, attributes in checked.tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    visited = visit(page, tmp_path / "site")
    for panel, paper in (("By day", palettes()[0]), ("By night", palettes()[1])):
        part = visited.page.get_by_role("region", name=panel)
        red, green, blue = (int(paper.colours["paper"][at : at + 2], 16) for at in (1, 3, 5))
        background = part.evaluate("node => getComputedStyle(node).backgroundColor")
        assert background == f"rgb({red}, {green}, {blue})"
        for one in (".sw-level", ".sw-card", "details.sw-step[open]", "table.sw-results",
                    ".sw-reply-right", ".sw-reply-wrong", ".sw-plate svg"):  # fmt: skip
            assert part.locator(one).first.is_visible(), one
    assert visited.errors == []
    assert visited.strays == []
