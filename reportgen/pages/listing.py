"""The list of what a page carries, with a sum over it: no file can be lost or renamed without being missed.

What a page carries has a sum each, which tells nothing of a file that is gone or of a name that was changed.
So there is a mark: how many files were written, and the SHA-256 over role, path and sum of all, in order.

The mark stands where it can't be cut unseen. Every packed file holds it, as a comment in its gzip header,
inside of the base64: one file left tells of all. And it stands in the page's head, so that a page which lost
every file (cut off behind its head) is known as well. A page with no mark anywhere is of an earlier version.

Covered: a page cut anywhere; a file lost, doubled, moved or renamed; a changed role; any letter of an
attribute; a mark that was taken out of the head, or out of some of the files. Not covered: the words beside a
file, which nothing is made from; a page cut before the mark in its head, which nobody can tell for ours; and
whoever packs every file anew with new sums or with none. There is no key: the mark tells damage, not forgery.
A page of an earlier version that was cut can't be told from a whole one; it is given back, and that is said.
"""

import base64
import binascii
import hashlib
import json
import re
import struct
import zlib
from collections.abc import Iterable
from typing import Final

from reportgen.model.values import dataclass

_TEXT: Final = re.compile(r"(\d{1,9}) ([0-9a-f]{64})")
_COMMENT: Final = re.compile(rb"one of (\d{1,9} [0-9a-f]{64})")
_MAGIC: Final = b"\x1f\x8b\x08"
#: Flags of a gzip header: a comment is there; something stands before it, which we never write.
_HAS_COMMENT: Final = 0x10
_HAS_MORE: Final = 0x04 | 0x08
_HEAD_BYTES: Final = 10
#: Letters of base64 that hold the header with the longest mark; whole groups of four.
_HEAD_LETTERS: Final = 160


@dataclass(frozen=True, slots=True)
class Mark:
    """How many files a page was written with, and the sum over their list."""

    count: int
    sum: str

    def __str__(self) -> str:
        """As it stands in a page."""
        return f"{self.count} {self.sum}"


def mark(files: Iterable[tuple[str, str, str]]) -> Mark:
    """The mark of a list.

    Args:
        files: Role, path and SHA-256 (hex) of every file, in the order of the page.
    """
    listed = [list(file) for file in files]
    text = json.dumps(listed, separators=(",", ":"))  # ASCII, and it says where each part ends
    return Mark(len(listed), hashlib.sha256(text.encode("ascii")).hexdigest())


def pack(content: bytes, listed: Mark) -> bytes:
    """A file as gzip, the list's mark as its comment; any program that reads gzip reads it."""
    engine = zlib.compressobj(9, zlib.DEFLATED, -15)
    head = _MAGIC + bytes((_HAS_COMMENT, 0, 0, 0, 0, 2, 255)) + f"one of {listed}\0".encode("ascii")
    tail = struct.pack("<LL", zlib.crc32(content), len(content) & 0xFFFFFFFF)
    return head + engine.compress(content) + engine.flush() + tail


def written(text: str) -> Mark | None:
    """The mark in a page's head; None where it is none."""
    found = _TEXT.fullmatch(text)
    return Mark(int(found[1]), found[2]) if found else None


def inside(packed: str) -> Mark | None:
    """The mark in a packed file, given as base64; None where it holds none."""
    try:
        head = base64.b64decode(packed[:_HEAD_LETTERS], validate=True)
    except (binascii.Error, ValueError):
        return None
    if len(head) < _HEAD_BYTES or not head.startswith(_MAGIC):
        return None
    if head[3] & _HAS_MORE or not head[3] & _HAS_COMMENT:
        return None
    found = _COMMENT.fullmatch(head[_HEAD_BYTES:].partition(b"\0")[0])
    return written(found[1].decode("ascii")) if found else None
