"""Slips in a line of TOML by people who never saw one: what it is in words, and the line as it should be."""

import re
from collections.abc import Callable
from typing import Final

import tomli

from reportgen.model.say import Say, say

#: A longer line is not looked at: nobody types it.
LONGEST: Final = 300
_CURLY: Final = str.maketrans(dict.fromkeys("“”„‟«»", '"') | dict.fromkeys("‘’‚‛`´", "'"))
_KEY: Final = r'(\s*(?:"[^"]*"|\'[^\']*\'|[\w-]+)\s*)'
_TRUTH: Final = {"true": "true", "yes": "true", "false": "false", "no": "false"}
Mend = Callable[[str], str]


def _put(pattern: str, new: str | Callable[[re.Match[str]], str]) -> Mend:
    """A line or value that is of this form as a whole, put in another way."""
    return lambda text: re.sub(rf"\A(?:{pattern})\Z", new, text)


def _colon(line: str) -> str:
    """`name: Maren`, `name Maren`: a `=` is missing."""
    if "=" in line or line.lstrip().startswith("["):
        return line
    return _put(_KEY + r"(?::|\s)\s*(\S.*)", lambda found: f"{found[1].rstrip()} = {found[2]}")(line)


def _key(line: str) -> str:
    """`hang sn = ...`: words with a blank or other signs stand in quotation marks."""
    left, mark, right = line.partition("=")
    bare = left.strip()
    plain = re.fullmatch(r"[\w-]+", bare, re.ASCII) or bare.startswith(('"', "'", "["))
    return line if not mark or not bare or plain or '"' in bare else f'"{bare}" ={right}'


def _value(change: Mend) -> Mend:
    """A change of what stands right of the `=`, up to a remark."""

    def changed(line: str) -> str:
        left, mark, right = line.partition("=")
        quoted = '"' in right or "'" in right
        value, hash_, remark = (right, "", "") if quoted else right.partition("#")
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


def _end(value: str) -> str:
    """A quotation mark at one end only."""
    for mark in ('"', "'"):
        if value.count(mark) == 1 and len(value) > 1:
            bare = value.replace(mark, "")
            return f'"{bare.strip()}"' if '"' not in bare else value
    return value


def _words(value: str) -> str:
    """A word without quotation marks."""
    plain = value and value[0] not in "\"'[{" and "\\" not in value and '"' not in value
    return f'"{value}"' if plain and re.search(r"[^\W\d_]", value) else value


#: The slip by its message, and its cure; tried in this order, until the line can be read.
SLIPS: Final[tuple[tuple[str, Mend], ...]] = (
    ("brackets", _put(r"\s*(\[{1,2})\s*([\w. &\"'-]+?)\s*\]{0,2}\s*(#.*)?",
                      lambda at: f"{at[1]}{at[2]}{']' * len(at[1])}" + (f"  {at[3]}" if at[3] else ""))),
    ("blank", lambda line: line.replace("\u00a0", " ")),
    ("curly", lambda line: line.translate(_CURLY)),
    ("colon", _colon),
    ("key", _key),
    ("day", _value(_day)),
    ("number", _value(_put(r"(\d+),(\d+)(\D*)", r"\1.\2\3"))),
    ("unit", _put(r"(?:kg|lb)\s*=\s*(\d+(?:\.\d+)?)\s*(?:(k)(?:g|ilo)|lb|pound)s?\.?(\s*#.*)?",
                  lambda at: f"{'kg' if at[2] else 'lb'} = {at[1]}{at[3] or ''}")),
    ("truth", _value(lambda value: _TRUTH.get(value.casefold(), value))),
    ("path", _value(_put(r'"([^"\']*\\[^"\']*)"', lambda at: f"'{at[1]}'"))),
    ("end", _value(_end)),
    ("words", _value(_words)),
)  # fmt: skip


def cure(line: str) -> tuple[Say, str] | None:
    """The slip in one line of TOML and the mended line, which can be read; None for another slip or none."""
    mended = line.strip()
    if len(mended) > LONGEST or _reads(mended):
        return None
    for name, mend in SLIPS:
        before, mended = mended, mend(mended)
        if mended != before and (rest := _rest(mended)):
            return say(f"intake.slip.{name}"), rest
    return None


def _rest(line: str) -> str:
    """The line, or with the other slips in it mended, too; "" where it still can't be read."""
    mends: list[Mend] = [str, *(mend for _, mend in SLIPS)]
    for mend in mends:
        line = mend(line)
        if _reads(line):
            return line
    return ""


def _reads(line: str) -> bool:
    try:
        tomli.loads(line)
    except (ValueError, RecursionError):
        return False
    return True
