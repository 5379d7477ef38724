"""Where the keys of a TOML file stand, found by searching its text; the parser does not say."""

import re
from collections.abc import Mapping, Sequence

_PART = r"""(?:"(?:[^"\\]|\\.)*"|'[^']*'|[A-Za-z0-9_-]+)"""
_PATH = rf"{_PART}(?:\s*\.\s*{_PART})*"
_HEADER = re.compile(rf"^\s*(\[\[?)\s*({_PATH})\s*\]")
_KEY = re.compile(rf"^(\s*)({_PATH})\s*=")

Place = tuple[int, int]
Path = tuple[str | int, ...]


def nearest(found: Mapping[Path, Place], path: Sequence[str | int]) -> Place:
    """The place of a key or, where it stands nowhere by itself, of the table around it; else line 1."""
    around = (tuple(path[:end]) for end in range(len(path), 0, -1))
    return next((found[key] for key in around if key in found), (1, 0))


def places(text: str) -> dict[Path, Place]:
    """Search a TOML text for its tables and keys: line and column of each, both from 1.

    A line inside a many-line string may look like a key; the first place of a path counts, so at worst a
    message points at such a line.
    """
    found: dict[Path, Place] = {}
    counts: dict[Path, int] = {}
    table: Path = ()
    for number, line in enumerate(text.split("\n"), 1):
        header = _HEADER.match(line)
        if header:
            table = _path(header[2])
            if header[1] == "[[":
                index = counts.get(table, -1) + 1
                counts[table] = index
                found.setdefault(table, (number, header.start(1) + 1))
                table = (*table, index)
            found.setdefault(table, (number, header.start(1) + 1))
            continue
        key = _KEY.match(line)
        if key:
            found.setdefault((*table, *_path(key[2])), (number, len(key[1]) + 1))
    return found


def _path(text: str) -> Path:
    return tuple(part[1:-1] if part[0] in "\"'" else part for part in re.findall(_PART, text))
