"""The unit as one zip: what is in it, what keeps it from being written, and how it opens."""

from __future__ import annotations

import re
import zipfile
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from playwright.sync_api import expect

from builder.cli import main
from builder.site.pack import START, pack, read_site, start_page, zipped
from builder.site.pack_check import faults_of
from tests.conftest import Open
from tests.site.answering import answer_every_question
from tests.site.pages import FLASHER, write_unit

PAGE = "<!doctype html><title>A &amp; B</title><main><h1 id='top-of-it'>A</h1>{}</main>"
OUTSIDE = (
    "outside the site; expected a file of the site. Put the file into the content and refer to "
    "it there."
)
NOWHERE = (
    "where no file of the site is; expected the path of a file. Correct the address; in a folder "
    "it must end in a file's name."
)
ASKS = (
    "in a script; expected data that the page brings along. A page in a folder may ask for "
    "nothing; write the data into it."
)
CLICK = (
    "outside the site; expected a link that the author wrote. Take it out of the frame of the "
    "page, in mkdocs.yml, or write it in a lesson."
)
COLUMN = PAGE.index("{}") + 1


def run(*arguments: str) -> Result:
    """Run the command."""
    return CliRunner().invoke(main, ["pack", *arguments])


def site_with(body: str = "", **files: str) -> dict[str, bytes]:
    """A site of two pages, the second in a folder, and other files."""
    texts = {
        "index.html": PAGE.format(body),
        "deep/b.html": PAGE.format("<a href='../index.html'>"),
    }
    return {path: text.encode() for path, text in (texts | files).items()}


BROKEN = {
    '<img src="https://example.org/a.png">': f'"https://example.org/a.png", {OUTSIDE}',
    '<img src="//example.org/a.png">': f'"//example.org/a.png", {OUTSIDE}',
    '<img srcset="http://example.org/b.png 2x">': f'"http://example.org/b.png", {OUTSIDE}',
    '<script src="https://example.org/s.js"></script>': f'"https://example.org/s.js", {OUTSIDE}',
    '<link rel="stylesheet" href="https://example.org/s.css">':
        f'"https://example.org/s.css", {OUTSIDE}',
    '<link rel="preconnect" href="https://example.org">': f'"https://example.org", {OUTSIDE}',
    '<iframe src="https://example.org/f"></iframe>': f'"https://example.org/f", {OUTSIDE}',
    '<svg><use xlink:href="https://example.org/i.svg#a"/></svg>':
        f'"https://example.org/i.svg#a", {OUTSIDE}',
    '<p style="background: url(https://example.org/p.png)">':
        f'"https://example.org/p.png", {OUTSIDE}',
    '<form action="https://example.org/send"></form>': f'"https://example.org/send", {OUTSIDE}',
    '<meta http-equiv="refresh" content="0; url=https://example.org/">':
        f'"https://example.org/", {OUTSIDE}',
    '<img src="file:///a.png">': f'"file:///a.png", {OUTSIDE}',
    '<a href="https://example.org/">x</a>': f'"https://example.org/", {CLICK}',
    '<article></article><a href="https://example.org/">x</a>': f'"https://example.org/", {CLICK}',
    '<article><a href="javascript:go()">x</a></article>': f'"javascript:go()", {CLICK}',
    '<a href="c.html">x</a>': f'"c.html", {NOWHERE}',
    '<a href="deep/">x</a>': f'"deep/", {NOWHERE}',
    '<a href="deep">x</a>': f'"deep", {NOWHERE}',
    '<a href="/index.html">x</a>': f'"/index.html", {NOWHERE}',
    '<a href="../index.html">x</a>': f'"../index.html", {NOWHERE}',
    '<img src="a.png">': f'"a.png", {NOWHERE}',
    '<a href="#nothing">x</a>':
        '"#nothing", where no such anchor is; expected an id in index.html. '
        "Correct what follows the #.",
    '<a href="deep/b.html#nothing">x</a>':
        '"deep/b.html#nothing", where no such anchor is; expected an id in deep/b.html. '
        "Correct what follows the #.",
}  # fmt: skip


@pytest.mark.parametrize("body", BROKEN)
def test_a_page_that_is_not_whole_is_named(body: str) -> None:
    """A request to another host or a link to nothing is told with page, line and address."""
    told = [str(fault) for fault in faults_of(site_with(body))]
    column = COLUMN + max(body.find("<a "), body.find("<use"), 0)
    assert told == [f"index.html:1:{column}: found {BROKEN[body]}"]


IN_FILES = {
    ("s.css", "a { background: url('https://example.org/p.png') }"):
        f's.css: found "https://example.org/p.png", {OUTSIDE}',
    ("s.css", '@import "https://example.org/t.css";'):
        f's.css: found "https://example.org/t.css", {OUTSIDE}',
    ("s.css", "@font-face { src: url(f.woff2) }"): f's.css: found "f.woff2", {NOWHERE}',
    ("s.js", 'var s = "https://example.org/s.js";'):
        f's.js: found "https://example.org/s.js", {OUTSIDE}',
    ("s.js", "var s = `//example.org/s.js`;"): f's.js: found "//example.org/s.js", {OUTSIDE}',
    ("s.js", 'fetch("data.json").then(go)'): f's.js: found "fetch", {ASKS}',
    ("s.js", "window.fetch (address)"): f's.js: found "window.fetch", {ASKS}',
    ("s.js", 'import("./m.js")'): f's.js: found "import", {ASKS}',
    ("s.js", "new XMLHttpRequest()"): f's.js: found "XMLHttpRequest", {ASKS}',
    ("assets/javascripts/t.js", 'load("https://example.org/t.js")'):
        f'assets/javascripts/t.js: found "https://example.org/t.js", {OUTSIDE}',
    ("d.svg", '<svg><image href="https://example.org/i.png"/></svg>'):
        f'd.svg:1:6: found "https://example.org/i.png", {OUTSIDE}',
}  # fmt: skip


@pytest.mark.parametrize(("path", "text"), IN_FILES)
def test_styles_scripts_and_drawings_are_read_too(path: str, text: str) -> None:
    """What a style, a script or a drawing would load is told with its file."""
    assert [str(fault) for fault in faults_of(site_with("", **{path: text}))] == [
        IN_FILES[path, text]
    ]


def test_scripts_and_styles_in_a_page_are_read_too() -> None:
    """Inline code counts like a file; data in a script element does not."""
    body = (
        '<style>a { background: url("https://example.org/p.png") }</style>'
        '<script>fetch("x")</script><script>a = "https://example.org/s.js"</script>'
        '<script type="application/json">{"a": "https://example.org/data"}</script>'
    )
    addresses = [str(fault).split('"')[1] for fault in faults_of(site_with(body))]
    assert addresses == ["https://example.org/p.png", "https://example.org/s.js", "fetch"]


def test_what_works_in_a_folder_is_no_fault() -> None:
    """Files and anchors of the site, data, mail, names of standards, and an author's own links."""
    body = (
        '<a href="deep/b.html#top-of-it">a</a><a href="deep/b.html?x=1">b</a><a href="#">c</a>'
        '<a href="#top-of-it">d</a><a href="mailto:harbour@example.org">e</a>'
        '<img src="data:image/gif;base64,R0lGOD">'
        '<link rel="canonical" href="https://example.org/a.html">'
        '<article><a href="https://example.org/">f</a></article>'
        '<svg xmlns="http://www.w3.org/2000/svg"></svg>'
        '<a href="with%20space.html">g</a>'
    )
    files = {
        "with space.html": "<p>",
        "s.css": "/* url(https://example.org/old.png) */ a { mask: url('deep/b.html') }",
        "s.js": 'var ns = "http://www.w3.org/2000/svg", say = "look at https://example.org";',
        "search/search_index.js": 'var __index = {"text": "https://example.org"}',
    }
    assert faults_of(site_with(body, **files)) == ()


def test_a_sleeping_address_of_the_theme_must_stay_asleep() -> None:
    """The theme's own outside addresses pass only while no page holds what wakes them."""
    script = {"assets/javascripts/bundle.js": 'load("https://unpkg.com/mermaid@11/dist/m.js")'}
    assert faults_of(site_with("", **script)) == ()
    (fault,) = faults_of(site_with('<pre class="mermaid">a</pre>', **script))
    assert str(fault).startswith(
        'assets/javascripts/bundle.js: found "https://unpkg.com/mermaid@11/dist/m.js", outside'
    )


def test_the_same_site_gives_the_same_zip() -> None:
    """Neither the order of the files nor the clock is seen in the zip."""
    files = site_with("", **{"s.js": "1"})
    assert zipped(files) == zipped(dict(reversed(files.items())))


def test_a_unit_is_built_and_packed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a built site one is made; two runs give the same bytes, and what it holds is told."""
    write_unit(tmp_path, {"flasher": FLASHER})
    monkeypatch.chdir(tmp_path)
    # The theme's own link to its maker is no author's.
    refused = run()
    assert (refused.exit_code, Path("unit.zip").exists()) == (1, False)
    told = [line for line in refused.stderr.splitlines() if line]
    assert told
    assert all(line.endswith(CLICK) for line in told)
    with Path("mkdocs.yml").open("a", encoding="utf-8") as config:
        config.write("extra: {generator: false}\n")
    result = run()
    assert result.exit_code == 0, result.output
    assert re.fullmatch(
        r"unit\.zip: \d+ files, \d+ kB, zipped \d+ kB; asks nothing of any other host\.\n",
        result.output,
    )
    assert run("--out", "again.zip").exit_code == 0
    assert Path("unit.zip").read_bytes() == Path("again.zip").read_bytes()
    assert not Path("site").exists()
    with zipfile.ZipFile("unit.zip") as archive:
        names = archive.namelist()
        assert archive.testzip() is None
    assert names == sorted(names)
    assert {START, "unit/index.html", "unit/problems/flasher.html"} <= set(names)
    unwanted = [n for n in names if n.endswith((".map", ".yml")) or "sitemap" in n or "404" in n]
    assert unwanted == []


def test_a_unit_that_does_not_build_is_not_packed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The build's own words are passed on, and nothing is written."""
    write_unit(tmp_path, {"flasher": FLASHER.replace("22 uF", "22")})
    monkeypatch.chdir(tmp_path)
    result = run()
    assert result.exit_code == 1
    lines = result.stderr.splitlines()
    assert any('flasher.yml:11:15: found "22"' in line for line in lines)
    assert lines[-1] == "The site does not build, so nothing was packed."
    assert not Path("unit.zip").exists()


def test_what_cannot_be_packed_is_told(tmp_path: Path) -> None:
    """A folder without a site, a stranger's file, a broken page: one line each, exit code 1."""
    site, out = tmp_path / "site", tmp_path / "unit.zip"
    site.mkdir()
    told = run("--site", str(site), "--out", str(out))
    assert (told.exit_code, told.stderr) == (
        1,
        f"{site}: found no index.html; expected the folder of a built site. Build one with make "
        "site, or leave out --site.\n",
    )
    for path, content in site_with('<img src="https://example.org/a.png">').items():
        (site / path).parent.mkdir(exist_ok=True)
        (site / path).write_bytes(content)
    told = run("--site", str(site), "--out", str(out))
    assert (told.exit_code, told.stdout) == (1, "")
    assert told.stderr == (f'index.html:1:{COLUMN}: found "https://example.org/a.png", {OUTSIDE}\n')
    assert not out.exists()
    (site / "index.html").write_bytes(site_with()["index.html"])
    out.write_text("mine", encoding="utf-8")
    told = run("--site", str(site), "--out", str(out))
    assert (told.exit_code, out.read_text(encoding="utf-8")) == (1, "mine")
    assert told.stderr == (
        f"{out}: found a file that is no packed unit; expected no file, or an earlier zip to "
        "replace. Choose another --out, or overwrite it with --force.\n"
    )
    told = run("--site", str(site), "--out", str(out / "in.zip"))
    assert told.stderr.startswith(f"{out / 'in.zip'}: found a place that cannot be written (")
    assert run("--site", str(site), "--out", str(out), "--force").exit_code == 0
    assert run("--site", str(site), "--out", str(out)).exit_code == 0
    assert b"Start here: A &amp; B" in start_page(read_site(site))


def test_the_packed_unit_works_from_its_folder(
    built_site: Path, visit: Open, tmp_path: Path
) -> None:
    """Unpacked, with the network off: every link, every question and the search work."""
    with zipfile.ZipFile(pack(tmp_path / "unit.zip", site=built_site).path) as archive:
        archive.extractall(tmp_path / "stick")
    folder = tmp_path / "stick"
    visited = visit(folder / START, folder)
    page = visited.page
    page.get_by_role("link", name="Open the unit").click()
    expect(page).to_have_title(re.compile("Harbour Lights"))
    seen: set[str] = set()
    answered = 0
    waiting = {page.url}
    while waiting:
        address = waiting.pop()
        seen.add(address)
        page.goto(address, wait_until="domcontentloaded")
        anchors = page.evaluate(
            "[...document.querySelectorAll('a[href]')].map(a => a.href)"
            ".filter(href => href.startsWith('file:'))"
        )
        lost = page.evaluate(
            "hrefs => hrefs.filter(h => h.split('#')[0] === location.href.split('#')[0]"
            " && new URL(h).hash && !document.getElementById(new URL(h).hash.slice(1)))",
            anchors,
        )
        assert lost == [], address
        waiting |= {anchor.split("#")[0] for anchor in anchors} - seen
        answered += answer_every_question(page)
    assert len(seen) == len(list((folder / "unit").rglob("*.html")))
    assert answered > 50
    page.goto((folder / "unit/problems/flasher-reservoir.html").as_uri())
    search = page.get_by_role("textbox", name="Search")
    search.click()
    search.press_sequentially("foghorn")
    found = page.locator("a[href*='foghorn-three-chain']").first
    expect(found).to_be_visible()
    assert visited.errors == []
    assert visited.strays == []
