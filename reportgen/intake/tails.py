"""Words behind a load that name no miss: those that are known to be harmless, and those that may tell of one.

A few words, words in brackets and words that stick to a number are harmless only where each of them is known.
A longer text is a diary's: it is harmless unless something in it may tell that the set was not made, or was
another lift.
"""

import re
import string
from functools import cache
from typing import Final

from reportgen.intake.marks import plain_picture, words_of
from reportgen.trade import fold
from reportgen.trade.places import places
from reportgen.trade.tongue import speaking

#: So many words are a mark of the set; more are a text.
_FEW: Final = 3
_WORD: Final = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_LONG_WORD: Final = re.compile(r"[^\W\d_]{2,}")  # the marks of `clean x jerk x` make no text of it
#: What numbers have at them: `2nd`, `90sec`, `3kg`; and a share or a day.
_NUMBER: Final = re.compile(
    r"\d+(?:[.,:/]\d+)*\s*(?:st|nd|rd|th|er|re|eme|ª|º|kgs?|lbs?|s|secs?|mins?|cm|mm|rm|%)?(?!\w)"
)
_PUNCTUATION: Final = frozenset(string.punctuation + string.whitespace + "’‘“”„«»…–—−°½§¿¡№€£$·•´`")
#: Signs that are no punctuation where they stand alone.
_MARKS: Final = frozenset("\\^°§_|`´•¡¿")
#: Words of the small sorts that go with a set.
_SMALL: Final = (
    "with",
    "times",
    "sets",
    "reps",
    "bar",
    "then",
    "straps",
    "variants",
    "week",
    "day",
    "ticked",
)


#: A clause that says no more than that it was a pull or a power version, whatever the row calls it.
_OTHER: Final = re.compile(
    r"(?:(?:just|only|turned|made|became|was|ended|up|as|into|in|it|a|an|the|had|to|i|did|this|high"
    r"|snatch|clean) )*(?P<of>pull|power|muscle)(?:ed|d)?"
    r"(?: (?:only|snatch|snatched|clean|cleaned|it|this|one|instead|version|up))*"
)
_CLAUSE: Final = re.compile(r"\s*(?:[,;:.!?()]|\s-\s)\s*")


def other_lift(text: str) -> set[str]:
    """What a text says the lift was instead, in a clause of its own: `high pull`, `power snatched it`."""
    found = (_OTHER.fullmatch(clause.strip()) for clause in _CLAUSE.split(fold(text)))
    return {match["of"] for match in found if match}


@cache
def _harmless() -> re.Pattern[str]:
    """Words and phrases that say nothing of whether a set was made."""
    tongue = speaking("English")  # the words of all languages
    some = {*tongue.said["harmless"], *tongue.said["fine"], *tongue.said["good"], *tongue.said["nouns"]}
    some |= {*tongue.said["sure"], *(word for sort in _SMALL for word in tongue.small[sort])}
    some |= {fold(word) for one in places().values() for word in one.words}  # `70x2 knee sore`: it was lifted
    some -= {
        *tongue.said["tail"],
        *tongue.said["bad"],
        "lift",
        "lifts",
        "attempt",
        "attempts",
        "pull",
        "pulls",
    }
    return words_of(some)


@cache
def _doubtful() -> re.Pattern[str]:
    return words_of(speaking("English").said["tail"])


def open_tail(text: str, *, whole: bool = False) -> bool:
    """Whether words behind a set that name no miss may tell of one all the same.

    Args:
        text: The words.
        whole: They stand in brackets or stick to a number, so that each of them has to be known.
    """
    if any(not (letter.isalnum() or letter in _PUNCTUATION or plain_picture(letter)) for letter in text):
        return True  # an arrow, a picture that nobody knows
    if not any(map(str.isalnum, text)) and set(text) & _MARKS:
        return True
    form = fold(text)
    if not whole and len(_LONG_WORD.findall(form)) > _FEW:
        return _doubtful().search(form) is not None
    return _WORD.search(_NUMBER.sub(" ", _harmless().sub(" ", form))) is not None
