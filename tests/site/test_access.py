"""Every kind of page for everyone: measured in a real browser, and by axe-core.

axe-core (MPL-2.0, its licence stands at the head of its file) runs with all of its rules but those
of level AAA. WCAG 2.2: https://www.w3.org/TR/WCAG22/
"""

from __future__ import annotations

import re
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from itertools import pairwise
from pathlib import Path
from typing import Any, Literal

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.conftest import Open

HERE = Path(__file__).parent
AXE = (HERE / "axe.min.js").read_text(encoding="utf-8")
PROBE = (HERE / "probe.js").read_text(encoding="utf-8")
FLASHER = "problems/flasher-reservoir.html"

# A link that the edge of its scroll box cuts through cannot be judged: boxes go to their start.
RUN_AXE = """async part => {
  document.querySelectorAll('nav, aside, div').forEach(box => { box.scrollTop = 0; });
  const rules = axe.getRules().filter(rule => !rule.tags.includes('wcag2aaa'));
  const found = await axe.run(part || document, {
    runOnly: {type: 'rule', values: rules.map(rule => rule.ruleId)},
    resultTypes: ['violations', 'incomplete'],
  });
  const told = results => results.flatMap(result => result.nodes.map(
    node => [result.id, node.target.join(' '), node.html.slice(0, 160),
      node.any.map(check => check.data && check.data.messageKey).join()]));
  return {violations: told(found.violations), incomplete: told(found.incomplete)};
}"""

# Opens what can be opened, and answers every question: by turns right and wrong.
OPEN_AND_ANSWER = """() => {
  document.querySelectorAll('article details').forEach(box => { box.open = true; });
  document.querySelectorAll('form[data-question]').forEach((form, at) => {
    const right = at % 2 === 0;
    if (form.dataset.question === 'ranking') {
      form.querySelectorAll('.sw-rank').forEach((row, n) => {
        row.querySelector(`input[value="${right ? row.dataset.place : n % 2 + 1}"]`).checked = true;
      });
      form.requestSubmit();
      return;
    }
    if (form.dataset.question === 'pick') {
      form.querySelectorAll('.sw-pick input').forEach((box, n) => {
        box.checked = right ? box.hasAttribute('data-right') : n === 0;
        box.dispatchEvent(new Event('change', {bubbles: true}));
      });
      form.requestSubmit();
      form.querySelectorAll('.sw-pick-trace').forEach(button => button.click());
      return;
    }
    const options = [...form.querySelectorAll('input[type=radio]')];
    const isRight = each => each.hasAttribute('data-right') || each.dataset.state === 'fault';
    const option = options.find(each => isRight(each) === right);
    const typed = form.querySelector('input[type=text]');
    if (option) option.checked = true;
    else if (typed) typed.value = right ? JSON.parse(form.dataset.expected).shown : '1 kg';
    form.requestSubmit();
  });
  // As SETTLED waits below.
  return new Promise(done => requestAnimationFrame(() => setTimeout(done, 100)));
}"""

# WCAG 2.2, success criterion 1.4.12.
TEXT_SPACING = """article * { line-height: 1.5 !important; letter-spacing: 0.12em !important;
  word-spacing: 0.16em !important; } article p { margin-bottom: 2em !important; }"""


# Until what follows the size of things has followed.
SETTLED = "() => new Promise(done => requestAnimationFrame(() => setTimeout(done, 100)))"


def kinds_of_page(site: Path) -> list[str]:
    """Few pages that show all there is, with the page for wrong addresses.

    A page's parts are told by the classes in it. In each folder, any two parts that ever stand on
    one page stand together on one of those chosen.
    """
    pairs: dict[str, set[tuple[str, ...]]] = {}
    for page in sorted(site.rglob("*.html")):
        html = page.read_text(encoding="utf-8")
        parts = {word for value in re.findall(r'class="([^"]*)"', html) for word in value.split()
                 if word.startswith("sw-") and not word.startswith("sw-level-")}  # fmt: skip
        path = page.relative_to(site)
        place = path.name if path.name == "404.html" else path.parent.as_posix()
        pairs[path.as_posix()] = {
            (place, one, other) for one in ("", *parts) for other in ("", *parts) if one <= other
        }
    left = set.union(*pairs.values())
    chosen = []
    while left:
        chosen.append(max(pairs, key=lambda path: len(pairs[path] & left)))
        left -= pairs[chosen[-1]]
    return sorted(chosen)


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def served(built_site: Path) -> Iterator[str]:
    """The unit from a server on this machine, as the page for wrong addresses needs it."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(built_site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


@dataclass(frozen=True)
class Look:
    """The state in which a page is looked at.

    Attributes:
        width, height: of the window, in its own pixels.
        zoom: how many pixels of the screen one of them takes.
        scheme: ``light`` or ``dark``.
        answered: whether everything is opened and every question answered.
    """

    width: int = 1280
    height: int = 900
    zoom: int = 1
    scheme: str = "light"
    answered: bool = False


class Tab:
    """A page that stays open from one test to the next, put into the state that each needs."""

    def __init__(self, context: BrowserContext, address: str) -> None:
        self.page = context.new_page()
        self._devices = context.new_cdp_session(self.page)
        self._look: Look | None = None
        self._open(address)

    def _open(self, address: str) -> None:
        self.page.goto(address)
        self.page.evaluate(PROBE)
        self.page.evaluate(AXE)
        self._answered = False

    def show(self, look: Look) -> Page:
        """The page, in front and in that state."""
        if self._answered and not look.answered:
            self._open(self.page.url)
        self.page.bring_to_front()
        if look != self._look:
            self._change(look)
        if look.answered and not self._answered:
            self.page.evaluate(OPEN_AND_ANSWER)
            self._answered = True
        return self.page

    def _change(self, look: Look) -> None:
        # By the browser's own protocol, as Playwright cannot zoom a page that is open.
        self._devices.send(
            "Emulation.setDeviceMetricsOverride",
            {"width": look.width, "height": look.height, "deviceScaleFactor": look.zoom,
             "mobile": False},
        )  # fmt: skip
        self.page.evaluate(SETTLED)
        seen = self.page.evaluate(
            "[innerWidth, innerHeight, devicePixelRatio, document.body.dataset.mdColorScheme]"
        )
        shade = "slate" if look.scheme == "dark" else "default"
        assert seen == [look.width, look.height, look.zoom, shade]
        self._look = look


EachKind = Callable[[Look], Iterator[tuple[str, Page]]]


@pytest.fixture(scope="module")
def each_kind(chromium: Browser, served: str, built_site: Path) -> Iterator[EachKind]:
    """Shows one page of every kind after the other; each is opened once for all tests."""
    paths = kinds_of_page(built_site)
    assert {"404.html", "index.html"} <= set(paths)
    contexts: dict[str, BrowserContext] = {}
    tabs: dict[tuple[str, str], Tab] = {}

    def show(look: Look) -> Iterator[tuple[str, Page]]:
        # The theme keeps the scheme that a browser had at first, so each has a context of its own.
        if look.scheme not in contexts:
            scheme: Literal["dark", "light"] = "dark" if look.scheme == "dark" else "light"
            contexts[scheme] = chromium.new_context(color_scheme=scheme, reduced_motion="reduce")
        for path in paths:
            at = (look.scheme, path)
            if at not in tabs:
                tabs[at] = Tab(contexts[look.scheme], served + path)
            yield path, tabs[at].show(look)

    yield show
    for context in contexts.values():
        context.close()


def judged(rule: str, html: str, why: str) -> bool:
    """Whether what axe-core leaves to people has been looked at, and found right.

    - ``hidden-content`` only says that something is hidden: the theme's drawer and search, which
      are tested where they are shown, and the closed steps, which are opened here.
    - ``color-contrast`` cannot judge letters in figures, single characters and signs; their
      colours are measured from the palette in test_contrast.py.
    """
    if rule == "hidden-content":
        return True
    in_figure = re.match(r"<(?:tspan|text)\b", html) is not None
    return rule == "color-contrast" and (in_figure or why in ("shortTextContent", "nonBmp"))


def test_headings_language_and_labels(each_kind: EachKind) -> None:
    """One first heading, none skipped after it, the language marked, every reply announced."""
    for path, page in each_kind(Look()):
        levels = page.evaluate(
            "[...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].filter(h => h.checkVisibility())"
            ".map(h => Number(h.tagName[1]))"
        )
        assert levels[:1] == [1], path
        assert levels.count(1) == 1, path
        assert all(after - before <= 1 for before, after in pairwise(levels))
        assert page.evaluate("document.documentElement.lang") == "en"
        unlabelled = page.evaluate(
            "[...document.querySelectorAll('article :is(input, select, textarea)')]"
            ".filter(i => !i.labels.length && !i.ariaLabel).map(i => i.outerHTML)"
        )
        assert unlabelled == []
        silent = page.evaluate(
            "[...document.querySelectorAll('form[data-question]')]"
            ".filter(f => !f.querySelector('.sw-reply[role=status]')).length"
        )
        assert silent == 0


def test_motion_is_left_out_where_it_is_not_wanted(each_kind: EachKind) -> None:
    """With reduced motion nothing fades, slides or scrolls smoothly."""
    for path, page in each_kind(Look()):
        assert page.evaluate("matchMedia('(prefers-reduced-motion: reduce)').matches")
        assert (path, page.evaluate("probe.moving()")) == (path, [])


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("answered", [False, True], ids=["closed", "open"])
def test_axe_finds_nothing(each_kind: EachKind, scheme: str, answered: bool) -> None:
    """No rule is broken on any kind of page, closed and then opened and answered."""
    for path, page in each_kind(Look(scheme=scheme, answered=answered)):
        found = page.evaluate(RUN_AXE)
        assert (path, found["violations"]) == (path, [])
        left = [each for each in found["incomplete"] if not judged(each[0], *each[2:])]
        assert (path, left) == (path, [])


@pytest.mark.parametrize("width", [1280, 360])
def test_targets_are_large_enough(each_kind: EachKind, width: int) -> None:
    """Whatever can be pressed is 24 pixels high and wide at least (WCAG 2.5.8)."""
    for path, page in each_kind(Look(width, answered=True)):
        assert (path, page.evaluate("probe.targets(24)")) == (path, [])


@pytest.mark.parametrize(
    ("width", "height", "zoom"),
    [
        (1280, 900, 1),
        # 1280 by 1024 pixels at 400 %.
        (320, 256, 4),
    ],
)
def test_wide_text_and_zoom_hide_nothing(
    each_kind: EachKind, width: int, height: int, zoom: int
) -> None:
    """Zoomed in, and with the spacing of WCAG 1.4.12, nothing overlaps, is cut or runs off."""
    for path, page in each_kind(Look(width, height, zoom, answered=True)):
        for spaced in (False, True):
            style = page.add_style_tag(content=TEXT_SPACING) if spaced else None
            assert page.evaluate("document.documentElement.scrollWidth") <= width, path
            assert (path, spaced, page.evaluate("probe.overlaps('article')")) == (path, spaced, [])
            assert (path, spaced, page.evaluate("probe.clipped('article')")) == (path, spaced, [])
            if style is not None:
                style.evaluate("style => style.remove()")


def test_the_keyboard_reaches_everything_in_sight(each_kind: EachKind) -> None:
    """Tab stops at every control once, shows where it is, and leaves the page at its end."""
    for path, page in each_kind(Look(answered=True)):
        wanted = set(page.evaluate("probe.stops()"))
        reached: list[str] = []
        for _ in range(len(wanted) + 20):
            page.keyboard.press("Tab")
            focus = page.evaluate("probe.focus()")
            # After the last control, the page is left or begun again.
            if focus is None or [focus["stop"]] == reached[:1]:
                break
            assert focus["outline"] >= 2, (path, focus)
            assert focus["inSight"], (path, focus)
            reached.append(focus["stop"])
        else:
            pytest.fail(f"{path}: the focus never leaves the page: {reached[-5:]}")
        assert wanted - set(reached) == set(), path
        assert len(reached) == len(set(reached)), path


def test_axe_finds_nothing_at_the_board(chromium: Browser, served: str) -> None:
    """A step shown large to a class breaks no rule either."""
    context = chromium.new_context(reduced_motion="reduce")
    page = context.new_page()
    page.goto(served + FLASHER)
    page.evaluate(AXE)
    page.get_by_role("button", name="Show at the board").first.click()
    for _ in range(2):
        found = page.evaluate(RUN_AXE, "dialog[open]")
        assert found["violations"] == []
        assert [each for each in found["incomplete"] if not judged(each[0], *each[2:])] == []
        page.keyboard.press("ArrowRight")
    context.close()


def test_axe_finds_nothing_on_a_phone(chromium: Browser, served: str) -> None:
    """On a narrow screen, where formulas and tables scroll, no rule is broken.

    One experimental rule is left out: it calls for a landmark around all that scrolls, and a page
    with a dozen landmarks is harder to find one's way in than one with a dozen named groups.
    """
    context = chromium.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(served + FLASHER)
    page.evaluate(AXE)
    page.evaluate(OPEN_AND_ANSWER)
    found = page.evaluate(RUN_AXE)
    broken = [each for each in found["violations"] if each[0] != "focus-order-semantics"]
    assert broken == []
    stops = [each[2] for each in found["violations"] if each[0] == "focus-order-semantics"]
    assert all('class="sw-scroll"' in html and "aria-label=" in html for html in stops)
    context.close()


def test_axe_would_find_something(chromium: Browser) -> None:
    """The rules that run would notice a picture without words and grey on grey."""
    page = chromium.new_page()
    page.set_content('<img src="x.png"><p style="color: #999">pale words on white</p>')
    page.evaluate(AXE)
    found = {rule for rule, *_ in page.evaluate(RUN_AXE)["violations"]}
    page.close()
    assert {"image-alt", "color-contrast", "html-has-lang", "page-has-heading-one"} <= found


WATCH_SHIFTS = """window.shifts = [];
new PerformanceObserver(list => list.getEntries().forEach(
  entry => shifts.push([entry.value, entry.hadRecentInput]))
).observe({type: 'layout-shift', buffered: true});"""


@pytest.mark.parametrize("width", [1280, 360])
def test_nothing_shifts(built_site: Path, visit: Open, width: int) -> None:
    """Opening a step or answering moves nothing that stands before it, nor anything unasked."""
    page = visit(built_site / FLASHER, built_site, viewport={"width": width, "height": 900}).page
    page.wait_for_function("document.fonts.status === 'loaded'")
    page.evaluate(PROBE)
    page.evaluate(WATCH_SHIFTS)
    # web.dev/articles/cls calls up to 0.1 good; this is a page whose type comes after its words.
    assert sum(value for value, _ in page.evaluate("shifts.splice(0)")) <= 0.1

    def moves(selector: str, position: int) -> bool:
        node = page.locator(selector).nth(position)
        node.scroll_into_view_if_needed()
        before = node.evaluate("node => probe.above(node)")
        node.click()
        page.wait_for_timeout(60)
        return bool(node.evaluate("node => probe.above(node)") != before)

    steps = page.locator("details.sw-step").count()
    assert [moves("details.sw-step > summary", at) for at in range(steps)] == [False] * steps
    shown = "form.sw-question:not(.sw-gaps form)"
    forms = page.locator(shown).count()
    for at in range(forms):
        inputs = page.locator(shown).nth(at).locator("input")
        if inputs.count() and inputs.first.get_attribute("type") == "text":
            inputs.first.fill("1 V")
        elif inputs.count():
            inputs.first.check(force=True)
    told = [moves(f"{shown} button[type=submit]", at) for at in range(forms)]
    assert told == [False] * forms
    assert sum(value for value, by_hand in page.evaluate("shifts") if not by_hand) == 0


def test_forced_colours_keep_what_is_marked(built_site: Path, visit: Open) -> None:
    """In a palette of the reader's own, marks, replies and the focus still stand out."""
    page = visit(built_site / FLASHER, built_site, forced_colors="active").page
    page.evaluate(OPEN_AND_ANSWER)
    system = page.evaluate(
        """() => Object.fromEntries(['Highlight', 'Canvas', 'CanvasText'].map(name => {
          const box = document.body.appendChild(document.createElement('div'));
          box.style.cssText = `color: ${name}; forced-color-adjust: none`;
          const colour = getComputedStyle(box).color;
          box.remove();
          return [name, colour];
        }))"""
    )
    look = "(node, name) => getComputedStyle(node)[name]"
    assert page.locator(".sw-frame").first.evaluate(look, "stroke") == system["Highlight"]
    wires = page.locator(".sw-figure [stroke=currentColor]").first
    assert wires.evaluate(look, "stroke") == system["CanvasText"]
    assert page.locator(".sw-reply-wrong").first.evaluate(look, "borderTopWidth") == "1px"
    page.locator("details.sw-step summary").first.focus()
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Tab")
    summary = page.locator("details.sw-step summary").first
    assert summary.evaluate(look, "outlineColor") == system["Highlight"]
    assert len(set(system.values())) == 3


def test_what_a_screen_reader_is_given(built_site: Path, visit: Open) -> None:
    """Formulas and figures reach the accessibility tree with names, replies as live text."""
    page = visit(built_site / FLASHER, built_site).page
    page.evaluate(OPEN_AND_ANSWER)
    nodes = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]
    by_role: dict[str, list[dict[str, Any]]] = {}
    for node in nodes:
        if not node.get("ignored"):
            by_role.setdefault(node["role"]["value"], []).append(node)
    formulas = [node["name"]["value"] for node in by_role["MathMLMath"]]
    assert "" not in formulas
    assert any(name.endswith("equals 22 microfarads plus 8 microfarads, equals 30.0 microfarads.")
               for name in formulas)  # fmt: skip
    figures = [node for node in by_role["image"] if "circuit" in node["name"]["value"]]
    assert len(figures) >= 7
    assert all("battery" in node["description"]["value"] for node in figures)
    replies = page.locator(".sw-reply:not(:empty):not(.sw-gaps .sw-reply)").count()
    assert len(by_role["status"]) >= replies > 0
    disclosed = [node["name"]["value"] for node in by_role["DisclosureTriangle"]]
    assert "The circuit in words" in disclosed
