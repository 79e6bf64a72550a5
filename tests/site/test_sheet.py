"""Worksheets and keys: what they say, how they are written, and how they print."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from builder.errors import PrintingFailed
from builder.site.paper.choosing import Choice, choose
from builder.site.paper.sheet import PAPERS, SPACES, Layout, Sheet, make_sheet
from builder.site.printing import find_browser, print_pdf
from builder.site.whole_files import write_together
from tests.browser import find_chromium
from tests.conftest import ROOT, Open
from tests.site.pages import CIRCUITS, FLASHER, Markup, write_unit
from tests.site.test_print import MM, pages_in
from tests.site.test_print import PAPERS as ROOM

CONTENT = ROOT / "content"


@pytest.fixture
def unit(tmp_path: Path) -> Path:
    """The content of a small unit: flasher (core), heater (core) and leftovers (core)."""
    write_unit(tmp_path, CIRCUITS | {"easy": FLASHER.replace("level: core", "level: intro")})
    return tmp_path / "content"


@pytest.fixture(autouse=True)
def printing_browser(monkeypatch: pytest.MonkeyPatch) -> None:
    """Print with the browser that all tests use."""
    monkeypatch.setenv("STEPWELL_BROWSER", find_chromium())


def paper_of(pdf: bytes) -> tuple[int, int]:
    """Width and height of a PDF's sheets, in points."""
    box = re.search(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)
    assert box is not None
    return round(float(box[1])), round(float(box[2]))


def sheet(unit: Path, *arguments: str) -> Result:
    """Run the command beside a unit."""
    out = () if "--out" in arguments else ("--out", str(unit.parent / "sheets"))
    return CliRunner().invoke(main, ["sheet", "--unit", str(unit), *out, *arguments])


def made(unit: Path, *named: str, layout: Layout | None = None) -> Sheet:
    """A sheet of some problems."""
    return make_sheet(choose(unit, Choice(named)), layout=layout)


def test_a_worksheet_tells_the_problem_and_no_answer(unit: Path) -> None:
    """Scenario, figure, givens and questions are there; no result, no step."""
    worksheet = made(unit, "flasher", "heater").worksheet
    assert worksheet.count('<section class="sheet-problem">') == 2
    assert worksheet.count("<svg") == 2
    assert "flasher board" in worksheet
    assert "Name</span><span>Date" in worksheet
    # The equivalent is 10 µF, the charge on C2 88 µC, the energy 720 µJ.
    for answer in ("10.0", "88.0", "720"):
        assert answer not in re.sub(r"<(svg|style).*?</\1>", "", worksheet, flags=re.DOTALL)
    assert Markup(worksheet).faults == []


def test_a_key_tells_results_steps_and_checks(unit: Path) -> None:
    """The key has the table of results, each step's goal and formulas, and the checks."""
    key = made(unit, "flasher").key
    assert 'data-q="charge:C2">88.0\xa0µC</span>' in key
    assert key.count('<ol class="sheet-steps">') == 1
    assert "share both junctions" in key
    assert key.count("<h3>Checks</h3>") == 1
    assert Markup(key).faults == []


def test_a_key_matches_its_sheet(unit: Path) -> None:
    """Both carry one mark, which changes with a value and not with the paper or the space."""
    first = made(unit, "flasher")
    assert re.fullmatch("[0-9A-HJKMNP-TV-Z]{5}", first.mark)
    assert f"Sheet {first.mark}</p>" in first.worksheet
    assert f"Key to sheet {first.mark}</p>" in first.key
    assert made(unit, "flasher", layout=Layout("letter", "large", ruled=False)).mark == first.mark
    assert made(unit, "flasher", "heater").mark != first.mark
    file = unit / "problems" / "flasher.yml"
    file.write_text(FLASHER.replace("22 uF", "23 uF"), encoding="utf-8")
    assert made(unit, "flasher").mark != first.mark


def test_pdfs_are_on_the_paper_asked_for_and_come_out_the_same(unit: Path) -> None:
    """Both papers have their size in points; two runs give the same bytes, HTML and PDF."""
    made: dict[str, dict[str, bytes]] = {}
    for out, paper in (("one", "a4"), ("two", "a4"), ("three", "letter")):
        folder = unit.parent / out
        result = sheet(unit, "flasher", "--pdf", "--paper", paper, "--out", str(folder))
        assert result.exit_code == 0, result.output
        made[out] = {path.name: path.read_bytes() for path in sorted(folder.iterdir())}
    assert list(made["one"]) == [
        "a-small-unit-key.html", "a-small-unit-key.pdf",
        "a-small-unit-worksheet.html", "a-small-unit-worksheet.pdf",
    ]  # fmt: skip
    assert made["one"] == made["two"]
    for out, size in (("one", (595, 842)), ("three", (612, 792))):
        pdfs = [content for name, content in made[out].items() if name.endswith(".pdf")]
        assert [paper_of(pdf) for pdf in pdfs] == [size, size]
        assert [pages_in(pdf) for pdf in pdfs] == [1, 1]


def test_the_command_says_what_it_wrote(unit: Path) -> None:
    """A filter chooses from the unit; the mark and every file with its size are told."""
    result = sheet(unit, "--objective", "merge-parallel", "--title", "Week 3: lamps")
    assert result.exit_code == 0
    told = result.output.splitlines()
    assert re.fullmatch(r"Sheet [0-9A-Z]{5}: 2 problems\.", told[0])
    assert [re.sub(r" \(\d+ kB\)$", "", line) for line in told[1:]] == [
        str(unit.parent / "sheets" / f"week-3-lamps-{kind}.html") for kind in ("worksheet", "key")
    ]
    assert sheet(unit, "--level", "intro").output.splitlines()[0].endswith(": 1 problem.")


def test_a_file_outside_any_unit_will_do(unit: Path) -> None:
    """A problem's file needs no unit around it."""
    file = unit.parent / "alone" / "one.yml"
    file.parent.mkdir()
    file.write_text(FLASHER, encoding="utf-8")
    result = CliRunner().invoke(
        main,
        ["sheet", str(file), "--unit", str(unit / "none"), "--out", str(unit.parent / "sheets")],
    )
    assert result.exit_code == 0
    assert (unit.parent / "sheets" / "worksheet-key.html").is_file()


FAULTS = {
    ("flash",): 'sheet: found "flash"; expected the file of a problem or its name without .yml. '
    'Did you mean "flasher"?',
    ("flashre.yml",): 'sheet: found "flashre.yml"; expected the file of a problem or its name '
    'without .yml. Did you mean "flasher"?',
    ("qqqq",): 'sheet: found "qqqq"; expected the file of a problem or its name without .yml. '
    "Check it for typing mistakes.",
    (): "sheet: found no problem; expected the names of one or more problems, a level or an "
    "objective. Try stepwell sheet --level intro.",
    ("--level", "stretch"): "sheet: found 4 problems and none that fits; expected one of that "
    "level and objective. Choose another level or objective.",
    ("--objective", "merge-paralel"): 'sheet: found the objective "merge-paralel"; expected one '
    'of UNIT/unit.yml. Did you mean "merge-parallel"?',
    ("flasher", "--out", "UNIT/unit.yml/in"): "UNIT/unit.yml/in: found a folder that cannot be "
    "written (Not a directory); expected a folder to write the sheet into. Name another one with "
    "--out.",
}


@pytest.mark.parametrize("arguments", FAULTS, ids=" ".join)
def test_a_fault_is_told_in_one_line(unit: Path, arguments: tuple[str, ...]) -> None:
    """What cannot be done ends with exit code 1, one line, and nothing written."""
    result = sheet(unit, *(argument.replace("UNIT", str(unit)) for argument in arguments))
    assert result.exit_code == 1
    assert result.stderr == FAULTS[arguments].replace("UNIT", str(unit)) + "\n"
    assert result.stdout == ""
    assert not (unit.parent / "sheets").exists()


def test_a_faulty_problem_stops_the_sheet(unit: Path) -> None:
    """A fault in a file is told with its line, and nothing is written."""
    (unit / "problems" / "heater.yml").write_text("title: Only that\n", encoding="utf-8")
    result = sheet(unit, "flasher", "heater")
    assert result.exit_code == 1
    assert result.stderr.startswith(f"{unit / 'problems' / 'heater.yml'}:")
    assert not (unit.parent / "sheets").exists()


def test_only_our_own_files_are_overwritten(unit: Path) -> None:
    """An earlier sheet is replaced; a stranger's file stays, unless the teacher insists."""
    assert sheet(unit, "flasher").exit_code == 0
    assert sheet(unit, "flasher").exit_code == 0
    key = unit.parent / "sheets" / "a-small-unit-key.html"
    key.write_text("<p>mine</p>", encoding="utf-8")
    worksheet = key.with_name("a-small-unit-worksheet.html")
    before = worksheet.read_bytes()
    result = sheet(unit, "heater")
    assert result.exit_code == 1
    assert result.stderr == (
        f"{key}: found a file that is no sheet of Stepwell; expected no file, or an earlier sheet "
        "to replace. Move it away, choose another --title or --out, or overwrite it with "
        "--force.\n"
    )
    assert key.read_text(encoding="utf-8") == "<p>mine</p>"
    assert worksheet.read_bytes() == before
    assert sheet(unit, "heater", "--force").exit_code == 0
    assert "Key to sheet" in key.read_text(encoding="utf-8")


def test_nothing_half_written_stays(tmp_path: Path) -> None:
    """If one of several files cannot be written, none is, and nothing is left over."""
    (tmp_path / "there").write_bytes(b"old")
    with pytest.raises(OSError, match="No such file"):
        write_together({tmp_path / "there": b"new", tmp_path / "no folder" / "b": b"new"})
    assert [path.name for path in tmp_path.iterdir()] == ["there"]
    assert (tmp_path / "there").read_bytes() == b"old"


def test_pdf_needs_a_browser(unit: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a browser, or with a wrong name for one, the command says what to do."""
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.delenv("STEPWELL_BROWSER", raising=False)
    result = sheet(unit, "flasher", "--pdf")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == (
        "PDF: found no browser on the PATH; expected one of chromium, chromium-browser, "
        "google-chrome, google-chrome-stable, chrome, microsoft-edge. Install Chromium or Chrome, "
        "name one in $STEPWELL_BROWSER, or leave out --pdf and print the HTML from any browser.\n"
    )
    monkeypatch.setenv("STEPWELL_BROWSER", "no-such-browser")
    assert sheet(unit, "flasher", "--pdf").stderr == (
        'PDF: found no browser "no-such-browser", which $STEPWELL_BROWSER names; expected the '
        "path of Chromium or Chrome. Correct the variable, or unset it.\n"
    )
    assert not (unit.parent / "sheets").exists()


def test_a_browser_that_prints_nothing_is_told(unit: Path, tmp_path: Path) -> None:
    """What the browser said last is passed on, and its name."""
    broken = tmp_path / "chromium"
    broken.write_text("#!/bin/sh\necho first >&2\necho 'no display' >&2\nexit 3\n", "utf-8")
    broken.chmod(0o755)
    assert find_browser({"PATH": str(tmp_path)}) == str(broken)
    with pytest.raises(PrintingFailed) as caught:
        print_pdf(unit / "index.md", str(broken))
    assert str(caught.value) == (
        f"PDF: {broken} printed nothing (no display). Name another Chromium or Chrome in "
        "$STEPWELL_BROWSER, or leave out --pdf and print the HTML from any browser."
    )


def test_a_sheet_opens_by_itself(unit: Path, visit: Open) -> None:
    """A worksheet asks for no other file, brings its fonts, and fits a narrow screen."""
    result = sheet(unit, "flasher", "leftovers")
    assert result.exit_code == 0
    for file in sorted((unit.parent / "sheets").iterdir()):
        visited = visit(file, viewport={"width": 360, "height": 700})
        page = visited.page
        page.evaluate("document.fonts.ready.then(() => null)")
        assert visited.errors == []
        assert [url for url in visited.requests if not url.startswith("data:")] == [file.as_uri()]
        loaded = page.evaluate(
            "[...document.fonts].filter(f => f.status === 'loaded').map(f => f.family)"
        )
        fonts = {"STIX Two Text"} | ({"STIX Two Math"} if "key" in file.name else set())
        assert fonts <= {family.strip('"') for family in loaded}
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        assert file.stat().st_size < 200_000


def test_the_unit_prints_on_both_papers(visit: Open, tmp_path: Path) -> None:
    """On A4 and Letter no problem is split from its figure and none wider than the sheet."""
    chosen = choose(CONTENT, Choice(level="core"))
    count = len(chosen.lessons)
    browser = find_chromium()
    for paper, (width, height) in zip(PAPERS, ROOM.values(), strict=True):
        for space in ("medium", "page"):
            whole = make_sheet(chosen, layout=Layout(paper, space))
            file = tmp_path / f"{paper}-{space}.html"
            file.write_text(whole.worksheet, encoding="utf-8")
            viewport = {"width": round(width * MM), "height": round(height * MM)}
            page = visit(file, viewport=viewport).page
            page.emulate_media(media="print")
            boxes = page.evaluate("""() => [...document.querySelectorAll('.sheet-problem')].map(
                e => [e.getBoundingClientRect().height, getComputedStyle(e).breakInside,
                      e.querySelectorAll('.sheet-task svg').length])""")
            assert [box[1] for box in boxes] == ["avoid"] * count
            # Plates are drawn before and after; everything else is one figure.
            assert all(box[2] in (1, 2) for box in boxes)
            assert sum(box[2] == 1 for box in boxes) > count / 2
            assert max(box[0] for box in boxes) < height * MM
            assert page.evaluate("document.documentElement.scrollWidth") <= viewport["width"]
            if space == "page":
                assert pages_in(print_pdf(file, browser)) == count


def test_room_to_work_is_ruled_or_blank(unit: Path) -> None:
    """Each size has its number of lines, and blank leaves the lines out and keeps the room."""
    for space, lines in SPACES.items():
        ruled = made(unit, "flasher", layout=Layout(space=space)).worksheet
        blank = made(unit, "flasher", layout=Layout(space=space, ruled=False)).worksheet
        assert f'<div class="sheet-room sheet-ruled">{"<div></div>" * lines}</div>' in ruled
        assert f'<div class="sheet-room">{"<div></div>" * lines}</div>' in blank


def test_a_title_is_only_text(unit: Path) -> None:
    """Whatever a title holds is printed as typed, in the page and in the margin."""
    title = '</style><script>alert(1)</script> "\\'
    whole = make_sheet(choose(unit, Choice(("flasher",))), title)
    assert "<script" not in whole.worksheet + whole.key
    assert whole.worksheet.count("</style>") == 1
    assert Markup(whole.worksheet).faults == []
