"""What stands in a page beside its words: style, script, icon, and the packed parts that come alive."""

import base64
import json
import lzma
import re
from collections.abc import Iterable, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Final

from reportgen.pages.themes import SCHEMES, Theme

_VENDOR: Final = Path(__file__).with_name("vendor")
_MEDIA: Final = {
    "light": "",
    "dark": "@media screen and (prefers-color-scheme:dark)",
    "print": "@media print",
}
# A bar with a plate on each side, in the colours of neither scheme: it has to show on both.
_ICON: Final = (
    "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 16 16'>"
    "<path d='M1 8h14M4 3v10M12 3v10' stroke='#4f8496' stroke-width='2' fill='none'/></svg>"
)


#: What a style sheet says to its author alone: remarks, and blanks round its signs. Quoted words stay.
_ASIDE: Final = re.compile(
    r"""("(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*')|/\*.*?\*/\s*|\s*([{};])\s*([-\w]+:)?\s*|\s*\n\s*""", re.DOTALL
)
#: The same of a script that quotes no text over several lines: blanks before a line, and lines of remarks.
_LINE: Final = re.compile(r"^[ \t]*(?:/\*(?:[^*]|\*(?!/))*\*/[ \t]*\n|//[^\n]*\n)?", re.MULTILINE)

#: A sixth lighter than gzip; a dictionary of 1 MiB keeps packing under 12 MB. A page unpacks it with
#: `unpack.js`; any program that knows the older form of xz does as well.
_PACKING: Final = (
    {
        "id": lzma.FILTER_LZMA1,
        "dict_size": 1 << 20,
        "lc": 2,
        "lp": 0,
        "pb": 0,
        "mode": lzma.MODE_NORMAL,
        "mf": lzma.MF_BT4,
        "nice_len": 128,
    },
)
_HEAD: Final = bytes((2, 0, 0, 16, 0)) + b"\xff" * 8


@lru_cache(maxsize=1)
def runtime() -> str:
    """The chart library as one inline script, exactly as the policy pins it."""
    return unpack(packed_runtime())


@lru_cache(maxsize=1)
def packed_runtime() -> str:
    """`runtime` as a page carries it."""
    return base64.b64encode((_VENDOR / "vega.js.lzma").read_bytes()).decode("ascii")


@lru_cache(maxsize=1)
def licences() -> str:
    """What of other people's a page carries, with their licences: they ask to go with every copy."""
    text = (_VENDOR / "THIRD_PARTY.md").read_text(encoding="utf-8")
    return text.partition("\n\n")[2].replace("```text\n", "").replace("```\n", "").strip()


def pack(text: str) -> str:
    """Text as LZMA in base64: nothing in it is markup, and the same text gives the same bytes."""
    packed = lzma.compress(text.encode("utf-8"), format=lzma.FORMAT_ALONE, filters=_PACKING)
    return base64.b64encode(packed).decode("ascii")


def unpack(packed: str) -> str:
    """What `pack` was given.

    Raises:
        ValueError: It is nothing that `pack` made.
    """
    content = base64.b64decode(packed, validate=True)
    if not content.startswith(_HEAD):
        raise ValueError("no packed part")
    try:
        return lzma.decompress(content, format=lzma.FORMAT_ALONE).decode("utf-8")
    except lzma.LZMAError as error:
        raise ValueError("damaged") from error


def packed_charts(charts: Mapping[str, tuple[str, ...]], said: Mapping[str, str]) -> str:
    """Compiled charts as one packed JSON object: id -> the chart in the page's unit, then in the other one.

    The two stand side by side because they differ in numbers only, and so the second weighs little. Under ""
    stands what is `said` of a chart in the other unit, by id, where that differs.
    """
    listed = [f"{json.dumps(name)}:[{','.join(texts)}]" for name, texts in charts.items()]
    return pack("{" + ",".join([*listed, f'"":{json.dumps(said, ensure_ascii=False)}']) + "}")


def icon() -> str:
    """The page's icon as a data address."""
    return "data:image/svg+xml;base64," + base64.b64encode(_ICON.encode()).decode("ascii")


def style(theme: Theme, running_head: Iterable[str] = ()) -> str:
    """The page's whole style sheet."""
    parts = [theme.text("page.css"), theme.added("extra.css")]
    for scheme in SCHEMES:
        roles = ";".join(f"--{role}:{colour}" for role, colour in theme.palette[scheme].items())
        rule = f":root{{{roles}}}"
        parts.append(f"{_MEDIA[scheme]}{{{rule}}}" if _MEDIA[scheme] else rule)
    # A line each: by its line a sealed page finds what it has to add when it opens.
    heads = [
        f"@page{{@top-{place}{{content:{css_string(words)}}}}}"
        for place, words in zip(("left", "right"), running_head, strict=False)
    ]
    return "\n".join((_ASIDE.sub(_tight, "\n".join(parts)), *heads))


def script(theme: Theme, names: Iterable[str]) -> str:
    """Scripts of a theme as one."""
    text = "\n".join(map(theme.text, names))
    return text if "`" in text else _LINE.sub("", text)


def _tight(found: re.Match[str]) -> str:
    quoted, sign, name = found.groups(default="")
    return quoted or sign + name or ("" if "*" in found[0] else "\n")


def css_string(words: str) -> str:
    """Any text as a CSS string that ends nowhere but at its end.

    The blank behind each escape belongs to it: a browser takes one away there, which would be the text's own.
    """
    return (
        '"'
        + "".join(c if c.isascii() and (c.isalnum() or c == " ") else f"\\{ord(c):x} " for c in words)
        + '"'
    )
