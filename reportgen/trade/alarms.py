"""What words tell of more than a sore place: patterns by kind, of every language at once."""

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Final

from reportgen.trade.rows import TradeError, toml
from reportgen.trade.words import fold

FILE: Final = "alarms.toml"
KINDS: Final = (
    *("symptom", "birth", "surgery", "cleared", "strict", "loose", "hold", "span", "medicine"),
    *("weight", "scale", "dry", "alone", "age", "kin", "past", "idle", "case", "contest"),
)
_WORD: Final = re.compile(r"[^\W_]+")
_SHORT: Final = re.compile(r"\b(max|min|ca|approx|appr|resp|incl|bzw|st|dr)\.(?=\s)")
_SENTENCE: Final = re.compile(r"[.;!?\n]+(?!\d)")
_PART: Final = re.compile(r"[,:()/]+|\b(?:but|aber|mais|pero|ma|ale)\b|(?<!\w)но(?!\w)")


def _plain(text: str) -> str:
    """Folded, the Polish l without its stroke as well."""
    return fold(text).replace("ł", "l")


@cache
def alarms() -> Mapping[str, re.Pattern[str]]:
    """The patterns that ship with the program, read once.

    Raises:
        TradeError: A kind is missing or none of ours.
    """
    data = toml(Path(__file__).parent, FILE)
    if (*data,) != KINDS:
        raise TradeError(FILE, "", f"kinds other than {KINDS}")
    return {
        kind: re.compile(
            rf"(?: (?:{'|'.join(_plain(form) for forms in some.values() for form in forms)}))(?= |$)"
        )
        for kind, some in data.items()
    }


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a text as words between spaces, a comma at the end of each part."""
    found = []
    for sentence in _SENTENCE.split(_SHORT.sub(r"\1", _plain(text))):
        parts = [" ".join(_WORD.findall(part)) for part in _PART.split(sentence)]
        if joined := " , ".join(part for part in parts if part):
            found.append(f" , {joined} , ")
    return tuple(found)
