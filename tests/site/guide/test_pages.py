"""The guide's pages in whole builds, and in a browser."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest
import yaml
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from builder.problem import limits
from builder.site.embed import embed
from builder.site.guide import Guide
from builder.site.guide.keys import sections
from builder.site.guide.pages import AUTHORS
from tests.conftest import Open
from tests.site.guide.texts import PAGES, PROBLEMS, in_role
from tests.site.pages import FLASHER, Markup, write_unit

SCROLLING = """[...document.querySelectorAll('article pre > code')].every(
    box => ['auto', 'scroll'].includes(getComputedStyle(box).overflowX))"""
WHOLE = [f"guide/{path.removesuffix('.md')}.html" for path in PAGES]


def built(folder: Path, option: str = "", pages: dict[str, str] | None = None) -> Path:
    """A small unit with that `guide:` option, without fresh numbers; the folder of its site."""
    for path in pages or ():
        (folder / "content" / path).parent.mkdir(parents=True)
    write_unit(folder, {"flasher": FLASHER}, pages)
    file = folder / "mkdocs.yml"
    told = f"stepwell: {{fresh: false{', guide: ' + option if option else ''}}}"
    text = file.read_text(encoding="utf-8").replace("stepwell]", f"{{{told}}}]")
    file.write_text(text, encoding="utf-8")
    build(load_config(str(file), strict=True))
    return folder / "site"


def guide_in(site: Path) -> set[str]:
    """The pages of the guide in a site."""
    return {path.relative_to(site).as_posix() for path in (site / "guide").rglob("*.html")}


@pytest.mark.parametrize(
    ("option", "starts"),
    [
        ("", ("guide/students",)),
        ("[]", ()),
        ("[publishing]", ("guide/publishing",)),
        ("[students, authors, publishing]", ("guide/",)),
    ],
)
def test_the_option_says_for_whom_there_is_a_guide(
    tmp_path: Path, option: str, starts: tuple[str, ...]
) -> None:
    """Students have one unless an author says otherwise; the others if they are named."""
    site = built(tmp_path, option)
    assert guide_in(site) == {page for page in WHOLE if starts and page.startswith(starts)}


def test_an_audience_that_there_is_not_is_refused(tmp_path: Path) -> None:
    """A slip in the option stops the build."""
    with pytest.raises(Abort):
        built(tmp_path, "[parents]")


def test_an_author_page_takes_the_place_of_ours(tmp_path: Path) -> None:
    """A page of the unit at a guide's path is kept."""
    site = built(tmp_path, "", {"guide/students.md": "# With us\n\nAsk at the harbour office.\n"})
    assert "harbour office" in (site / "guide" / "students.html").read_text(encoding="utf-8")


def test_pages_link_to_the_folder_of_the_problems() -> None:
    """Where a unit keeps its problems elsewhere, the guide leads there."""
    pages = Guide(("students",), folder="tasks").pages()
    assert "(../tasks/index.md)" in pages["guide/students.md"]


def test_nothing_is_solved_that_nobody_reads(monkeypatch: pytest.MonkeyPatch) -> None:
    """Listing the pages, and those for students and publishing, works out no example."""

    def never(*_: object) -> str:
        raise AssertionError

    monkeypatch.setattr("builder.site.guide.pages.made_of", never)
    everybody = Guide(("students", "authors", "publishing"))
    assert len(everybody.pages()) == len(PAGES)
    for path, markdown in Guide(("students", "publishing")).pages().items():
        assert everybody.fill(markdown) == markdown, path


def test_the_pages_are_sound(built_site: Path) -> None:
    """In the unit's site every placeholder is filled, tags close, and ids are unique."""
    assert guide_in(built_site) == set(WHOLE)
    for page in WHOLE:
        html = (built_site / page).read_text(encoding="utf-8")
        assert "data-stepwell-guide" not in html
        article = html.split("<article", 1)[1].split(">", 1)[1].split("</article>")[0]
        markup = Markup(article)
        assert markup.faults == [], page
        ids = [attributes["id"] for _, attributes in markup.tags if attributes.get("id")]
        assert len(ids) == len(set(ids)), page
        levels = [int(tag[1]) for tag, _ in markup.tags if re.fullmatch("h[1-6]", tag)]
        assert levels[0] == 1
        assert levels.count(1) == 1
        assert all(lower - upper <= 1 for upper, lower in pairwise(levels))


def test_every_example_stands_on_its_page(built_site: Path) -> None:
    """Each problem is on a page of the site with its YAML, its title and its answers."""
    pages = "".join((built_site / page).read_text(encoding="utf-8") for page in WHOLE)
    assert pages.count('class="sw-guide-made"') == len(PROBLEMS)
    for text in PROBLEMS.values():
        title = text.splitlines()[0].removeprefix("title: ").replace("'", "&#39;")
        assert f'aria-label="What comes of it: {title}"' in pages


def test_links_to_keys_lead_to_them(built_site: Path) -> None:
    """Every key has its anchor on the page of all keys."""
    html = (built_site / "guide" / "authors" / "keys.html").read_text(encoding="utf-8")
    for section in sections():
        assert f'id="{section.anchor}"' in html
        for key in section.keys:
            assert f'id="{key.anchor}"' in html


def test_the_examples_of_keys_are_theirs() -> None:
    """What stands below a key is YAML that says what the shape's own example says."""
    for section in sections():
        for key in section.keys:
            for example in key.examples:
                loaded = yaml.load(example, Loader=yaml.BaseLoader)  # noqa: S506 - texts only
                assert list(loaded) == [key.name]


def test_every_limit_is_told() -> None:
    """The reference of keys ends with how large a file may be, each limit with its number."""
    told = Guide(["authors"]).pages()["guide/authors/keys.md"].partition("{#limits}")[2]
    assert f"- {limits.MOST_ELEMENTS} elements in a circuit" in told
    assert "- 20\u00a0000 keys and values in a file" in told
    assert told.count("\n- ") == len(limits.LIMITS)


def test_pages_for_authors_are_a_row() -> None:
    """Each page leads to the next, and all of them are in the row."""
    assert {*AUTHORS, "authors/index.md"} == {p for p in PAGES if p.startswith("authors/")}
    pages = Guide(("authors",)).pages()
    for here, there in pairwise(AUTHORS):
        assert f"]({there.removeprefix('authors/')})\n" in pages[f"guide/{here}"]


def test_the_shown_lesson_is_one() -> None:
    """The block of a lesson, as shown, is taken where such a problem exists."""
    (block,) = in_role("lesson")
    placed = embed(block.text, "two-in-one.md", {"wheelhouse-lamps"})
    assert placed.count("data-stepwell-part") == 3


def test_the_shown_site_can_be_built(tmp_path: Path) -> None:
    """The parts of mkdocs.yml that are shown make a site that packs itself."""
    write_unit(tmp_path, {"flasher": FLASHER})
    for number, block in enumerate(in_role("site")):
        parts = [block.text.replace("fresh: true", "fresh: false")]
        parts += ["theme: {name: material, font: false}"] * ("theme:" not in block.text)
        parts += ["plugins: [stepwell: {fresh: false}]"] * ("plugins:" not in block.text)
        text = "site_name: A small unit\ndocs_dir: content\n" + "\n".join(parts)
        text += "\nvalidation: {nav: {omitted_files: ignore}}\n"
        (tmp_path / "mkdocs.yml").write_text(text, encoding="utf-8")
        build(load_config(str(tmp_path / "mkdocs.yml"), strict=True,
                          site_dir=str(tmp_path / f"site-{number}")))  # fmt: skip
        assert (tmp_path / f"site-{number}" / "problems" / "flasher.html").is_file() or (
            tmp_path / f"site-{number}" / "problems" / "flasher" / "index.html"
        ).is_file()


@pytest.mark.parametrize("width", [360, 1280])
def test_nothing_is_wider_than_the_screen(built_site: Path, visit: Open, width: int) -> None:
    """On a phone YAML scrolls in its own box, and the page stays as wide as the screen."""
    visited = visit(built_site / WHOLE[0], built_site, viewport={"width": width, "height": 800})
    page = visited.page
    for path in WHOLE:
        page.goto((built_site / path).as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path
        assert page.evaluate(SCROLLING), path
    assert visited.errors == []
    assert visited.strays == []
