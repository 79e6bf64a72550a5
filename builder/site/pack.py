"""The whole unit as one zip that opens from any folder, with no server and no network."""

from __future__ import annotations

import io
import logging
import os
import re
import tempfile
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from html import unescape
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, MkDocsException

from builder.errors import BuildStopped, Fault, FaultyFile
from builder.site.pack_check import faults_of
from builder.site.page import render
from builder.site.whole_files import write_together

START = "START-HERE.html"
FOLDER = "unit"
_OLDEST = (1980, 1, 1, 0, 0, 0)  # the first moment that a zip can tell
_PLAIN_FILE = 0o100644 << 16

_ONLINE_ONLY = frozenset({"404.html", "sitemap.xml", "sitemap.xml.gz"})
"""Of use on a server only; the site map would also bring the day of the build into the zip."""
_OTHER_LANGUAGES = "assets/javascripts/lunr/"
_ENGLISH = re.compile(rb'"lang":\s*\["en"\]')
_TITLE = re.compile(r"<title>\s*(.*?)\s*</title>", re.DOTALL)


@dataclass(frozen=True)
class Packed:
    """A zip and its measures.

    Attributes:
        path: the zip.
        files: how many it holds.
        unpacked: their bytes.
        zipped: its own bytes.
    """

    path: Path
    files: int
    unpacked: int
    zipped: int


def pack(
    out: Path, *, site: Path | None = None, config: Path = Path("mkdocs.yml"), force: bool = False
) -> Packed:
    """Write one zip of a unit; the same site gives the same bytes.

    Args:
        out: the zip to write.
        site: a site that is built already; None builds one, strictly, and keeps nothing of it.
        config: what to build.
        force: whether a file that is no packed unit may be overwritten.

    Raises:
        BuildStopped: if the site does not build.
        FaultyFile: if something in the site refers outside or to nothing, or ``out`` cannot be
            written. Nothing is written then.
    """
    if out.exists() and not force and not _is_ours(out):
        raise _fault(out, "a file that is no packed unit", "no file, or an earlier zip to replace",
                     "Choose another --out, or overwrite it with --force.")  # fmt: skip
    if site is not None:
        files = read_site(site)
    else:
        with tempfile.TemporaryDirectory(prefix="stepwell-") as folder:
            build_site(config, Path(folder))
            files = read_site(Path(folder))
    if faults := faults_of(files):
        raise FaultyFile(faults)
    whole = {START: start_page(files)} | {f"{FOLDER}/{path}": files[path] for path in files}
    content = zipped(whole)
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        write_together({out: content})
    except OSError as error:
        raise _fault(out, f"a place that cannot be written ({error.strerror})",
                     "a place for the zip", "Name another one with --out.") from error  # fmt: skip
    return Packed(out, len(whole), sum(map(len, whole.values())), len(content))


def build_site(config: Path, folder: Path) -> None:
    """Build a site into ``folder``, strictly.

    Raises:
        BuildStopped: with what the build said.
    """
    if not config.is_file():
        raise _fault(config, "no such file", "the file that says what to build",
                     "Name it with --config, or call stepwell pack where mkdocs.yml lies.",
                     )  # fmt: skip
    # The theme would announce its end of life at every build.
    os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")
    told = _Told()
    logger = logging.getLogger("mkdocs")
    logger.addHandler(told)
    try:
        settings = load_config(str(config), strict=True, site_dir=str(folder))
        settings.plugins.on_startup(command="build", dirty=False)
        build(settings)
    except (Abort, MkDocsException) as error:
        raise BuildStopped((*told.messages, str(error))) from error
    finally:
        logger.removeHandler(told)


def read_site(site: Path) -> dict[str, bytes]:
    """The files of a built site that are of use in a folder, sorted by path.

    Raises:
        FaultyFile: if there is no site.
    """
    if not (site / "index.html").is_file():
        raise _fault(site, "no index.html", "the folder of a built site",
                     "Build one with make site, or leave out --site.")  # fmt: skip
    home = site.resolve()
    away = [path for path in sorted(site.rglob("*")) if not path.resolve().is_relative_to(home)]
    if away:
        raise _fault(away[0], "a link that leads out of the site", "files of the site only",
                     "Delete it, or put what it leads to in its place.")  # fmt: skip
    paths = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    index = site / "search" / "search_index.json"
    english = not index.is_file() or _ENGLISH.search(index.read_bytes()) is not None
    return {
        path: paths[path].read_bytes()
        for path in sorted(paths)
        if path not in _ONLINE_ONLY
        and not path.endswith(".map")
        and not (english and path.startswith(_OTHER_LANGUAGES))
    }


def start_page(files: Mapping[str, bytes]) -> bytes:
    """The page that a reader is to open first."""
    match = _TITLE.search(files["index.html"].decode("utf-8", errors="replace"))
    title = unescape(match[1]) if match else "The unit"
    return str(render("sheet/start.html", title=title, first=f"{FOLDER}/index.html")).encode()


def zipped(files: Mapping[str, bytes]) -> bytes:
    """A zip of files, sorted, without dates and without traces of the machine."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for path in sorted(files):
            entry = zipfile.ZipInfo(path, _OLDEST)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 3
            entry.external_attr = _PLAIN_FILE
            archive.writestr(entry, files[path], compresslevel=9)
    return held.getvalue()


class _Told(logging.Handler):
    """Keeps what a build warns of."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.messages: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.messages.append(record.getMessage())


def _is_ours(out: Path) -> bool:
    try:
        with zipfile.ZipFile(out) as archive:
            return START in archive.namelist()
    except (OSError, zipfile.BadZipFile):
        return False


def _fault(path: Path, found: str, expected: str, advice: str) -> FaultyFile:
    return FaultyFile((Fault(str(path), 0, 0, found, expected, advice),))
