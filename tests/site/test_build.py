"""Whole builds of small units by MkDocs with the plugin."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from builder.problem.model import NestProblem
from builder.quantity.formula import ReciprocalSum, Sum
from builder.solution.nest.solve import solve_nest
from builder.solution.nest.step import NestStep
from builder.solution.nest.stepwise import all_steps
from tests.site.pages import CIRCUITS, FLASHER, Markup, write_unit


def build_unit(folder: Path) -> Path:
    """Build the unit in ``folder``; the folder of its site."""
    config = load_config(str(folder / "mkdocs.yml"), strict=True)
    build(config)
    return folder / "site"


def test_every_problem_becomes_a_page(tmp_path: Path) -> None:
    """Problems, both listings and all assets are in the site; YAML sources are not."""
    write_unit(tmp_path, CIRCUITS)
    site = build_unit(tmp_path)
    for slug in CIRCUITS:
        html = (site / "problems" / f"{slug}.html").read_text(encoding="utf-8")
        assert "data-stepwell-part" not in html
        assert 'class="sw-step"' in html
    listing = (site / "problems" / "index.html").read_text(encoding="utf-8")
    assert all(f'href="{slug}.html"' in listing for slug in CIRCUITS)
    by_objective = (site / "problems" / "by-objective.html").read_text(encoding="utf-8")
    assert 'href="flasher.html"' in by_objective
    assert 'href="heater.html"' not in by_objective
    assert not list(site.rglob("*.yml"))
    for name in ("stepwell.css", "stepwell.js", "figure.css", "stix-two-math.woff2", "OFL.txt"):
        assert (site / "assets" / "stepwell" / name).is_file()


def test_a_lesson_embeds_a_problem(tmp_path: Path) -> None:
    """A fenced block in a lesson's Markdown becomes the problem's parts."""
    lesson = "# A lesson\n\nWords.\n\n```problem\nflasher\nparts: opening, solution\n```\n\nMore.\n"
    write_unit(tmp_path, {"flasher": FLASHER}, {"lesson.md": lesson})
    html = (build_unit(tmp_path) / "lesson.html").read_text(encoding="utf-8")
    assert html.count('class="sw-step"') == 6
    assert "sw-questions" not in html
    assert Markup(html.split("<article", 1)[1].split(">", 1)[1].split("</article>")[0]).faults == []


def test_the_sidebar_does_not_grow_with_the_problems(tmp_path: Path) -> None:
    """No page's navigation lists the problems."""
    # Without other sets of numbers, which take most of the time and change no navigation.
    write_unit(tmp_path, {f"problem-{n}": FLASHER + "vary: none\n" for n in range(12)})
    html = (build_unit(tmp_path) / "problems" / "problem-0.html").read_text(encoding="utf-8")
    sidebar = html.split('data-md-type="navigation"', 1)[1].split("<article", 1)[0]
    assert "problem-7" not in sidebar


def test_two_builds_give_the_same_bytes(tmp_path: Path) -> None:
    """A build is reproducible, byte by byte, apart from the dates in the list of pages."""
    contents = []
    for name in ("one", "two"):
        write_unit(tmp_path / name, CIRCUITS)
        site = build_unit(tmp_path / name)
        files = sorted(path for path in site.rglob("*") if path.is_file())
        contents.append(
            {
                str(path.relative_to(site)): path.read_bytes()
                for path in files
                if not path.name.startswith("sitemap")
            }
        )
    assert len(contents[0]) > 20
    assert contents[0] == contents[1]


def test_a_wrong_step_stops_the_build(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    """A step that adds series capacitances stops the build and names what differs."""

    def wrong_steps(problem: NestProblem) -> tuple[NestStep, ...]:
        changed = []
        for step in all_steps(problem):
            lines = tuple(
                dataclasses.replace(line, formula=Sum(line.formula.terms))
                if isinstance(line.formula, ReciprocalSum)
                else line
                for line in step.lines
            )
            changed.append(dataclasses.replace(step, lines=lines))
        return tuple(changed)

    def solve_wrongly(problem: NestProblem) -> object:
        return solve_nest(problem, write_steps=wrong_steps)

    monkeypatch.setattr("builder.site.kept.pages.solve", solve_wrongly)
    write_unit(tmp_path, {"flasher": FLASHER})
    with pytest.raises(Abort):
        build_unit(tmp_path)
    # 15 µF and 30 µF in series are 10 µF = 1/100000 F; added they would be 45 µF = 9/200000 F.
    told = caplog.records[-1].getMessage()
    assert told.startswith(
        "flasher: the capacitance of the whole circuit is 9/200000 F by the steps but 1/100000 F "
        "by the nodal method; nothing was published."
    )
    assert not (tmp_path / "site" / "problems").exists()


def test_faults_of_all_files_stop_the_build(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    """Every faulty file is told in one go, with line and column."""
    write_unit(
        tmp_path,
        {"a": FLASHER.replace("22 uF", "22"), "b": FLASHER.replace("core", "easy"), "c": FLASHER},
    )
    with pytest.raises(Abort):
        build_unit(tmp_path)
    told = caplog.records[-1].getMessage().splitlines()
    first, second = (line for line in told if line.startswith("content/"))
    assert first.startswith('content/problems/a.yml:11:15: found "22"; expected a capacitance')
    assert second.startswith('content/problems/b.yml:2:8: found "easy"; expected intro, core or')


@pytest.mark.parametrize("problems", [{}, {"only": FLASHER}])
def test_small_units_build(tmp_path: Path, problems: dict[str, str]) -> None:
    """A unit without a problem, and one with a single one, build too."""
    write_unit(tmp_path, problems)
    listing = (build_unit(tmp_path) / "problems" / "index.html").read_text(encoding="utf-8")
    assert ("There are no problems yet." in listing) is (not problems)


def test_an_author_page_replaces_a_listing(tmp_path: Path) -> None:
    """A listing page that the author writes is kept, with the listings it asks for."""
    own = '# My problems\n\n<div data-stepwell-list="level:core"></div>\n'
    write_unit(tmp_path, {"flasher": FLASHER}, {"problems/index.md": own})
    listing = (build_unit(tmp_path) / "problems" / "index.html").read_text(encoding="utf-8")
    assert "My problems" in listing
    assert 'href="flasher.html"' in listing
