"""Which pages need not be written again: everything they were made from is the same, byte for byte."""

import os
import stat
from collections.abc import Iterable
from pathlib import Path

from reportgen import __version__, pages
from reportgen.intake import listed, watched
from reportgen.pages import Stamp

#: A file over this is no log; intake refuses it, and here it only makes the sum differ.
_MOST_BYTES = 64 * 1024 * 1024


def digest(folder: Path, theme: str, options: Iterable[str]) -> str:
    """The sum over a lifter's files, the theme's and all options; a file that can't be read never matches."""
    files = [(f"theme/{name}", content) for name, content in pages.theme_files(theme)]
    for path in watched(folder):
        files.append((path.relative_to(folder).as_posix(), _content(path)))
    # A file that nobody reads may be the pain file under another name: its name alone stops a proposal.
    files.append(("names", b"\0".join(sorted(os.fsencode(path.name) for path in listed(folder)))))
    return pages.digest(files, (f"version {__version__}", *options))


def _content(path: Path) -> bytes:
    try:
        seen = path.stat()
        # A pipe or a device would keep us waiting for ever; intake refuses them as well.
        if not stat.S_ISREG(seen.st_mode) or seen.st_size > _MOST_BYTES:
            return f"{seen.st_mode} {seen.st_size} {seen.st_mtime_ns}".encode()
        return path.read_bytes()
    except OSError as error:
        return repr(error).encode()


def standing(page: Path, wanted: str) -> Stamp | None:
    """The stamp of a page that needs not be written again, or None."""
    stamp = pages.read_stamp(page)
    return stamp if stamp is not None and stamp.digest == wanted else None
