"""The unit's front: its path, its filter, and what is noted as done."""

from __future__ import annotations

import re
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import Locator, Page, expect

from builder.lesson.kinds import topic
from builder.problem import read_problem, read_problem_text, read_unit
from builder.problem.model import Problem, Unit
from builder.site.front import Front, LessonPage, Stage, lesson_pages, stages_of
from tests.conftest import ROOT, Open
from tests.site.answering import open_first_step
from tests.site.pages import FLASHER, HEATER, LEFTOVERS, Markup, write_unit
from tests.site.test_browser import PROBLEMS

LESSON = LessonPage("sharing.md", "Sharing")
OTHER = LessonPage("back.md", "Walking back")
A, B, C = (
    read_problem_text(text, f"{slug}.yml")
    for slug, text in (("a", FLASHER), ("b", HEATER), ("c", LEFTOVERS))
)
PAIR = "problems/buoy-spare-capacitor.html"
ALL = len(PROBLEMS)


def unit() -> Unit:
    """The unit whose pages are visited."""
    return read_unit(ROOT / "content" / "unit.yml")


def unit_problems() -> list[Problem]:
    """Its problems in teaching order."""
    slugs = [stop for stop in unit().path if not stop.endswith(".md")]
    return [read_problem(ROOT / "content" / "problems" / f"{slug}.yml") for slug in slugs]


# A browser may refuse the storage as a whole, which the theme does not survive without an error
# of its own, or what is written to it.
REFUSED = """Object.defineProperty(window, "localStorage", {
  get() { throw new DOMException("No storage.", "SecurityError"); }
});"""
FULL = """const kept = Storage.prototype.setItem;
Storage.prototype.setItem = function (key, value) {
  if (key.startsWith("stepwell")) throw new DOMException("No room.", "QuotaExceededError");
  return kept.call(this, key, value);
};"""


def test_the_usual_path_is_lessons_then_problems() -> None:
    """Without a path of the author's, the lessons come in their order, then all problems."""
    assert stages_of(Unit("U"), (LESSON, OTHER), (A, B)) == (
        Stage(LESSON, ()), Stage(OTHER, ()), Stage(None, (A, B)),
    )  # fmt: skip
    assert stages_of(Unit("U"), (), ()) == ()


def test_an_authors_path_mixes_lessons_and_problems() -> None:
    """Problems belong to the lesson before them; what the path leaves out comes last."""
    unit = Unit("U", path=("b", "sharing.md", "c", "back.md"))
    assert stages_of(unit, (LESSON, OTHER), (A, B, C)) == (
        Stage(None, (B,)), Stage(LESSON, (C,)), Stage(OTHER, ()), Stage(None, (A,)),
    )  # fmt: skip


def test_lessons_are_found_in_the_order_of_the_navigation(tmp_path: Path) -> None:
    """Pages of prose are lessons, by their first heading; the front and lists are none."""
    for name, text in {
        "index": "# U",
        "two": "# Two #\n",
        "one": "Words.\n\n# One\n",
        "x": "-",
    }.items():
        (tmp_path / f"{name}.md").write_text(text, encoding="utf-8")
    nav = [
        {"Home": "index.md"},
        {"Lessons": ["two.md", {"First": "one.md"}]},
        {"List": "problems/index.md"},
        {"Chart": "reference/symbols.md"},
        {"Web": "https://example.org/"},
    ]
    found = lesson_pages(tmp_path, "problems", nav, ["a", "x.md", "one.md"])
    assert [(page.path, page.title) for page in found] == [
        ("two.md", "Two"), ("one.md", "One"), ("x.md", "x"),
    ]  # fmt: skip
    assert list(lesson_pages(tmp_path, "problems", None, [])) == []


def shown(page: Page) -> list[str]:
    """The titles that the filtered list shows."""
    return page.locator("[data-filter-list] > li:visible > a").all_inner_texts()


def test_the_path_leads_to_every_problem(built_site: Path, visit: Open) -> None:
    """The front shows the lesson, then each problem once, and objectives that lead to theirs."""
    page = visit(built_site / "index.html", built_site).page
    links = page.locator(".sw-path a").evaluate_all("all => all.map(a => a.getAttribute('href'))")
    assert links[0] == "sharing-a-junction.html"
    problems = [link for link in links if link.startswith("problems/")]
    assert sorted(problems) == sorted(f"problems/{slug}.html" for slug in PROBLEMS)
    lessons = [link for link in links if link not in problems]
    assert lessons == [stop.replace(".md", ".html") for stop in unit().path if stop.endswith(".md")]
    page.get_by_role("link", name="Find the energy that capacitors store").click()
    assert page.url.endswith("problems/by-objective.html#energy")
    expect(page.locator("h2#energy")).to_have_text("Find the energy that capacitors store")


def test_the_filter_narrows_by_keyboard(built_site: Path, visit: Open) -> None:
    """Fields are reached by the tab key; the number left is told, and so is nothing left."""
    visited = visit(built_site / "index.html", built_site)
    page = visited.page
    form = page.get_by_role("search", name="Find a problem")
    says = form.get_by_role("status")
    expect(says).to_have_text(f"{ALL} problems")
    form.get_by_label("Level").focus()
    page.keyboard.type("The core")
    core = [problem for problem in unit_problems() if problem.level == "core"]
    expect(says).to_have_text(f"{len(core)} of {ALL} problems")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.type("Cap")
    capacitors = [problem.title for problem in core if topic(problem) == "capacitors"]
    expect(says).to_have_text(f"{len(capacitors)} of {ALL} problems")
    assert shown(page) == capacitors
    assert "Two reservoirs behind one lamp" in capacitors
    page.keyboard.press("Tab")
    page.keyboard.type("FOGHORN board")
    expect(says).to_have_text(f"1 of {ALL} problems")
    assert shown(page) == ["Three in a chain, one beside it"]
    page.keyboard.type(" bicycle")
    expect(says).to_have_text("No problem fits all of this. Change one of the fields, or show all.")
    assert shown(page) == []
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(says).to_have_text(f"{ALL} problems")
    expect(form.locator("select").first).to_be_focused()
    expect(form.get_by_label("Words in title or story")).to_have_value("")
    assert len(shown(page)) == ALL
    assert visited.errors == []


def test_a_filter_can_be_linked(built_site: Path, visit: Open) -> None:
    """The choice stands in the address; opening that address, or a broken one, works."""
    visited = visit(built_site / "index.html", built_site)
    page = visited.page
    page.get_by_label("What it trains").select_option("energy")
    page.get_by_label("Words in title or story").fill("flash & tube")
    expect(page).to_have_url(re.compile(r"#find:objective=energy&words=flash%20%26%20tube$"))
    page.get_by_label("Words in title or story").fill("flash")
    expect(page).to_have_url(re.compile("words=flash$"))
    kept = page.url
    other = visit(built_site / "index.html", built_site)
    other.page.goto(kept)
    other.page.reload()
    flashing = [
        problem for problem in unit_problems()
        if "energy" in problem.objectives and "flash" in (problem.title + problem.scenario).lower()
    ]  # fmt: skip
    assert 1 < len(flashing) < ALL
    expect(other.page.locator("[data-filter-says]")).to_have_text(
        f"{len(flashing)} of {ALL} problems"
    )
    expect(other.page.get_by_label("What it trains")).to_have_value("energy")
    expect(other.page.get_by_label("Words in title or story")).to_have_value("flash")
    for broken in ("#find:level=easy&words=%E0%A4%A", "#find:", "#find:=&__proto__=x&&level"):
        other.page.evaluate("hash => { location.hash = hash; }", broken)
        expect(other.page.locator("[data-filter-says]")).to_have_text(f"{ALL} problems")
    assert visited.errors == other.errors == []


def test_without_scripts_everything_is_listed(built_site: Path, visit: Open) -> None:
    """No filter that cannot filter and no promise to remember: only the path and the list."""
    page = visit(built_site / "index.html", built_site, java_script_enabled=False).page
    assert len(shown(page)) == ALL
    assert page.locator(".sw-path .sw-card:visible").count() == ALL
    expect(page.locator(".sw-filter")).to_be_hidden()
    expect(page.locator(".sw-progress")).to_be_hidden()


def put_in_order(form: Locator) -> None:
    """Move each step up to its place."""
    for place in range(form.locator(".sw-order > li").count()):
        row = form.locator(f'.sw-order > li[data-row="{place}"]')
        while row.evaluate("row => [...row.parentNode.children].indexOf(row)") > place:
            row.locator('[data-move="-1"]').click()


def answer_right(page: Page, *, most: int = 99) -> None:
    """Answer the questions of the self-check right, as its own answers tell."""
    for form in page.locator(".sw-questions form").all()[:most]:
        kind = form.get_attribute("data-question")
        if kind == "choice":
            form.locator("[data-right]").check()
        elif kind == "faulty-line":
            form.locator("[data-state=fault]").check()
        elif kind == "order":
            put_in_order(form)
        else:
            form.get_by_text("Show the answer").click()
            form.get_by_role("textbox").fill(form.locator(".sw-answer-is .sw-n").inner_text())
        form.get_by_role("button", name="Check").click()


def test_what_is_done_is_noted_and_forgotten(built_site: Path, visit: Open) -> None:
    """A step opened is a beginning, all questions right is done, and a reader can forget it."""
    visited = visit(built_site / "index.html", built_site)
    page = visited.page
    says = page.locator("[data-progress-says]")
    expect(says).to_have_text("Nothing done yet. What you do is noted here, in this browser alone.")
    expect(page.get_by_role("button", name="Forget my progress")).to_be_hidden()

    page.goto((built_site / "problems/flasher-reservoir.html").as_uri())
    open_first_step(page)
    page.goto((built_site / PAIR).as_uri())
    answer_right(page, most=1)
    page.goto((built_site / "index.html").as_uri())
    expect(says).to_have_text(
        f"0 of {ALL} problems done, 2 more begun. Noted in this browser alone."
    )
    page.goto((built_site / PAIR).as_uri())
    answer_right(page)
    page.goto((built_site / "problems/index.html").as_uri())
    card = page.locator('[data-problem="buoy-spare-capacitor"]')
    expect(card.locator("[data-done]")).to_have_text("✓ done")

    page.goto((built_site / "index.html").as_uri())
    expect(says).to_have_text(
        f"1 of {ALL} problems done, 1 more begun. Noted in this browser alone."
    )
    done = page.locator(".sw-path [data-done]")
    assert [text for text in done.all_inner_texts() if text] == ["✓ done", "begun"]
    page.get_by_role("button", name="Forget my progress").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="No, keep it")).to_be_focused()
    page.keyboard.press("Enter")
    expect(says).to_have_text(re.compile(f"^1 of {ALL}"))
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Yes, forget it").press("Enter")
    expect(says).to_have_text(
        "All forgotten. Nothing done yet. What you do is noted here, in this browser alone."
    )
    page.reload()
    expect(says).to_have_text(re.compile("^Nothing done yet"))
    assert not any(done.all_inner_texts())
    assert page.evaluate("Object.keys(localStorage).filter(k => k.startsWith('stepwell'))") == []
    assert visited.errors == []


def test_a_wrong_answer_is_a_beginning_and_no_more(built_site: Path, visit: Open) -> None:
    """Answered wrong, a problem counts as begun, and a right answer stays right."""
    page = visit(built_site / PAIR, built_site).page
    answer_right(page)
    kept = "JSON.parse(localStorage.getItem('stepwell:progress:Harbour Lights'))"
    assert page.evaluate(kept)["buoy-spare-capacitor"]["done"] is True
    form = page.locator(".sw-questions form[data-question=typed]").first
    form.get_by_role("textbox").fill("1 V")
    form.get_by_role("button", name="Check").click()
    assert page.evaluate(kept)["buoy-spare-capacitor"]["done"] is True
    page.evaluate("localStorage.clear()")
    form.get_by_role("button", name="Check").click()
    begun = {"right": [], "done": False, "fresh": {}, "sets": []}
    assert page.evaluate(kept)["buoy-spare-capacitor"] == begun


def test_a_browser_that_keeps_nothing_says_so(built_site: Path, visit: Open) -> None:
    """Where storage is refused or its content is spoilt, nothing breaks."""
    visited = visit(built_site / "index.html", built_site)
    page = visited.page
    for spoilt in ("not json", "[1]", '{"flasher-reservoir": 3, "x": {"right": "y"}}'):
        page.evaluate("s => localStorage.setItem('stepwell:progress:Harbour Lights', s)", spoilt)
        page.reload()
        expect(page.locator("[data-progress-says]")).to_have_text(re.compile("^Nothing done yet"))
    nothing = (
        "This browser keeps nothing for these pages, so what you do here is forgotten when you "
        "leave the page."
    )
    for script in (FULL, REFUSED):
        other = visit(built_site / "index.html", built_site)
        other.page.add_init_script(script)
        other.page.reload()
        expect(other.page.locator("[data-progress-says]")).to_have_text(nothing)
        other.page.goto((built_site / PAIR).as_uri())
        answer_right(other.page)
        expect(other.page.locator(".sw-questions .sw-reply").first).to_contain_text("Right.")
        expect(other.page.locator("[data-keeps]")).to_have_text(nothing)
        assert script == REFUSED or other.errors == []
    assert visited.errors == []


def test_a_unit_of_several_lessons_is_filtered_by_lesson() -> None:
    """With more than one lesson, the filter offers them and each problem knows its own."""
    stages = (Stage(LESSON, (A,)), Stage(OTHER, (B,)), Stage(None, (C,)))
    html = str(Front(Unit("U"), "problems", stages, lambda path: path).part("problems"))
    assert '<option value="0">Sharing</option><option value="1">Walking back</option>' in html
    assert re.findall(r'data-problem="(\w)".*?data-lesson="(\d)"', html) == [
        ("a", "0"), ("b", "1"), ("c", "2"),
    ]  # fmt: skip
    alone = str(Front(Unit("U"), "problems", stages[:1], lambda path: path).part("problems"))
    assert "<form" not in alone
    assert 'data-problem="a"' in alone


def test_titles_and_scenarios_stay_text() -> None:
    """What an author writes reaches attributes and lists as text alone."""
    nasty = FLASHER.replace("Two reservoirs", "Two\"'><b>great</b> & reservoirs").replace(
        "A flasher board", '"><script>alert(1)</script> A flasher board'
    )
    problem = read_problem_text(nasty, "a.yml")
    front = Front(Unit('"><i>'), "problems", (Stage(None, (problem, B)),), lambda path: path)
    for part in ("path", "problems"):
        html = str(front.part(part))
        assert Markup(html).faults == []
        assert {tag for tag, _ in Markup(html).tags}.isdisjoint({"script", "b", "i"})


def test_an_empty_unit_has_a_front(tmp_path: Path) -> None:
    """A front with all its parts can be built before there is any problem."""
    places = "\n\n".join(
        f'<div data-stepwell-made="front/{part}"></div>'
        for part in ("objectives", "path", "problems")
    )
    write_unit(tmp_path, {}, {"index.md": f"# U\n\n{places}\n"})
    build(load_config(str(tmp_path / "mkdocs.yml"), strict=True, site_dir=str(tmp_path / "site")))
    html = (tmp_path / "site" / "index.html").read_text(encoding="utf-8")
    assert "There are no problems yet." in html
    assert "data-stepwell-made" not in html
