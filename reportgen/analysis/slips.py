"""Rows that may be slips of the pen, and what of a proposal rests on each.

Looked at are loads and repetitions that the other days of the lift do not bear out (`jumps`), runs of
days and whole logs in the wrong unit (`units`), and body mass (`weighed`). What is said of each stands in
words/messages/doubts.toml; what was measured, and where it fails, in tests/bench/slips.py.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import replace

import numpy as np

from reportgen.analysis import goals, jumps, meant, steps, support, units, weighed
from reportgen.analysis.jumps import Jump
from reportgen.analysis.support import Log, Rows
from reportgen.analysis.units import Run
from reportgen.model.doubts import EVERYTHING, Unsure
from reportgen.model.lifter import LIFTER_TOML
from reportgen.model.records import Records
from reportgen.model.say import Say, say
from reportgen.trade.choices import choices
from reportgen.trade.schema import Trade


def read(records: Records, trade: Trade) -> tuple[Unsure, ...]:
    """Everything in the log and the weigh-ins that may be a slip.

    Args:
        records: The folder; rows that `lifter.confirmed` names stand as they are.
        trade: Lifts and rules.

    Returns:
        By file and line. Rows after the review day stop nothing; where it was not asked for they still tell
        what earlier ones may have been.
    """
    log = support.read(records, trade)
    found = [*weighed.read(records, trade)]
    if log.lifts:
        found += _of_log(records, log, trade)
    return tuple(sorted(_once(found), key=lambda one: (one.file, one.line, one.reason)))


def held(records: Records, trade: Trade) -> Mapping[str, float]:
    """Lift -> the most that a load of a proposal may be taken from [kg].

    A day that stands alone, slip or good day, raises nothing by more than `held_share` over the next best
    day; a lift of one day is held by what the other lifts speak for. Confirmed rows are never held.
    """
    log = support.read(records, trade)
    first = jumps.starts(records, log, trade)
    found: dict[str, float] = {}
    for lift, rows in log.lifts.items():
        kg = jumps.held(rows, first, trade)
        usual = jumps.usual(lift, log.lifts, trade)
        if kg is None and usual is not None and trade.lifts[lift].role != "squat" and rows.open.any():
            kg = usual * (1 + trade.value("held_line_share"))
        if kg is not None:
            found[lift] = kg
    return found


def _of_log(records: Records, log: Log, trade: Trade) -> list[Unsure]:
    file, confirmed = log.file, records.lifter.confirmed
    found: list[Unsure] = []
    for run in units.runs(log, trade):
        one, inside = _run(log, run, trade)
        if one is None:
            continue
        if one.place in confirmed:
            log = replace(log, lifts={lift: rows.sure(inside[lift]) for lift, rows in log.lifts.items()})
        else:
            found.append(one)
            log = replace(log, lifts={lift: rows.without(inside[lift]) for lift, rows in log.lifts.items()})
    found += _step(records, log, trade)
    first = jumps.starts(records, log, trade)
    every: list[Jump] = []
    left: dict[str, Rows] = {}
    for lift, rows in log.lifts.items():
        mine, left[lift] = jumps.read(rows, first, trade)
        every += mine
    top = units.whole(records, left, trade)
    if top is not None:
        few, without = jumps.strays(left, trade)
        if few and units.whole(records, without, trade) is None:
            every += few
            left, top = dict(without), None
    if top is not None and file not in confirmed:
        return [_all_pounds(file, top, trade)]
    every += jumps.beside(left, trade)
    found += _goal(records, left, trade)
    pounds_days = _pounds(every, trade) if records.lifter.unit == "kg" else frozenset()
    for jump in every:
        found += _said(jump, records, log, trade, pounds=bool(pounds_days & {*jump.days}))
    found += _alone(records, left, log, trade)
    return [*found, *_beyond(records, log, trade)]


def _alone(records: Records, lifts: Mapping[str, Rows], log: Log, trade: Trade) -> list[Unsure]:
    """A day of training that stands far over every other of a goal's lift, no further than may be true."""
    found: list[Unsure] = []
    for lift in dict.fromkeys(one for goal in records.lifter.goals for one in goals.lifts_of(goal)):
        top = jumps.alone(lifts[lift], trade) if lift in lifts else None
        if top is not None:
            file, line = log.place(top[0])
            kg = meant.said(top[1], records.lifter.unit, trade)
            found.append(Unsure(file=file, line=line, reason="alone", lift=lift, stops=(), found=kg))
    return found


def _step(records: Records, log: Log, trade: Trade) -> list[Unsure]:
    """The first day from which all lifts are too heavy, by its first row, that nobody has confirmed."""
    for step in steps.read(records, log, trade):
        rows = [rows.at[(rows.day == step.day) & (rows.at >= 0)] for rows in log.lifts.values()]
        file, line = log.place(int(np.concatenate(rows).min()))
        found = say("doubts.parts.level", share=step.share)
        one = Unsure(file=file, line=line, reason="level", stops=(EVERYTHING,), found=found)
        if not {file, one.place} & {*records.lifter.confirmed}:
            return [one]
    return []


def _beyond(records: Records, log: Log, trade: Trade) -> list[Unsure]:
    """Loads that nobody has ever lifted and that somebody let stand: no confirmation lets these through."""
    limits = units.human(records.lifter.standards, trade)
    file = {*records.lifter.confirmed}
    found: list[Unsure] = []
    for lift in (one for one in log.lifts if one in limits):
        rows = log.lifts[lift]
        over = (rows.kg > limits[lift]) & (rows.bears > 0) & (rows.at >= 0)
        places: dict[str, list[int]] = {}
        for at in np.unique(rows.at[over]).tolist():
            name, line = log.place(at)
            if {name, f"{name}:{line}"} & file:
                places.setdefault(name, []).append(line)
        found += [
            Unsure(
                file=name, line=lines[0], reason="beyond", lift=lift, stops=resting([lift], log, trade),
                found=meant.said(float(rows.kg[over].max()), records.lifter.unit, trade),
                lines=tuple(lines[1:]),
            )
            for name, lines in places.items()
        ]  # fmt: skip
    return found


def _goal(records: Records, lifts: Mapping[str, Rows], trade: Trade) -> list[Unsure]:
    odd = units.goal_in_pounds(records, lifts, trade)
    if odd is None or LIFTER_TOML in records.lifter.confirmed:
        return []
    goal_kg, pounds_kg = odd
    return [
        Unsure(
            file=LIFTER_TOML, line=0, reason="goal_pounds_likely", stops=(),
            lift=records.lifter.goals[0].lift, found=meant.said(goal_kg, "kg", trade),
            likely=meant.said(pounds_kg, "kg", trade),
        )
    ]  # fmt: skip


def _all_pounds(file: str, top_kg: float, trade: Trade) -> Unsure:
    return Unsure(
        file=file,
        line=0,
        reason="pounds_all_likely",
        stops=(EVERYTHING,),
        found=meant.said(top_kg, "kg", trade),
        likely=meant.said(top_kg * trade.value("pound"), "kg", trade),
    )


def _run(log: Log, run: Run, trade: Trade) -> tuple[Unsure | None, Mapping[str, np.ndarray]]:
    """What is said of a run by its first row, and the rows that are in the wrong unit."""
    light = units.light(log, run, trade)
    wrong = {
        lift: ((rows.day >= run.first) & (rows.day <= run.last) & (rows.at >= 0)) ^ (light & (rows.at >= 0))
        for lift, rows in log.lifts.items()
    }
    at = np.unique(np.concatenate([log.lifts[lift].at[mask] for lift, mask in wrong.items()]))
    if not len(at):
        return None, wrong
    lifts = [lift for lift, mask in wrong.items() if mask.any()]
    file, line = log.place(int(at[0]))
    heaviest = max(float(log.lifts[lift].kg[mask].max()) for lift, mask in wrong.items() if mask.any())
    pound = trade.value("pound")
    one = Unsure(
        file=file,
        line=line,
        reason="kilograms_likely" if light else "pounds_likely",
        stops=() if light else resting(lifts, log, trade),
        found=meant.said(heaviest, "lb" if light else "kg", trade),
        likely=meant.said(heaviest / pound if light else heaviest * pound, "lb" if light else "kg", trade),
    )
    return one, wrong


def _pounds(every: list[Jump], trade: Trade) -> frozenset[int]:
    """Days on which two lifts or more stand over the others as pounds would."""
    pound, each = trade.value("pound"), trade.value("unit_step_each")
    most = trade.value("slip_likely_high")
    days = Counter(
        day
        for jump in every
        if each * jump.bears_kg <= jump.kg and jump.kg * pound <= most * jump.bears_kg
        for day in {*jump.days}
    )
    return frozenset(day for day, lifts in days.items() if lifts > 1)


def _said(jump: Jump, records: Records, log: Log, trade: Trade, *, pounds: bool) -> list[Unsure]:
    """One doubt a file; its first row is the heaviest."""
    unit = records.lifter.unit
    found: str | Say = meant.said(jump.kg, unit, trade)
    if jump.reps_only:
        key, found = "repetitions", say("doubts.parts.repetitions", reps=jump.reps, load=found)
        likely = str(jump.reps // 10) if jump.reps >= 10 else ""
    elif pounds:
        key, likely = "pounds_day", meant.said(jump.kg * trade.value("pound"), "kg", trade)
    else:
        key = "slip_beside" if jump.by_others else "slip_several" if len(jump.days) > 1 else "slip"
        low, high = trade.value("slip_likely_low"), trade.value("slip_likely_high")
        likely = meant.likely(jump.kg, jump.bears_kg * low, jump.bears_kg * high, unit, trade)
    files: dict[str, list[int]] = {}
    for at in jump.at:
        file, line = log.place(at)
        files.setdefault(file, []).append(line)
    return [
        Unsure(
            file=file, line=lines[0], reason=meant.reason(key, likely), lift=jump.lift,
            stops=resting([jump.lift], log, trade),
            found=found, likely=likely, lines=tuple(dict.fromkeys(one for one in lines if one != lines[0])),
        )
        for file, lines in files.items()
    ]  # fmt: skip


def resting(lifts: Iterable[str], log: Log, trade: Trade) -> tuple[str, ...]:
    """The lifts whose loads are taken from these: they, pulls and parts of a whole, what begins from it."""
    found: list[str] = []
    for name in lifts:
        found.append(name)
        lift = trade.lifts[name]
        if lift.role == "goal":
            of = ("pull", "part")
            found += [
                one.name for one in trade.lifts.values() if one.family == lift.family and one.role in of
            ]
        found += [
            one.lift for one in choices().starts.values() if one.of == name and one.lift not in log.lifts
        ]
    return tuple(dict.fromkeys(found))


def _once(found: list[Unsure]) -> list[Unsure]:
    """One doubt a row: a complex that is heavy in two lifts is one slip."""
    rows: dict[str, Unsure] = {}
    for one in found:
        before = rows.get(one.place)
        rows[one.place] = (
            one
            if before is None
            else replace(before, stops=tuple(dict.fromkeys((*before.stops, *one.stops))))
        )
    return [*rows.values()]
