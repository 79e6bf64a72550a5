"""Hostile texts in what the commands write: sheets and keys, packs, pictures, new units."""

from __future__ import annotations

import re
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from builder.problem import read_problem, read_unit
from tests.conftest import Open
from tests.site.hostile import ALL, PROBLEMS, write_hostile_unit
from tests.site.pages import HEATER, write_unit
from tests.site.test_build import build_unit
from tests.site.test_hostile import NO_TRAP

SVG = "{http://www.w3.org/2000/svg}"
TITLE = f"</style></title>{ALL} ../../up \\ 100% \"'`"
UNSAFE = re.compile(r"^(on|href$|src$|style$)|}href$")


def call(*arguments: str | Path) -> Result:
    """A command, as its user calls it."""
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


def done(*arguments: str | Path) -> Result:
    """A command that has to succeed."""
    result = call(*arguments)
    assert result.exit_code == 0, result.output
    return result


def everything_below(folder: Path) -> set[Path]:
    """Every file and folder."""
    return set(folder.rglob("*"))


@pytest.fixture(scope="module")
def unit(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A hostile unit, with its site."""
    folder = tmp_path_factory.mktemp("hostile")
    write_hostile_unit(folder)
    build_unit(folder)
    return folder


def spaceless(text: str) -> str:
    """Without spaces."""
    return re.sub(r"\s+", "", text)


@pytest.fixture(scope="module")
def sheets(unit: Path) -> Path:
    """A sheet of all problems with its key, once by the unit's title and once by a hostile one."""
    names: list[str | Path] = [*PROBLEMS, "--unit", unit / "content", "--out", unit / "sheets"]
    done("sheet", *names)
    done("sheet", *names, "--title", TITLE)
    return unit / "sheets"


@pytest.mark.parametrize("kind", ["worksheet", "key"])
@pytest.mark.parametrize("titled", ["by-unit", "by-hand"])
def test_a_sheet_shows_texts_and_runs_none(
    sheets: Path, visit: Open, kind: str, titled: str
) -> None:
    """Title, unit, tasks and worked solutions: no script, no handler, no request, nothing lost."""
    file = _sheet(sheets, kind, titled)
    opened = visit(file, sheets)
    assert opened.page.evaluate("window.ran") is None
    assert opened.page.evaluate(NO_TRAP) == []
    assert opened.page.locator("script, iframe, object, embed, form, link, base").count() == 0
    assert (opened.strays, opened.errors) == ([], [])
    text = spaceless(opened.page.evaluate("document.body.textContent"))
    for name in ("title", "title-r", "title-p"):
        assert spaceless(f"[{name}] {ALL}") in text
    named = f"[unit-title] {ALL}" if titled == "by-unit" else TITLE
    assert spaceless(named) in spaceless(opened.page.locator("h1").text_content() or "")
    assert opened.page.title().startswith(" ".join(named.split())[:40])
    rules = opened.page.evaluate(
        "[...document.styleSheets].flatMap(s => [...s.cssRules]).map(r => r.cssText).join(' ')"
    )
    assert "window" in rules  # the foot of the pages, as a string that ends where it should
    assert opened.page.evaluate("document.styleSheets.length") == 1


def _sheet(sheets: Path, kind: str, titled: str) -> Path:
    files = sorted(sheets.glob(f"*-{kind}.html"))
    assert len(files) == 2
    return next(
        file for file in files if file.name.startswith("unit-title") == (titled == "by-unit")
    )


def test_a_sheets_name_is_a_plain_one(sheets: Path) -> None:
    """Made of words alone, short enough, and inside the folder that was asked for."""
    for file in sheets.iterdir():
        assert re.fullmatch(r"[\w-]{1,75}\.html", file.name)
    assert not list(sheets.parent.parent.glob("up*"))


@pytest.mark.parametrize("slug", ["nest", "plates"])
def test_a_picture_is_sound_xml(unit: Path, slug: str) -> None:
    """Read by a strict parser, with the title as it was typed, and nothing that could run."""
    file = unit / "content/problems" / f"{slug}.yml"
    root = ElementTree.fromstring(done("draw", file, "--out", "-").stdout)
    assert root.findtext(f"{SVG}title") == f"{read_problem(file).title}: The circuit" or (
        slug == "plates" and read_problem(file).title in (root.findtext(f"{SVG}title") or "")
    )
    _nothing_runs(root)


def _nothing_runs(root: ElementTree.Element) -> None:
    allowed = "svg title desc style rect g path text tspan line circle polyline polygon ellipse"
    for element in root.iter():
        assert element.tag in {f"{SVG}{name}" for name in allowed.split()}
        assert not [name for name in element.attrib if UNSAFE.search(name)]


@pytest.mark.parametrize("slug", ["nest", "plates"])
def test_a_preview_image_is_sound_xml(unit: Path, slug: str) -> None:
    """The picture that goes along with a page's address."""
    file = unit / "site/problems" / f"{slug}.svg"
    _nothing_runs(ElementTree.fromstring(file.read_text("utf-8")))


def test_a_photograph_is_taken_of_it(unit: Path) -> None:
    """The page by which a picture becomes dots holds it as data that cannot end its script."""
    out = unit / "plates.png"
    done("draw", unit / "content/problems/plates.yml", "--out", out)
    assert out.read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize("page", ["START-HERE.html", "unit/index.html", "unit/problems/nest.html"])
def test_a_packed_unit_runs_nothing(unit: Path, tmp_path: Path, visit: Open, page: str) -> None:
    """From the page to start with on; the names in the zip stay below the folder unpacked into."""
    done("pack", "--site", unit / "site", "--out", tmp_path / "unit.zip")
    with zipfile.ZipFile(tmp_path / "unit.zip") as archive:
        for name in archive.namelist():
            assert not name.startswith("/")
            assert not {"..", ""} & set(name.split("/"))
            assert "\\" not in name
        archive.extractall(tmp_path / "away")
    opened = visit(tmp_path / "away" / page, tmp_path / "away")
    assert opened.page.evaluate("window.ran") is None
    assert opened.page.evaluate(NO_TRAP) == []
    assert (opened.strays, opened.errors) == ([], [])
    if page == "START-HERE.html":
        assert spaceless(f"[site-name] {ALL}") in spaceless(
            opened.page.locator("h1").text_content() or ""
        )


def test_a_link_that_leads_out_of_a_site_is_not_packed(unit: Path, tmp_path: Path) -> None:
    """Whoever is given the zip gets nothing of the rest of the disk."""
    (tmp_path / "site").mkdir()
    (tmp_path / "site/index.html").write_text("<title>Unit</title>", "utf-8")
    (tmp_path / "secret.txt").write_text("secret", "utf-8")
    (tmp_path / "site/notes.txt").symlink_to(tmp_path / "secret.txt")
    result = call("pack", "--site", tmp_path / "site", "--out", tmp_path / "unit.zip")
    assert result.exit_code == 1
    assert "notes.txt: found a link that leads out of the site" in result.stderr
    assert not (tmp_path / "unit.zip").exists()


@pytest.mark.parametrize("name", ["notes.txt", "notes.md", "problems/notes.yml", "away/notes.txt"])
def test_a_link_that_leads_out_of_the_unit_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    """A strict build stops before anything of the rest of the disk is published or packed."""
    folder = tmp_path / "unit"
    write_unit(folder, {"heater": HEATER})
    outside = tmp_path / "outside"
    outside.mkdir()
    for ending in ("txt", "md", "yml"):
        (outside / f"notes.{ending}").write_text("title: Notes\n", "utf-8")
    if name.startswith("away/"):
        (folder / "content/away").symlink_to(outside)
    else:
        (folder / "content" / name).symlink_to(outside / Path(name).name)
    monkeypatch.chdir(folder)
    result = call("pack")
    assert result.exit_code == 1
    assert f"{Path(name).name}: found a link that leads out of the unit" in result.stderr
    assert not (folder / "unit.zip").exists()


def test_content_that_lies_elsewhere_is_the_unit_s_own(tmp_path: Path) -> None:
    """A unit may keep its content beside its settings, or behind one link to another disk."""
    write_unit(tmp_path / "unit", {"heater": HEATER})
    away = (tmp_path / "unit/content").rename(tmp_path / "elsewhere")
    settings = tmp_path / "unit/mkdocs.yml"
    settings.write_text(
        settings.read_text("utf-8").replace("docs_dir: content", "docs_dir: ../elsewhere"), "utf-8"
    )
    assert (build_unit(tmp_path / "unit") / "problems/heater.html").is_file()
    (tmp_path / "linked").symlink_to(away)
    settings.write_text(settings.read_text("utf-8").replace("../elsewhere", "../linked"), "utf-8")
    assert (build_unit(tmp_path / "unit") / "problems/heater.html").is_file()


PLAIN_TITLES = (
    "{{ 7*7 }} ${7*7} $title ${title}", "Title: # no comment", "'single' \"double\" `back`",
    "!!python/object:os.system", "&anchor *alias", "- item", "| block", "---", "...", "@at %dir",
    "*bold* _it_ [l](javascript:alert(1)) ![p](x)", "\\frac{a}{b} $x$ \\(y\\)",
    "{: onclick=alert(1) }",
    "&lt;script&gt; &#60; &amp;", "../../up", "C:\\up", "con", "\u202etfel\u202c \u200bx",
    "\u2028y", "x" * 900, "null", "12:30", "~", "1e3", "===", "Tab\there", "two\nlines",
    "{{", "}}", "{C1}",
)  # fmt: skip


@pytest.mark.parametrize("title", PLAIN_TITLES)
def test_a_title_given_to_new_and_start_is_taken_for_text(tmp_path: Path, title: str) -> None:
    """It reads back as it was typed, but for spaces; or it is refused, and nothing is written."""
    folder = tmp_path / "unit"
    shown = " ".join(title.split())
    result = call("start", folder, "--title", title)
    if result.exit_code:
        assert not folder.exists()
        assert everything_below(tmp_path) == set()
        return
    assert read_unit(folder / "content/unit.yml").title == shown
    made = call("new", "lamps", "--kind", "groups", "--unit", folder / "content", "--title", title)
    file = folder / "content/problems/lamps.yml"
    assert made.exit_code == 0, made.output
    assert read_problem(file).title == shown


@pytest.mark.parametrize("title", ["A\x00B", "\x1b[31mred", "\x9bx", "\ufffe", "\ufeffx", "\x7f"])
def test_a_title_that_is_no_text_is_refused(tmp_path: Path, title: str) -> None:
    """A problem and a unit of that title could not be read again."""
    assert call("start", tmp_path / "unit", "--title", title).exit_code == 1
    done("start", tmp_path / "sound")
    before = everything_below(tmp_path)
    content = tmp_path / "sound/content"
    result = call("new", "lamps", "--kind", "groups", "--unit", content, "--title", title)
    assert result.exit_code == 1
    assert everything_below(tmp_path) == before


NAMES = (
    "../../up", "../up", "/up/up", "C:\\up", "C:up", "..\\up", "up/../../up", ".", "..", "", " ",
    "con", "nul.yml", "aux", "com1", "index", "by-objective", "UP", "up\x00", "up\n", "up\x1b[31m",
    "\u202epu", "up.", "-up", "up-", "u p", "~", "$HOME", "`up`", "x" * 61, "problems/up",
    "up.yaml",     "ＵＰ", "süd", "*", "up?", "up:stream",
)  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_no_name_leads_out_of_the_folder_of_problems(tmp_path: Path, name: str) -> None:
    """What is no plain name is refused in a line, and nothing is written anywhere."""
    content = tmp_path / "deep/unit/content"
    (content / "problems").mkdir(parents=True)
    (content / "unit.yml").write_text("title: A unit\n", "utf-8")
    before = everything_below(tmp_path)
    result = call("new", "--kind", "groups", "--unit", content, "--", name)
    assert result.exit_code in (1, 2), result.output
    assert isinstance(result.exception, SystemExit)
    assert everything_below(tmp_path) == before


@pytest.mark.parametrize(
    "command",
    ["solve N", "draw N", "draw F --out N", "draw F --out N/x.svg", "key N", "key S --unit N",
     "sheet N", "sheet S --out N", "numbers N", "check N", "start N", "pack --site N",
     "pack --config N", "pack --site W --out N", "schema --out N", "new a --kind groups --unit N"],
)  # fmt: skip
@pytest.mark.parametrize("path", ["a\x00b", "x" * 300, "\udcff/\udcfe", "plain.txt/inside"])
def test_paths_that_no_system_takes_are_told(
    unit: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str, path: str
) -> None:
    """With a line, and never with a traceback: NUL, far too long, no text, below a file."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "plain.txt").touch()
    words = {"N": path, "N/x.svg": f"{path}/x.svg", "S": "plates", "W": str(unit / "site"),
             "F": str(unit / "content/problems/plates.yml")}  # fmt: skip
    result = call(*(words.get(word, word) for word in command.split()))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    assert result.exit_code in (0, 1, 2)
    assert result.exit_code or path.startswith("\udcff")
