"""Pages with sets, each alone in a folder with the styles and scripts of the site."""

from __future__ import annotations

import shutil
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from builder.site.assets import STYLES, asset_files
from builder.site.fresh import FreshPage
from builder.site.fresh.sets import COMPARED, part_of
from builder.site.page import ProblemPage
from builder.site.unit_site import UnitSite, read_unit_site
from tests.conftest import ROOT

FRESH_ONLY = ("fresh",)


@cache
def unit() -> UnitSite:
    """The unit of the repository, solved and taught once."""
    return read_unit_site(ROOT / "content")


@cache
def fresh_page(slug: str) -> FreshPage:
    """A problem's page with its sets."""
    site = unit()
    return FreshPage.of(ProblemPage(site.lessons[slug], site.unit, slug))


def drawn_parts(slug: str, set: int) -> dict[str, str]:
    """The page for the numbers of a set (0: as written), written and drawn in full."""
    page = fresh_page(slug)
    lesson = page.sets.lessons[set - 1].lesson if set else page.page.lesson
    whole = ProblemPage(lesson, page.page.unit, slug)
    return {part.id: str(part_of(whole, part.id)) for part in COMPARED}


@dataclass(frozen=True)
class Folder:
    """A folder of pages with all that they load.

    Attributes:
        path: where it is.
    """

    path: Path

    @classmethod
    def at(cls, path: Path) -> Folder:
        """A folder with the styles, scripts and fonts in it."""
        for address, source in asset_files().items():
            shutil.copy(source, path / Path(address).name)
        return cls(path)

    def written(
        self, name: str, parts: Mapping[str, str], scripts: Iterable[str] = FRESH_ONLY
    ) -> Path:
        """A page of parts."""
        styles = "".join(f'<link rel="stylesheet" href="{Path(one).name}">' for one in STYLES)
        loads = "".join(f'<script src="{one}.js" defer></script>' for one in scripts)
        body = "".join(
            f'<div class="sw-part" data-part="{id}">{html}</div>' for id, html in parts.items()
        )
        path = self.path / f"{name}.html"
        path.write_text(
            f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{name}</title>'
            f'<meta name="viewport" content="width=device-width">{styles}{loads}</head>'
            f"<body><main><h1>{name}</h1>{body}</main></body></html>",
            encoding="utf-8",
        )
        return path

    def page(self, slug: str, scripts: Iterable[str] = FRESH_ONLY) -> Path:
        """The page of a problem of the unit with its sets."""
        page = fresh_page(slug)
        parts = {part.id: str(page.part(part)) for part in COMPARED}
        return self.written(slug, parts, scripts)
