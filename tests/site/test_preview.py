"""A preview goes on over what is faulty, and shows it in its place."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from builder.errors import Disagreement
from builder.plugin import StepwellPlugin
from builder.problem import read_problem_text
from builder.problem.model import Problem
from builder.site.finished import Making
from builder.site.kept import KeptPages, Store
from builder.solution import solve
from tests.site.pages import CIRCUITS, FLASHER, HEATER, LEFTOVERS, UNIT, Markup, write_unit

FAULTY = FLASHER.replace("22 uF", "22")
HOSTILE = "<img src=x onerror=alert(1)>"
TWO_LESSONS = {
    "one.md": "# One\n\nWords before.\n\n```problem\nflasher\nparts: opening\n```\n\nMore words.\n",
    "two.md": "# Two\n\n```problem\nheater\nparts: opening\n```\n",
}


@dataclass
class Served:
    """A unit that is served: built again and again by one plugin, as MkDocs does it.

    Attributes:
        folder: of the unit.
        warned: what the last build warned of.
    """

    folder: Path
    warned: list[str] = field(default_factory=list)
    _started: bool = False

    def rebuild(self) -> None:
        """Build the site, from the settings as they are now."""
        config = load_config(str(self.folder / "mkdocs.yml"))
        if not self._started:
            config.plugins.on_startup(command="serve", dirty=False)
            self._started = True
        self.warned.clear()
        build(config)

    def build_for_real(self, site: Path) -> None:
        """Build into another folder, as somebody does beside the preview."""
        config = load_config(str(self.folder / "mkdocs.yml"), site_dir=str(site))
        plugin = config.plugins["stepwell"]
        assert isinstance(plugin, StepwellPlugin)
        preview = plugin.preview
        config.plugins.on_startup(command="build", dirty=False)
        try:
            build(config)
        finally:
            plugin.preview = preview

    def edit(self, path: str, change: Callable[[str], str]) -> None:
        """Save a file of the content with another text."""
        file = self.folder / "content" / path
        file.write_text(change(file.read_text(encoding="utf-8")), encoding="utf-8")

    def page(self, path: str) -> str:
        """The article of a page."""
        html = (self.folder / "site" / path).read_text(encoding="utf-8")
        article = html.split("<article", 1)[1].split(">", 1)[1].split("</article>")[0]
        assert "data-stepwell-" not in article
        assert Markup(article).faults == []
        return article


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Callable[..., Served]]:
    """Serves a unit, after a first build."""
    told: list[str] = []
    handler = logging.Handler(logging.WARNING)
    handler.emit = lambda record: told.append(record.getMessage())  # type: ignore[method-assign]
    logger = logging.getLogger("mkdocs.plugins.stepwell")
    logger.addHandler(handler)

    def serve(problems: dict[str, str], pages: dict[str, str] | None = None, *,
              fresh: bool = False) -> Served:  # fmt: skip
        write_unit(tmp_path, problems, pages)
        settings = tmp_path / "mkdocs.yml"
        text = settings.read_text(encoding="utf-8")
        plain = text.replace("stepwell]", "{stepwell: {fresh: false}}]")
        settings.write_text(text if fresh else plain, encoding="utf-8")
        one = Served(tmp_path, told)
        one.rebuild()
        return one

    yield serve
    logger.removeHandler(handler)
    # MkDocs keeps a plugin as long as the process lives.
    load_config(str(tmp_path / "mkdocs.yml")).plugins.on_startup(command="build", dirty=False)


def test_a_faulty_problem_is_shown_as_its_fault(served: Callable[..., Served]) -> None:
    """Its page is named by its file and tells place, line, what was found and what to do."""
    site = served({**CIRCUITS, "astray": FAULTY})
    page = site.page("problems/astray.html")
    assert '<h1 id="astrayyml">astray.yml</h1>' in page
    assert "its file has a fault." in page
    assert "content/problems/astray.yml:11:15" in page
    assert "<mark>22</mark>" in page
    for said in ("a capacitance such as 10 uF or a resistance", "Add the unit after 22", "22 uF"):
        assert said in page
    assert site.page("problems/flasher.html").count('class="sw-step"') == 6
    assert [line.split(": found")[0] for line in site.warned] == [
        "stepwell: content/problems/astray.yml:11:15"
    ]


def test_a_real_build_stops(
    served: Callable[..., Served], caplog: pytest.LogCaptureFixture
) -> None:
    """What a preview shows stops every other build, which writes no page."""
    site = served({"flasher": FLASHER, "astray": FAULTY, "heater": HEATER.replace("24 V", "24")})
    with pytest.raises(Abort):
        site.build_for_real(site.folder / "real")
    lines = caplog.records[-1].getMessage().splitlines()
    assert [line.split(": found")[0] for line in lines if ": found" in line] == [
        "content/problems/astray.yml:11:15",
        "content/problems/heater.yml:4:11",
    ]
    assert not list((site.folder / "real").rglob("*.html"))


def test_a_mended_problem_is_shown_again(served: Callable[..., Served]) -> None:
    """Edited wrongly and rightly, deleted and renamed: each rebuild shows what is there."""
    site = served(CIRCUITS, TWO_LESSONS)
    site.edit("problems/flasher.yml", lambda text: text.replace("22 uF", "22"))
    site.rebuild()
    assert "This problem is not shown" in site.page("problems/flasher.html")
    lesson = site.page("one.html")
    assert "The problem flasher.yml is not shown." in lesson
    assert 'href="problems/flasher.html"' in lesson
    assert (
        lesson.index("Words before.") < lesson.index("is not shown") < lesson.index("More words.")
    )
    assert "sw-faulty" not in site.page("two.html")
    site.edit("problems/flasher.yml", lambda text: text.replace("C2: 22", "C2: 47 uF"))
    site.rebuild()
    assert "47\u202fµF" in site.page("problems/flasher.html").replace("\u00a0", "\u202f")
    assert "sw-faulty" not in site.page("one.html") + site.page("index.html")
    assert site.warned == []
    problems = site.folder / "content" / "problems"
    (problems / "leftovers.yml").rename(problems / "spare.yml")
    (problems / "heater.yml").unlink()
    site.rebuild()
    made = {path.stem for path in (site.folder / "site" / "problems").glob("*.html")}
    assert made == {"flasher", "spare", "index", "by-objective"}
    assert "found &#34;heater&#34;" not in site.page("two.html")
    assert "No problem is shown here," in site.page("two.html")
    assert [line.split(";")[0] for line in site.warned] == ['stepwell: two.md:4:1: found "heater"']


def test_lists_name_what_is_faulty_at_their_end(served: Callable[..., Served]) -> None:
    """Both lists and the front do; the pages beside a faulty one lead past it."""
    site = served({"a": FLASHER, "b": FAULTY, "c": HEATER})
    for path in ("problems/index.html", "problems/by-objective.html"):
        page = site.page(path)
        assert page.index('href="a.html"') < page.index('id="faulty"') < page.index('href="b.html"')
    front = site.page("index.html")
    assert "One problem is not shown." in front
    assert 'href="problems/b.html"' in front
    assert "Next problem</span> Keeping the battery box warm" in site.page("problems/a.html")
    assert "b.html" not in site.page("problems/a.html") + site.page("problems/c.html")


def test_what_is_faulty_in_the_unit_is_shown_on_its_front(served: Callable[..., Served]) -> None:
    """The unit's file as it last was serves on; problems lose nothing by it."""
    site = served(CIRCUITS)
    before = site.page("problems/flasher.html")
    site.edit("unit.yml", lambda text: text.replace("title", "titel"))
    site.rebuild()
    front = site.page("index.html")
    assert "unit.yml has a fault." in front
    assert "<mark>titel</mark>" in front
    assert "content/unit.yml:1:1" in front
    assert site.page("problems/flasher.html") == before
    assert [line.split(": found")[0] for line in site.warned] == ["stepwell: content/unit.yml:1:1"]
    site.edit("unit.yml", lambda text: text.replace("titel", "title"))
    site.rebuild()
    assert "sw-faulty" not in site.page("index.html")


@pytest.mark.parametrize("spoil", [
    lambda content: (content / "unit.yml").unlink(),
    lambda content: (content / "unit.yml").write_bytes(b"\xff\xfe\x00 no text"),
    lambda content: (content / "unit.yml").write_text("a: [\n"),
], ids=["missing", "binary", "no YAML"])  # fmt: skip
def test_a_preview_starts_without_a_unit(
    spoil: Callable[[Path], object], served: Callable[..., Served], tmp_path: Path
) -> None:
    """Where the unit's file was never right, problems are shown with the objectives they name."""
    site = served(CIRCUITS)
    spoil(tmp_path / "content")
    again = Served(tmp_path, site.warned)
    again.rebuild()
    assert "unit.yml has a fault." in again.page("index.html")
    assert again.page("problems/flasher.html").count('class="sw-step"') == 6
    assert "Merge parallel" in again.page("problems/by-objective.html")


def test_files_out_of_place_are_shown_on_the_front(served: Callable[..., Served]) -> None:
    """A problem in a folder of its own, one with another ending, and no folder at all."""
    site = served(CIRCUITS)
    problems = site.folder / "content" / "problems"
    (problems / "more").mkdir()
    (problems / "heater.yml").rename(problems / "more" / "heater.yml")
    (problems / "leftovers.yml").rename(problems / "leftovers.yaml")
    site.rebuild()
    front = site.page("index.html")
    assert "heater.yml has a fault." in front
    assert "a problem in a folder of its own" in front
    assert "leftovers.yaml has a fault." in front
    assert site.page("problems/flasher.html").count('class="sw-step"') == 6
    problems.rename(problems.with_name("elsewhere"))
    site.rebuild()
    assert "no such folder" in site.page("index.html")
    assert "There are no problems yet." in site.page("problems/index.html")


def test_a_faulty_block_of_a_lesson_is_shown_there(served: Callable[..., Served]) -> None:
    """Its place is that in the file, with what stands before the text; the rest is shown."""
    block = "```problem\nflashr\nparts: openin\n```"
    lesson = f"---\ntitle: Mine\n---\n\n# Mine\n\n{block}\n\nMore.\n\n```problem\nheater\n```\n"
    site = served(CIRCUITS, {"mine.md": lesson})
    page = site.page("mine.html")
    assert "mine.md:8:1" in page
    assert "mine.md:9:8" in page
    assert "<mark>flashr</mark>" in page
    assert "Did you mean &#34;flasher&#34;?" in page
    assert page.index("sw-faulty") < page.index("More.") < page.index('class="sw-part"')
    assert len(site.warned) == 2


@pytest.mark.parametrize("name", ["index", "by-objective", "two words", HOSTILE.replace("/", "")])
def test_a_file_of_an_impossible_name_has_a_page(name: str, served: Callable[..., Served]) -> None:
    """It takes the place of no other page, and its name does nothing."""
    site = served({"flasher": FLASHER, name: LEFTOVERS})
    page = site.page("problems/faulty-file-1.html")
    assert "the file name" in page
    assert 'href="faulty-file-1.html"' in site.page("problems/index.html")
    assert not [tag for tag, _ in Markup(page + site.page("index.html")).tags if tag == "img"]


@pytest.mark.parametrize("spoilt", [
    FLASHER.replace("22 uF", f'"{HOSTILE}"'),
    FLASHER.replace("Two reservoirs", f"{HOSTILE}: two"),
    FLASHER.replace("level: core", f"level: {HOSTILE}"),
    FLASHER.replace("level: core", f"{HOSTILE}: core"),
    FLASHER.replace("level: core", "level: \u202ecore"),
    FLASHER + f"</code></section><script>alert(1)</script>{HOSTILE}\n",
])  # fmt: skip
def test_nothing_of_a_faulty_file_does_anything(spoilt: str, served: Callable[..., Served]) -> None:
    """Markup and scripts are shown as they were typed, on every page that tells of them."""
    lesson = {"one.md": "# One\n\n```problem\nastray\n```\n"}
    site = served({"astray": spoilt}, lesson)
    for path in ("problems/astray.html", "one.html", "index.html", "problems/index.html"):
        page = site.page(path)
        assert "sw-faulty" in page
        assert not {"img", "script"} & {tag for tag, _ in Markup(page).tags}
        assert not [name for _, attributes in Markup(page).tags for name in attributes
                    if name.startswith("on")]  # fmt: skip
        assert "\u202e" not in page


def test_a_fault_of_ours_is_not_laid_on_the_author(
    served: Callable[..., Served], monkeypatch: pytest.MonkeyPatch
) -> None:
    """If the two methods differ, the page says that the file is all right and ours is the fault."""

    def solve_wrongly(problem: Problem) -> object:
        if problem.slug == "flasher":
            raise Disagreement("flasher", "charge of C2", "66 µC", "67 µC")
        return solve(problem)

    monkeypatch.setattr("builder.site.kept.pages.solve", solve_wrongly)
    site = served({"flasher": FLASHER, "heater": HEATER}, TWO_LESSONS)
    page = site.page("problems/flasher.html")
    assert "Its file is all right." in page
    assert "The fault lies in Stepwell and not in your file" in page
    assert "66 µC by the steps but 67 µC by the nodal method" in page
    assert "a fault in Stepwell and not in the file" in site.page("one.html")
    assert "sw-faulty" not in site.page("problems/heater.html")


def test_the_search_finds_nothing_in_a_fault(served: Callable[..., Served]) -> None:
    """The search knows a faulty problem by its file's name alone."""
    site = served({"flasher": FLASHER, "astray": FAULTY})
    index = (site.folder / "site" / "search" / "search_index.json").read_text(encoding="utf-8")
    assert "astray.yml" in index
    assert "Add the unit" not in index


def test_a_preview_works_out_no_other_numbers(served: Callable[..., Served]) -> None:
    """It shows those that are kept; a page that is edited goes without them until a build."""
    site = served({"leftovers": LEFTOVERS}, fresh=True)
    assert 'data-part="fresh"' not in site.page("problems/leftovers.html")
    site.build_for_real(site.folder / "real")
    site.rebuild()
    assert 'data-part="fresh"' in site.page("problems/leftovers.html")
    site.edit("problems/leftovers.yml", lambda text: text.replace("33 nF", "47 nF"))
    site.rebuild()
    assert 'data-part="fresh"' not in site.page("problems/leftovers.html")
    site.folder.joinpath("mkdocs.yml").write_text(
        site.folder.joinpath("mkdocs.yml").read_text(encoding="utf-8")
        .replace("stepwell]", "{stepwell: {fresh_in_preview: true}}]"), encoding="utf-8",
    )  # fmt: skip
    site.rebuild()
    assert 'data-part="fresh"' in site.page("problems/leftovers.html")


def test_an_edit_reads_that_file_alone(
    served: Callable[..., Served], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What has not changed is neither read nor solved again; a new unit reads all."""
    site = served(CIRCUITS)
    read: list[str] = []

    def noting(path: Path, **given: object) -> Problem:
        read.append(path.stem)
        text = path.read_text(encoding="utf-8")
        return read_problem_text(text, str(given["name"]), given["unit"])  # type: ignore[arg-type]

    monkeypatch.setattr("builder.site.preview.reading.read_problem", noting)
    site.rebuild()
    assert read == []
    site.edit("problems/heater.yml", lambda text: text.replace("24 V", "12 V"))
    site.rebuild()
    assert read == ["heater"]
    site.edit("unit.yml", lambda text: text + "digits: 4\n")
    site.rebuild()
    assert sorted(read[1:]) == sorted(CIRCUITS)


def test_hurried_pages_are_those_of_a_build(tmp_path: Path) -> None:
    """What a hurried making keeps is what an unhurried one without other numbers would."""
    problem = read_problem_text(LEFTOVERS, "leftovers.yml", UNIT)
    hurried = KeptPages(Making(UNIT, fresh=True, hurried=True), Store(tmp_path))
    plain = KeptPages(Making(UNIT), Store(None))
    assert hurried.prepare([problem]) == plain.prepare([problem])
    assert hurried.parts(problem, own=True) == plain.parts(problem, own=True)
