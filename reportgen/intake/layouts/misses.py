"""A miss is never lost: whatever column, word or sign tells of one, the row has it or is set aside."""

import re
from collections.abc import Iterable, Iterator

import numpy as np

from reportgen.intake import marks
from reportgen.intake.cells import number, vocabulary
from reportgen.intake.kinds import ATTEMPTS, LOADS, TRAINING, Kind
from reportgen.intake.marks import Says
from reportgen.intake.messages import Fault, clipped, expect
from reportgen.intake.outcomes import DECLINED
from reportgen.intake.sheet import Column, Sheet
from reportgen.model.say import Say, say
from reportgen.trade import fold, load
from reportgen.trade.tongue import ENGLISH, Tongue, speaking

_HOW_MANY = expect("how_many_made")
_OF = re.compile(r"(\d{1,3}) ?(?:/|of) ?(\d{1,3})")
_TWICE = re.compile(
    r"(?<!\w)(?:twice|two|three|several|many|both|[2-9]x?|zweimal|zwei|deux|dos|due|dwa|duas|два|дважды|misses)(?!\w)"
)
#: Columns of words that may tell of a miss; what layouts know of a day or of a lift stands in the last two.
_TEXTS = ("remark", "variant", "session", "event", "aid", "?day", "?near")
#: What a column of misses says where there was none.
_NONE = frozenset(
    ["", "0", "-", "no", "none", "nein", "non", "nie", "нет", "não", "nao", "false", "n", "keine"]
)


def settle(made: Sheet, kind: Kind, tongue: Tongue) -> None:
    """Bring every miss that a row of training or attempts tells of into `made`, or set the row aside."""
    if made.whole or not len(made) or kind not in (TRAINING, ATTEMPTS):
        return
    if kind is TRAINING:
        _sums(made)
    rows = _Rows(made, kind)
    _of(made, rows)
    rows.filled = rows.stated()
    _yes_and_no(made, rows, kind, tongue)
    _negative(made, rows, kind)
    if kind is TRAINING:
        _result(made, rows, tongue)
        _counted(made, rows, tongue)
        _kinds(made)
    _texts(made, rows, tongue)
    made.together()


#: The language of a log, and words that are innocent in its remarks.
_Spoken = tuple[Tongue, re.Pattern[str] | None]


class _Rows:
    """What each row says of itself, and what is written into `made`."""

    def __init__(self, made: Sheet, kind: Kind) -> None:
        self.sheet, self.kind, self.word = made, kind, made.word
        self.filled: frozenset[int] = frozenset()
        self.entries = made.entries if made.entries is not None else np.arange(len(made))
        self.size = dict(
            zip(*(part.tolist() for part in np.unique(self.entries, return_counts=True)), strict=True)
        )

    def lifts(self, row: int) -> set[str]:
        """The catalogue's names of the lifts of a row."""
        known = load().words["lift"]
        return {known.get(fold(piece), piece) for piece in self.word("lift", row).split("+")}

    def told(self, row: int) -> bool:
        """Whether the row has a miss already."""
        made = self.word("made", row)
        if self.kind is ATTEMPTS:
            return bool(made) and marks.flag(made, speaking(ENGLISH)) is False
        return bool(made) and fold(made) != fold(self.word("reps", row)) and _numeric(made)

    def stated(self) -> frozenset[int]:
        """Rows whose own `made` says how many, which no remark outvotes; not what a layout filled in."""
        column = self.sheet.columns.get("made")
        if column is None or self.kind is ATTEMPTS or self.sheet.entries is not None:
            return frozenset()
        return frozenset(row for row in np.flatnonzero(column.filled).tolist() if _numeric(column.word(row)))

    def tell(self, row: int, column: Column, lost: int | None) -> None:
        """A row that something says was missed: `lost` repetitions, or it can't be told how many."""
        if self.told(row) or self.sheet.aside[row] or self._entry_told(row):
            return
        made, tried = self.word("made", row), self.reps(row)
        alone = self.kind is TRAINING and self.size[int(self.entries[row])] == 1
        if self.kind is ATTEMPTS and not made:
            self.sheet.put("made", {row: "no"})
        elif alone and not made and tried is not None and lost is not None and lost <= tried:
            self.sheet.put("made", {row: str(tried - lost)})
        else:
            self.aside(row, column)

    def single(self, rows: Iterable[int], column: Column) -> None:
        """Rows that were missed: a single is told, of more it is not known how many were made."""
        for row in rows:
            self.tell(row, column, 1 if self.reps(row) == 1 else None)

    def _entry_told(self, row: int) -> bool:
        """Whether another set of the same entry has the miss."""
        entry = int(self.entries[row])
        return self.size[entry] > 1 and any(map(self.told, np.flatnonzero(self.entries == entry).tolist()))

    def reps(self, row: int) -> int | None:
        """Repetitions of a row of one set of one lift, or None."""
        reps, sets = self.word("reps", row), self.word("sets", row)
        if sets not in ("", "1") or not reps.isdecimal() or "+" in self.word("lift", row):
            return None
        return int(reps)

    def counts(self, row: int) -> set[int]:
        """What `of 3` may count in a row: its sets, the repetitions of one, or of all."""
        reps, sets = (self.word(name, row) or "1" for name in ("reps", "sets"))
        if not (reps.isdecimal() and sets.isdecimal()):
            return set()
        return {int(reps), int(sets), int(reps) * int(sets)}

    def aside(self, row: int, column: Column, want: Say = _HOW_MANY) -> None:
        """Set a row aside since it may hold a miss."""
        if not self.sheet.aside[self.entries == self.entries[row]].any():
            self.sheet.unclear_misses += 1
        self.sheet.blame_rows(column, np.array([row]), Fault(want, said=say("intake.missed")))


def _flags(column: Column, tongue: Tongue) -> dict[int, bool | None]:
    """What each word of a column says: made, missed, or neither."""
    return {code: marks.flag(word, tongue) for code, word in enumerate(column.words) if word}


def _yes_and_no(made: Sheet, rows: _Rows, kind: Kind, tongue: Tongue) -> None:
    """`made` in words or ticks, where our own form has numbers (training) or yes and no (attempts)."""
    column = made.columns.get("made")
    if column is None:
        return
    if kind is ATTEMPTS:
        _judged(made, column, tongue)
        return
    said = {code: one for code, one in _flags(column, tongue).items() if one is not None}
    said = {code: one for code, one in said.items() if not _numeric(column.words[code])}
    made.reword("made", dict.fromkeys(said, ""))
    bad = column.rows(code for code, one in said.items() if not one)
    if {fold(column.words[code]) for code in said} != {"x"}:
        rows.single(bad, made.columns["made"])
        return
    for row in bad:  # a tick for made, or a cross for missed: both are used
        rows.aside(row, made.columns["made"], expect("made_or_missed"))


def _judged(made: Sheet, column: Column, tongue: Tongue) -> None:
    """What became of attempts: yes or no, by the referees' lights too; what was declined says so in `miss`.

    `pass` may be either.
    """
    said = {code: one for code, word in enumerate(column.words) if (one := marks.lights(word)) is not None}
    said = {code: one for code, one in _flags(column, tongue).items() if one is not None} | said
    kinds = vocabulary("miss")
    declined = {code for code, word in enumerate(column.words) if kinds.find(word) == DECLINED}
    either = {code for code in declined if said.pop(code, False)}
    made.reword("made", {code: "yes" if one else "no" for code, one in said.items()}
                | dict.fromkeys(declined - either, "no"))  # fmt: skip
    for row in column.rows(declined - either):
        if not made.word("miss", row):
            made.put("miss", {row: DECLINED})


def _sums(made: Sheet) -> None:
    """`made` as the sum of all sets of a row, where so many rows hold one that none can be of each set.

    Where some rows hold one and others may, those others are set aside: 1 of three singles is not 3.
    """
    some = _counts(made)
    over = sum(reps < good <= sets * reps for _, good, sets, reps in some)
    bare = [row for row, good, sets, reps in some if sets > 1 and 0 < good <= reps]
    share = load().value("sums_share")
    if over < 2 or over < len(bare) * share:  # a single one is a slip
        return
    rows = _Rows(made, TRAINING)
    for row in bare:  # as much as one set holds: who knows
        rows.aside(row, made.columns["made"], expect("each_set"))
    beyond = any(good > sets * reps for _, good, sets, reps in some)
    if len(bare) > over * share or beyond or made.entries is not None:
        return
    parts = [(row, *part) for row, good, sets, reps in some for part in _parted(good, sets, reps)]
    told = {row for row, *_ in parts}
    parts += [
        (row, made.word("sets", row), made.word("made", row)) for row in range(len(made)) if row not in told
    ]
    parts.sort(key=lambda part: part[0])
    made.repeat(np.array([part[0] for part in parts], dtype=np.int64))
    made.put("sets", {row: sets for row, (_, sets, _) in enumerate(parts)})
    made.put("made", {row: good for row, (_, _, good) in enumerate(parts)})
    made.told.append(say("intake.read.sums"))


def _parted(good: int, sets: int, reps: int) -> Iterator[tuple[str, str]]:
    """Sets, and repetitions made in each, that come to so many made: whole sets first, what is lost last."""
    whole, rest = divmod(good, reps)
    for count, each in ((whole, reps), (int(rest > 0), rest), (sets - whole - (rest > 0), 0)):
        if count:
            yield str(count), str(each)


def _counts(made: Sheet) -> list[tuple[int, int, int, int]]:
    """Row, made, sets and repetitions of rows that hold them in plain numbers."""
    column = made.columns.get("made")
    if column is None or "sets" not in made.columns or "reps" not in made.columns:
        return []
    some: list[tuple[int, int, int, int]] = []
    for row in np.flatnonzero(column.filled & ~made.aside).tolist():
        words = [made.word(name, row) for name in ("made", "sets", "reps")]
        if all(word.isdecimal() and len(word) < 5 for word in words) and "0" not in words[1:]:
            good, sets, reps = map(int, words)
            some.append((row, good, sets, reps))
    return some


def _of(made: Sheet, rows: _Rows) -> None:
    """`made` as so many of so many, `4/4`: all of them, or those of one set; of several who knows which."""
    column = made.columns.get("made")
    if column is None or rows.kind is ATTEMPTS:
        return
    told = {code: found for code, word in enumerate(column.words) if (found := _OF.fullmatch(word.strip()))}
    new: dict[int, str] = {}
    for row in column.rows(told):
        good, of = (int(part) for part in told[int(column.codes[row])].groups())
        if of in rows.counts(row) and (good == of or rows.reps(row) == of):
            new[row] = rows.word("reps", row) if good == of else str(good)
        elif good < of and of in rows.counts(row):
            rows.aside(row, column, expect("each_set"))
    if new:
        made.put("made", new)


def _numeric(word: str) -> bool:
    return all(piece.strip().isdecimal() for piece in word.split("+"))


def _negative(made: Sheet, rows: _Rows, kind: Kind) -> None:
    """A load below zero is a miss with that load, as score sheets write it."""
    for name in (one for one in LOADS if one in made.columns):
        column = made.columns[name]
        bare = {code: word.lstrip("-−").strip() for code, word in enumerate(column.words)
                if word[:1] in ("-", "−")}  # fmt: skip
        below = {code: word for code, word in bare.items() if number(word, made.decimal_comma) is not None}
        made.reword(name, below)
        hit = column.rows(below)
        if kind is not ATTEMPTS:
            rows.single(hit, made.columns[name])
        elif hit and "made" not in made.columns:
            made.put("made", dict.fromkeys(range(len(made)), "yes") | dict.fromkeys(hit, "no"))
        else:
            for row in hit:
                if marks.flag(rows.word("made", row), speaking(ENGLISH)) is True:
                    rows.aside(row, made.columns[name], expect("a_load_over"))
                else:
                    made.put("made", {row: "no"})


def _result(made: Sheet, rows: _Rows, tongue: Tongue) -> None:
    """A column of results: made or missed, in words or ticks."""
    column = made.columns.get("result")
    if column is None:
        return
    said = _flags(column, tongue)
    both = {fold(column.words[code]) for code in said} == {"x"}
    if any(word.isdecimal() and int(word) > 1 for word in column.words):  # it counts: 1 is one of several
        for row in column.rows(code for code in said if column.words[code] == "1"):
            if rows.counts(row) != {1}:
                rows.aside(row, column)
    for row in column.rows(code for code, one in said.items() if one is None or (both and one is False)):
        word = column.word(row)
        lost = marks.missed_reps(word, rows.reps(row) or 0) if marks.says(word) is Says.MISS else None
        if lost is not None and not both:
            rows.tell(row, column, lost)
        elif not rows.told(row):
            rows.aside(row, column, expect("made_or_missed"))
    if not both:
        rows.single(column.rows(code for code, one in said.items() if one is False), column)


def _counted(made: Sheet, rows: _Rows, tongue: Tongue) -> None:
    """A column of misses: how many repetitions, or a mark that there was one."""
    column, none = made.columns.get("missed"), _NONE | tongue.said["sure"]
    for code, word in enumerate(column.words if column else ()):
        if column is None or fold(word) in none:
            continue
        for row in column.rows([code]):
            tried = rows.reps(row) or 0
            if word.isdecimal() and len(word) < 4:
                lost: int | None = int(word)
            else:
                lost = 1 if tried == 1 else marks.missed_reps(word, tried)
            rows.tell(row, column, lost if tried and lost is not None and lost <= tried else None)


def _kinds(made: Sheet) -> None:
    """Marks in our own column `miss` that are no kind of miss (`x`, `yes`): the single was missed."""
    column = made.columns.get("miss")
    if column is None or not column.number:
        return
    rows = _Rows(made, TRAINING)
    for code, word in enumerate(column.words):
        plain = fold(word)
        if plain in ("0", "no", "none", "-"):
            made.reword("miss", {code: ""})
        elif plain in ("x", "1", "yes", "miss", "missed", "true") or (plain in marks.CROSSES and plain):
            for row in column.rows([code]):
                if rows.told(row) or (rows.reps(row) == 1 and not rows.word("made", row)):
                    rows.tell(row, column, 1)
                    made.put("miss", {row: ""})


def _texts(made: Sheet, rows: _Rows, tongue: Tongue) -> None:
    """Words for a miss in texts, and in columns that nobody knows."""
    others = [name for name in made.columns if name.startswith("?") and name[1:].isdecimal()]
    texts = [word for name in _TEXTS if name in made.columns for word in made.columns[name].words]
    plain = marks.innocent(texts, tongue.name)
    for name in [*_TEXTS, *others]:
        column = made.columns.get(name)
        if column is None:
            continue
        unknown = name in others and tongue.headings.get(fold(column.heading)) != "unused"
        in_words = unknown and any(marks.says(word) is Says.MISS and len(word) > 2 for word in column.words)
        if unknown and not in_words and marks.flags(column.words, tongue):
            for row in column.rows(code for code, good in _flags(column, tongue).items() if good is False):
                if not rows.told(row):
                    rows.aside(row, column, expect("what_it_is", heading=clipped(column.heading or "?")))
        elif not marks.quiet(column.words):
            ticks = name == "aid" or (name in others and not unknown)
            for code, word in enumerate(column.words):
                if word and not (ticks and marks.lone(word)):
                    _text(made, rows, column, code, (tongue, plain))


def _text(made: Sheet, rows: _Rows, column: Column, code: int, spoken: _Spoken) -> None:
    """One text, in every row that has it and doesn't say in `made` how many."""
    word, hit = column.words[code], [row for row in column.rows([code]) if row not in rows.filled]
    tongue, plain = spoken
    told = marks.says(word, plain) if hit else Says.NOTHING
    if told is Says.NOTHING:
        _fewer(rows, column, hit, word)
    elif column.name in ("?day", "?near"):
        of = made.column("date").codes[hit] if column.name == "?day" else made.lines[hit]
        for one in np.unique(of):
            _of_day(rows, column, [row for row, mine in zip(hit, of, strict=True) if mine == one], tongue)
    else:
        for row in hit:
            if told is Says.UNCLEAR and not rows.told(row):
                rows.aside(row, column)
            else:
                rows.tell(row, column, marks.missed_reps(word, reps) if (reps := rows.reps(row)) else None)


def _fewer(rows: _Rows, column: Column, hit: list[int], word: str) -> None:
    """Words such as `2 made` beside three repetitions."""
    of, count = marks.tally(word), marks.made_count(word)
    for row in hit if of is not None and of[0] < of[1] else ():
        if of is not None and not rows.told(row) and of[1] in rows.counts(row):
            rows.aside(row, column)
    for row in hit if count is not None else ():
        tried = rows.reps(row)
        if count is not None and not rows.told(row) and (not tried or count < tried):
            alone = marks.only_made(word) is not None
            rows.tell(row, column, tried - count if alone and tried else None)


def _lifts_in(text: str, tongue: Tongue) -> set[str]:
    """The lifts that a text names, by words of the catalogue and of the log's language."""
    words, known = re.findall(r"[^\s,;:.!?()]+", fold(text)), load().words["lift"]
    runs = (" ".join(words[i : i + n]) for n in (3, 2, 1) for i in range(len(words) - n + 1))
    found = {known.get(run) or tongue.lifts.get(run, "") for run in runs if len(run) > 2}
    return found - {""}


def _of_day(rows: _Rows, column: Column, hit: list[int], tongue: Tongue) -> None:
    """A remark of a day or beside a lift: one of its sets has the miss, or none of them is used."""
    text = column.word(hit[0])
    named = _lifts_in(text, tongue)
    hit = [row for row in hit if rows.lifts(row) & named] or hit
    if sum(rows.told(row) for row in hit) >= (2 if _TWICE.search(fold(text)) else 1):
        return
    fresh = rows.entries[[row for row in hit if not rows.sheet.aside[row]]]
    rows.sheet.unclear_misses += len(np.unique(fresh))
    fault = Fault(expect("which_missed"), said=say("intake.missed"))
    rows.sheet.blame_rows(column, np.array(hit[:1]), fault)
    rows.sheet.aside[hit] = True
