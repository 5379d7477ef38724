"""What a page was made from, and its line in a squad's index: written into it, read back without parsing it.

A second run over a squad leaves a page alone whose stamp says that nothing it was made from has changed. The
stamp stands at the top, so it says how long the page is as well: one that was cut off is written again.
"""

import datetime as dt
import hashlib
import html
import json
import os
import re
from collections.abc import Iterable
from dataclasses import asdict, dataclass, fields
from pathlib import Path
from typing import Any, Final

from reportgen.model.look import Look
from reportgen.view.page import SquadLine
from reportgen.words import Phrase, Weight

#: The stamp stands at the top of the page; no more than this is read to find it.
_HEAD_BYTES: Final = 65_536
_DIGEST: Final = re.compile(r'<meta name="made-from" content="([0-9a-f]{64}) ([01]) (\d{10})">')
#: Stands where the page's size comes, once it is known; as long, so that the size stays what it was.
_ROOM: Final = "0" * 10
_LINE: Final = re.compile(r'<meta name="squad-line" content="([^"]*)">')


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp:
    """The sum of everything a page was made from, the exit code of its reading, and its line in the index."""

    digest: str
    code: int
    line: SquadLine

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


def line_text(line: SquadLine) -> str:
    """A squad line as JSON text."""
    return json.dumps(asdict(line), ensure_ascii=False, sort_keys=True, separators=(",", ":"), default=str)


def read(path: Path) -> Stamp | None:
    """The stamp of a page that was written before; None where there is no page, no stamp or a broken one, or
    where the page is not as long as it was.
    """
    try:
        with path.open("rb") as file:
            size = os.fstat(file.fileno()).st_size
            head = file.read(_HEAD_BYTES).decode("utf-8", "replace")
    except OSError:
        return None
    found, line = _DIGEST.search(head), _LINE.search(head)
    if found is None or line is None or int(found[3]) != size:
        return None
    try:
        return Stamp(digest=found[1], code=int(found[2]), line=_line(json.loads(html.unescape(line[1]))))
    except (ValueError, TypeError, KeyError):
        return None


def _line(data: dict[str, Any]) -> SquadLine:
    phrases = {name: _phrase(data[name]) for name in ("goal", "present", "gap")}
    best = tuple((str(day), float(kg)) for day, kg in data["best"])
    season = tuple((str(heading), _phrase(cell)) for heading, cell in data.get("season", ()))
    days = {field.name for field in fields(Look) if field.type in (dt.date, dt.date | None)}
    look: dict[str, Any] = {
        name: dt.date.fromisoformat(value) if value is not None and name in days else value
        for name, value in data["look"].items()
    }
    return SquadLine(**{**data, **phrases, "best": best, "season": season, "look": Look(**look)})


def _phrase(parts: list[Any]) -> Phrase:
    return tuple(Weight(**part) if isinstance(part, dict) else str(part) for part in parts)
