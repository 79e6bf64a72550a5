"""Contexts of the browser, lent to one test after the other.

To make a context costs about a second of a processor, half of what it takes to open a page of the
unit in it: a profile is set up, a process started, and every script compiled anew. So a context is
kept and lent again. What a page can leave behind in it is taken away in between, and one of which
that cannot be said for sure is closed instead.
"""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Error, Page, Request

FORGET = "() => { localStorage.clear(); sessionStorage.clear(); }"
REMEMBERED = "() => localStorage.length + sessionStorage.length"


class Contexts:
    """Lends contexts without a network; nobody has one that somebody else still has.

    Attributes:
        most: how many are kept while nobody has them.
    """

    def __init__(self, browser: Browser, blank: Path, most: int = 4) -> None:
        self.most = most
        self._browser = browser
        self._blank = blank.resolve().as_uri()
        self._kept: list[tuple[str, BrowserContext]] = []
        self._options: dict[BrowserContext, str] = {}
        self._strayed: defaultdict[BrowserContext, bool] = defaultdict(bool)

    def lend(self, **options: Any) -> BrowserContext:
        """A context with the options of Playwright's ``new_context``, as good as new."""
        wanted = repr(sorted(options.items()))
        for place, (kept, context) in enumerate(self._kept):
            if kept == wanted:
                del self._kept[place]
                return context
        context = self._browser.new_context(offline=True, **options)
        self._options[context] = wanted

        def note(request: Request) -> None:
            if not request.url.startswith(("file:", "data:", "blob:", "about:")):
                self._strayed[context] = True

        context.on("request", note)
        return context

    def take_back(self, context: BrowserContext) -> None:
        """Clean a context and keep it, or close it; the one kept longest may go in its place."""
        if not self._strayed[context] and self._cleaned(context):
            self._kept.append((self._options[context], context))
            if len(self._kept) > self.most:
                self._close(self._kept.pop(0)[1])
        else:
            self._close(context)

    def close(self) -> None:
        """Close all that are kept."""
        for _, context in self._kept:
            self._close(context)
        self._kept.clear()

    def _close(self, context: BrowserContext) -> None:
        del self._options[context]
        self._strayed.pop(context, None)
        context.close()

    def _cleaned(self, context: BrowserContext) -> bool:
        """Whether nothing is left of the pages that were open: one stays, and shows nothing.

        That one keeps the process alive and is never lent.
        """
        try:
            left, *others = context.pages
            for page in others:
                page.close()
            self._empty(left)
            context.clear_cookies()
            context.clear_permissions()
            return bool(left.evaluate(REMEMBERED) == 0)
        except (Error, ValueError):
            return False

    def _empty(self, page: Page) -> None:
        # Every file has the same storage, so that it can be cleared from any.
        page.goto(self._blank)
        page.evaluate(FORGET)
