"""One way to leave a file behind: whole, or not at all."""

import contextlib
import os
import tempfile
from pathlib import Path

from reportgen.words import text


class WriteProblem(Exception):  # noqa: N818 - it is a problem to report, named like the others
    """A page could not be written; the file that stood there before still stands.

    Attributes:
        path: Where the page should have gone.
        reason: What the system said.
    """

    def __init__(self, path: Path, reason: str) -> None:
        super().__init__(path, reason)  # as they came: what a worker raises is made again from these
        self.path = path
        self.reason = reason

    def __str__(self) -> str:
        """Which page, and why."""
        return text("pages.written.not", path=str(self.path), why=self.reason)


def write(path: Path, page: str | bytes) -> None:
    """Put a file in its place in one step, after it is safely on the disk.

    Args:
        path: Where it goes; missing folders above it are made.
        page: The whole file; words are written as UTF-8 with line feeds.

    Raises:
        WriteProblem: Disk, folder or rights did not allow it. What stood there is kept.
    """
    waiting: Path | None = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(
            "wb", dir=path.parent, prefix=f".{path.name[:40]}.", suffix=".part", delete=False
        ) as file:
            waiting = Path(file.name)
            file.write(page.encode("utf-8") if isinstance(page, str) else page)
            file.flush()
            os.fsync(file.fileno())
        _as_usual(waiting)
        waiting.replace(path)
        waiting = None
        _settle(path.parent)
    except OSError as error:
        raise WriteProblem(path, error.strerror or str(error)) from error
    finally:
        if waiting is not None:
            with contextlib.suppress(OSError):
                waiting.unlink()


def _as_usual(path: Path) -> None:
    """Give a temporary file the rights that a new file of this user would have."""
    if os.name == "posix":
        mask = os.umask(0)
        os.umask(mask)
        path.chmod(0o666 & ~mask)


def _settle(folder: Path) -> None:
    """Ask the disk to keep the folder's new entry; not every system can, and the page is there either way."""
    with contextlib.suppress(OSError, AttributeError):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
