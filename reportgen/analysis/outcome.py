"""What became of the thing that a finding was about: better, same, worse or untried since a day.

The thing itself is read: the lift, the position, the checkpoints, the misses, the sessions, the taper.
Whether the finding is still listed says nothing: a squat that rose may still be short.
"""

import datetime as dt
from collections.abc import Callable
from typing import Final

import pandas as pd

from reportgen.analysis import readings, screening
from reportgen.analysis.exposure import heavy_singles, is_full
from reportgen.analysis.needs.movement import UNNAMED
from reportgen.analysis.needs.practice import limit_days
from reportgen.analysis.needs.signs import Given
from reportgen.model.findings import Outcome
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade.claims import claims

_SCREENED: Final = {
    "position_not_reached": "flexibility",
    "upkeep_stopped": "flexibility",
    "position_not_controlled": "control",
    "loose_joints": "control",
}
_FAILED: Final = {"misses_jerk": "jerk", "misses_clean": "clean", "misses_recovery": "recovery"}
_WEEKLY: Final = (
    "too_few_full_sessions", "weeks_without_full", "full_sessions_under_wanted", "no_heavy_singles",
    "transfer_gap", "chase",
)  # fmt: skip
_GRADE: Final = {"no": 0, "partly": 1, "held": 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Became:
    """What became of it, and the figures in words; `said` is None where nothing can be told."""

    outcome: Outcome
    said: Say | None = None


_UNTRIED: Final = Became(outcome="untried")


def read(given: Given, finding: str, when: dt.date) -> Became:
    """Judge one finding.

    Args:
        given: The lifter today.
        finding: Its id.
        when: The day from which it was to get better.

    Returns:
        "unknown" for a finding of no known sort, or where nothing lies before that day.
    """
    if finding not in claims().findings:
        return Became(outcome="unknown")
    if finding.endswith("_short"):
        return _lift(given, finding.removesuffix("_short").replace("_", " "), when)
    judge = next((how for names, how in _HOW if finding in names), None)
    return _lift(given, given.lifts[0], when) if judge is None else judge(given, finding, when)


def _judged(change: float, least: float, key: str, **values: object) -> Became:
    outcome: Outcome = "better" if change >= least else "worse" if change <= -least else "same"
    return Became(outcome=outcome, said=say(f"needs.became.{key}", **values))  # type: ignore[arg-type]


def _lift(given: Given, lift: str, when: dt.date) -> Became:
    """The heaviest single of the weeks before against that since; untried without a heavy one."""
    rows = given.scored.loc[given.scored["lift"] == lift]
    day = pd.Timestamp(when)
    first = day - pd.Timedelta(weeks=2 * given.records.lifter.weeks_current)
    before = rows.loc[(rows["date"] <= day) & (rows["date"] > first), "load_kg"]
    if before.empty:
        return Became(outcome="unknown")
    then = float(before.max())
    sets = given.tables.sets
    tried = sets.loc[(sets["lift"] == lift) & (sets["date"] > day) & (sets["tried"] > 0), "load_kg"]
    if not (tried >= then * given.value("became_tried_share")).any():
        return _UNTRIED
    after = rows.loc[rows["date"] > day, "load_kg"]
    now = float(after.max()) if len(after) else 0.0
    missed = float(tried.max())
    key = "lift" if missed <= now else "lift_missed"
    return _judged(
        now / then - 1,
        given.value("became_lift_share"),
        key,
        lift=lift,
        then_kg=then,
        now_kg=now,
        missed_kg=missed,
    )


def _positions(given: Given, finding: str, when: dt.date) -> Became:
    """Each position that was not there on the day, against its latest reading under like conditions."""
    best: tuple[float, Became] | None = None
    every = readings.rows(given.records)
    rows = [
        row
        for row in every
        if given.trade.positions[row.item].kind == _SCREENED[finding]
        and screening.contradicts(row, every, given.trade) is None
    ]
    for item, side in dict.fromkeys((row.item, row.side) for row in rows):
        mine = [row for row in rows if (row.item, row.side) == (item, side)]
        before = [row for row in mine if row.date <= when]
        after = [
            row for row in mine if row.date > when and before and row.conditions == before[-1].conditions
        ]
        position = given.trade.positions[item]
        if not before or not after:
            continue
        then, now = before[-1], after[-1]
        values = {"item": item, "side": f" ({side})" if side != "both" else "", "date": now.date}
        if then.reading is not None and now.reading is not None:
            if position.norm is not None and then.reading >= position.norm:
                continue
            least = position.smallest_real_change or 0.0
            sign = 1 if position.higher_is_better else -1
            one = _judged(
                sign * (now.reading - then.reading), least, "reading", then=then.reading, now=now.reading,
                unit=position.unit, **values,
            )  # fmt: skip
            size = abs(now.reading - then.reading) / (least or 1.0)
        elif then.grade in _GRADE and now.grade in _GRADE and then.grade != "held":
            size = float(_GRADE[now.grade] - _GRADE[then.grade])
            graded = {
                name: say(f"needs.grades.{grade}")
                for name, grade in (("then", then.grade), ("now", now.grade))
            }
            one, size = _judged(size, 1.0, "grade", **graded, **values), abs(size)
        else:
            continue
        if best is None or size > best[0]:
            best = (size, one)
    return best[1] if best else _UNTRIED


def _technique(given: Given, _: str, when: dt.date) -> Became:
    """How often the checkpoints that were off are off since, against before."""
    facts = given.facts.technique
    before, after = [0, 0], [0, 0]
    for fact in facts.checkpoints if facts else ():
        old = [one.grade == "off" for one in fact.grades if one.date <= when]
        if not any(old) or fact.accepted:
            continue
        new = [one.grade == "off" for one in fact.grades if one.date > when]
        before = [before[0] + sum(old), before[1] + len(old)]
        after = [after[0] + sum(new), after[1] + len(new)]
    if not after[1]:
        return _UNTRIED if before[1] else Became(outcome="unknown")
    then, now = before[0] / before[1], after[0] / after[1]
    return _judged(
        then - now, given.value("became_share"), "technique", then_share=then, now_share=now, count=after[1]
    )


def _misses(given: Given, finding: str, when: dt.date) -> Became:
    """Misses of a kind per heavy try, before and since; every named kind where none is asked for."""
    kind = _FAILED.get(finding, "")
    day, least = pd.Timestamp(when), given.value("became_tries")
    first = day - pd.Timedelta(weeks=given.value("miss_weeks"))
    sets, missed = given.tables.sets, given.tables.misses
    heavy = sets.loc[sets["lift"].isin(given.lifts) & (sets["share"] >= given.value("miss_share"))]
    mine = missed.loc[missed["lift"].isin(given.lifts) & (missed["share"] >= given.value("miss_share"))]
    mine = mine.loc[mine["kind"] == kind] if kind else mine.loc[~mine["kind"].isin(UNNAMED)]

    def rate(table: Callable[[pd.DataFrame], pd.Series]) -> tuple[int, int]:
        return int(mine.loc[table(mine), "count"].sum()), int(heavy.loc[table(heavy), "tried"].sum())

    then = rate(lambda rows: (rows["date"] > first) & (rows["date"] <= day))
    now = rate(lambda rows: rows["date"] > day)
    if not then[1]:
        return Became(outcome="unknown")
    if now[1] < least:
        return _UNTRIED
    change = then[0] / then[1] - now[0] / now[1]
    return _judged(
        change, given.value("became_share") / 3, "misses", kind=kind or say("needs.became.any"), then=then[0],
        then_of=then[1], now=now[0], now_of=now[1],
    )  # fmt: skip


def _weekly(given: Given, finding: str, when: dt.date) -> Became:
    """Sessions, heavy singles or days at the limit a week, before and since."""
    sets, day = given.tables.sets, pd.Timestamp(when)
    full = sets.loc[is_full(sets, given.lifts)]
    what, days = "full", full.drop_duplicates("session_id")["date"]
    if finding in ("no_heavy_singles", "transfer_gap"):
        heavy = heavy_singles(sets, given.lifts, given.trade)
        what, days = "singles", heavy["date"].repeat(heavy["tried"].tolist())
    elif finding == "chase":
        what, days = "limits", pd.Series(limit_days(given, sets["date"].min())[0])
    weeks = given.value("full_weeks")
    since = (pd.Timestamp(given.as_of) - day).days / 7
    if since < given.value("became_weeks"):
        return Became(outcome="too early")
    then = float(((days <= day) & (days > day - pd.Timedelta(weeks=weeks))).sum() / weeks)
    now = float((days > day).sum() / since)
    change = then - now if what == "limits" else now - then
    return _judged(change, given.value("became_weekly"), what, then=then, now=now, lift=given.lifts[0])


def _taper(given: Given, _: str, when: dt.date) -> Became:
    """The next test days: how long their tapers were and what they gave."""
    days = [one for one in given.facts.test_days or () if one.lift in given.lifts and one.gain_kg is not None]
    before, after = [one for one in days if one.date <= when], [one for one in days if one.date > when]
    if not after:
        return _UNTRIED
    last = before[-1].gain_kg if before else 0.0
    now = max(after, key=lambda one: one.gain_kg or 0.0)
    gain = now.gain_kg or 0.0
    taper = now.taper.days if now.taper is not None and now.taper.days else 0
    outcome: Outcome = "better" if gain > 0 else "same" if gain >= (last or 0.0) else "worse"
    return Became(
        outcome=outcome,
        said=say(
            "needs.became.taper" if taper else "needs.became.taper_none",
            date=now.date,
            gain_kg=gain,
            days=taper,
            best_kg=now.best_kg or 0.0,
        ),
    )


_HOW: Final = (
    (_SCREENED, _positions),
    (("technique_off", "departure_from_model"), _technique),
    ((*_FAILED, "misses_one_kind"), _misses),
    (_WEEKLY, _weekly),
    (("long_taper",), _taper),
)
