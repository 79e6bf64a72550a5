"""Markup and scripts in every text field: nothing runs, and nothing of the text is lost."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from tests.conftest import Open
from tests.site.hostile import ALL, IN_MARKDOWN, PROBLEMS, write_hostile_unit
from tests.site.test_build import build_unit

PAGES = ("index.html", "lesson.html", "404.html", "guide/students.html",
         "reference/formulas.html", "problems/index.html", "problems/by-objective.html",
         *(f"problems/{slug}.html" for slug in PROBLEMS))  # fmt: skip
NO_TRAP = """() => {
  const traps = [];
  for (const element of document.querySelectorAll("*")) {
    for (const attribute of element.attributes) {
      const value = attribute.value.trim().toLowerCase();
      if (attribute.name.startsWith("on")) traps.push(element.outerHTML.slice(0, 200));
      const leads = ["href", "src", "xlink:href", "action", "formaction"];
      if (leads.includes(attribute.name) && (/^(javascript|vbscript):/.test(value)
          || value.includes("evil.example") || value.includes("etc/passwd")))
        traps.push(element.outerHTML.slice(0, 200));
    }
    if (element.localName === "script" && /window\\.ran/.test(element.textContent)
        && element.type !== "application/json") traps.push("script");
  }
  return traps;
}"""


@pytest.fixture(scope="module")
def hostile_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site of the unit, built once."""
    folder = tmp_path_factory.mktemp("hostile")
    write_hostile_unit(folder)
    return build_unit(folder)


@pytest.mark.parametrize("path", PAGES)
def test_nothing_of_an_authors_text_runs(hostile_site: Path, visit: Open, path: str) -> None:
    """Whatever is opened, pressed and typed: no script, no handler, no request leaves the page."""
    opened = visit(hostile_site / path, hostile_site)
    page = opened.page
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })")
    for number, button in enumerate(page.locator("article button:visible").all()):
        if number < 25 and button.is_visible() and button.is_enabled():
            button.click(timeout=2000, force=True)
    page.wait_for_timeout(100)
    assert page.evaluate("window.ran") is None
    assert page.evaluate(NO_TRAP) == []
    # The page that a server shows where there is none has addresses from the server's root.
    assert path == "404.html" or opened.strays == []
    assert path == "404.html" or opened.errors == []


FIELDS = {
    "problems/nest.html": ("title", "scenario", "plan", "goal", "reason", "ask", "ask-choice",
                           "right-text", "wrong-text", "right-reply", "wrong-reply"),
    "problems/relations.html": ("title-r", "scenario-r", "is-unknown", "because"),
    "problems/plates.html": ("title-p", "called"),
    "problems/index.html": ("title", "title-r", "title-p"),
    "problems/by-objective.html": ("sentence",),
    "index.html": ("sentence", "title"),
}  # fmt: skip
MARKDOWN = frozenset(
    "scenario scenario-r plan goal reason ask ask-choice because "
    "right-text wrong-text right-reply wrong-reply".split()
)


@pytest.mark.parametrize("path", FIELDS)
def test_every_text_is_shown_as_it_was_typed(hostile_site: Path, visit: Open, path: str) -> None:
    """Each field's text stands on the page, its brackets and braces as characters."""
    page = visit(hostile_site / path, hostile_site).page
    text = re.sub(r"\s+", " ", page.evaluate("document.querySelector('article').textContent"))
    for name in FIELDS[path]:
        shown = IN_MARKDOWN if name in MARKDOWN else ALL
        assert _plain(f"[{name}] {shown}") in _plain(text), name


def _plain(text: str) -> str:
    """Without spaces, stars of Markdown, and with one kind of quotes."""
    return re.sub(
        r"[\s*]+", "", text.translate({0x2018: "'", 0x2019: "'", 0x201C: '"', 0x201D: '"'})
    )


def test_what_scripts_read_is_data(hostile_site: Path, visit: Open) -> None:
    """Tables for scripts are JSON that no text can end, and the page has its own title."""
    page = visit(hostile_site / "problems/nest.html", hostile_site).page
    tables = page.locator("script[type='application/json']").all_text_contents()
    assert tables
    for table in tables:
        json.loads(table)
    assert page.title().startswith("[title] <script>")
    about = page.locator("meta[name=description]").get_attribute("content") or ""
    assert about.startswith("[scenario] <script>window.ran=1</script>")
    title = page.locator("meta[property='og:title']").get_attribute("content") or ""
    assert title.startswith("[title] <script>window.ran=1</script>")


@pytest.mark.parametrize(
    ("path", "title"),
    [("index.html", "[site-name]"), ("lesson.html", "[page-title] {} - [site-name]"),
     ("404.html", "No page at this address - [site-name]"),
     ("problems/index.html", "[nav] {} - [site-name]"),
     ("problems/nest.html", "[title] {} - [site-name]")],
)  # fmt: skip
def test_titles_and_what_is_told_of_a_page_are_text(
    hostile_site: Path, visit: Open, path: str, title: str
) -> None:
    """The names of the site, of its pages and of its sections, its sentence and its author."""
    page = visit(hostile_site / path, hostile_site).page
    assert page.title() == f"{title.replace('{}', ALL)} {ALL}"
    for name, told in (("author", r"\[(site-)?author\]"),
                       ("description", r"\[(site-about|about|scenario)\]")):  # fmt: skip
        content = page.locator(f"meta[name={name}]").get_attribute("content") or ""
        assert re.match(told + " <script>window.ran=1</script>", content), name
    head = page.locator(".md-header").text_content() or ""
    assert _plain(f"[site-name] {ALL}") in _plain(head)
    menu = page.locator(".md-nav--primary").text_content() or ""
    for name in ("site-name", "section", "nav", "page-title"):
        assert _plain(f"[{name}] {ALL}") in _plain(menu), name


def test_what_the_search_shows_is_text(hostile_site: Path) -> None:
    """The index, whose texts the search writes as markup, holds no element of an author's."""
    index = json.loads((hostile_site / "search" / "search_index.json").read_text("utf-8"))
    told = [f"{entry['title']} {entry['text']}" for entry in index["docs"]]
    assert any("[scenario]" in text for text in told)
    assert not [
        text for text in told if re.search(r"<\s*/?\s*(script|img|svg|style|title)\b", text)
    ]
