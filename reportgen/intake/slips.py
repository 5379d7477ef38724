"""Slips in a line of TOML by people who never saw one: what it is in words, and the line as it should be."""

import re
import tomllib
from collections.abc import Callable
from typing import Final

from reportgen.model.say import Say, say

#: A longer line is not looked at: nobody types it.
LONGEST: Final = 300
_CURLY: Final = str.maketrans(dict.fromkeys("“”„‟«»", '"') | dict.fromkeys("‘’‚‛`´", "'"))
_KEY: Final = r'(\s*(?:"[^"]*"|\'[^\']*\'|[\w-]+)\s*)'


def _colon(line: str) -> str:
    """`name: Maren`, `name Maren`: a `=` is missing."""
    if "=" in line or line.lstrip().startswith("["):
        return line
    found = re.fullmatch(_KEY + r"(?::|\s)\s*(\S.*)", line)
    return f"{found[1].rstrip()} = {found[2]}" if found else line


def _key(line: str) -> str:
    """`hang sn = ...`: words with a blank or other signs stand in quotation marks."""
    left, mark, right = line.partition("=")
    bare = left.strip()
    plain = re.fullmatch(r"[\w-]+", bare, re.ASCII) or bare.startswith(('"', "'", "["))
    return line if not mark or not bare or plain or '"' in bare else f'"{bare}" ={right}'


def _value(change: Callable[[str], str]) -> Callable[[str], str]:
    """A change of what stands right of the `=`, up to a remark."""

    def changed(line: str) -> str:
        left, mark, right = line.partition("=")
        value, hash_, remark = (
            right.partition("#") if '"' not in right and "'" not in right else (right, "", "")
        )
        new = change(value.strip())
        if not mark or new == value.strip():
            return line
        return f"{left.rstrip()} = {new}" + (f"  #{remark}" if hash_ else "")

    return changed


def _day(value: str) -> str:
    """A date as people write it; with slashes only where one of the numbers can be no month."""
    near = re.fullmatch(r"(\d{4})[-./](\d{1,2})[-./](\d{1,2})", value)
    if near:
        return f"{near[1]}-{near[2]:0>2}-{near[3]:0>2}"
    turned = re.fullmatch(r"(\d{1,2})([./-])(\d{1,2})\2(\d{4})", value)
    if not turned:
        return value
    first, second = int(turned[1]), int(turned[3])
    if turned[2] == "." or first > 12:
        return f"{turned[4]}-{second:02}-{first:02}"
    return f"{turned[4]}-{first:02}-{second:02}" if second > 12 else value


def _number(value: str) -> str:
    found = re.fullmatch(r"(\d+),(\d+)(\D*)", value)
    return f"{found[1]}.{found[2]}{found[3]}" if found else value


def _unit(line: str) -> str:
    """`kg = 64 kg`, and `kg = 141 lb`, which is no kilograms."""
    found = re.fullmatch(r"(\w+)\s*=\s*(\d+(?:\.\d+)?)\s*(kg|kilo|lb|pound)s?\.?(\s*#.*)?", line)
    if not found or found[1] not in ("kg", "lb"):
        return line
    unit = "kg" if found[3].startswith("k") else "lb"
    return f"{unit} = {found[2]}{found[4] or ''}"


def _truth(value: str) -> str:
    return {"true": "true", "yes": "true", "false": "false", "no": "false"}.get(value.casefold(), value)


def _path(value: str) -> str:
    """Backslashes between double quotation marks mean other letters; between single ones themselves."""
    found = re.fullmatch(r'"([^"\']*\\[^"\']*)"', value)
    return f"'{found[1]}'" if found else value


def _end(value: str) -> str:
    """A quotation mark at one end only."""
    for mark in ('"', "'"):
        if value.count(mark) == 1 and len(value) > 1:
            bare = value.replace(mark, "")
            return f'"{bare.strip()}"' if '"' not in bare else value
    return value


def _words(value: str) -> str:
    """A word without quotation marks."""
    if not value or value[0] in "\"'[{" or "\\" in value:
        return value
    return f'"{value}"' if re.search(r"[^\W\d_]", value) and '"' not in value else value


def _brackets(line: str) -> str:
    """`[[goal]`, `[lift_names`: brackets that do not close."""
    found = re.fullmatch(r"\s*(\[{1,2})\s*([\w. &\"'-]+?)\s*\]{0,2}\s*(#.*)?", line)
    if not found:
        return line
    closed = f"{found[1]}{found[2]}{']' * len(found[1])}"
    return closed + (f"  {found[3]}" if found[3] else "")


#: The slip by its message, and its cure; tried in this order, until the line can be read.
SLIPS: Final[tuple[tuple[str, Callable[[str], str]], ...]] = (
    ("brackets", _brackets),
    ("blank", lambda line: line.replace("\u00a0", " ")),
    ("curly", lambda line: line.translate(_CURLY)),
    ("colon", _colon),
    ("key", _key),
    ("day", _value(_day)),
    ("number", _value(_number)),
    ("unit", _unit),
    ("truth", _value(_truth)),
    ("path", _value(_path)),
    ("end", _value(_end)),
    ("words", _value(_words)),
)


def cure(line: str) -> tuple[Say, str] | None:
    """The slip in one line of TOML and the mended line, which can be read; None for another slip or none."""
    mended = line.strip()
    if len(mended) > LONGEST or _reads(mended):
        return None
    for name, mend in SLIPS:
        before, mended = mended, mend(mended)
        if mended != before and (rest := mended if _reads(mended) else _rest(mended)):
            return say(f"intake.slip.{name}"), rest
    return None


def _rest(line: str) -> str:
    """The line with the other slips in it mended, too; "" where it still can't be read."""
    for _, mend in SLIPS:
        line = mend(line)
        if _reads(line):
            return line
    return ""


def _reads(line: str) -> bool:
    try:
        tomllib.loads(line)
    except (ValueError, RecursionError):
        return False
    return True
