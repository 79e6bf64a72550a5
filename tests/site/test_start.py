"""``stepwell start``: a whole new unit that builds as it is."""

from __future__ import annotations

import re
import zipfile
from html import unescape
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator
from mkdocs.commands.build import build
from mkdocs.config import load_config

from builder.cli import main
from builder.problem import problem_schema, read_unit, unit_schema
from builder.site.schema_files import schema_text
from builder.site.starting.new_unit import FIRST, in_markdown, title_of
from tests.conftest import ROOT

FILES = [
    ".gitignore",
    "README.md",
    "content/.schema/problem.schema.json",
    "content/.schema/unit.schema.json",
    "content/index.md",
    "content/one-circuit-slowly.md",
    "content/problems/cabin-light.yml",
    "content/unit.yml",
    "mkdocs.yml",
]


def start(*arguments: str | Path) -> Result:
    """Call the command."""
    return CliRunner().invoke(main, ["start", *map(str, arguments)])


def files_in(folder: Path) -> list[str]:
    """Every file below a folder."""
    return sorted(p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file())


@pytest.fixture(scope="module")
def started(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A new unit; pages without fresh numbers, which take most of a build."""
    folder = tmp_path_factory.mktemp("start") / "night-lights"
    assert start(folder, "--title", "Night lights & *more*").exit_code == 0
    told = folder / "mkdocs.yml"
    text = told.read_text(encoding="utf-8")
    assert text.count("fresh: true ") == 1
    told.write_text(text.replace("fresh: true ", "fresh: false "), encoding="utf-8")
    return folder


def built(folder: Path) -> Path:
    """The site of a unit, built strictly."""
    build(load_config(str(folder / "mkdocs.yml"), strict=True))
    return folder / "site"


def test_what_was_written_is_listed(tmp_path: Path) -> None:
    """The command tells each file and what to do next."""
    folder = tmp_path / "unit"
    result = start(folder)
    assert result.exit_code == 0
    assert files_in(folder) == FILES
    lines = result.output.splitlines()
    assert lines[0] == f"{folder} holds a new unit of 9 files:"
    assert [line.strip() for line in lines[1:10]] == FILES
    assert f"  cd {folder}" in lines
    assert sorted(path.name for path in tmp_path.iterdir()) == ["unit"]


def test_a_new_unit_builds_and_an_edit_by_hand_shows(started: Path) -> None:
    """It builds strictly, is checked and packed; a value that is changed changes the page."""
    page = built(started) / "problems" / f"{FIRST}.html"
    # C23 = 4 + 2 = 6 µF; with 12 µF in series 72/18 = 4 µF; at 9 V that is 36 µC.
    before = page.read_text(encoding="utf-8")
    assert "4.00\u00a0µF" in before.replace(" ", "\u00a0")
    assert "36.0\u00a0µC" in before.replace(" ", "\u00a0")
    assert 'data-part="self-check"' in before
    lesson = (started / "site" / "one-circuit-slowly.html").read_text(encoding="utf-8")
    assert lesson.count('class="sw-step"') == 6
    front = (started / "site" / "index.html").read_text(encoding="utf-8")
    heading = re.search(r"<h1[^>]*>(.*?)</h1>", front)
    assert heading is not None
    assert unescape(heading[1]) == "Night lights & *more*"
    assert "The board of the cabin light" in front

    file = started / "content" / "problems" / f"{FIRST}.yml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace("{V0: 9 V}", "{V0: 15 V}"), encoding="utf-8")
    check = CliRunner().invoke(main, ["check", str(started / "content")])
    assert check.exit_code == 0, check.output
    after = (built(started) / "problems" / f"{FIRST}.html").read_text(encoding="utf-8")
    # 4 µF at 15 V: 60 µC.
    assert "60.0\u00a0µC" in after.replace(" ", "\u00a0")
    assert "36.0\u00a0µC" not in after.replace(" ", "\u00a0")

    zipped = started / "unit.zip"
    command = ["pack", "--site", str(started / "site"), "--out", str(zipped)]
    packed = CliRunner().invoke(main, command)
    assert packed.exit_code == 0, packed.output
    with zipfile.ZipFile(zipped) as archive:
        inside = archive.read(f"unit/problems/{FIRST}.html").decode()
        assert "START-HERE.html" in archive.namelist()
    assert "60.0\u00a0µC" in inside.replace(" ", "\u00a0")
    assert not [path for path in files_in(started / "site") if ".schema/" in path]


def test_the_site_holds_the_schemas(started: Path) -> None:
    """Every site publishes both, the same bytes as the command prints."""
    site = started / "site" if (started / "site").is_dir() else built(started)
    for of in ("problem", "unit"):
        file = site / "assets" / "stepwell" / f"{of}.schema.json"
        assert file.read_text(encoding="utf-8") == schema_text(of)
        printed = CliRunner().invoke(main, ["schema", of])
        assert printed.output == schema_text(of)


def test_its_files_lead_editors_to_their_schemas(tmp_path: Path) -> None:
    """The first line of unit.yml and of the problem names a schema, to which the file holds."""
    start(tmp_path / "unit")
    content = tmp_path / "unit" / "content"
    for file, schema in (
        (content / "unit.yml", unit_schema()),
        (content / "problems" / f"{FIRST}.yml", problem_schema()),
    ):
        text = file.read_text(encoding="utf-8")
        way = text.splitlines()[0].removeprefix("# yaml-language-server: $schema=")
        assert yaml.safe_load((file.parent / way).read_text(encoding="utf-8")) == schema
        assert list(Draft202012Validator(schema).iter_errors(yaml.safe_load(text))) == []


def test_what_it_needs_is_in_the_package() -> None:
    """Each file that is written from is data of an installed package."""
    told = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    assert '"builder.site.starting" = ["files/**"]' in told
    ours = ROOT / "builder" / "site" / "starting" / "files"
    assert not [path for path in files_in(ours) if Path(path).name.startswith(".")]


@pytest.mark.parametrize(
    "title",
    ["Strom: erste Schritte", "# 1", "yes", "It's *bold* [x](y) $5$ {C1}", "50 % & more", "2026"],
)
def test_any_title_is_taken(tmp_path: Path, title: str) -> None:
    """Signs of YAML and of Markdown in a title stand in all files as they were typed."""
    assert start(tmp_path / "unit", "--title", title).exit_code == 0
    assert read_unit(tmp_path / "unit" / "content" / "unit.yml").title == title
    config = load_config(str(tmp_path / "unit" / "mkdocs.yml"))
    assert config.site_name == title
    front = (tmp_path / "unit" / "content" / "index.md").read_text(encoding="utf-8")
    assert front.startswith(f"# {in_markdown(title)}\n")


def test_markup_in_a_title_is_refused(tmp_path: Path) -> None:
    """What pages would take for markup is told, and nothing is written."""
    result = start(tmp_path / "unit", "--title", "<b>x</b>")
    assert result.exit_code == 1
    assert "--title: found the title" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_without_a_title_the_folder_gives_it(tmp_path: Path) -> None:
    """Hyphens become spaces, and the first letter a capital."""
    assert title_of(tmp_path / "night-lights_two") == "Night lights two"
    start(tmp_path / "night-lights")
    assert read_unit(tmp_path / "night-lights" / "content" / "unit.yml").title == "Night lights"


def test_an_empty_folder_is_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder that is there and empty, the present one too, becomes the unit."""
    monkeypatch.chdir(tmp_path)
    result = start(".", "--title", "Here")
    assert result.exit_code == 0, result.output
    assert files_in(tmp_path) == FILES
    assert "  cd " not in result.output


def test_a_folder_that_is_not_empty_is_refused(tmp_path: Path) -> None:
    """What lies in the folder stays as it is, and nothing is added."""
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")
    result = start(tmp_path)
    assert result.exit_code == 1
    assert "found a folder that holds notes.txt; expected a folder that is empty or not there." in (
        result.stderr
    )
    assert files_in(tmp_path) == ["notes.txt"]
    result = start(tmp_path / "notes.txt")
    assert result.exit_code == 1
    assert "found a file;" in result.stderr


@pytest.mark.parametrize("there", [True, False])
@pytest.mark.parametrize("fails", [0, 1, 2])
def test_everything_is_written_or_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fails: int, *, there: bool
) -> None:
    """A disk that fails at any of the moves leaves the folder as it was."""
    folder = tmp_path / "unit"
    if there:
        folder.mkdir()
    rename, calls = Path.rename, iter(range(100))

    def failing(self: Path, target: Path) -> Path:
        if next(calls) == fails:
            raise OSError(28, "No space left on device")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", failing)
    result = start(folder)
    if not there and fails:
        assert result.exit_code == 0  # one move puts all of it in place
        return
    assert result.exit_code == 1
    assert "a folder that cannot be written (No space left on device)" in result.stderr
    assert folder.is_dir() == there
    assert [path.name for path in tmp_path.rglob("*") if path.is_file()] == []
