"""The ability against the truth of the world: error, coverage and bias by kind, beside the rules of thumb.

Errors are in per cent of the true weight. The best's error leaves out what is off by over 15 %: slips of the
pen.
"""

import time
from collections import defaultdict
from collections.abc import Iterable
from functools import partial

import numpy as np
import pandas as pd

from reportgen.analysis import ability, arrival, bests, form, frames, trend, when
from reportgen.model.ability import AbilityFact
from reportgen.trade import load
from tests.bench.world import Simulated

TRADE = load()
COLUMNS = (
    "kind",
    "n",
    "none",
    "bias",
    "error",
    "best's error",
    "95 % holds",
    "its width",
    "sure: chance",
    "under 0.80",
    "sure of tries: chance",
    "under 0.80",
    "change holds",
    "trend holds",
    "Theil-Sen holds",
    "arrival holds",
    "made before it, after it",
    "chance said, seen",
    "test days",
    "bias",
    "error",
    "95 % holds",
    "ms",
)
Row = dict[str, float]


def read(one: Simulated) -> list[Row]:
    """What is told of each goal lift of a lifter, held against the truth."""
    goal = one.records.lifter.goals[0].lift
    as_of = pd.Timestamp(one.records.as_of).as_unit("s")
    sets = frames.prepare(one.records.sets, as_of=as_of, bests=(), trade=TRADE)
    lifts = ("snatch", "clean and jerk") if goal == "total" else (goal,)
    return [_lift(one, sets, lift, alone=goal != "total") for lift in lifts]


def _lift(one: Simulated, sets: pd.DataFrame, lift: str, *, alone: bool) -> Row:
    records, truth = one.records, one.truth
    as_of, true = pd.Timestamp(records.as_of).as_unit("s"), truth.now(lift)
    begin = time.process_time()
    tapered = frozenset(test.date for test in truth.tests if test.days)
    have = ability.read(sets, lift, as_of=records.as_of, trade=TRADE, tapered=tapered)
    fact = ability.fact(have) if have else None
    row: Row = {"ms": 1000 * (time.process_time() - begin), "none": float(fact is None)}
    scored = bests.scoring(sets, (), as_of)
    now = bests.current(scored, sets, first=bests.since(as_of, 12), trade=TRADE)
    best = next((one.kg for one in now if one.lift == lift), None)
    if best is not None and abs(np.log(best / true)) < 0.15:
        row["best"] = np.log(best / true)
    tried = _tried(sets, lift, as_of)
    if tried is not None:
        row["tries"] = truth.chance(lift, tried)
    row |= _forms(sets, one, lift)
    if fact is None or have is None:
        return row
    moved = true - truth.now(lift, min(12, truth.weeks - 1))
    row |= {
        "error": np.log(fact.kg / true), "holds": float(fact.low <= true <= fact.high),
        "width": np.log(fact.high / fact.low), "sure": truth.chance(lift, fact.sure_kg),
        **_within(fact, moved),
    }  # fmt: skip
    row |= _trend(have, one, sets)
    return row | (_arrival(have, one, best) if alone and best is not None else {})


def _within(fact: AbilityFact, moved: float) -> Row:
    if fact.change_low is None or fact.change_high is None:
        return {}
    return {"change": float(fact.change_low <= moved <= fact.change_high)}


def _tried(sets: pd.DataFrame, lift: str, as_of: pd.Timestamp) -> float | None:
    """The sure weight as a rule of thumb: nine in ten made, of ten tries from 5 % under it up to it."""
    rows = sets.loc[(sets["lift"] == lift) & (sets["variant"] == "") & (sets["tried"] > 0)]
    rows = rows.loc[rows["date"] > as_of - pd.Timedelta(weeks=12)]
    found = None
    for kg in np.unique(rows.loc[rows["made_reps"] > 0, "load_kg"]):
        near = rows.loc[rows["load_kg"].between(0.95 * kg - 0.01, kg + 0.01), ["tried", "made_reps"]].sum()
        if near["tried"] >= 10 and near["made_reps"] >= 0.9 * near["tried"]:
            found = float(kg)
    return found


def _trend(have: ability.Ability, one: Simulated, sets: pd.DataFrame) -> Row:
    """Kilograms a month against the true ones of the same weeks; the slope of monthly singles beside."""
    truth, told = one.truth, dict[str, float]()
    weeks = have.draws.shape[1] - 1
    _, low, high = have.change(weeks)
    if low is not None and high is not None and weeks >= TRADE.value("ability_change_weeks"):
        moved = truth.now(have.lift) - truth.now(have.lift, min(weeks, truth.weeks - 1))
        told["trend"] = float(low <= moved <= high)
    heavy = sets.loc[(sets["lift"] == have.lift) & sets["single"] & (sets["made_reps"] > 0)]
    heavy = heavy.loc[heavy["counts"] & (heavy["share"] >= 0.92)].sort_values("load_kg")
    best = heavy.groupby(heavy["date"].dt.to_period("M"))[["date", "load_kg"]].last()
    if len(best) < 4:
        return told
    days = when.to_days(best["date"]).astype(np.float64)
    line = trend.theil_sen(days, best["load_kg"].to_numpy(dtype=np.float64), 0.95)
    last = pd.Timestamp(one.records.as_of)
    ends = [(last - best["date"].iloc[place]).days // 7 for place in (0, -1)]
    if line is not None and ends[0] > ends[1]:
        moved = (truth.now(have.lift, ends[1]) - truth.now(have.lift, ends[0])) / (days[-1] - days[0])
        told["line"] = float(line.low <= moved <= line.high)
    return told


def _arrival(have: ability.Ability, one: Simulated, best: float) -> Row:
    aim = one.records.lifter.goals[0]
    got = arrival.read((have,), aim.kg or 0, aim.by, present_kg=best, fresh=0.02, trade=TRADE)
    if got is None or aim.by is None or got.chance is None:
        return {}
    days = (got.early, got.late, one.truth.made)
    early, late, made = (float("inf") if day is None else float(day.toordinal()) for day in days)
    return {
        "arrival": float(early <= made <= late), "before": float(made < early), "after": float(made > late),
        "said": got.chance, "seen": float(made <= aim.by.toordinal()),
    }  # fmt: skip


def _forms(sets: pd.DataFrame, one: Simulated, lift: str) -> Row:
    """The forms of the lift's test days against the true ones."""
    days, sums = form.Forms(sets, lift, TRADE), np.zeros(4)
    for test in one.truth.tests:
        start = (test.date - pd.Timedelta(days=test.days)) if test.days else None
        got = days.of(test.date, start=start) if test.lift == lift else None
        if got is not None:
            off = got.share - float(np.expm1(test.form))
            held = got.low <= got.share - off <= got.high
            sums += (1, off, off * off, held)
    return dict(zip(("forms", "form off", "form square", "form held"), sums.tolist(), strict=True))


def _mean(frame: pd.DataFrame, name: str, under: float | None = None) -> float:
    if name not in frame or not frame[name].notna().any():
        return float("nan")
    told = frame[name].dropna()
    return float(told.mean() if under is None else (told < under).mean())


def _spread(frame: pd.DataFrame, name: str) -> str:
    if name not in frame:
        return "–"
    return f"{100 * float(np.sqrt((frame[name].dropna() ** 2).mean())):.2f}"


def _line(kind: str, frame: pd.DataFrame) -> str:
    mean = partial(_mean, frame)
    n = float(frame["forms"].sum())
    off, square, held = (frame[f"form {name}"].sum() / max(1.0, n) for name in ("off", "square", "held"))
    cells = [kind, str(len(frame)), f"{frame['none'].sum():.0f}", f"{100 * mean('error'):+.1f}"]
    cells += [_spread(frame, "error"), _spread(frame, "best")]
    cells += [f"{mean('holds'):.2f}", f"{100 * mean('width'):.1f}"]
    cells += [f"{mean(name, under):.2f}" for name in ("sure", "tries") for under in (None, 0.8)]
    cells += [f"{mean(name):.2f}" for name in ("change", "trend", "line", "arrival")]
    cells += [f"{mean('before'):.2f}, {mean('after'):.2f}", f"{mean('said'):.2f}, {mean('seen'):.2f}"]
    cells += [f"{n:.0f}", f"{100 * off:+.1f}", f"{100 * float(np.sqrt(square)):.1f}", f"{held:.2f}"]
    cells += [f"{mean('ms'):.0f}"]
    return f"| {' | '.join(cell if cell != 'nan' else '–' for cell in cells)} |"


def table(people: Iterable[Simulated]) -> None:
    """Print one line a kind, and one for all."""
    by: dict[str, list[Row]] = defaultdict(list)
    for one in people:
        by[one.truth.kind] += read(one)
    print(f"| {' | '.join(COLUMNS)} |")
    print("|---" * len(COLUMNS) + "|")
    for kind, rows in by.items():
        print(_line(kind, pd.DataFrame(rows)))
    whole = pd.DataFrame([row for rows in by.values() for row in rows])
    print(_line("all", whole))
    if "said" in whole:
        _chances(whole)


def _chances(whole: pd.DataFrame) -> None:
    """The chance of the goal by its day: said against seen, by tenths that hold anybody."""
    told = whole.dropna(subset=["said"])
    for low in (0.0, 0.2, 0.4, 0.6, 0.8):
        part = told.loc[(told["said"] >= low) & (told["said"] < low + 0.2 + (low == 0.8))]
        if len(part):
            print(f"goal's chance {low:.1f} to {low + 0.2:.1f}: {len(part)}, said {part['said'].mean():.2f}, "
                  f"seen {part['seen'].mean():.2f}")  # fmt: skip
