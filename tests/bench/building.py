"""How long a unit of 300 problems takes to build, against the host alone.

The host alone gets the very same final pages as raw HTML in its Markdown, with the same theme
and the same other plugins, so that the ratio tells what Stepwell costs on top.
"""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import yaml

from tests.bench.solving import problem_text

PROBLEMS = 300

_SETTINGS = {
    "site_name": "Measurements",
    "docs_dir": "content",
    "use_directory_urls": False,
    "theme": {"name": "material", "font": False, "features": ["navigation.prune"]},
    "markdown_extensions": ["admonition", "attr_list"],
    "nav": [{"Home": "index.md"}, {"All problems": "problems/index.md"}],
    "validation": {"nav": {"omitted_files": "ignore"}},
}
_KEEP_PAGES = """
import re
from pathlib import Path
from mkdocs.plugins import event_priority

@event_priority(-100)
def on_post_page(output, page, config):
    kept = Path(config.config_file_path).parent / "kept" / page.file.src_uri
    kept.parent.mkdir(parents=True, exist_ok=True)
    html = re.search("<article[^>]*>(.*?)</article>", output, re.S).group(1)
    kept.write_text(f"# {page.title}\\n\\n<div>{html}</div>\\n", encoding="utf-8")
    return output
"""


def measure_building() -> Iterator[str]:
    """Build 300 problems with the plugin and the same pages without it, in turn."""
    with tempfile.TemporaryDirectory() as folder:
        ours, host = Path(folder) / "ours", Path(folder) / "host"
        _write_ours(ours)
        _write_host(host, ours)
        for others, runs in ((["search", "offline"], 1), ([], 3)):
            _write_settings(ours, {"plugins": [*others, "stepwell"]})
            _write_settings(host, {"plugins": others})
            pairs = [(_build(ours), _build(host)) for _ in range(runs)]
            ratio = statistics.median(mine / alone for mine, alone in pairs)
            mine, alone = (statistics.median(column) for column in zip(*pairs, strict=True))
            kind = "with the search" if others else "without the search"
            yield (
                f"{PROBLEMS} problems, {kind}: {mine:.1f} s, the same pages by the host alone "
                f"{alone:.1f} s, ratio {ratio:.2f} (median of {runs})"
            )
        pages = [len(list((folder / "site").rglob("*.html"))) for folder in (ours, host)]
        yield f"pages written: {pages[0]}, by the host alone {pages[1]}"
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    yield f"peak memory of the largest build: {peak / 1024:.0f} MiB"


def _write_ours(folder: Path) -> None:
    problems = folder / "content" / "problems"
    problems.mkdir(parents=True)
    (folder / "content" / "unit.yml").write_text("title: Measurements\n", encoding="utf-8")
    (folder / "content" / "index.md").write_text("# Measurements\n", encoding="utf-8")
    for number in range(PROBLEMS):
        file = problems / f"problem-{number}.yml"
        file.write_text(problem_text(number), encoding="utf-8")


def _write_host(folder: Path, ours: Path) -> None:
    """Build ours once, keep what its pages hold, and give that to the host as Markdown."""
    (ours / "keep.py").write_text(_KEEP_PAGES, encoding="utf-8")
    _write_settings(ours, {"plugins": ["stepwell"], "hooks": ["keep.py"]})
    _build(ours)
    folder.mkdir()
    (ours / "kept").rename(folder / "content")
    shipped = ours / "site" / "assets" / "stepwell"
    shipped.rename(folder / "content" / "assets-stepwell")


def _write_settings(folder: Path, more: dict[str, object]) -> None:
    settings = yaml.safe_dump(_SETTINGS | more, sort_keys=False)
    (folder / "mkdocs.yml").write_text(settings, encoding="utf-8")


def _build(folder: Path) -> float:
    """Build a site in a process of its own; seconds."""
    start = time.perf_counter()
    subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--quiet", "--strict"],
        cwd=folder,
        check=True,
        env=os.environ | {"NO_MKDOCS_2_WARNING": "1"},
    )
    return time.perf_counter() - start
