"""The frame: what lies where, how long things are, who may import whom, how a browser is found."""

from __future__ import annotations

import ast
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from tests import get_browser
from tests.browser import find_chromium
from tests.conftest import ROOT

TOP = {
    "README.md", "DEVELOPERS.md", "LICENSE", "Makefile", "mkdocs.yml", "pyproject.toml",
    "constraints.txt", "content", "builder", "tests", ".ci", ".gitignore",
}  # fmt: skip

# The aims are about 300 lines for a module and 40 for a function. The limits leave room for a
# table or a docstring that does not split well, and none for a second subject.
MODULE_LINES = 320
FUNCTION_LINES = 45

MODULES = sorted((ROOT / "builder").rglob("*.py"))
# Written in two halves, so that this file does not name what it forbids.
FORBIDDEN = [
    "/wo" + "rk/",
    "/ro" + "ot/",
    "/ho" + "me/",
    "/Us" + "ers/",
    "/tm" + "p/",
    "TO" + "DO",
    "FIX" + "ME",
    "XX" + "X",
]


def _kept_files() -> list[Path]:
    """Every file that is or would be committed."""
    command = ["git", "-c", "safe.directory=*", "ls-files", "-z", "--cached", "--others"]
    listing = subprocess.run(
        [*command, "--exclude-standard"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    files = [ROOT / name for name in listing.stdout.split("\0") if name]
    return [file for file in files if file.is_file()]


@cache
def _parsed(module: Path) -> ast.Module:
    return ast.parse(module.read_text(encoding="utf-8"))


def _functions(module: Path) -> Iterator[tuple[str, int]]:
    for node in ast.walk(_parsed(module)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert node.end_lineno is not None
            first = min([node.lineno, *(mark.lineno for mark in node.decorator_list)])
            yield f"{module.relative_to(ROOT)}:{node.name}", node.end_lineno - first + 1


def test_the_top_level_holds_the_agreed_files_and_no_others() -> None:
    """A newcomer finds twelve things at the top and knows each by its name."""
    assert {file.relative_to(ROOT).parts[0] for file in _kept_files()} == TOP


def test_every_module_says_what_it_is_for() -> None:
    """Each module of the builder begins with a docstring."""
    assert MODULES
    silent = [
        str(module.relative_to(ROOT))
        for module in MODULES
        if not ast.get_docstring(_parsed(module))
    ]
    assert silent == []


def test_no_module_is_too_long() -> None:
    """A module of the builder is read in one sitting."""
    lengths = {m.relative_to(ROOT): len(m.read_text("utf-8").splitlines()) for m in MODULES}
    assert {m: lines for m, lines in lengths.items() if lines > MODULE_LINES} == {}


def test_no_function_is_too_long() -> None:
    """A function of the builder fits on a screen."""
    lengths = [pair for module in MODULES for pair in _functions(module)]
    assert lengths
    assert [(name, lines) for name, lines in lengths if lines > FUNCTION_LINES] == []


def test_no_name_says_nothing() -> None:
    """No module is called after its being useful."""
    empty = {"utils", "util", "helpers", "helper", "common", "misc"}
    folders = {parent for module in MODULES for parent in module.relative_to(ROOT).parents}
    assert empty.isdisjoint({path.stem for path in [*MODULES, *folders]})


def test_no_file_names_a_developers_machine_or_unfinished_work() -> None:
    """What is committed means the same on every machine and is finished."""
    found = []
    for file in _kept_files():
        content = file.read_bytes()
        # Fonts and pictures are not text, and minified scripts are others' work.
        if b"\0" in content or ".min." in file.name:
            continue
        text = content.decode("utf-8")
        found += [(str(file.relative_to(ROOT)), word) for word in FORBIDDEN if word in text]
    assert found == []


def test_the_pins_name_versions_of_published_packages_only() -> None:
    """The constraints are one exact version a line: no addresses, no folders, no ranges."""
    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    pins = [line for line in lines if line and not line.startswith("#")]
    assert len(pins) > 20
    assert [pin for pin in pins if not re.fullmatch(r"[A-Za-z0-9_.\-]+==[\w.]+", pin)] == []


def test_the_readme_gives_the_commands_that_continuous_integration_runs() -> None:
    """The README's two commands exist, and the second is the one that is run for every change."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    run = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    for command in ("make site", "make test"):
        assert command in readme
        assert f"\n{command.removeprefix('make ')}:" in makefile
    assert "\nmake test " in run
    assert "\nmake check " in run


def _check_layers(folder: Path) -> subprocess.CompletedProcess[str]:
    """Run the contracts on the builder in ``folder``."""
    command = [
        str(Path(sys.executable).parent / "lint-imports"),
        "--no-cache", "--config", str(folder / "pyproject.toml"),
    ]  # fmt: skip
    # The builder of the folder goes before the installed one.
    environment = {**os.environ, "PYTHONPATH": str(folder)}
    return subprocess.run(
        command, cwd=folder, env=environment, capture_output=True, text=True, check=False
    )


def test_the_layers_hold() -> None:
    """No layer imports a higher one, and only the plugin and the site know the host."""
    checked = _check_layers(ROOT)
    assert checked.returncode == 0, checked.stdout + checked.stderr


LAYERS = "A lower layer never imports a higher one"
HOST = "Only the plugin and the site know the host and its theme"
BREAKING = [
    ("figure/__init__.py", "builder.figure", "builder.lesson", LAYERS),
    ("lesson/__init__.py", "builder.lesson", "builder.figure", LAYERS),
    ("quantity/__init__.py", "builder.quantity", "builder.circuit", LAYERS),
    ("solution/__init__.py", "builder.solution", "builder.site", LAYERS),
    ("errors.py", "builder.errors", "builder.quantity", LAYERS),
    ("lesson/__init__.py", "builder.lesson", "mkdocs", HOST),
    ("cli.py", "builder.cli", "markdown", HOST),
]


@pytest.fixture(scope="module")
def broken_layers(tmp_path_factory: pytest.TempPathFactory) -> subprocess.CompletedProcess[str]:
    """What the contracts say of a builder with each of those imports added."""
    folder = tmp_path_factory.mktemp("broken")
    leave_out = shutil.ignore_patterns("__pycache__", "fonts", "static", "templates")
    shutil.copytree(ROOT / "builder", folder / "builder", ignore=leave_out)
    shutil.copy(ROOT / "pyproject.toml", folder)
    for path, _, imported, _ in BREAKING:
        with (folder / "builder" / path).open("a", encoding="utf-8") as file:
            file.write(f"\nimport {imported}\n")
    return _check_layers(folder)


@pytest.mark.parametrize(("path", "module", "imported", "contract"), BREAKING)
def test_a_broken_layer_is_noticed(
    broken_layers: subprocess.CompletedProcess[str],
    path: str,
    module: str,
    imported: str,
    contract: str,
) -> None:
    """One import against the layering is enough to break its contract, and is told by its line."""
    told = broken_layers.stdout
    assert broken_layers.returncode == 1, told + broken_layers.stderr
    assert re.search(rf"^{contract} BROKEN$", told, re.MULTILINE)
    _, of_layers, of_host = re.split(rf"\n(?:{LAYERS}|{HOST})\n-+\n", told)
    of_contract = of_layers if contract == LAYERS else of_host
    lines = (ROOT / "builder" / path).read_text(encoding="utf-8").count("\n")
    places = re.findall(rf"-\s+{module} -> {imported} \(l\.(\d+)\)", of_contract)
    assert places
    assert all(int(place) > lines for place in places)


def test_a_stub_of_a_browser_is_passed_over(tmp_path: Path) -> None:
    """The first browser that shows a page is taken, not the first that has the right name."""
    programs = tmp_path / "programs"
    programs.mkdir()
    real = f'exec "{find_chromium()}" "$@"'
    scripts = {"chromium": "echo 'install the snap' >&2; exit 1", "google-chrome": real}
    for name, does in scripts.items():
        (programs / name).write_text(f"#!/bin/sh\n{does}\n", encoding="utf-8")
        (programs / name).chmod(0o755)
    got = subprocess.run(
        [sys.executable, "-m", "tests.get_browser", str(tmp_path / "checked")],
        cwd=ROOT,
        env={**os.environ, "PATH": f"{programs}:/usr/bin:/bin"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert got.returncode == 0, got.stderr
    assert f"{programs}/chromium does not start" in got.stderr
    assert str(programs / "google-chrome") in (tmp_path / "checked" / "chromium").read_text("utf-8")


def test_a_missing_browser_fails_the_run_with_advice(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Where nothing starts and nothing can be got, the run fails and says what to install."""
    tried = []
    for way in ("_from_debian", "_from_playwright"):
        monkeypatch.setattr(get_browser, way, lambda way=way: tried.append(way))
    monkeypatch.setattr(get_browser, "_candidates", lambda: iter(()))
    assert get_browser.main(tmp_path) == 1
    assert tried == ["_from_debian", "_from_playwright"]
    assert "apt install chromium" in capsys.readouterr().err
    assert not (tmp_path / "chromium").exists()
