"""Every problem of the unit with its sets, in a real browser, against pages written in full."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest
from playwright.sync_api import Browser, Page

from tests.conftest import ROOT
from tests.site.fresh.opening import Folder, drawn_parts, fresh_page, unit

COMPARE = (Path(__file__).parent / "compare.js").read_text(encoding="utf-8")
MEASURE = (ROOT / "tests/figure/measure.js").read_text(encoding="utf-8")
SLUGS = tuple(sorted(path.stem for path in (ROOT / "content/problems").glob("*.yml")))
MOST_COMPARED, MOST_MILLISECONDS = 20, 50
SHOW = """(set) => {
  const choose = document.querySelector("[data-fresh-choose]");
  choose.value = String(set);
  const start = performance.now();
  choose.dispatchEvent(new Event("change"));
  return performance.now() - start;
}"""
LAID_OUT = ".sw-figure:has([data-junction], .sw-curve)"
OVERLAPS = f"(chosen) => ({MEASURE})(chosen).flatMap((one) => one.faults)"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    """A folder for pages."""
    return Folder.at(tmp_path_factory.mktemp("fresh"))


@pytest.fixture(scope="module")
def tab(chromium: Browser) -> Iterator[Page]:
    """A page that is used for one problem after the other, without a network."""
    context = chromium.new_context(offline=True)
    page = context.new_page()
    yield page
    context.close()


def test_the_unit_is_all_there() -> None:
    """The names of the files are those of the unit's problems."""
    assert set(SLUGS) == set(unit().lessons)


@pytest.mark.parametrize("slug", SLUGS)
def test_every_set_is_the_page_written_for_it(slug: str, folder: Folder, tab: Page) -> None:
    """With each set, all texts and attributes are those of a page written for its numbers.

    Nothing written in a figure touches anything that it does not touch on a page without sets. To
    change all numbers takes less than
    50 ms, and going back restores all.
    """
    sets = len(fresh_page(slug).sets.lessons)
    if not sets:
        assert "data-fresh" not in folder.page(slug).read_text(encoding="utf-8")
        return
    _open(tab, folder.written(f"{slug}-alone", drawn_parts(slug, 0), ()))
    known = _overlaps(tab)
    _open(tab, folder.page(slug))
    found = tab.evaluate(COMPARE, _without_bar(drawn_parts(slug, 0)))
    assert (found["faults"], found["compared"] > 500) == ([], True)
    milliseconds = []
    for number in range(1, sets + 1):
        milliseconds.append(tab.evaluate(SHOW, number))
        if number <= MOST_COMPARED:
            found = tab.evaluate(COMPARE, _without_bar(drawn_parts(slug, number)))
            assert found["faults"] == [], number
        assert _overlaps(tab) - known == set(), number
    tab.evaluate(SHOW, 0)
    assert tab.evaluate(COMPARE, _without_bar(drawn_parts(slug, 0)))["faults"] == []
    assert median(milliseconds) < MOST_MILLISECONDS


def _open(tab: Page, file: Path) -> None:
    """Open a page with all that can be opened in it, once its letters are there."""
    tab.goto(file.as_uri())
    tab.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    tab.evaluate("document.fonts.ready.then(() => true)")


def _overlaps(tab: Page) -> set[str]:
    """What touches in figures of circuits and in curves.

    Plates and what follows from what are laid out anew with each set, as for a page of its own.
    """
    return set(tab.evaluate(OVERLAPS, LAID_OUT))


def _without_bar(parts: dict[str, str]) -> dict[str, str]:
    """The bar is changed by its script in other ways as well, so it has tests of its own."""
    return {id: html for id, html in parts.items() if html and id != "fresh"}
