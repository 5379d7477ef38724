"""A miss is never lost: whatever column, word or sign tells of one, the row has it or is set aside."""

import re
from collections.abc import Iterator

import numpy as np

from reportgen.intake import marks
from reportgen.intake.cells import number, vocabulary
from reportgen.intake.kinds import ATTEMPTS, LOADS, TRAINING, Kind
from reportgen.intake.layouts.beside import beside_numbers
from reportgen.intake.layouts.log import Log
from reportgen.intake.layouts.texts import texts
from reportgen.intake.layouts.told import Rows, flags, numeric
from reportgen.intake.marks import Says
from reportgen.intake.messages import expect
from reportgen.intake.outcomes import DECLINED
from reportgen.intake.sheet import Column, Sheet
from reportgen.model.say import say
from reportgen.trade import fold, load
from reportgen.trade.tongue import ENGLISH, Tongue, speaking

_OF = re.compile(r"(\d{1,3}) ?(?:/|of) ?(\d{1,3})")
#: What a column of misses says where there was none.
_NONE = frozenset(
    ["", "0", "-", "no", "none", "nein", "non", "nie", "нет", "não", "nao", "false", "n", "keine"]
)


def settle(made: Sheet, log: Log) -> None:
    """Bring every miss that a row of training or attempts tells of into `made`, or set the row aside."""
    kind, tongue = log.kind, log.tongue
    if made.whole or not len(made) or kind not in (TRAINING, ATTEMPTS):
        return
    if kind is TRAINING:
        _sums(made)
    rows = Rows(made, kind)
    _of(made, rows)
    rows.filled = rows.stated()
    if kind is TRAINING:
        beside_numbers(made, rows, log)
    _yes_and_no(made, rows, kind, tongue)
    _negative(made, rows, kind)
    if kind is TRAINING:
        _result(made, rows, tongue)
        _counted(made, rows, tongue)
        _kinds(made)
    texts(made, rows, tongue)
    made.together()


def _yes_and_no(made: Sheet, rows: Rows, kind: Kind, tongue: Tongue) -> None:
    """`made` in words or ticks, where our own form has numbers (training) or yes and no (attempts)."""
    column = made.columns.get("made")
    if column is None:
        return
    if kind is ATTEMPTS:
        _judged(made, column, tongue)
        return
    said = {code: one for code, one in flags(column, tongue).items() if one is not None}
    said = {code: one for code, one in said.items() if not numeric(column.words[code])}
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
    said = {code: one for code, one in flags(column, tongue).items() if one is not None} | said
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
    rows = Rows(made, TRAINING)
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


def _of(made: Sheet, rows: Rows) -> None:
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


def _negative(made: Sheet, rows: Rows, kind: Kind) -> None:
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


def _result(made: Sheet, rows: Rows, tongue: Tongue) -> None:
    """A column of results: made or missed, in words or ticks."""
    column = made.columns.get("result")
    if column is None:
        return
    said = _without_tried(rows, column, flags(column, tongue))
    both = {fold(column.words[code]) for code in said} == {"x"}
    zeros, ones = (len(column.rows(code for code in said if column.words[code] == word)) for word in "01")
    if zeros > ones > 0 and zeros + ones == column.filled.sum():  # nobody misses so much: 1 may be the miss
        for row in column.rows(said):
            rows.aside(row, column, expect("made_or_missed"))
        return
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


def _without_tried(rows: Rows, column: Column, said: dict[int, bool | None]) -> dict[int, bool | None]:
    """What is left of the words of a column of results where `5/5` and `1/2` are made of tried."""
    told = {code: found for code in said if (found := _OF.fullmatch(column.words[code].strip()))}
    for row in column.rows(told):
        good, of = (int(part) for part in told[int(column.codes[row])].groups())
        tried = rows.reps(row)
        if good < of == tried:
            rows.tell(row, column, of - good)
        elif (good != of or of not in ({tried} if tried else rows.counts(row))) and not rows.told(row):
            rows.aside(row, column)
    return {code: one for code, one in said.items() if code not in told}


def _counted(made: Sheet, rows: Rows, tongue: Tongue) -> None:
    """A column of misses: how many repetitions, or a mark that there was one."""
    column, none = made.columns.get("missed"), _NONE | tongue.said["sure"]
    for code, word in enumerate(column.words if column else ()):
        if column is None or fold(word) in none:
            continue
        for row in column.rows([code]):
            tried = rows.reps(row) or 0
            if word.isdecimal() and len(word) < 4:
                lost: int | None = int(word)
                if rows.lost_all(row, int(word)):
                    made.put("made", {row: "0"})
            else:
                lost = 1 if tried == 1 else marks.missed_reps(word, tried)
            rows.tell(row, column, lost if tried and lost is not None and lost <= tried else None)


def _kinds(made: Sheet) -> None:
    """Marks in our own column `miss` that are no kind of miss (`x`, `yes`): the single was missed."""
    column = made.columns.get("miss")
    if column is None or not column.number:
        return
    rows = Rows(made, TRAINING)
    for code, word in enumerate(column.words):
        plain = fold(word)
        if plain in ("0", "no", "none", "-"):
            made.reword("miss", {code: ""})
        elif plain in ("x", "1", "yes", "miss", "missed", "true") or (plain in marks.CROSSES and plain):
            for row in column.rows([code]):
                if rows.told(row) or (rows.reps(row) == 1 and not rows.word("made", row)):
                    rows.tell(row, column, 1)
                    made.put("miss", {row: ""})
