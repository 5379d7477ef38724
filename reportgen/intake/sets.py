"""training.csv and plan.csv: rows about sets, one table row a part of a complex."""

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from reportgen.intake import marks
from reportgen.intake.bounds import MOST_PARTS
from reportgen.intake.cells import (
    Floats,
    Parsed,
    date,
    dates,
    each,
    floats,
    integers,
    loads,
    texts,
    vocabulary,
)
from reportgen.intake.kinds import LOADS
from reportgen.intake.messages import Fault, clipped, expect
from reportgen.intake.named import holds_lift, slip_for
from reportgen.intake.outcomes import NO_COUNTS, NO_KINDS, Counts, counts, misses, outcomes
from reportgen.intake.sheet import Codes, Sheet
from reportgen.intake.tables import Manner, Reading, remarked, tabulate
from reportgen.model.say import say
from reportgen.model.tables import SETS
from reportgen.trade import fold, load


def sets(sheet: Sheet, manner: Manner) -> Reading:
    """training.csv or plan.csv as a table of `model.tables.SETS`, one row a part."""
    comma = sheet.decimal_comma
    rule = load().value
    day = dates(sheet, "date", manner.date_format)
    lifts = _lifts(sheet, manner)
    load_kg = loads(sheet, manner.unit)
    times = integers(sheet, "sets", expect("sets"), int(rule("sets_max")), empty=1)
    some = expect("reps")
    reps = each(sheet, sheet.column("reps"), counts(1, comma, some), empty=Fault(some), hole=NO_COUNTS)
    made = each(sheet, sheet.column("made"), counts(0, comma, expect("made")), empty=None, hole=None)
    miss = each(sheet, sheet.column("miss"), misses(), empty=NO_KINDS, hole=NO_KINDS)
    effort = floats(
        sheet, "effort", expect("effort"), rule("effort_min"), rule("effort_max"), kept=marks.harmless
    )
    aid = _aid(sheet)
    words = {
        "session": texts(sheet, "session"),
        "variant": texts(sheet, "variant", lower=True),
        "aid": aid,
        "remark": texts(sheet, "remark"),
    }
    _swapped(sheet, manner, lifts, load_kg, reps)
    done = outcomes(sheet, lifts, reps, made, miss)
    sheet.together()
    rows = np.repeat(np.arange(len(sheet), dtype=np.int64), np.where(sheet.aside, 0, done.parts))
    parts = done.parts[rows]
    part = np.arange(len(rows)) - np.searchsorted(rows, rows)  # place among the parts of the same row
    at = done.starts[rows] + part
    zeros = np.zeros(len(rows), dtype=np.int64)
    beside = remarked(sheet, day, words["remark"])
    made_of = tabulate(
        sheet,
        {
            "date": day[rows],
            "lift": _flat(lifts, rows, part),
            "part": part,
            "parts": parts,
            "load_kg": load_kg[rows],
            "sets": times[rows],
            "reps": done.reps[at],
            "made": done.made[at],
            "declined": done.declined[at],
            "miss": Parsed(done.miss, at),
            "effort": effort[rows],
            "kind": Parsed(["training"], zeros),
            "event": Parsed([""], zeros),
            "attempt": zeros,
            **{name: Parsed(parsed.values, parsed.codes[rows]) for name, parsed in words.items()},
        },
        SETS,
        rows,
    )
    return replace(made_of, unread=beside)


def _swapped(
    sheet: Sheet, manner: Manner, lifts: Parsed[tuple[str, ...]], load_kg: Floats, reps: Parsed[Counts]
) -> None:
    """Set aside rows under the empty bar with more repetitions than anybody does: they may be swapped."""
    rule = load().value
    known = np.array([bool(one) and "other" not in one for one in lifts.values], dtype=np.bool_)[lifts.codes]
    many = np.array([max(one, default=0) > rule("shorthand_reps_max") for one in reps.values], dtype=np.bool_)
    rows = np.flatnonzero(known & many[reps.codes] & (load_kg < manner.bar_kg) & ~sheet.aside)
    faults = [
        Fault(expect("not_swapped"), said=say("intake.swapped", reps=sheet.word("reps", row)))
        for row in rows.tolist()
    ]
    column = next((sheet.columns[name] for name in LOADS if name in sheet.columns), None)
    sheet.blame_rows(column, rows, faults)


def _flat(lifts: Parsed[tuple[str, ...]], rows: Codes, part: Codes) -> Parsed[str]:
    """The lift of each part."""
    sizes = np.array([len(one) for one in lifts.values], dtype=np.int64)
    names = [name for one in lifts.values for name in one]
    return Parsed(names or [""], (np.cumsum(sizes) - sizes)[lifts.codes[rows]] + part)


def _lifts(sheet: Sheet, manner: Manner) -> Parsed[tuple[str, ...]]:
    """The parts of each lift; one of the lifter's own words may hold a +. An unknown word is told once."""
    words = manner.lifts()
    unknown: dict[str, tuple[str, str | None]] = {}

    def one(word: str) -> tuple[str, ...] | Fault:
        plain = words.find(word)
        if plain is not None:
            return (plain,)
        if word.count("+") >= MOST_PARTS:
            return Fault(expect("most_parts"))
        found: list[str] = []
        for piece in word.split("+"):
            name = words.find(piece)
            if name is None:
                if word.startswith("=") or not piece.strip():
                    return Fault(expect("lift"))
                unknown[word] = piece.strip(), words.near(piece)
                return ()
            found.append(name)
        return tuple(found)

    column = sheet.column("lift")
    hole: tuple[str, ...] = ()
    parsed = each(sheet, column, one, empty=Fault(expect("lift")), hole=hole)
    for code, word in enumerate(column.words):
        if word in unknown:
            rows = np.flatnonzero(column.codes == code)
            if not len(rows):
                continue
            piece, near = unknown[word]
            if not near and (cut := _no_name(piece, words.known)):
                sheet.blame_rows(column, rows, Fault(expect("lift"), said=say(f"intake.{cut}")))
                continue
            near = None if near and not slip_for(piece, near) else near
            named = not near and holds_lift(piece)
            line = f'"{clipped(piece)}" = "{near or ("?" if named else "other")}"'
            said = say("intake.no_lift_named" if named else "intake.no_lift", n=len(rows), line=line)
            sheet.blame_rows(column, rows[:1], Fault(expect("lift"), near, said))
            sheet.aside[rows] = True
    return parsed


def _no_name(word: str, known: Iterable[str]) -> str:
    """Why nobody calls a lift so: `no_name` for a date or a number, `cut_off` for the beginning of a name."""
    form = fold(word)
    if not any(map(str.isalpha, word)) or len(form) < 2 or date(word, None) is not None:
        return "no_name"
    begun = any(one.startswith(form) and one[len(form) : len(form) + 1].isalpha() for one in known)
    return "cut_off" if begun else ""


def _aid(sheet: Sheet) -> Parsed[str]:
    """Straps, or own words; a slip for straps is a fault, since as a word of its own it would make a best."""
    words = vocabulary("aid")

    def one(word: str) -> str | Fault:
        found = words.find(word)
        if found is not None:
            return found
        near = words.near(word)
        return Fault(expect("aid"), near) if near else " ".join(word.casefold().split())

    return each(sheet, sheet.column("aid"), one, empty="", hole="")
