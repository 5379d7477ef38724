"""The words and numbers of shorthand, before anybody knows which number is which."""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import field, replace
from functools import cache
from typing import Final

from reportgen.intake.marks import CROSSES, SAD, TICKS
from reportgen.model.say import NOTHING, Say, Value, say
from reportgen.model.values import dataclass
from reportgen.trade import fold, load
from reportgen.trade.tongue import ENGLISH, Tongue, speaking


@dataclass(frozen=True, slots=True)
class Unclear:
    """Why an entry can't be used: the part at fault, and either two readings or what was expected.

    `miss`: it is about whether something was made.
    """

    found: str
    want: Say = NOTHING
    readings: tuple[Value, ...] = ()
    miss: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """How a log writes its shorthand."""

    #: What the numbers are, in their order: load, reps, sets; empty = the usual order.
    order: tuple[str, ...] = ()
    signs: frozenset[str] = frozenset()  # signs (x, f, n, m, -, ()) that mean a miss here
    plain: frozenset[str] = frozenset()  # signs that mean nothing here
    tried: bool = False  # `0/1` stands in the log: two such numbers behind a load are made of tried
    comma: str = ""  # decimal, list, or "" where the log does not show it
    bar: float | None = None  # the empty bar, in the log's unit; None = not known
    looking: bool = False  # signs are handed on instead of being unclear, to see what they mean
    tongue: Tongue = field(default_factory=lambda: speaking(ENGLISH))  # the log's language

    def order_of(self, count: int) -> tuple[str, ...]:
        """The order of so many numbers as [sources] gives it, or nothing."""
        order = (
            self.order
            if count == 3
            else tuple(one for one in self.order if one != "sets" or len(self.order) == 2)
        )
        return order if len(order) == count else ()


@dataclass(frozen=True, slots=True)
class Token:
    """A number (with what unit or word stood at it), a join, a mark or some words."""

    kind: str
    text: str
    values: tuple[float, ...] = ()
    role: str = ""
    unit: str = ""
    negative: bool = False
    bracketed: bool = False  # a number in brackets, or words in them or at a number


SIGNS: Final = ("x", "f", "n", "m", "-", "()")
_SAME: Final = str.maketrans(
    {
        **dict.fromkeys("×✕⨯⨉", "x"),
        **dict.fromkeys("‐‑‒–—−", "-"),
        **dict.fromkeys("\u00a0\u2007\u202f\t", " "),
        **dict.fromkeys("\ufe0e\ufe0f\u200b\u200d", None),
        **dict.fromkeys("[{", "("),
        **dict.fromkeys("]}", ")"),
        "½": ".5",
        "＠": "@",
        "∙": "x",
        "⋅": "x",
        "·": "x",
    }
)
_CYRILLIC_X = re.compile(r"(?<![^\W\d_])х(?![^\W\d_])", re.IGNORECASE)
_STAR = re.compile(r"(?<=[\d)])\s*\*\s*(?=[\d(])")
_PARTS = re.compile(r"\(\s*(\d{1,3}(?:\s*\+\s*\d{1,3})+)\s*\)")
_BULLET = re.compile(r"^\s*(?:[-*•>#·]+\s+)+")
_BREAKS = ";|→⇒\n\r"
_NUMBER = re.compile(r"\d{1,9}(?:[.,]\d{1,9})?(?:\s*\+\s*\d{1,3}(?![.,\d]))*")
_UNIT = re.compile(
    r"\s*(?:(?P<kg>kgs?|kilos?|kilograms?|кг|k)|(?P<lb>lbs?|pounds?|#)|(?P<share>%))\.?(?!(?!x\s*[\d(])[^\W\d_])",
    re.IGNORECASE,
)
_SERIES = re.compile(r"[xo]*o[xo]*(?!\w)|x[xo]+(?!\w)")
_EFFORT = re.compile(
    r"(?:@\s*)?rpe\s*[:=]?\s*(\d{1,2}(?:[.,]\d{1,2})?)(?!\d|[.,]\d)"
    r"|@?\s*(\d{1,2}(?:[.,]\d{1,2})?)\s*rpe(?!\w|\s*[:=]?\s*\d)"
)
_RANGE_OF_EFFORT = re.compile(r"(?:@|rpe)\s*\d(?:[.,]5)?\s*-\s*\d{1,2}(?:[.,]5)?(?![\dx/])")
_TAIL = re.compile(r"[^\W\d_]+")
#: What stands at a number that is no load: the end of an ordinal, a unit of time or length.
_NO_LOAD = re.compile(
    r"st|nd|rd|th|e|er|ere|re|te|ten|ter|tes|eme|ª|º|a|o|s|secs?|sek|seconds?|mins?|minutes?|minuten|hrs?|h|hours?"
    r"|cm|mm|bpm|kcal|cal|deg|pct|pos|position|pm|am|uhr"
)
_UNIT_OF_TAIL = re.compile(r"(?:kgs?|lbs?)(?=[^\W\d_]{2})")
_RM = re.compile(r"(\d{1,2})\s?rm")
_LETTER = re.compile(r"([fnm])(?!\w)")
_WORDS = re.compile(r"[^\d()@/:" + CROSSES + TICKS + r"]+")


def plain(text: str) -> str:
    """A text with one sign for times, one for minus, one for a gap, in small letters."""
    text = unicodedata.normalize("NFC", text).translate(_SAME).lower()
    return _STAR.sub("x", _CYRILLIC_X.sub("x", text))


def pieces(text: str, use: Use) -> list[str | Unclear]:
    """An entry cut at commas, semicolons and line breaks; a comma that may be a decimal point is unclear."""
    found: list[str] = [""]
    depth = 0
    text = _PARTS.sub(r"\1", plain(text))
    marked = _commas(text, use)
    if isinstance(marked, Unclear):
        return [marked]
    for letter in marked:
        depth += (letter == "(") - (letter == ")")
        if letter in _BREAKS or (letter == "," and depth <= 0):
            found.append("")
            depth = 0
        else:
            found[-1] += letter
    return [one for one in (_BULLET.sub("", piece).strip() for piece in found) if one.strip(" .!,-*")]


def _commas(text: str, use: Use) -> str | Unclear:
    """The text with its decimal commas made points."""
    runs = list(re.finditer(r"\d+(?:,\d+)+", text))
    for run in reversed(runs):
        before = text[: run.start()].rstrip()
        numbers = run.group().split(",")
        after_times = before.endswith(("x", "/", "+"))
        decimal = len(numbers) == 2 and len(numbers[1]) <= 2 and not after_times
        if decimal and use.comma != "decimal":
            if use.comma == "list" or numbers[1] not in ("5", "25", "50", "75", "0", "00"):
                decimal = False
            else:
                one, two = numbers
                then = say("intake.either.then", one=one, other=two)
                return Unclear(run.group(), say("intake.short.comma"), (f"{one}.{two}", then))
        joined = ".".join(numbers) if decimal else ", ".join(numbers)
        text = text[: run.start()] + joined + text[run.end() :]
    return text


@cache
def small(language: str, sort: str) -> re.Pattern[str]:
    """The words of one sort (`Tongue.small`) that a log in a language may have, the longest first."""
    words = speaking(language).small[sort]
    some = sorted({word for word in words if word not in ("@", "x")}, key=lambda word: (-len(word), word))
    return re.compile(r"(?<!\w)(?:" + "|".join(map(re.escape, some)) + r")(?!\w)")


def tokens(piece: str, use: Use) -> Iterator[Token]:
    """The tokens of one piece."""
    language = use.tongue.name
    i, last = 0, Token("start", "")
    while i < len(piece):
        if piece[i] in " .!,;*~=<>'\"":
            i += 1
            continue
        token, i = _next(piece, i, last, use, language)
        for one in token:
            last = one
            yield one


def _next(  # noqa: PLR0911 - a token is one of many
    piece: str, i: int, last: Token, use: Use, language: str
) -> tuple[list[Token], int]:
    """The tokens from one place on, and the place behind them."""
    if match := _RANGE_OF_EFFORT.match(piece, i) or SAD.match(piece, i):
        return [Token("note", match.group())], match.end()
    if last.kind != "join" and (match := _EFFORT.match(piece, i)):
        value = float((match[1] or match[2]).replace(",", "."))
        kind = "effort" if 1 <= value <= load().value("effort_of_rpe_max") else "note"
        return [Token(kind, match.group(), (value,))], match.end()
    if piece[i] in "0123456789":
        return _number(piece, i, last, language)
    if piece[i] == "(":
        return _bracket(piece, i, last, use)
    if piece[i] in CROSSES:
        return [Token("cross", piece[i])], i + 1
    if piece[i] in TICKS:
        return [Token("tick", piece[i])], i + 1
    if piece[i] == "@":
        return [Token("at", "@")], i + 1
    if piece[i] in "/:)":
        return ([Token("join", piece[i])] if piece[i] != ")" else []), i + 1
    if piece[i] == "-":
        return _dash(piece, i, last)
    if last.kind == "number" and (match := _SERIES.match(piece, i)):
        return [Token("series", match.group())], match.end()
    if piece[i] == "x" and not piece[i + 1 : i + 2].isalpha():
        kind = "join" if last.kind == "number" else "sign"
        return [Token(kind, "x")], i + 1
    if last.kind in ("number", "note") and (match := _LETTER.match(piece, i)):
        return [Token("sign", match[1])], match.end()
    return _words(piece, i, last, use, language)


def _dash(piece: str, i: int, last: Token) -> tuple[list[Token], int]:
    digit = piece[i + 1 : i + 2].isdigit()
    rest = piece[i + 1 :].lstrip()
    if last.kind == "start" and digit:
        return [Token("negative", "-")], i + 1
    if last.kind == "number" and rest[:1].isdigit():
        return [Token("join", "-")], i + 1
    if last.kind == "number" and (not rest or re.match(r"x\s*\d", rest)):
        return [Token("sign", "-")], i + 1
    return [], i + 1


def _number(piece: str, i: int, last: Token, language: str) -> tuple[list[Token], int]:
    match = _NUMBER.match(piece, i)
    assert match is not None  # a digit stands there
    text = match.group()
    if (best := _RM.match(piece, i)) and not _TAIL.match(piece, best.end()):  # `3rm 118`, `118 3rm`
        return _of_max(piece, best.end(), Token("number", best.group(), (float(best[1]),), role="reps"), last)
    most = load().value("shorthand_load_min")
    parts = [part.strip() for part in text.split("+")]
    if any(float(part.replace(",", ".")) >= most for part in parts[1:]) or (
        "." in parts[0] and len(parts) > 1
    ):
        text = parts[0]  # 60x2 + 65x2: a plus between groups
        parts = parts[:1]
        end = i + len(text)
        plus = re.compile(r"\s*\+").match(piece, end)
        end = plus.end() if plus else end
        found = Token("number", text, (float(text.replace(",", ".")),), negative=last.kind == "negative")
        return [found, Token("then", "+")], end
    end = match.end()
    token = Token(
        "number",
        text,
        tuple(float(part.replace(",", ".")) for part in parts),
        negative=last.kind == "negative",
    )
    if unit := _UNIT.match(piece, end):
        role = "share" if unit["share"] else "load"
        return [
            replace(token, text=piece[i : unit.end()], role=role, unit="lb" if unit["lb"] else "kg")
        ], unit.end()
    for sort in ("sets", "reps"):
        gap = re.compile(r"\s*").match(piece, end)
        at = gap.end() if gap else end
        if word := small(language, sort).match(fold_kept(piece), at):
            return [replace(token, role=sort)], word.end()
    if (word := _TAIL.match(piece, end)) and not piece[end:].startswith("x"):
        return _tailed(token, word, last)
    lone = last.kind == "note" and not re.compile(r"\s*[x/@:]").match(piece, end) and token.values[0] < most
    return [Token("note", text) if lone else token], end


def _tailed(token: Token, word: re.Match[str], last: Token) -> tuple[list[Token], int]:
    """A number with a word at it: an ordinal or a time is a remark, any other word says how a try ended."""
    text, tail = token.text, word.group()
    if unit := _UNIT_OF_TAIL.match(tail):  # 85kgmiss
        kind = "lb" if tail.startswith("lb") else "kg"
        return [replace(token, role="load", unit=kind)], word.start() + unit.end()
    if last.kind == "join" and last.text == "x" and not _NO_LOAD.fullmatch(tail):
        return [token], word.start()  # 85x2easy
    if _NO_LOAD.fullmatch(tail):
        return [Token("note", text + tail)], word.end()  # 2nd, 3er, 90sec
    if token.values[0] >= load().value("shorthand_load_min") or _LETTER.match(tail):
        return [token], word.start()  # 85miss, 85f
    return [Token("note", f"{text} {tail}")], word.end()  # 1miss


def _of_max(piece: str, end: int, reps: Token, last: Token) -> tuple[list[Token], int]:
    """A best of so many repetitions with the load before or behind it."""
    times = Token("join", "x")
    if last.kind == "number" and last.role in ("", "load"):
        return [times, reps], end
    if re.compile(r"[\s:=@-]*\d").match(piece, end):
        at = re.compile(r"[\s:=@-]*").match(piece, end)
        return [reps, times], at.end() if at else end
    return [Token("note", reps.text)], end


@cache
def _accents() -> dict[int, str]:
    return {ord(c): fold(c) for c in "äöüàáâãåçèéêëìíîïñòóôõùúûýąćęńóśźż" if len(fold(c)) == 1}


def fold_kept(text: str) -> str:
    """A text in small letters without accents, each letter in its place."""
    return text.translate(_accents())


def _bracket(piece: str, i: int, last: Token, use: Use) -> tuple[list[Token], int]:
    end = piece.find(")", i)
    inner = piece[i + 1 : end if end >= 0 else len(piece)].strip()
    after = end + 1 if end >= 0 else len(piece)
    if last.kind == "number" and last.role in ("", "load") and (best := _RM.fullmatch(inner)):
        reps = Token("number", inner, (float(best[1]),), role="reps")
        return [Token("join", "x"), reps], after  # `120 (3rm)`
    if inner in ("x", "f", "n", "m", "-"):
        return [Token("sign", inner)], after
    if last.kind == "number" and inner.isdecimal() and float(inner) < load().value("shorthand_load_min"):
        return [Token("count", f"({inner})", (float(inner),))], after
    if _other_unit(inner, last):
        return [], after
    if inner[:1].isdigit() and "%" not in inner:
        found = list(tokens(inner, use))
        if found and all(one.kind in ("number", "join", "at", "effort") for one in found):
            return [replace(one, bracketed=True) if one.kind == "number" else one for one in found], after
    made = list(tokens(inner, use)) if inner and not inner[:1].isdigit() else []
    kept = [one for one in made if one.kind in ("variant", "straps", "cross", "tick", "effort")]
    note = [] if kept and len(kept) == len(made) else [Token("note", inner, bracketed=True)] if inner else []
    return [*kept, *note], after


def _other_unit(inner: str, last: Token) -> bool:
    """Whether brackets only say the load again in the other unit: `70 kg (154 lb)`."""
    number, pound = _NUMBER.match(inner), load().value("pound")
    unit = _UNIT.match(inner, number.end()) if number else None
    if number is None or unit is None or unit["share"] or not last.unit or "+" in number.group():
        return False
    value = float(number.group().replace(",", "."))
    here = value * (pound if unit["lb"] else 1)
    there = last.values[0] * (pound if last.unit == "lb" else 1)
    return last.unit != ("lb" if unit["lb"] else "kg") and abs(here - there) <= 1


def _words(piece: str, i: int, last: Token, use: Use, language: str) -> tuple[list[Token], int]:
    """A run of words: what is known in it as a variant, straps, a bar, with; the rest is a note."""
    match = _WORDS.match(piece, i)
    if match is None:
        return [], i + 1
    run = match.group()
    end = match.end()
    plain_run = fold_kept(run).strip(" .,!-")
    if re.fullmatch(r"(?:.*\s)?x", plain_run) and piece[end : end + 1].isdigit() and plain_run != "x":
        end = i + run.rindex("x")  # words before a times sign: "bar x5"
        plain_run = plain_run[:-1].strip()
    if end <= i:
        return [], i + 1
    number_next = piece[end : end + 1].isdigit() or piece[end : end + 2].lstrip("( ").isdigit()
    if small(language, "bar").fullmatch(plain_run) and last.kind in ("start", "then", "join"):
        value = () if use.bar is None else (use.bar,)
        return [Token("number" if value else "note", plain_run, value, role="load")], end
    if number_next and last.kind == "number" and small(language, "with").fullmatch(plain_run):
        return [Token("join", "x") if last.role == "sets" else Token("at", plain_run)], end
    if number_next and last.kind == "number" and small(language, "times").fullmatch(plain_run):
        return [Token("join", "x")], end
    found: list[Token] = []
    for sort, kind in (("straps", "straps"), ("variants", "variant")):
        for one in small(language, sort).finditer(plain_run):
            found.append(Token(kind, one.group()))
        plain_run = small(language, sort).sub(" ", plain_run)
    left = small(language, "then").sub(" ", plain_run)
    if left.strip(" .,!&+-'\""):
        found.append(Token("note", " ".join(plain_run.split()), bracketed=piece[i - 1 : i].isdigit()))
    return found or [Token("then", plain_run)], end
