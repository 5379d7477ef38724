"""Words as a file may write them: folding, and the known word that an unknown one may have meant."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from difflib import SequenceMatcher, get_close_matches
from functools import lru_cache

_GAPS = re.compile(r"[\s_\u2010-\u2015\u2212-]+")
#: Hangul taken apart, kana, Han, hangul.
_GAPLESS = re.compile(r"[\u1100-\u11ff\u3040-\u30ff\u3400-\u9fff\uac00-\ud7af]")
_JOINS = re.compile(r"\s*&\s*")


@lru_cache(maxsize=4096)
def fold(text: str) -> str:
    """Fold letter case, accents, spacing, hyphens and underscores, so that words compare.

    Returns:
        Lower-case text without accents, one space between words, none around `&`.
    """
    if text.isascii():
        return _JOINS.sub("&", _GAPS.sub(" ", text.lower())).strip()
    # Taking apart can bring out capitals (a mathematical S), and folding can bring out accents.
    apart = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold())
    plain = "".join(mark for mark in apart if not unicodedata.combining(mark)).replace("’", "'")
    return _JOINS.sub("&", _GAPS.sub(" ", plain)).strip()


def gapless(text: str) -> bool:
    """Whether a text holds letters of a script that puts no gap between words: kana, hangul, Han."""
    return not text.isascii() and _GAPLESS.search(text) is not None


def spellings(words: Iterable[str], *, plural: bool = False) -> tuple[str, ...]:
    """Every folded form in which some words may be written: as they are, closed up, and their plurals.

    Args:
        words: A catalogue name and its short forms.
        plural: Add the plural of the last word, too (lifts).

    Returns:
        Folded forms, no form twice, in the order of `words`.
    """
    forms: dict[str, None] = {}
    for word in words:
        for form in (fold(word), *((_plural(fold(word)),) if plural else ())):
            forms[form] = None
            forms[form.replace(" ", "")] = None
    return tuple(forms)


def nearest(known: Mapping[str, str], word: str) -> str | None:
    """The known word that an unknown one may have meant, or None where none is close.

    Args:
        known: Folded form -> our word, one kind of `Trade.words`.
        word: What stood in the file.

    Returns:
        Our word (not the short form), or None; never depends on the order of the tables.
    """
    asked = fold(word)
    if not asked:
        return None
    if len({name for form, name in known.items() if asked in form.split()}) > 1:
        return None  # "squat" is a word of several names, and so a slip for none of them
    # One letter off in a form of two or three is no likeness: "XS" is not a slip for "PS" rather than "FS".
    forms = [form for form in known if len(form) > 3 and (" " in form or " " not in asked)]
    close = get_close_matches(asked, forms, n=3, cutoff=_LIKE)
    return next((known[form] for form in close if _word_by_word(asked, form)), None)


def _word_by_word(asked: str, form: str) -> bool:
    """Whether no word is another one: a bench press is much like a snatch press, and no slip for it."""
    mine, theirs = asked.split(), form.split()
    if len(mine) != len(theirs):
        return SequenceMatcher(None, "".join(mine), "".join(theirs)).ratio() >= _LIKE_CLOSED
    return all(SequenceMatcher(None, a, b).ratio() >= _LIKE_WORD for a, b in zip(mine, theirs, strict=True))


#: Likeness from which a word is suggested; a suggestion is only ever printed, never taken.
_LIKE = 0.72
_LIKE_WORD = 0.6
_LIKE_CLOSED = 0.8


def _plural(form: str) -> str:
    if form.endswith("s"):
        return f"{form}es" if form.endswith("ss") else form
    return f"{form}es" if form.endswith(("ch", "sh", "x")) else f"{form}s"
