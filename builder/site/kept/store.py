"""A folder of finished work, each entry under a name made of all that went into it.

An entry is never changed: other input has another name. It is written aside and then renamed, so
that a build that is killed, or two that run at once, leave whole entries or none; what is read is
compared with the sum that stands at its head, so that a spoilt entry counts as none.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import tempfile
import time
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

_ENDING = ".kept"
_ASIDE = ".aside-"
_UNUSED = 30 * 24 * 3600.0
"""Seconds after which an entry that no build has read is thrown away."""
_ABANDONED = 3600.0
"""Seconds after which what stands aside was left by a killed build: to write it takes no second."""


@dataclass(frozen=True)
class Store:
    """A folder of finished work.

    Attributes:
        folder: made when something is first kept; None keeps nothing.
    """

    folder: Path | None

    def get(self, key: str) -> dict[str, str] | None:
        """What is kept under a key; None if nothing is, or nothing whole."""
        if self.folder is None:
            return None
        path = self._path(self.folder, key)
        try:
            found = _whole(path.read_bytes())
        except OSError:
            return None
        if found is not None:
            with contextlib.suppress(OSError):
                os.utime(path)
        return found

    def has(self, key: str) -> bool:
        """Whether something is kept under a key, whole or not."""
        return self.folder is not None and self._path(self.folder, key).is_file()

    def put(self, key: str, texts: Mapping[str, str]) -> bool:
        """Keep texts under a key.

        Returns:
            Whether that was possible; where it is not, as on a full disk, a build goes on without.
        """
        if self.folder is None:
            return False
        packed = zlib.compress(json.dumps(dict(texts), ensure_ascii=False).encode(), 1)
        aside = ""
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            handle, aside = tempfile.mkstemp(dir=self.folder, prefix=_ASIDE)
            with os.fdopen(handle, "wb") as file:
                file.write(_sum(packed) + b"\n" + packed)
            Path(aside).replace(self._path(self.folder, key))
        except OSError:
            if aside:
                Path(aside).unlink(missing_ok=True)
            return False
        return True

    def tidy(self) -> None:
        """Throw away what no build has read for a month, and what a killed one left aside."""
        if self.folder is None:
            return
        now = time.time()
        with contextlib.suppress(OSError):
            for path in self.folder.iterdir():
                if path.name.startswith(_ASIDE):
                    allowed = _ABANDONED
                elif path.suffix == _ENDING:
                    allowed = _UNUSED
                else:
                    continue
                # Another build may be quicker to throw it away.
                with contextlib.suppress(OSError):
                    if now - path.stat().st_mtime > allowed:
                        path.unlink()

    @staticmethod
    def _path(folder: Path, key: str) -> Path:
        return folder / f"{key}{_ENDING}"


def _sum(packed: bytes) -> bytes:
    return hashlib.sha256(packed).hexdigest().encode()


def _whole(entry: bytes) -> dict[str, str] | None:
    """An entry's texts; None if it is not what was written."""
    head, _, packed = entry.partition(b"\n")
    if head != _sum(packed):
        return None
    found = json.loads(zlib.decompress(packed))
    return {str(name): str(text) for name, text in found.items()}
