"""Units to measure with, and the same pages for the host alone."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import yaml

from tests.bench.distinct import unit_text

_SETTINGS: dict[str, Any] = {
    "site_name": "Measurements",
    "docs_dir": "content",
    "use_directory_urls": False,
    "theme": {"name": "material", "font": False, "features": ["navigation.prune"]},
    "markdown_extensions": ["admonition", "attr_list"],
    "nav": [{"Home": "index.md"}, {"All problems": "problems/index.md"}],
    "validation": {"nav": {"omitted_files": "ignore"}},
}
_OTHERS = ["search", "offline"]
_FRONT = '# Measurements\n\n<div data-stepwell-made="front/problems"></div>\n'
_ARTICLE = re.compile(r"<article[^>]*>(.*?)</article>", re.DOTALL)
_TITLE = re.compile(r"<h1[^>]*>(.*?)</h1>", re.DOTALL)
_HEADING = re.compile(r"<h2[^>]*>(.*?)</h2>", re.DOTALL)
_NUMBER = re.compile(r"^(\s+- C2: )(\d+)( uF)", re.MULTILINE)
EDITED = "rescue-lamp-bank-1"
"""A problem that every unit of measurements has."""


def write_unit(folder: Path, problems: Mapping[str, str], *, fresh: bool) -> Path:
    """A unit of some problems, all of which its front lists with a filter; its folder."""
    home = folder / "content" / "problems"
    home.mkdir(parents=True)
    (folder / "content" / "unit.yml").write_text(unit_text(), encoding="utf-8")
    (folder / "content" / "index.md").write_text(_FRONT, encoding="utf-8")
    for slug, text in problems.items():
        (home / f"{slug}.yml").write_text(text, encoding="utf-8")
    _write_settings(folder, [*_OTHERS, {"stepwell": {"fresh": fresh}}])
    return folder


def change_one_number(folder: Path) -> None:
    """Make the capacitance of C2 in one problem larger by 1 µF."""
    file = folder / "content" / "problems" / f"{EDITED}.yml"
    before = file.read_text(encoding="utf-8")
    changed = _NUMBER.sub(lambda m: f"{m[1]}{int(m[2]) + 1}{m[3]}", before, count=1)
    assert changed != before
    file.write_text(changed, encoding="utf-8")


def write_host(folder: Path, built: Path, *, bare: bool) -> Path:
    """The pages of a built unit for the host alone; their folder.

    Args:
        folder: to write to.
        built: a unit whose site is built.
        bare: whether pages have their headings and a word below each, which is the least that the
            host could be asked for; else they have all that ours show, as HTML.
    """
    site = built / "site"
    for page in site.rglob("*.html"):
        found = _ARTICLE.search(page.read_text(encoding="utf-8"))
        if found is None or page.name == "404.html":
            continue
        title = _TITLE.search(found[1])
        body = f"<div>{found[1]}</div>"
        if bare:
            body = "\n\n".join(f"## {one}\n\n<p>Words.</p>" for one in _HEADING.findall(found[1]))
        file = folder / "content" / page.relative_to(site).with_suffix(".md")
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(f"# {title[1] if title else page.stem}\n\n{body}\n", encoding="utf-8")
    _write_settings(folder, _OTHERS)
    return folder


def pages_in(folder: Path) -> int:
    """How many pages a built site has."""
    return sum(1 for _ in (folder / "site").rglob("*.html"))


def _write_settings(folder: Path, plugins: list[Any]) -> None:
    settings = yaml.safe_dump(_SETTINGS | {"plugins": plugins}, sort_keys=False)
    (folder / "mkdocs.yml").write_text(settings, encoding="utf-8")
