"""What a page was made from, and its line in a squad's index: written into it, read back without parsing it.

A second run over a squad leaves a page alone whose stamp says that nothing it was made from has changed. The
stamp stands at the top, so it says how long the page is as well: one that was cut off is written again.
"""

import hashlib
import html
import json
import os
import re
import stat
from collections.abc import Iterable
from dataclasses import asdict
from pathlib import Path
from typing import Final, Literal

import msgspec

from reportgen.model.lifter import Unit
from reportgen.model.values import dataclass
from reportgen.view.page import Edition, SquadLine

#: The stamp stands at the top of the page; no more than this is read to find it.
_HEAD_BYTES: Final = 65_536
_MARK: Final = '<meta name="made-from"'
_DIGEST: Final = re.compile(rf'{_MARK} content="([0-9a-f]{{64}}) ([01]) ([0-9]{{10}})">')
#: Stands where the page's size comes, once it is known; as long, so that the size stays what it was.
_ROOM: Final = "0" * 10
#: No sum of anything.
NEVER: Final = "0" * 64
_LINE: Final = re.compile(r'<meta name="squad-line" content="([^"]*)">')


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp:
    """The sum of everything a page was made from, the exit code of its reading, what an index needs of it."""

    digest: str  # `NEVER` where no later run may take the page for one that needs not be written again
    code: int  # 0 or 1
    line: SquadLine  # its line in a squad's index
    edition: Edition = "review"  # of the page: an index is of one
    #: coach, unit: Of the squad around the lifter, as squad.toml has them.
    coach: str = ""
    unit: Unit = "kg"

    @property
    def text(self) -> str:
        """Sum and code as the page carries them, with room for its size."""
        return f"{self.digest} {self.code} {_ROOM}"

    def sized(self, page: str) -> str:
        """The finished page, its size in the stamp."""
        size = f"{len(page.encode('utf-8')):0{len(_ROOM)}d}"
        return page.replace(self.text, self.text.removesuffix(_ROOM) + size, 1)


def digest(files: Iterable[tuple[str, bytes]], options: Iterable[str]) -> str:
    """The SHA-256 over named files and the options that a page depends on; order counts for neither.

    Args:
        files: Name and content of every file, of the lifter and of the theme.
        options: Version, edition and every other choice, as text.
    """
    whole = hashlib.sha256()
    for name, content in sorted(files):
        part = hashlib.sha256(content).hexdigest()
        whole.update(_counted(name) + f":{part}\n".encode())
    for option in sorted(options):
        whole.update(b"option " + _counted(option) + b"\n")
    return whole.hexdigest()


def _counted(words: str) -> bytes:
    """Words behind their length; bytes of a file name that are no text are surrogates here, and count."""
    raw = words.encode("utf-8", "surrogatepass")
    return f"{len(raw)}:".encode() + raw


def line_text(stamp: Stamp) -> str:
    """What an index needs of a page, as JSON text."""
    data = {name: value for name, value in asdict(stamp).items() if name not in ("digest", "code")}
    return json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"), default=str)


def read(path: Path) -> Stamp | None:
    """The stamp of a page that was written before; None where there is none, see `look`."""
    seen = look(path)
    return seen if isinstance(seen, Stamp) else None


def look(path: Path) -> Stamp | Literal["unread", "none", "cut", "damaged"]:
    """The stamp of a page, which anybody may have written, or why there is none.

    `unread`: no file, or one that can't be read. `none`: it carries no stamp. `cut`: it is not as long as it
    was. `damaged`: its stamp is not what this program writes.
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):  # a pipe would keep us waiting for ever
            return "unread"
        with path.open("rb") as file:
            size = os.fstat(file.fileno()).st_size
            head = file.read(_HEAD_BYTES).decode("utf-8", "replace")
    except OSError:
        return "unread"
    found, line = _DIGEST.search(head), _LINE.search(head)
    if found is None or line is None:
        return "damaged" if _MARK in head else "none"
    if int(found[3]) != size:
        return "cut"
    try:
        data = msgspec.json.decode(html.unescape(line[1]))
        return msgspec.convert({**data, "digest": found[1], "code": int(found[2])}, Stamp)
    except (msgspec.MsgspecError, ValueError, TypeError, RecursionError):
        return "damaged"
