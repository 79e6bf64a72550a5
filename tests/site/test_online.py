"""What a published unit tells those who have not opened it yet."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
import yaml
from mkdocs.commands.build import build
from mkdocs.config import load_config

from builder.lesson import Lesson
from builder.site.finished import Making, head_of
from builder.site.online import LONGEST, Online, Preview, description
from builder.site.pictures.preview_image import HEIGHT, MARGIN, WIDTH, preview_image
from builder.site.theme_mends import MENDS, mended
from tests.conftest import ROOT
from tests.site.pages import CIRCUITS, FLASHER, UNIT, page_of, write_unit

BASE = "https://lights.example/unit/"


def lesson_with(scenario: str) -> Lesson:
    """The lesson of the flasher with another scenario."""
    old = FLASHER[FLASHER.index("scenario:") : FLASHER.index("circuit:")]
    return page_of(FLASHER.replace(old, scenario)).lesson


@pytest.mark.parametrize(
    ("scenario", "told"),
    [
        ("scenario: One lamp waits. It has {C1}.\n", "One lamp waits."),
        (
            "scenario: Fed through {C1} from a {V0} battery, *{C2.name}* has\n  {C2.value}.\n",
            "Fed through C1 (15 µF) from a 12 V battery, C2 has 22 µF.",
        ),
        ("scenario: A 1.5 V cell & a lamp <b> at 3 p.m. it is lit.\n",
         "A 1.5 V cell & a lamp <b> at 3 p.m. it is lit."),
        ("", "A worked example with capacitors: Two reservoirs behind one lamp."),
    ],
)  # fmt: skip
def test_a_page_is_described_by_its_first_sentence(scenario: str, told: str) -> None:
    """The description is plain text: the scenario's first sentence, with names and values."""
    assert description(lesson_with(scenario)).replace("\u00a0", " ") == told


def test_a_very_long_sentence_is_cut_at_a_word() -> None:
    """A description stays short enough to be shown whole."""
    told = description(lesson_with(f"scenario: {'harbour, ' * 60}.\n"))
    assert len(told) <= LONGEST + 1
    assert told.endswith("harbour…")


def test_a_preview_is_escaped_and_leaves_out_what_is_not_known() -> None:
    """No text of a unit can break out of the page's head."""
    tags = Preview('A "light" <b>', "Unit", "One & two.", BASE).tags()
    assert tags == (
        '<meta property="og:type" content="website">\n'
        '<meta property="og:site_name" content="Unit">\n'
        '<meta property="og:title" content="A &#34;light&#34; &lt;b&gt;">\n'
        '<meta property="og:description" content="One &amp; two.">\n'
        f'<meta property="og:url" content="{BASE}">\n'
    )


def test_a_unit_without_an_address_has_no_previews() -> None:
    """In a folder nothing points to an address that does not exist."""
    path = "problems/flasher.md"
    online = Online("Unit", "", "", {path: "A lamp."}, {path: "<svg/>"})
    assert online.images() == {}
    assert online.with_preview("<head></head>", path, "x", "") == "<head></head>"


@pytest.mark.parametrize("slug", CIRCUITS)
def test_the_preview_image_is_a_whole_drawing_inside_its_sheet(slug: str) -> None:
    """The circuit stands in the middle of the sheet, its proportions kept."""
    head = head_of(page_of(CIRCUITS[slug], slug).lesson, Making(UNIT, images=True))
    online = Online("Unit", "", BASE, {}, {f"problems/{slug}.md": head.image})
    image = online.images()[f"problems/{slug}.svg"]
    root = ET.fromstring(image)
    (figure,) = root.findall("{http://www.w3.org/2000/svg}svg")
    left, top, width, height = (float(figure.attrib[k]) for k in ("x", "y", "width", "height"))
    assert left >= MARGIN - 1
    assert top >= MARGIN - 1
    assert 2 * left + width == pytest.approx(WIDTH, abs=1)
    assert 2 * top + height == pytest.approx(HEIGHT, abs=1)
    *_, box_width, box_height = map(float, figure.attrib["viewBox"].split())
    assert width / height == pytest.approx(box_width / box_height, rel=0.01)


def test_a_figure_without_a_size_is_refused() -> None:
    """What is no figure is not made into a picture."""
    with pytest.raises(ValueError, match="width and height"):
        preview_image("<svg></svg>")


def built(folder: Path, *more: str) -> Path:
    """A small unit, built with more lines of configuration; the folder of its site."""
    write_unit(folder, CIRCUITS)
    with (folder / "mkdocs.yml").open("a", encoding="utf-8") as file:
        file.write("".join(f"{line}\n" for line in more))
    build(load_config(str(folder / "mkdocs.yml"), strict=True))
    return folder / "site"


def metas(page: Path) -> dict[str, str]:
    """The named ``meta`` elements of a page, and its canonical address."""
    html = page.read_text(encoding="utf-8")
    found = dict(re.findall(r'<meta (?:name|property)="([^"]+)" content="([^"]*)"', html))
    canonical = re.search(r'<link rel="canonical" href="([^"]*)"', html)
    return found | ({"canonical": canonical[1]} if canonical else {})


def test_a_published_site_has_addresses_descriptions_and_previews(tmp_path: Path) -> None:
    """With an address, every page tells its own, and a problem shows its circuit."""
    site = built(tmp_path, f"site_url: {BASE}", "site_description: A unit on light")
    problem = metas(site / "problems" / "flasher.html")
    told = "A flasher board stores its charge in C2 (22 µF) and C3 (8 µF), fed through C1 (15 µF)"
    assert problem["description"].replace("\u00a0", " ") == f"{told} from a 12 V battery."
    assert problem["og:description"] == problem["description"]
    assert problem["canonical"] == problem["og:url"] == f"{BASE}problems/flasher.html"
    assert problem["og:title"] == "Two reservoirs behind one lamp"
    assert problem["og:image"] == f"{BASE}problems/flasher.svg"
    assert problem["og:image:alt"] == "The circuit of the problem"
    assert (site / "problems" / "flasher.svg").read_text("utf-8").startswith("<svg")
    front = metas(site / "index.html")
    assert front["canonical"] == front["og:url"] == f"{BASE}index.html"
    assert front["og:description"] == "A unit on light"
    assert "og:image" not in front
    assert f"<loc>{BASE}problems/flasher.html</loc>" in (site / "sitemap.xml").read_text("utf-8")


def test_a_site_for_a_folder_names_no_address(tmp_path: Path) -> None:
    """Without an address there is a description, and nothing that points outside."""
    site = built(tmp_path)
    told = metas(site / "problems" / "flasher.html")
    assert told["description"].startswith("A flasher board stores")
    assert "canonical" not in told
    assert not [name for name in told if name.startswith("og:")]
    assert not list(site.rglob("problems/*.svg"))


def test_a_missing_page_leads_on(tmp_path: Path) -> None:
    """The page for wrong addresses says so in the unit's voice and links to what there is."""
    html = (built(tmp_path, f"site_url: {BASE}") / "404.html").read_text(encoding="utf-8")
    assert "<h1>No page at this address</h1>" in html
    assert "<title>No page at this address - A small unit</title>" in html
    article = html.split("<h1>", 1)[1].split("</article>", 1)[0]
    # Whatever address was asked for, the links must lead to the unit: they start at the root.
    assert '<a href="/unit/index.html">Home</a>' in article


def test_the_theme_still_needs_its_mends(built_site: Path) -> None:
    """Each mend finds its place on every page; one that no longer fits is to be looked at."""
    for page in ("index.html", "404.html", "problems/flasher-reservoir.html"):
        html = (built_site / page).read_text(encoding="utf-8")
        for _, instead in MENDS:
            assert html.count(instead) == 1
    for found, instead in MENDS:
        assert mended(f"<div {found}>") == f"<div {instead}>"


def test_the_workflow_builds_by_the_commands_of_the_readme() -> None:
    """The file for hosts is a workflow of standard steps that ends with the site's folder."""
    text = (ROOT / ".ci" / "publish-workflow.yml").read_text(encoding="utf-8")
    # YAML 1.1 reads the bare key "on" as true.
    workflow = yaml.safe_load(text)
    steps = workflow["jobs"]["site"]["steps"]
    used = [step["uses"].partition("@")[0] for step in steps if "uses" in step]
    assert used == ["actions/checkout", "actions/setup-python", "actions/upload-artifact"]
    assert [step["run"] for step in steps if "run" in step][-1] == "make site"
    assert steps[-1]["with"]["path"] == "site"
    assert "SITE_URL" in (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
