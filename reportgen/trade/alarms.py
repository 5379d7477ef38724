"""What words tell of more than a sore place: patterns by kind, of every language at once."""

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Final

from reportgen.trade.rows import toml
from reportgen.trade.words import fold

FILE: Final = "alarms.toml"
_WORD: Final = re.compile(r"[^\W_]+")
#: Short forms whose dot ends no sentence; a letter or two name the side of the place behind them.
_SHORT: Final = re.compile(
    r"\b(?:(max|min|ca|approx|appr|resp|incl|bzw|st|dr)\.(?=\s)"
    r"|((?<!vitamin )(?:l|r|g|d)|lt|rt|lhs|rhs|lft|rgt|li|re|rts|lks|izq|izqda|izqdo|der|dcha|dcho|dta|esq"
    r"|dir|sx|dx|gau|lew|praw|л|п|лев|прав)\.(?=\s*[^\W\d_]))"
)
_SENTENCE: Final = re.compile(r"[.;!?\n]+(?!\d)")
_PART: Final = re.compile(r"[,:()/]+|\b(?:but|aber|mais|pero|ma|ale)\b|(?<!\w)но(?!\w)")


def _plain(text: str) -> str:
    """Folded, the Polish l without its stroke as well."""
    return fold(text).replace("ł", "l")


@cache
def alarms() -> Mapping[str, re.Pattern[str]]:
    """The patterns that ship with the program, read once."""
    return {
        kind: re.compile(
            rf"(?: (?:{'|'.join(_plain(form) for forms in some.values() for form in forms)}))(?= |$)"
        )
        for kind, some in toml(Path(__file__).parent, FILE).items()
    }


def undotted(text: str) -> str:
    """A folded text without the dots of short forms, which end no sentence: `the l. shoulder`."""
    return _SHORT.sub(lambda hit: f"{hit[0][:-1]} ", text)


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a text as words between spaces, a comma at the end of each part."""
    found = []
    for sentence in _SENTENCE.split(undotted(_plain(text))):
        parts = [" ".join(_WORD.findall(part)) for part in _PART.split(sentence)]
        if joined := " , ".join(part for part in parts if part):
            found.append(f" , {joined} , ")
    return tuple(found)
