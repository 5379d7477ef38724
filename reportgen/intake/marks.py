"""What says that something was missed: words in a text, signs, and words of a column of results.

A miss is never lost: what says so and can't be read is unclear, and its row is set aside.
"""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from enum import Enum
from functools import cache
from typing import Final

from reportgen.intake.several import count_of, may_name_part, nth_of, open_part
from reportgen.trade import fold
from reportgen.trade.tongue import ENGLISH, Tongue, speaking, tongues

#: Signs that mean a miss wherever they stand, and signs of a made one.
CROSSES: Final = "✗✘❌✖🚫👎❎⛔"
TICKS: Final = "✓✔☑✅👍"
#: Faces and signs that go with a good one or say nothing of it; any other beside a load may mean a miss.
_CHEERS: Final = frozenset(
    "🔥💪🎉🏆🥇👏🙌🚀⭐🌟✨💯🥳😀😃😄😁😊🙂😎🤩👌🏅🎯🤘🍾⚡🏋🤸📹🎥📷📸🎬⏱♀♂❤🎊🆕🔝📈☀🦵🍑🦾🦿🦶🏃🧘🐢🐌🍕☕🥤💧❄🌧🌞🌙📅🗓📝📒📋🎵🎶🎧🧊🔹🔸🦍🐻"
)
_GLOOM: Final = frozenset("😭😢😞😩😫😖😤😡😠🤬💀☠🤦🙁☹😔😣😥😓🤕💔🥲🔴🟥🙅👿")
SAD: Final = re.compile(r"(?<!\S)[:;]['’]?-?[(/|](?=$|[\s.!,;])")
_GOOD_MARKS: Final = frozenset((*TICKS, "1", "true", "o", "○", "◯", "⚪", "+"))
_BAD_MARKS: Final = frozenset((*CROSSES, "0", "false", "x", "×", "-", "🔴", "⚫"))
#: A whole cell of one of these is a mark, not a word.
_LONE: Final = frozenset(("x", "f", "m", "n", "0", "-x", "xx", "xxx", "nl"))
#: A whole cell of one of these answers a question that nobody knows.
_AROUND: Final = " .!?:;()[]\"'"
_NO: Final = frozenset(("no", "nein", "non", "nie", "нет", "nao", "false"))
_NOT_WORDS: Final = """
    no not never without none zero nor isn't wasn't didn't kein keine keinen keiner nicht nie ohne sans pas
    aucun aucune jamais sin ningun ninguna nunca non nessun nessuna senza mai sem nenhum nenhuma nao bez brak
    zaden не без ни нет 0
"""
#: Words that say nothing behind one for a miss, and before it.
_FILL_BEHIND: Final = frozenset(
    ("the", "on", "rep", "reps", "my", "den", "die", "la", "le", "of", "set", "it")
)
_FILL_AHEAD: Final = frozenset(("rep", "reps", "the", "i"))


class Says(Enum):
    """What a text says about a miss."""

    NOTHING = "nothing"
    MISS = "miss"
    UNCLEAR = "unclear"


def words_of(phrases: Iterable[str]) -> re.Pattern[str]:
    """What finds any of some words and phrases, folded, where it stands alone; the longest first."""
    some = sorted((phrase for phrase in phrases if phrase), key=lambda one: (-len(one), one))
    return re.compile(
        r"(?<!\w)(?:" + "|".join(re.escape(one) for one in some) + r")(?:(?!\w)|(?=x? ?\d))"
    )  # `missx2`


@cache
def _said(sort: str) -> re.Pattern[str]:
    """Phrases of one sort, of every language: a word for a miss, and what says that there was none."""
    return words_of(speaking("English").said[sort])  # whichever is asked


#: What joins and colours pictures.
_PICTURES: Final = " \t\u00a0\ufe0e\ufe0f\u200d\u200b🏻🏼🏽🏾🏿"
#: A text that shows tries and says no more: `O X O`, `1 x`; and one that counts them: `1/3`, `2 of 3`.
#: `fought for it but no`, `bar looped, gone`: what a text comes to.
_COMES_TO: Final = re.compile(
    r"(?<!\w)(?:(?:but|aber|mais|pero|mas|ma|ale|но),?|(?:bar|it|looped|stange|barre|barra)\s*[,;.–-])"
    r"\s*(?:no|nope|nah|nein|non|nie|нет|nao|gone|weg)(?=[\s.!]*(?:¦|$))"
)
_TALLY = re.compile(r"(\d{1,2})\s*(?:/|of|out of|von|sur|de|di|z|из)\s*(\d{1,2})")
_TRIES = re.compile(rf"(?=.*[x×{CROSSES}])[xo×○◯ ,/{CROSSES}{TICKS}]{{2,}}|\d\s*[x×]|[x×]\s*\d")
_CROSS = re.compile(f"[{CROSSES}]")
_SHORT = re.compile(r"(?<!\w)(could|would|did|was|were|does|is|has|have|had)nt(?!\w)")
#: `rep 2` is the second of them, before a word for a miss and behind it.
_NTH_AHEAD = re.compile(r"(?<!\w)(?:rep|wdh|rip|no|nr|#)\.? ?(\d{1,2})[:,]? *¤$")
_NTH_BEHIND = re.compile(r"^¤,? ?(?:on |at |the |my )*(?:rep|wdh|rip|no|nr|#)\.? ?(\d{1,2})$")
_NOT_BEFORE = re.compile(
    r"(?<!\w)(?:" + "|".join(map(re.escape, _NOT_WORDS.split())) + r")(?:\s+\S+){0,2}\s*$"
)


def _folded(text: str) -> str:
    """Folded, with the apostrophe of `couldnt` where it belongs."""
    return _SHORT.sub(r"\1n't", fold(text).replace("\ufe0f", ""))


def innocent(texts: Iterable[str], spoken: str) -> re.Pattern[str] | None:
    """Words of a miss in another language that mean nothing of it in the language of some remarks.

    Args:
        texts: The remarks of a log: most of their common words tell their language.
        spoken: The language of the log's headings, where the remarks don't tell.
    """
    words = {word for text in texts for word in re.findall(r"[^\W\d_]+(?:'[^\W\d_]+)?", fold(text))}
    every = tongues()
    score = {name: len(words & tongue.said["common"]) for name, tongue in every.items()}
    most = max(score, key=lambda name: (score[name], name == spoken))
    own = every[most].said["plain"]
    return words_of(own) if own else None


def says(text: str, innocent: re.Pattern[str] | None = None) -> Says:  # noqa: PLR0911 - the first that tells
    """What a text says about a miss: nothing, that there was one, or something that is not clear."""
    plain = _folded(text)
    if innocent is not None:
        plain = innocent.sub(" ", plain).strip()
    if plain.strip("()[] ") in _LONE:
        return Says.MISS
    if leaves_open(plain):
        return Says.UNCLEAR
    miss, sure, doubt = (_said(sort) for sort in ("miss", "sure", "doubt"))
    if not miss.search(plain) and not _CROSS.search(plain):
        left = sure.sub(" ", plain)
        open_ = _said("open").search(left) or _COMES_TO.search(left) or open_part(left)
        return Says.UNCLEAR if open_ else Says.NOTHING
    left = sure.sub(" ", plain)
    if _CROSS.search(left):
        return Says.UNCLEAR if any(tick in left for tick in TICKS) else Says.MISS
    found = miss.search(left)
    if found is None:
        return Says.NOTHING
    rest = miss.sub(" ", left)
    before = left[: found.start()]
    both = any(miss.search(one.group()) for one in doubt.finditer(left))  # such as `to failure`
    if both or "?" in left or doubt.search(rest) or _NOT_BEFORE.search(before):
        return Says.UNCLEAR
    return Says.MISS


def _sign(letter: str) -> bool:
    """Whether a character is a picture, and none of the skins that one may have."""
    return unicodedata.category(letter) == "So" and letter >= "\u2190" and letter not in "\ufffd"


def plain_picture(letter: str) -> bool:
    """Whether a character is a picture that says nothing of a set, or a part of one."""
    return letter in _CHEERS or letter in _PICTURES or letter in TICKS


def strange(note: str) -> bool:
    """Whether words beside a load hold a face or sign that may mean a miss, or are a question alone."""
    faces = [c for c in note if _sign(c) and c not in _CHEERS and c not in TICKS + CROSSES]
    return bool(faces) or bool(SAD.search(note)) or (set(note) <= {*"?! "} and "?" in note)


def undecorated(text: str) -> str:
    """A line without the pictures before it; one that may mean a miss stays."""
    bare = text.lstrip(_PICTURES)
    while bare and _sign(bare[0]) and bare[0] not in TICKS + CROSSES and bare[0] not in _GLOOM:
        bare = bare[1:].lstrip(_PICTURES)
    return bare


def uncheered(text: str) -> str:
    """What stands behind a lift without the pictures that say nothing of its sets."""
    return text.lstrip(_PICTURES + "".join(_CHEERS))


def leaves_open(text: str) -> bool:
    """Whether a whole text says no more than `no`, `almost`, `O X O`: it may tell of a miss."""
    plain = fold(text)
    bare = plain.strip(_AROUND)
    gloom = bool(set(bare) & _GLOOM) and not any(map(str.isalnum, bare))
    open_ = bare in _NO or bare in speaking("English").said["alone"] or gloom or bool(SAD.fullmatch(plain))
    return open_ or bool(_TRIES.fullmatch(bare))


def tally(text: str) -> tuple[int, int] | None:
    """The two numbers of a text that only says `1/3` or `2 of 3`: it may be 1 made of 3."""
    found = _TALLY.fullmatch(fold(text).strip(_AROUND))
    return (int(found[1]), int(found[2])) if found else None


def lone(word: str) -> bool:
    """Whether a cell is one mark or one no."""
    plain = fold(word)
    return plain in _LONE or plain in _NO


def quiet(words: Sequence[str]) -> bool:
    """Whether no text of a column says anything about a miss, seen in one look."""
    plain = _folded("¦".join(words))
    return not (
        _said("miss").search(plain)
        or _MADE_OF.search(plain)
        or _CROSS.search(plain)
        or _said("open").search(plain)
        or _COMES_TO.search(plain)
        or (may_name_part(words) and any(map(open_part, words)))
        or any(lone(word.strip("()[] ")) for word in words if len(word) < 8)
        or any(leaves_open(word) or tally(word) for word in words if len(word) < 30)
    )


def missed_reps(text: str, reps: int) -> int | None:  # noqa: PLR0911 - the first that tells
    """How many of `reps` a text with a miss calls missed, or None where it can't be told."""
    if reps == 1:
        return 1
    plain = _said("miss").sub("¤", _folded(text)).strip(_AROUND)
    if plain.count("¤") != 1:
        return None
    if nth := _NTH_AHEAD.fullmatch(plain) or _NTH_BEHIND.fullmatch(plain):
        return 1 if 1 <= int(nth[1]) <= reps else None
    every, last = speaking("English").said["every"], speaking("English").said["last"]
    before, after = (re.findall(r"[^\s,;:!()&]+", part) for part in plain.split("¤"))
    words = [word for word in after if word not in _FILL_BEHIND]
    ahead = [word for word in before if word not in _FILL_AHEAD]
    told = words or ahead
    if len(told) != 1:
        return None
    if told[0] in every:
        return reps
    if told[0] in last:
        return 1
    if (number := nth_of(told[0])) is not None:
        return 1 if number <= reps else None
    count = 1 if told[0] == "a" else count_of(told[0])
    if told[0].isdecimal() and count != 1 and told is not ahead:
        return None
    if count and told is words and "on" in after:  # `lost it on three` is the third of them
        return 1 if count <= reps else None
    return count if count is not None and 0 < count <= reps else None


_MADE_OF = re.compile(
    r"(?<![\w/])(?:(?:made|got|hit|only|nur|seulement|solo|tylko|только)\s+(\d{1,2})(?![\d.,]|\s*(?:kg|lb|x|%))"
    r"|(\d{1,2})\s*(?:made|good|hit|geschafft|gultig|reussi|reussies|validas|zaliczone)(?!\w))"
    r"(?:\s*(?:/|of|out of|von|sur|de|di|z|из)\s*\d{1,2})?"
    r"|(?<![\w/.,])(\d{1,2})\s*(?:/|of|out of|von)\s*\d{1,2}\s*(?:made|good|hit|geschafft|gultig)(?!\w)"
)


def only_made(text: str) -> int | None:
    """How many a text that says nothing else says were made."""
    found = _MADE_OF.fullmatch(fold(text).strip(" .!()"))
    return made_count(text) if found else None


def made_count(text: str) -> int | None:
    """How many a text says were made (`2 made`, `only 1`, `made 2 of 3`), or None where it says nothing."""
    found = _MADE_OF.search(fold(text))
    return int(found[1] or found[2] or found[3]) if found else None


def flag(word: str, tongue: Tongue) -> bool | None:
    """What one word of a column of results says: made, missed, or neither."""
    plain = fold(word).replace("\ufe0f", "")
    if word.strip() in ("-", "−", "–"):
        return False
    if plain in _GOOD_MARKS or plain in tongue.said["good"]:
        return True
    if plain in _BAD_MARKS or plain in tongue.said["bad"]:
        return False
    if says(word) is Says.MISS:
        return False
    pieces = re.split(r"[\s,;/|+]+", word.strip())
    figures = {piece.isdecimal() for piece in pieces}  # `1 white` of three is no made lift
    some = [flag(piece, tongue) for piece in pieces if piece] if len(pieces) > 1 else [None]
    if len(figures) > 1:
        return None
    return all(some) if None not in some else None


def harmless(word: str) -> bool:
    """Whether a cell that should be a number and is none tells of no miss: another number, or a word."""
    if says(word) is not Says.NOTHING or leaves_open(word) or tally(word) or strange(word):
        return False
    figures = re.findall(r"\d+", word)
    told = max(map(int, figures)) > 1 if figures else len(fold(word)) > 3 and word.isalpha()
    return told and flag(word, speaking(ENGLISH)) is None


_LIGHTS: Final = re.compile(r"([0-3])\s*[-:–]\s*([0-3])")
_LAMPS: Final = re.compile(
    r"([0-3])\s*(?:x\s*)?(?:(whites?|weisse?|blancs?|blanches?|blancas?|bianche|bianca|brancas?|biale|bialych|белы[ех])"
    r"|(?:reds?|rote?|rouges?|rojas?|rosse|rossa|vermelhas?|czerwone|красны[ех]))(?: lights?)?"
)


def lights(word: str) -> bool | None:
    """What the lights of three referees say: `2-1` is a lift, `1-2` none, `3 white`, `2 red`, `wwr`."""
    text = fold(word).strip(_AROUND)
    if (pair := _LIGHTS.fullmatch(word.strip(_AROUND))) and int(pair[1]) + int(pair[2]) == 3:
        return int(pair[1]) > 1
    if lamps := _LAMPS.fullmatch(text):
        return (int(lamps[1]) > 1) is bool(lamps[2])
    row = text.translate(str.maketrans("⚪🔴⬜🟥○●", "wrwrwr"))
    return row.count("w") > 1 if len(row) == 3 and set(row) <= {"w", "r"} else None


def flags(words: Iterable[str], tongue: Tongue) -> bool:
    """Whether a column's words are those of a column of results: each says made or missed."""
    some = [word for word in words if word]
    return bool(some) and all(flag(word, tongue) is not None for word in some)
