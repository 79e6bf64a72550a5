"""Contexts are lent again only with nothing left in them."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.conftest import Open
from tests.contexts import Contexts

LEAVE = """() => {
  localStorage.setItem('buoy', 'seen');
  sessionStorage.setItem('buoy', 'seen');
  document.documentElement.dataset.buoy = 'seen';
  window.buoy = 'seen';
  window.name = 'buoy';
  addEventListener('pagehide', () => localStorage.setItem('late', 'seen'));
}"""
FOUND = """() => [localStorage.length, sessionStorage.length, window.name, window.buoy || '',
  document.documentElement.dataset.buoy || '', history.length]"""


@pytest.fixture
def lender(chromium: Browser, tmp_path: Path) -> Contexts:
    """It keeps two contexts."""
    return Contexts(chromium, _page(tmp_path), most=2)


def _page(folder: Path) -> Path:
    page = folder / "page.html"
    page.write_text("<!doctype html><title>A page</title>", encoding="utf-8")
    return page


def test_nothing_is_left_of_the_page_before(lender: Contexts, tmp_path: Path) -> None:
    """A page in a context lent again finds what it would find in a new one."""
    page = _page(tmp_path).as_uri()
    found = []
    for _ in range(2):
        context = lender.lend()
        opened = context.new_page()
        opened.goto(page)
        found.append((context, opened.evaluate(FOUND)))
        opened.evaluate(LEAVE)
        opened.emulate_media(media="print", color_scheme="dark")
        opened.set_viewport_size({"width": 320, "height": 320})
        opened.add_init_script("window.buoy = 'seen'")
        context.grant_permissions(["geolocation"])
        lender.take_back(context)
    lender.close()
    assert found[0][0] is found[1][0]
    assert found[0][1] == found[1][1] == [0, 0, "", "", "", found[0][1][-1]]


def test_no_context_is_lent_twice_at_a_time(lender: Contexts) -> None:
    """Who has one has it alone, and other options are another context."""
    first, second, dark = lender.lend(), lender.lend(), lender.lend(color_scheme="dark")
    assert len({first, second, dark}) == 3
    lender.take_back(first)
    lender.take_back(dark)
    # Neither had a page, so neither was cleaned and kept.
    assert lender.lend(color_scheme="dark") is not dark


def test_what_was_on_a_network_or_broken_is_not_kept(lender: Contexts, tmp_path: Path) -> None:
    """A page that asked for an address, or whose storage cannot be cleared, leaves with its own."""
    file = _page(tmp_path).as_uri()
    asks = "fetch('https://buoy.invalid/').catch(() => {})"
    refuses = "Object.defineProperty(window, 'localStorage', {get() { throw new Error('no'); }})"
    for harm in (asks, refuses):
        context = lender.lend()
        page = context.new_page()
        page.add_init_script(harm)
        page.goto(file)
        page.evaluate("() => 1")
        lender.take_back(context)
        assert lender.lend() is not context


def test_the_one_kept_longest_goes_first(lender: Contexts, tmp_path: Path) -> None:
    """No more are kept than shall be."""
    lent = {}
    for scheme in ("dark", "light", "no-preference"):
        lent[scheme] = lender.lend(color_scheme=scheme)
        lent[scheme].new_page().goto(_page(tmp_path).as_uri())
        lender.take_back(lent[scheme])
    assert lender.lend(color_scheme="dark") is not lent["dark"]
    assert lender.lend(color_scheme="light") is lent["light"]
    assert lender.lend(color_scheme="no-preference") is lent["no-preference"]


def test_a_visit_hears_of_its_own_page_alone(visit: Open, tmp_path: Path) -> None:
    """Two pages of one test have contexts, storages and errors of their own."""
    file = _page(tmp_path)
    one, other = visit(file), visit(file)
    one.page.evaluate("() => { localStorage.setItem('buoy', 'x'); console.error('adrift'); }")
    one.page.evaluate("() => 1")
    assert one.errors == ["adrift"]
    assert other.errors == []
    assert other.page.evaluate("localStorage.getItem('buoy')") is None
