"""Drawings that were made before: a picture whose description did not change is not drawn again.

They lie in a folder that may be deleted at any time and is written by many processes at once. A page is the
same with and without it, and what is damaged is drawn again.
"""

import contextlib
import hashlib
import os
import tempfile
import zlib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Final

import msgspec

#: The folder holds no more than this; what was used longest ago goes first.
MOST_BYTES: Final = 96 * 1024 * 1024
#: One entry is far smaller, packed and unpacked.
_MOST_ENTRY: Final = 8 * 1024 * 1024
#: The folder is looked through when an entry of such a name is added, one in 256.
_LOOKED_THROUGH: Final = "00"

Kept = Mapping[str, str]


class Store:
    """Entries by key: some texts, packed behind their sum."""

    def __init__(self, folder: Path | None) -> None:
        """`folder` is made if it is not there; None, or one that others may write into, keeps nothing."""
        self._folder = folder if folder is not None and _own(folder) else None

    def get(self, key: str) -> Kept | None:
        """What was kept under a key; None where there is nothing, or it is not what was kept."""
        if self._folder is None:
            return None
        path = self._folder / key
        try:
            with path.open("rb") as file:
                told, packed = file.read(65), file.read(_MOST_ENTRY)
        except OSError:
            return None
        if told != _sum(key, packed):
            with contextlib.suppress(OSError):
                path.unlink()
            return None
        try:
            found = msgspec.json.decode(zlib.decompressobj().decompress(packed, _MOST_ENTRY))
        except (ValueError, msgspec.DecodeError, RecursionError, zlib.error):
            return None
        with contextlib.suppress(OSError):
            os.utime(path)  # used now: it goes last
        return found if isinstance(found, dict) and all(type(one) is str for one in found.values()) else None

    def put(self, key: str, kept: Kept) -> None:
        """Keep some texts; a disk that is full or read-only keeps nothing, and nobody need know."""
        if self._folder is None:
            return
        packed = zlib.compress(msgspec.json.encode(kept), 1)
        with contextlib.suppress(OSError):
            handle, name = tempfile.mkstemp(dir=self._folder, prefix=".")
            with os.fdopen(handle, "wb") as file:
                file.write(_sum(key, packed) + packed)
            Path(name).replace(self._folder / key)
            if key.startswith(_LOOKED_THROUGH):
                _tidy(self._folder)


def key(*parts: object) -> str:
    """The name of an entry: a sum over what a drawing is made from, and over what makes it."""
    return hashlib.sha256(msgspec.json.encode([_makers(), *parts], order="sorted")).hexdigest()


@cache
def _makers() -> list[str]:
    """The version of the drawing library, and the sums of the modules and fonts that draw."""
    from importlib.metadata import version

    own = (Path(__file__).parent / name for name in ("drawing.py", "slim.py", "vendor/fonts.conf"))
    sums = [hashlib.sha256(file.read_bytes()).hexdigest() for file in own]
    return [version("vl-convert-python"), *sums]


def _sum(key: str, packed: bytes) -> bytes:
    return hashlib.sha256(key.encode() + packed).hexdigest().encode() + b"\n"


def _own(folder: Path) -> bool:
    """Whether the folder is there and nobody else may write into it."""
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        seen = folder.stat()
    except OSError:
        return False
    me = getattr(os, "getuid", None)  # Windows keeps a folder to its user by other means
    return me is None or (seen.st_uid == me() and not seen.st_mode & 0o022)


def _tidy(folder: Path) -> None:
    """Delete what was used longest ago, down to three quarters, where the folder holds too much."""
    found = []
    for one in os.scandir(folder):
        with contextlib.suppress(OSError):  # another process was quicker
            seen = one.stat(follow_symlinks=False)
            found.append((seen.st_mtime_ns, seen.st_size, Path(one.path)))
    held = sum(size for _, size, _ in found)
    if held <= MOST_BYTES:
        return
    for _, size, path in sorted(found):
        with contextlib.suppress(OSError):
            path.unlink()
        held -= size
        if held <= MOST_BYTES * 3 // 4:
            return
