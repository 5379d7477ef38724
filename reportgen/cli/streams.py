"""Standard streams that are closed or have few letters: what can't be said there is dropped or said plainly,
the work and its exit code stay.
"""

from __future__ import annotations

import codecs
import contextlib
import errno
import io
import os
import sys
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Iterator

#: What a pipe says whose reader has gone; Windows says the second.
_GONE: Final = (errno.EPIPE, errno.EINVAL) if os.name == "nt" else (errno.EPIPE,)
#: How a letter is said where the terminal's code page has none such, as on an older Windows.
_PLAIN: Final = {
    "–": "-", "—": "-", "−": "-", "×": "x", "…": "...", "→": "->", "·": "-", "“": '"', "”": '"', "‘": "'",
    "’": "'", "≤": "<=", "≥": ">=",
}  # fmt: skip


def _plainly(error: UnicodeError) -> tuple[str, int]:
    """What stands in the place of letters that a stream does not have: what is near, or a question mark."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    letters = error.object[error.start : error.end]
    return "".join(_PLAIN.get(letter, "?") for letter in letters), error.end


codecs.register_error("plainly", _plainly)


class _Heard(io.FileIO):
    """A descriptor that goes on as if it wrote where nobody reads any more."""

    gone = False

    def write(self, data: Any) -> int:
        """Write, or count the bytes as written where the reader has gone."""
        if not self.gone:
            try:
                return super().write(data) or 0
            except OSError as error:
                if error.errno not in _GONE:
                    raise
                self.gone = True
        return memoryview(data).nbytes


def heard() -> bool:
    """Whether somebody still reads standard output; a long answer may end where nobody does."""
    raw = getattr(getattr(sys.stdout, "buffer", None), "raw", None)
    return not (isinstance(raw, _Heard) and raw.gone)


def has_every_letter() -> bool:
    """Whether standard output is Unicode: JSON in a code page is read by no other program."""
    return (getattr(sys.stdout, "encoding", None) or "").lower().replace("_", "-").startswith("utf")


@contextlib.contextmanager
def kept() -> Iterator[None]:
    """Streams that are there, whatever this program was started with, and that outlive their reader."""
    before = sys.stdin, sys.stdout, sys.stderr
    for number, name in enumerate(("stdin", "stdout", "stderr")):
        stream = getattr(sys, name)
        if stream is None:
            setattr(sys, name, _nowhere(number))
        elif number and _is_pipe(stream, number):
            stream.flush()
            raw = io.BufferedWriter(_Heard(number, "wb", closefd=False))
            wrapped = io.TextIOWrapper(raw, stream.encoding, "plainly", line_buffering=stream.line_buffering)
            setattr(sys, name, wrapped)
        elif number and isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="plainly")
    try:
        yield
    finally:
        for name, stream in zip(("stdout", "stderr"), before[1:], strict=True):
            with contextlib.suppress(OSError, ValueError):
                getattr(sys, name).flush()
            if stream is not None:
                setattr(sys, name, stream)


def _nowhere(number: int) -> io.TextIOBase:
    """A stream for a closed descriptor, whose number the next opened file would get, and our words in it."""
    null = os.open(os.devnull, os.O_RDWR)
    if null != number:
        os.dup2(null, number)
        os.close(null)
    return open(number, "r" if number == 0 else "w", encoding="utf-8", closefd=False)


def _is_pipe(stream: Any, number: int) -> bool:
    """Whether it is what this process was given, and no terminal: a Windows console has its own letters."""
    try:
        return stream.fileno() == number and not stream.isatty()
    except (OSError, ValueError, AttributeError):
        return False
