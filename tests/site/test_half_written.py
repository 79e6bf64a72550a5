"""No command leaves half a file, on a full disk or when it is stopped in the middle."""

from __future__ import annotations

import errno
from collections.abc import Callable
from pathlib import Path
from typing import NoReturn

import pytest
from click.testing import CliRunner

from builder.cli import main
from tests.site.kept.test_trouble import files_of_at_most
from tests.site.pages import FLASHER, write_unit
from tests.site.test_numbers import LAMPS

NOTHING = b"nothing yet"


def _numbers(folder: Path) -> list[str]:
    return ["numbers", str(folder / "content" / "problems" / "lamps.yml"), "--vary", "V0=6 V, 24 V",
            "--write"]  # fmt: skip


def _sheet(folder: Path) -> list[str]:
    return ["sheet", "flasher", "--unit", str(folder / "content"), "--out", str(folder / "sheets"),
            "--title", "Week 3", "--force"]  # fmt: skip


def _pack(folder: Path) -> list[str]:
    return ["pack", "--site", str(folder / "site"), "--out", str(folder / "unit.zip"), "--force"]


@pytest.fixture
def unit(tmp_path: Path) -> Path:
    """A unit with a site, a sheet with its key, and a zip, all from earlier."""
    write_unit(tmp_path, {"flasher": FLASHER, "lamps": LAMPS})
    for path in ("sheets/week-3-worksheet.html", "sheets/week-3-key.html", "unit.zip"):
        (tmp_path / path).parent.mkdir(exist_ok=True)
        (tmp_path / path).write_bytes(NOTHING)
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "index.html").write_text("<title>A unit</title><p>Words</p>")
    return tmp_path


def _all(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


COMMANDS = pytest.mark.parametrize("command", [_numbers, _sheet, _pack])


@COMMANDS
def test_a_full_disk_changes_nothing(command: Callable[[Path], list[str]], unit: Path) -> None:
    """What does not fit is told with its place; earlier files stay, and nothing lies beside."""
    before = _all(unit)
    with files_of_at_most(100):
        result = CliRunner().invoke(main, command(unit))
    assert result.exit_code == 1
    assert "cannot be written (File too large)" in " ".join(result.output.split())
    assert _all(unit) == before


@COMMANDS
@pytest.mark.parametrize("trouble", [OSError(errno.EIO, "Input/output error"), KeyboardInterrupt()])
def test_a_file_that_does_not_get_its_name_changes_nothing(
    trouble: BaseException,
    command: Callable[[Path], list[str]],
    unit: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Stopped after writing, before renaming: earlier files stay, and nothing lies beside."""

    def fail(path: Path, target: Path) -> NoReturn:
        assert target.name.startswith(("lamps", "week-3", "unit"))
        raise trouble

    before = _all(unit)
    monkeypatch.setattr(Path, "replace", fail)
    assert CliRunner().invoke(main, command(unit)).exit_code == 1
    assert _all(unit) == before


@COMMANDS
def test_the_same_command_writes_where_it_can(
    command: Callable[[Path], list[str]], unit: Path
) -> None:
    """Without trouble each of them changes what it is to change, and nothing else."""
    before = _all(unit)
    assert CliRunner().invoke(main, command(unit)).exit_code == 0
    after = _all(unit)
    changed = {path for path in after if after[path] != before.get(path)}
    assert after.keys() == before.keys()
    assert changed in (
        {"content/problems/lamps.yml"},
        {"sheets/week-3-worksheet.html", "sheets/week-3-key.html"},
        {"unit.zip"},
    )
