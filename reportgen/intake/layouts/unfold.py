"""Rows whose cells hold several sets -> a row for sets done alike, all of an entry kept together."""

import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from reportgen.intake import marks
from reportgen.intake.groups import Done
from reportgen.intake.layouts.log import Log
from reportgen.intake.layouts.rows import fault
from reportgen.intake.messages import Fault
from reportgen.intake.sheet import Codes, Column, Sheet
from reportgen.intake.shorthand import entry
from reportgen.intake.tokens import Unclear, Use, plain
from reportgen.intake.use import learn
from reportgen.model.say import Say, say

_PARTED = re.compile(r"\s*[,;|\n]\s*|\s+(?=\d)|(?<=\d{2})\s*[/-]\s*(?=\d{2})")
_SHORT = re.compile(
    r"\d\s*[x×✕*@/]\s*[\d(]|\d\s*(?:kg|lb)?(?:,\s+|\s*;\s*)\d|\d,\d+,\d|[✗✘❌✓✔]|\d\s*[xf-]\s*$|^\(\d|\d\s*(?:miss|fail)",
    re.IGNORECASE,
)
_PLAIN = re.compile(r"[-−]?\d{1,9}(?:[.,]\d{1,9})?")
_FIELDS: tuple[str, ...] = ("kg", "lb", "load", "sets", "reps", "made")
#: What a cell says where nothing was done.
_NONE = frozenset(("-", "--", "–", "—", "/", "off", "rest", "skip", "skipped", "n/a", "na", "none", "0", "."))


def is_short(column: Column | None, least: float = 0.3) -> bool:
    """Whether a column holds shorthand rather than plain numbers."""
    return short_words([word for word in column.words if word] if column else [], least)


def short_words(words: Sequence[str], least: float = 0.3) -> bool:
    """Whether so many of some words are shorthand."""
    found = sum(not word.startswith("=") and bool(_SHORT.search(plain(word))) for word in words)
    return found > 0 and found >= least * len(words)


def nothing_done(word: str) -> bool:
    """Whether a cell for sets says that there were none."""
    return plain(word).strip() in _NONE or not word.strip()


def unfolds(made: Sheet) -> bool:
    """Whether the rows of a sheet hold shorthand."""
    if made.whole:
        return False
    if made.columns.keys() & {"entry", "scheme"}:
        return True
    return any(is_short(made.columns.get(name)) for name in ("kg", "lb", "load"))


def unfold(made: Sheet, log: Log) -> None:
    """Turn each row of a sheet into rows for sets done alike; what is not clear is set aside as a whole.

    Args:
        made: A sheet with shorthand in its columns entry, scheme or load; it is changed.
        log: How the file is written.
    """
    column, texts = _texts(made)
    lifts = made.column("lift")
    empty = [nothing_done(text) for text in texts]
    if any(empty) and column.name == "entry":  # a day or a lift without sets is no row
        keep = ~np.array(empty, dtype=np.bool_)
        if made.entries is None:
            made.only(keep)
        column, lifts = made.columns.get(column.name, column), made.column("lift")
        texts = [text for text, none in zip(texts, empty, strict=True) if not none]
    pairs = [(lifts.words[code], text) for code, text in zip(lifts.codes.tolist(), texts, strict=True)]
    use = learn(pairs, log.use, decimal_comma=log.grid.delimiter in (";", "\t"))
    made.told += _told(use, log.use)
    seen: dict[str, tuple[Done, ...] | Unclear] = {}
    rows: list[int] = []
    done: list[Done] = []
    for row, text in enumerate(texts):
        if text not in seen:
            seen[text] = entry(text, use)
        got = seen[text]
        if not isinstance(got, Unclear):
            got = _flagged(got, made, row, log)
        if isinstance(got, Unclear):
            made.blame_rows(column, np.array([row]), [_not_sets(got, text)])
            made.unclear_misses += got.miss
            got = (Done(load=20.0),)  # holds the row's place; it is set aside
        rows += [row] * len(got)
        done += got
    _write(made, np.array(rows, dtype=np.int64), done)


def _not_sets(got: Unclear, text: str) -> Fault:
    if got.readings or len(got.found) >= len(text.strip()):
        return fault(got)
    return Fault(got.want, said=say("intake.not_sets", part=f"'{got.found}'"))


def _told(use: Use, before: Use) -> list[Say]:
    signs = [say("intake.read.miss", sign=sign) for sign in sorted(use.signs - before.signs)]
    return [*signs, *([say("intake.read.decimal")] if use.comma == "decimal" != before.comma else [])]


def _texts(made: Sheet) -> tuple[Column, list[str]]:
    """The shorthand of each row, put together from the columns that the file has."""
    load = next((made.columns[name] for name in ("kg", "lb", "load") if name in made.columns), None)
    work = made.columns.get("entry")
    scheme = made.columns.get("scheme") or (None if load is None else work)
    if work is not None and load is None:
        return work, [work.words[code] for code in work.codes]
    if load is None:
        none = made.column("scheme")
        return none, [none.words[code] for code in none.codes]
    sets, reps = made.column("sets"), made.column("reps")
    texts = []
    for row in range(len(made)):
        words = [one.words[one.codes[row]] if one else "" for one in (load, scheme, sets, reps)]
        if not words[0] and work is not None:
            texts.append(work.words[work.codes[row]])
        else:
            texts.append(_joined(*words))
    return load, texts


def _joined(load: str, scheme: str, sets: str, reps: str) -> str:
    """One text of loads, sets and repetitions in cells of their own; several in each go in pairs."""
    times = scheme
    if not times and reps:
        times = reps if not sets or sets == "1" else f"{sets}x{reps}"
        if sets.isdecimal() and int(sets) > 1 and len(_split(reps)) == int(sets):
            times = reps  # the repetitions of each set
    if not times:
        return load
    if not load:
        return times
    loads, several = _split(load), _split(times)
    if len(loads) == len(several) == 1 or len(loads) == 1:
        return ", ".join(_pair(loads[0], one) for one in several)
    if len(several) == 1:
        one = several[0]
        match = re.fullmatch(r"(\d+)\s*[x×*]\s*(\d+(?:\s*\+\s*\d+)*)", one)
        if match and int(match[1]) == len(loads):
            one = match[2]
        return ", ".join(_pair(weight, one) for weight in loads)
    if len(loads) != len(several):
        return f"{load} ? {times}"
    return ", ".join(_pair(weight, one) for weight, one in zip(loads, several, strict=True))


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
    return f"{load} x {times}"


def _flagged(got: Sequence[Done], made: Sheet, row: int, log: Log) -> tuple[Done, ...] | Unclear:
    """The sets with a cell of results that has one mark for each of them: `o, x, o`."""
    column = made.columns.get("result")
    word = column.words[column.codes[row]] if column else ""
    pieces = [piece for piece in re.split(r"[\s,;/|]+", word) if piece]
    if len(pieces) == 1 and len(got) > 1 and re.fullmatch(r"[xoXO✓✗✔✘]+", word) and len(word) == len(got):
        pieces = list(word)
    if column is None or len(pieces) != len(got) or len(pieces) < 2:
        return tuple(got)
    flags = [marks.flag(piece, log.tongue) for piece in pieces]
    if None in flags or any(
        one.sets != 1 or one.reps != (1,) for one, flag in zip(got, flags, strict=True) if not flag
    ):
        return Unclear(word, say("intake.short.each_single"), miss=True)
    made.put("result", {row: ""})
    return tuple(one if flag else replace(one, made=(0,)) for one, flag in zip(got, flags, strict=True))


def _write(made: Sheet, rows: Codes, done: Sequence[Done]) -> None:
    """Put the sets into the sheet, one row each."""
    unit = next((name for name in ("kg", "lb", "load") if name in made.columns), "load")
    for name in list(made.columns):
        column = made.columns[name]
        places = column.places
        if places is not None:
            places = (places[0][rows], tuple(places[1][row] for row in rows.tolist()))
        made.columns[name] = replace(column, codes=column.codes[rows], places=places)
    kept = {name: made.columns.pop(name) for name in _FIELDS if name in made.columns}
    source = made.columns.get("entry") or kept.get(unit) or made.columns.get("scheme")
    explicit = kept.get("made")
    made.lines, made.aside, made.entries = made.lines[rows], made.aside[rows], rows
    fields: dict[str, list[str]] = {name: [] for name in _FIELDS}
    for one in done:
        for name in ("kg", "lb", "load"):
            fields[name].append(f"{one.load!r}" if name == (one.unit or unit) else "")
        fields["sets"].append(str(one.sets))
        fields["reps"].append("+".join(map(str, one.reps)))
        fields["made"].append("" if one.made is None else "+".join(map(str, one.made)))
    for name, words in fields.items():
        if any(words):
            made.columns[name] = _column(name, words, kept.get(name) or source)
    if explicit is not None:
        _explicit(made, explicit)
    for name in ("effort", "aid", "variant", "remark"):
        _beside(made, name, [_text(one, name) for one in done])


def _explicit(made: Sheet, column: Column) -> None:
    """A column of our own `made` beside shorthand: it stands where the shorthand says nothing."""
    there = made.columns.get("made")
    words = {
        row: column.words[column.codes[row]]
        for row in range(len(made))
        if column.words[column.codes[row]] and (there is None or not there.words[there.codes[row]])
    }
    if there is None:
        made.columns["made"] = column
    else:
        made.put("made", words)


def _text(one: Done, name: str) -> str:
    if name == "effort":
        return "" if one.effort is None else f"{one.effort:g}"
    return str(getattr(one, name))


def _column(name: str, words: Sequence[str], source: Column | None) -> Column:
    """A column of words of our own making, with the place and the text that they were made of."""
    known = list(dict.fromkeys(words))
    code = {word: i for i, word in enumerate(known)}
    return Column(
        name=name,
        number=source.number if source else 0,
        heading=source.heading if source else "",
        codes=np.array([code[word] for word in words], dtype=np.int64),
        words=tuple(known) or ("",),
        places=source.places if source else None,
    )


def _beside(made: Sheet, name: str, words: Sequence[str]) -> None:
    """Add what stood in the shorthand to a column of words."""
    if not any(words):
        return
    column = made.column(name)
    if name in ("remark", "variant"):
        texts = {
            row: "; ".join(dict.fromkeys(filter(None, (column.words[column.codes[row]], word))))
            for row, word in enumerate(words)
            if word
        }
    else:
        texts = {row: word for row, word in enumerate(words) if word and not column.words[column.codes[row]]}
    made.put(name, texts)
