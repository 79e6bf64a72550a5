"""``stepwell draw``: pictures that stand alone."""

from __future__ import annotations

import base64
import re
import struct
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from builder.figure.ink import ink_box
from builder.figure.text_size import written_width
from builder.site.pictures.drawing import MADE_BY, MARGIN, size_of
from builder.site.starting.kinds import KINDS
from tests.conftest import ROOT, Open

PROBLEMS = ROOT / "content" / "problems"
FLASHER = PROBLEMS / "flasher-reservoir.yml"
EQUATIONS = PROBLEMS / "two-wires-in-one-heater.yml"
DRAWN = sorted(
    file for file in PROBLEMS.glob("*.yml") if "relations:" not in file.read_text(encoding="utf-8")
)
SVG = "{http://www.w3.org/2000/svg}"


def draw(*arguments: str | Path) -> Result:
    """Call the command."""
    return CliRunner().invoke(main, ["draw", *map(str, arguments)])


def texts_of(picture: str) -> list[str]:
    """Each text of a picture."""
    return [
        " ".join("".join(text.itertext()).split())
        for text in ElementTree.fromstring(picture).iter(f"{SVG}text")
    ]


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder in which the command is called."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_the_circuit_is_written_beside(here: Path) -> None:
    """The picture has the problem's name, holds all of its elements, and real text."""
    result = draw(FLASHER)
    assert result.exit_code == 0, result.output
    assert re.fullmatch(r"flasher-reservoir\.svg \(\d+ kB\)\n", result.output)
    picture = (here / "flasher-reservoir.svg").read_text(encoding="utf-8")
    texts = texts_of(picture)
    assert {"C1 15 µF", "C2", "22 µF", "C3", "8 µF", "V0", "12 V"} <= set(texts)
    root = ElementTree.fromstring(picture)
    assert root.findtext(f"{SVG}title") == "Two reservoirs behind one lamp: The circuit"
    assert "parallel pair C2, 22 µF, and C3, 8 µF" in (root.findtext(f"{SVG}desc") or "")
    assert root.get("aria-labelledby") == "title about"


@pytest.mark.parametrize("file", DRAWN, ids=lambda file: file.stem)
def test_a_picture_stands_alone(here: Path, file: Path) -> None:
    """Nothing in it hangs on a page: no currentColor, class, style sheet, script or address."""
    result = draw(file, "--out", "-")
    assert result.exit_code == 0, result.output
    for word in ("currentColor", "class=", "data-", "var(", "<script", "<style", "href", "sw-"):
        assert word not in result.output, word
    root = ElementTree.fromstring(result.output)
    paper = root.find(f"{SVG}rect")
    assert paper is not None
    assert (paper.get("fill"), paper.get("width")) == ("#ffffff", root.get("width"))
    assert root.get("font-family", "").endswith("serif")
    colours = set(re.findall(r'(?:stroke|fill)="([^"]+)"', result.output)) - {"none"}
    assert colours == {"#ffffff", "#000000"}
    assert len(re.findall("http", result.output)) == 1  # the name of the format


def test_a_step_is_drawn(here: Path) -> None:
    """--step draws the circuit after that step, its group marked; wires are not traced."""
    # C23 = 22 + 8 = 30 µF.
    assert draw(FLASHER, "--step", "1").exit_code == 0
    picture = (here / "flasher-reservoir-step-1.svg").read_text(encoding="utf-8")
    assert {"C23", "30.0 µF"} <= set(texts_of(picture))
    assert "22 µF" not in picture
    assert "#d55e00" in picture
    assert "#0072b2" not in picture
    assert "the circuit after step 1" in picture.lower()


@pytest.mark.parametrize("step", ["0", "7", "-1"])
def test_a_step_that_is_none_is_refused(here: Path, step: str) -> None:
    """The steps that there are are told."""
    result = draw(FLASHER, "--step", step)
    assert result.exit_code == 1
    assert f"found --step {step}; expected a step from 1 to 6." in result.stderr
    assert list(here.iterdir()) == []


def test_plain_equations_have_no_circuit(here: Path) -> None:
    """One clear error, and no file."""
    result = draw(EQUATIONS)
    assert result.exit_code == 1
    assert result.stderr.startswith(
        f"{EQUATIONS}: found a problem of plain equations; expected a problem with a circuit or "
        "plates."
    )
    assert list(here.iterdir()) == []


def test_two_states_stand_side_by_side(here: Path) -> None:
    """Plates before and after their filling make one picture, wider than high."""
    picture = draw(PROBLEMS / "tuner-plates-cut-off.yml", "--out", "-").output
    assert {"before", "after"} <= set(texts_of(picture))
    width, height = size_of(picture)
    assert width > 2.5 * height


@pytest.mark.parametrize("file", [*DRAWN[::4], PROBLEMS / "tuner-plates-cut-off.yml"],
                         ids=lambda file: file.stem)  # fmt: skip
def test_a_picture_is_cropped_to_its_ink(here: Path, visit: Open, file: Path) -> None:
    """In a browser with our fonts or others, all is inside, and little room is left around."""
    draw(file, "--out", "picture.svg")
    page = here / "page.html"
    page.write_text((here / "picture.svg").read_text(encoding="utf-8").split("?>")[1], "utf-8")
    opened = visit(page)
    boxes = opened.page.evaluate(
        """() => [...document.querySelectorAll('svg > g')].map(g => {
            const b = g.getBoundingClientRect(), s = document.querySelector('svg')
                .getBoundingClientRect();
            return [b.left - s.left, b.top - s.top, s.right - b.right, s.bottom - b.bottom];
        })"""
    )
    left, top, right, bottom = (min(box[side] for box in boxes) for side in range(4))
    for room in (left, top, right, bottom):
        assert -0.5 <= room <= MARGIN + 16
    assert opened.errors == []


def widths_of(visit: Open, file: Path) -> list[float]:
    """How wide each text comes out in an image whose named fonts are not on the computer."""
    away = file.read_text("utf-8").replace(
        "Times New Roman,Times,Liberation Serif,serif", "Courier"
    )
    file.write_text(away.replace("STIX Two Math,", ""), "utf-8")
    page = file.with_suffix(".html")
    page.write_text(file.read_text("utf-8").split("?>")[1], "utf-8")
    opened = visit(page)
    opened.page.wait_for_function("document.fonts.status === 'loaded'")
    assert opened.strays == []
    widths: list[float] = opened.page.evaluate(
        "[...document.querySelectorAll('svg text')].map(t => t.getComputedTextLength())"
    )
    return widths


@pytest.mark.parametrize("slug", ["flasher-reservoir", "lantern-switched-over"])
def test_a_font_goes_along_where_it_is_asked_for(here: Path, visit: Open, slug: str) -> None:
    """With --font letters are as wide as the layout takes them, whatever the computer has."""
    file = PROBLEMS / f"{slug}.yml"
    assert draw(file, "--out", "bare.svg").exit_code == 0
    assert draw(file, "--font", "--out", "whole.svg").exit_code == 0
    whole = (here / "whole.svg").read_text("utf-8")
    bare = texts_of((here / "bare.svg").read_text("utf-8"))
    assert texts_of(whole) == bare
    assert whole.count("@font-face") == (2 if "italic" in whole.split("</style>")[1] else 1)
    assert len(whole) < 65_000
    upright = [at for at, text in enumerate(bare) if re.fullmatch(r"\d+ [µmk]?[FVΩ]", text)]
    assert upright
    without, within = widths_of(visit, here / "bare.svg"), widths_of(visit, here / "whole.svg")
    for at in upright:
        assert within[at] == pytest.approx(written_width(bare[at]), rel=0.03)
        assert without[at] > 1.1 * within[at]


def test_a_font_is_of_an_svg(here: Path) -> None:
    """A PNG has its letters already."""
    result = draw(FLASHER, "--png", "--font")
    assert result.exit_code == 2
    assert "--font is of an SVG" in result.stderr


def test_the_box_of_ink_is_known_without_a_browser() -> None:
    """Lines count with their stroke, circles with their radius, texts with their letters."""
    figure = (
        '<svg xmlns="http://www.w3.org/2000/svg"><g transform="translate(10 -5)">'
        '<path d="M0 0L20 0"/></g><circle cx="0" cy="30" r="4"/>'
        '<rect class="sw-hit" x="-99" y="0" width="9" height="9"/>'
        '<text x="40" y="20" text-anchor="end">WW</text></svg>'
    )
    box = ink_box(figure)
    assert box.left == -5.5
    assert box.top == -6.5
    assert box.right == 40
    assert box.bottom == 35.5


def test_a_png_has_the_width_that_is_asked_for(here: Path) -> None:
    """Its height follows, its paper is white, its edges hold no wide margin; it says its maker."""
    result = draw(FLASHER, "--png", "--width", "500")
    assert result.exit_code == 0, result.output
    content = (here / "flasher-reservoir.png").read_bytes()
    assert content[:8] == b"\x89PNG\r\n\x1a\n"
    width, height = struct.unpack(">II", content[16:24])
    wide, high = size_of(draw(FLASHER, "--out", "-").output)
    assert width == 500
    assert height == round(500 * high / wide)
    assert MADE_BY.encode() in content[:200]
    assert draw(FLASHER, "--png", "--width", "500").exit_code == 0  # ours may be replaced
    assert (here / "flasher-reservoir.png").read_bytes() == content


def test_a_png_shows_black_on_white(here: Path, visit: Open) -> None:
    """Read again by a browser: a white corner, black ink, and nothing cut at the edges."""
    draw(FLASHER, "--out", "picture.png", "--width", "400")
    page = here / "page.html"
    content = base64.b64encode((here / "picture.png").read_bytes()).decode()
    page.write_text(f'<img src="data:image/png;base64,{content}">', "utf-8")
    opened = visit(page)
    darkest, corner, edge = opened.page.evaluate(
        """async () => {
            const image = document.querySelector('img');
            await image.decode();
            const canvas = document.createElement('canvas');
            canvas.width = image.naturalWidth; canvas.height = image.naturalHeight;
            const pen = canvas.getContext('2d');
            pen.drawImage(image, 0, 0);
            const data = pen.getImageData(0, 0, canvas.width, canvas.height).data;
            let darkest = 255, edge = 255;
            for (let i = 0; i < data.length; i += 4) {
                const n = i / 4, x = n % canvas.width, y = (n - x) / canvas.width;
                darkest = Math.min(darkest, data[i]);
                if (x < 2 || y < 2 || x > canvas.width - 3 || y > canvas.height - 3)
                    edge = Math.min(edge, data[i]);
            }
            return [darkest, data[0], edge];
        }"""
    )
    assert darkest == 0
    assert (corner, edge) == (255, 255)


def test_what_contradicts_itself_is_a_wrong_call(here: Path) -> None:
    """A width of an SVG, and a PNG with the name of an SVG, end with exit code 2."""
    for arguments, told in (
        (["--width", "500"], "--width is of a PNG"),
        (["--png", "--out", "a.svg"], "--png does not make a.svg"),
        (["--png", "--width", "9"], "50<=x<=4000"),
    ):
        result = draw(FLASHER, *arguments)
        assert result.exit_code == 2
        assert told in " ".join(result.stderr.split())
    assert list(here.iterdir()) == []


def test_a_file_that_is_not_ours_stays(here: Path) -> None:
    """A picture of another origin is overwritten with --force alone; ours is replaced."""
    other = here / "flasher-reservoir.svg"
    other.write_text("<svg/>", encoding="utf-8")
    result = draw(FLASHER)
    assert result.exit_code == 1
    assert "a file that is no picture of Stepwell" in result.stderr
    assert other.read_text(encoding="utf-8") == "<svg/>"
    assert draw(FLASHER, "--force").exit_code == 0
    assert draw(FLASHER).exit_code == 0
    assert MADE_BY in other.read_text(encoding="utf-8")


def test_without_a_browser_there_is_no_png(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The error says what to do; the SVG needs no browser."""
    monkeypatch.setenv("PATH", "")
    result = draw(FLASHER, "--png")
    assert result.exit_code == 1
    assert result.stderr.startswith("--png: found no browser on the PATH; expected one of chromium")
    assert "or leave out --png: the SVG needs no browser." in result.stderr
    monkeypatch.setenv("STEPWELL_BROWSER", "/nowhere/browser")
    assert 'found no browser "/nowhere/browser"' in draw(FLASHER, "--png").stderr
    assert draw(FLASHER).exit_code == 0


def test_a_browser_that_makes_nothing_is_told(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A program that ends without a picture leaves no file behind."""
    monkeypatch.setenv("STEPWELL_BROWSER", "false")
    result = draw(FLASHER, "--png")
    assert result.exit_code == 1
    assert "found no picture from" in result.stderr
    assert list(here.iterdir()) == []


def test_a_picture_can_go_to_the_terminal(here: Path) -> None:
    """A dash writes to standard output, and no file."""
    picture = draw(FLASHER, "--out", "-").output
    assert picture.startswith('<?xml version="1.0" encoding="UTF-8"?>\n')
    assert list(here.iterdir()) == []


def test_the_shapes_are_those_of_the_unit(here: Path) -> None:
    """A unit with IEEE symbols has zigzag resistors in its pictures."""
    drawn = []
    for symbols in ("iec", "ieee"):
        content = here / symbols / "content"
        (content / "problems").mkdir(parents=True)
        (content / "unit.yml").write_text(f"title: U\nsymbols: {symbols}\n", encoding="utf-8")
        file = content / "problems" / "lamps.yml"
        file.write_text(KINDS["resistors"].text().replace("$objectives", "").replace(
            "$title", "T").replace("$level", "core "), encoding="utf-8")  # fmt: skip
        drawn.append(draw(file, "--out", "-").output)
    assert drawn[0] != drawn[1]
    assert texts_of(drawn[0]) == texts_of(drawn[1])


def test_a_fault_of_the_file_is_told(here: Path) -> None:
    """A file that cannot be read ends with its fault."""
    (here / "x.yml").write_text("title: X\n", encoding="utf-8")
    result = draw("x.yml")
    assert result.exit_code == 1
    assert result.stderr.startswith("x.yml:1:")
