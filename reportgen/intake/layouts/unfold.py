"""Rows whose cells hold several sets -> a row for sets done alike, all of an entry kept together."""

import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from reportgen.intake import marks
from reportgen.intake.groups import Done
from reportgen.intake.kinds import LOADS
from reportgen.intake.layouts.log import Log
from reportgen.intake.layouts.rows import fault
from reportgen.intake.messages import Fault, expect, quoted
from reportgen.intake.sheet import Codes, Column, Sheet
from reportgen.intake.shorthand import APART, entry
from reportgen.intake.tokens import Unclear, plain
from reportgen.intake.use import learn
from reportgen.model.say import say

_PARTED = re.compile(r"\s*[,;|\n]\s*|\s+(?=\d)|(?<=\d{2})\s*[/-]\s*(?=\d{2})")
_SHORT = re.compile(
    r"\d\s*[x×✕*@/]\s*[\d(]|\d\s*(?:kg|lb)?(?:,\s+|\s*;\s*)\d|\d,\d+,\d|[✗✘❌✓✔]|\d\s*[xf-]\s*$|^\(\d|\d\s*(?:miss|fail)",
    re.IGNORECASE,
)
_SHORT_SHARE = 0.3
#: A longer cell is none of sets: it is not taken apart.
_LONGEST = 2000
#: A load with repetitions of its own, and what stands between loads.
_OWN = re.compile(r"\d\s*(?:kg|lbs?)?\s*[x×✕*@/]\s*\(?\d", re.IGNORECASE)
_BETWEEN = re.compile(r"\s*[;|\n]\s*(?=\S)|,\s+(?=\S)")
#: A load with a mark or words behind it.
_MARKED = re.compile(r"(\d+(?:[.,]\d+)?\s*(?:kgs?|lbs?)?)\s*([^\d\s(][^\d(]*)", re.IGNORECASE)
_UNIT = re.compile(r"kgs?|lbs?|kilos?|pounds?|кг|#", re.IGNORECASE)
_FIELDS = (*LOADS, "sets", "reps", "made")
#: What a cell says where nothing was done.
_NONE = frozenset(("-", "--", "–", "—", "/", "off", "rest", "skip", "skipped", "n/a", "na", "none", "0", "."))


def short_words(words: Sequence[str]) -> bool:
    """Whether so many of some words are shorthand rather than plain numbers."""
    found = sum(not word.startswith("=") and bool(_SHORT.search(plain(word))) for word in words)
    return found > 0 and found >= _SHORT_SHARE * len(words)


def nothing_done(word: str) -> bool:
    """Whether a cell for sets says that there were none."""
    return plain(word).strip() in _NONE or not word.strip()


def unfolds(made: Sheet) -> bool:
    """Whether the rows of a sheet hold shorthand."""
    if made.whole:
        return False
    if made.columns.keys() & {"entry", "scheme"}:
        return True
    return any(short_words([word for word in made.column(name).words if word]) for name in LOADS)


def unfold(made: Sheet, log: Log) -> None:
    """Turn each row with shorthand in its columns entry, scheme or load into rows for sets done alike.

    What is not clear is set aside as a whole.
    """
    column, texts = _texts(made)
    empty = [nothing_done(text) for text in texts]
    if any(empty) and column.name == "entry":  # a day or a lift without sets is no row
        if made.entries is None:
            made.only(~np.array(empty, dtype=np.bool_))
        column = made.columns.get(column.name, column)
        texts = [text for text, none in zip(texts, empty, strict=True) if not none]
    pairs = [(made.word("lift", row), text) for row, text in enumerate(texts)]
    use = learn(pairs, log.use, decimal_comma=log.grid.delimiter in (";", "\t"))
    made.told += [say("intake.read.miss", sign=sign) for sign in sorted(use.signs - log.use.signs)]
    made.told += [say("intake.read.decimal")] if use.comma == "decimal" != log.use.comma else []
    seen = {text: entry(text, use) for text in dict.fromkeys(texts)}
    rows: list[int] = []
    done: list[Done] = []
    for row, text in enumerate(texts):
        got = seen[text]
        if not isinstance(got, Unclear):
            got = _flagged(got, made, row, log)
        if isinstance(got, Unclear):
            made.blame_rows(column, np.array([row]), _not_sets(got, text, column.word(row), column.name))
            made.unclear_misses += got.miss
            got = (Done(load=20.0),)  # holds the row's place; it is set aside
        rows += [row] * len(got)
        done += got
    _write(made, np.array(rows, dtype=np.int64), done)


def _not_sets(got: Unclear, text: str, cell: str, name: str) -> Fault:
    """What is not clear in a text that was put together of a cell and those beside it."""
    if not cell and name in LOADS:
        return Fault(expect("a_load"), said=say("intake.no_load"))
    if text != cell and got.found not in cell and not got.readings:
        return fault(got)
    if got.readings or len(got.found) >= len(text.strip()):
        return fault(got)
    return Fault(got.want, said=say("intake.not_sets", part=quoted(got.found)))


def _texts(made: Sheet) -> tuple[Column, list[str]]:
    """The shorthand of each row, put together from the columns that the file has."""
    load = next((made.columns[name] for name in LOADS if name in made.columns), None)
    work = made.columns.get("entry")
    scheme = "scheme" if "scheme" in made.columns or work is None else "entry"
    one = load or work or made.column("scheme")
    if load is None:
        cells = (one.name, *(("scheme", "sets", "reps") if one is work else ()))
        return one, [_whole(*(made.word(name, row) for name in cells)) for row in range(len(made))]
    texts = []
    for row in range(len(made)):
        first, *rest = (load.word(row), *(made.word(name, row) for name in (scheme, "sets", "reps")))
        texts.append(work.word(row) if not first and work is not None else _joined(first, *rest))
    return load, texts


def _whole(work: str, scheme: str = "", sets: str = "", reps: str = "") -> str:
    """A cell of loads, one for each set, with the row's repetitions; a cell that has its own stays."""
    times = scheme or reps
    own = len(_OWN.findall(work))
    if not times or len(work) > _LONGEST or not any(map(str.isdigit, work)):
        return work
    loads = [part for part in _BETWEEN.split(work) if part.strip()]
    if own:  # `60x3; 70` beside a column of repetitions: who knows how many the second had
        return work if own >= len(loads) else no_sets(work, times)
    several = len(_split(work))
    if several > 1 and sets.isdecimal() and int(sets) > 1 and int(sets) != several and not scheme:
        return no_sets(work, f"{sets} x {reps}")
    return _joined(work, scheme, sets, reps)


def _joined(load: str, scheme: str, sets: str, reps: str) -> str:
    """One text of loads, sets and repetitions in cells of their own; several in each go in pairs."""
    times = scheme
    if not times and reps:
        times = reps if not sets or sets == "1" else f"{sets}x{reps}"
        if sets.isdecimal() and int(sets) > 1 and len(_split(reps)) == int(sets):
            times = reps  # the repetitions of each set
    if not times or not load or len(load) > _LONGEST:
        return load or times
    loads, several = _split(load), _split(times)
    if len(loads) == 1 and len(_BETWEEN.split(load)) > 1 and not _OWN.search(load):
        return no_sets(load, times)  # `60, 72 miss`: repetitions would go with the last load alone
    if len(loads) == len(several) == 1 or len(loads) == 1:
        return ", ".join(_pair(loads[0], one) for one in several)
    if len(several) == 1:
        one = several[0]
        match = re.fullmatch(r"(\d+)\s*[x×*]\s*(\d+(?:\s*\+\s*\d+)*)", one)
        if match and int(match[1]) == len(loads):
            one = match[2]
        return ", ".join(_pair(weight, one) for weight in loads)
    if len(loads) != len(several):
        return no_sets(load, times)
    return ", ".join(_pair(weight, one) for weight, one in zip(loads, several, strict=True))


def no_sets(load: str, times: str) -> str:
    """Loads and repetitions that don't go together: a text that gives no sets, whatever is in it."""
    return f"{load} {APART} {times}"


def _split(text: str) -> list[str]:
    """The values of a cell that holds several."""
    text = re.sub(r"\s*[x×*]\s*(?=\d)", "x", text.strip())
    parts = [part.strip() for part in _PARTED.split(text) if part.strip()]
    whole = all(
        re.fullmatch(
            r"[-(]?\d+(?:[.,]\d+)?(?:\s*[x×*+]\s*\d+)*\s*(?:kg|lb|x|f|\)|-|✗|✘|❌)?", part, re.IGNORECASE
        )
        for part in parts
    )
    return parts if len(parts) > 1 and whole else [text]


def _pair(load: str, times: str) -> str:
    """`3x2@70` of a load and what was done with it."""
    if re.search(r"[x×*@/]|[^\W\d_]{2}", times):
        return f"{times} @ {load}"
    if (marked := _MARKED.fullmatch(load)) and not _UNIT.fullmatch(marked[2].strip()):
        return f"{marked[1]} x {times} {marked[2]}"  # `66 miss` beside 2: the miss is of these
    return f"{load} x {times}"


def _flagged(got: Sequence[Done], made: Sheet, row: int, log: Log) -> tuple[Done, ...] | Unclear:
    """The sets with a cell of results that has one mark for each of them: `o, x, o`."""
    word = made.word("result", row)
    pieces = [piece for piece in re.split(r"[\s,;/|]+", word) if piece]
    if len(pieces) == 1 and len(got) > 1 and re.fullmatch(r"[xoXO✓✗✔✘]+", word) and len(word) == len(got):
        pieces = list(word)
    if len(pieces) != len(got) or len(pieces) < 2:
        return tuple(got)
    flags = [marks.flag(piece, log.tongue) for piece in pieces]
    plain = all(flag or (one.sets == 1 and one.reps == (1,)) for one, flag in zip(got, flags, strict=True))
    if None in flags or not plain:
        return Unclear(word, say("intake.short.each_single"), miss=True)
    made.put("result", {row: ""})
    return tuple(one if flag else replace(one, made=(0,)) for one, flag in zip(got, flags, strict=True))


def _write(made: Sheet, rows: Codes, done: Sequence[Done]) -> None:
    """Put the sets into the sheet, one row each."""
    unit = next((name for name in LOADS if name in made.columns), "load")
    made.repeat(rows)
    kept = {name: made.columns.pop(name) for name in _FIELDS if name in made.columns}
    source = made.columns.get("entry") or kept.get(unit) or made.columns.get("scheme") or Column()
    for name in _FIELDS:
        words = [_text(one, name, unit) for one in done]
        if any(words):
            of = kept.get(name) or source
            place = {"number": of.number, "heading": of.heading, "places": of.places}
            made.columns[name] = Column.of(words, name=name, **place)
    if "made" in kept:  # our own `made` beside shorthand stands where the shorthand says nothing
        own = kept["made"]
        if "made" in made.columns:
            free = np.flatnonzero(own.filled & ~made.columns["made"].filled).tolist()
            made.put("made", {row: own.word(row) for row in free})
        else:
            made.columns["made"] = own
    for name in ("effort", "aid", "variant", "remark"):
        _beside(made, name, [_text(one, name, unit) for one in done])


def _text(one: Done, name: str, unit: str) -> str:
    """A cell of a set: in one of the columns of loads, or what stood beside."""
    if name in LOADS:
        return f"{one.load!r}" if name == (one.unit or unit) else ""
    value = getattr(one, name)
    if isinstance(value, tuple):
        return "+".join(map(str, value))
    return "" if value is None else f"{value:g}" if name == "effort" else str(value)


def _beside(made: Sheet, name: str, words: Sequence[str]) -> None:
    """Add what stood in the shorthand to a column of words."""
    texts = {}
    for row, word in enumerate(words):
        there = made.word(name, row)
        if word and name in ("remark", "variant"):
            texts[row] = "; ".join(dict.fromkeys(filter(None, (there, word))))
        elif word and not there:
            texts[row] = word
    made.put(name, texts)
