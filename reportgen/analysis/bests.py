"""What the lifter can do: bests of one to ten, the current single, the stale one, the running best."""

from typing import Any

import pandas as pd

from reportgen.analysis.frames import each, plain
from reportgen.analysis.when import day
from reportgen.model.facts import BestFact, CurrentFact, RepMaxFact
from reportgen.model.lifter import LIFTER_TOML, PriorBest
from reportgen.trade import formulas
from reportgen.trade.schema import Trade


def scoring(sets: pd.DataFrame, bests: tuple[PriorBest, ...], as_of: pd.Timestamp) -> pd.DataFrame:
    """All rows that can make a best, heaviest first within a lift; bests from before the log are rows too.

    Returns:
        lift, load_kg, made, date, kind, complex, aid, file, line; by lift, load (falling), date, plain
        sets before complexes.
    """
    rows = sets.loc[
        sets["counts"] & (sets["made"] > 0),
        ["lift", "load_kg", "made", "date", "kind", "parts", "file", "line"],
    ]
    prior = [b for b in bests if pd.Timestamp(b.date) <= as_of]
    if prior:
        extra = pd.DataFrame(
            {
                "lift": [b.lift for b in prior],
                "load_kg": [b.kg for b in prior],
                "made": 1,
                "date": pd.to_datetime([b.date for b in prior]).astype(sets["date"].dtype),
                "kind": [b.where for b in prior],
                "parts": 1,
                "file": LIFTER_TOML,
                "line": 0,
            }
        )
        rows = pd.concat([rows, extra], ignore_index=True) if len(rows) else extra
    rows = rows.assign(complex=rows["parts"] > 1, less=-rows["load_kg"]).drop(columns="parts")
    by = ["lift", "less", "date", "complex", "file", "line"]
    return rows.sort_values(by, ignore_index=True).drop(columns="less")


def all_time(rows: pd.DataFrame, most_reps: int) -> tuple[BestFact, ...]:
    """The heaviest load of each lift with at least 1 .. `most_reps` made repetitions in one set."""
    # The rows of a lift fall in load: one is a best of the repetitions that no heavier one had.
    known, found = dict[str, int](), list[tuple[int, range]]()
    for place, (lift, made) in enumerate(zip(rows["lift"].tolist(), rows["made"].tolist(), strict=True)):
        if made > known.get(lift, 0):
            found.append((place, range(known.get(lift, 0) + 1, min(made, most_reps) + 1)))
            known[lift] = made
    best = each(rows.iloc[[place for place, _ in found]])
    return tuple(_best(row, one) for row, (_, reps) in zip(best, found, strict=True) for one in reps)


def apart(rows: pd.DataFrame) -> tuple[BestFact, ...]:
    """The best single of each lift in contests, on test days and in training, shown apart."""
    return tuple(_best(row, 1) for row in each(rows.drop_duplicates(["lift", "kind"])))


def _best(row: Any, reps: int) -> BestFact:
    return BestFact(
        lift=row.lift,
        reps=reps,
        kg=float(row.load_kg),
        date=day(row.date),
        where=row.kind,
        complex=bool(row.complex),
        file=row.file,
        line=int(row.line),
    )


def gained(rows: pd.DataFrame, when: pd.Timestamp) -> float | None:
    """What a lift's best rose after a day [kg]; 0 where it did not, None where one side is not known."""
    after = rows["date"] > when
    if not after.any() or after.all():
        return None
    return max(0.0, float(rows.loc[after, "load_kg"].max() - rows.loc[~after, "load_kg"].max()))


def since(as_of: pd.Timestamp, weeks_current: int) -> pd.Timestamp:
    """First day that counts as current."""
    return as_of - pd.Timedelta(days=7 * weeks_current)


def current(
    rows: pd.DataFrame, sets: pd.DataFrame, *, first: pd.Timestamp, trade: Trade
) -> tuple[CurrentFact, ...]:
    """The current single of each lift, else the last one from before.

    Returns:
        One fact a lift that was ever made, by name.
    """
    thin = rows[["lift", "load_kg", "date"]]
    now, ever = (
        {lift: (kg, date.date()) for lift, kg, date in plain(some.drop_duplicates("lift"))}
        for some in (thin.loc[thin["date"] >= first], thin)
    )
    asked = (sets["date"] >= first) & (sets["made"] > 0) & (sets["variant"] == "")
    fresh = sets.loc[asked, ["lift", "load_kg", "made", "aid"]]
    straps = fresh.loc[fresh["aid"].str.contains("strap", regex=False)].groupby("lift")["load_kg"].max()
    estimates = _estimates(fresh, trade)
    return tuple(
        CurrentFact(
            lift=lift,
            kg=now[lift][0] if lift in now else None,
            date=now[lift][1] if lift in now else None,
            stale_kg=None if lift in now else ever[lift][0],
            stale_date=None if lift in now else ever[lift][1],
            with_straps_kg=float(straps[lift]) if lift in straps.index else None,
            estimated_kg=estimates.get(lift),
        )
        for lift in sorted(ever)
    )


def _estimates(fresh: pd.DataFrame, trade: Trade) -> dict[str, float]:
    """Estimated singles of squats and presses from sets of 2 to 10 (Epley); never of a classic lift."""
    most = int(trade.value("estimate_most_reps"))
    lifts = [name for name, lift in trade.lifts.items() if lift.estimable]
    rows = fresh.loc[fresh["lift"].isin(lifts) & fresh["made"].between(2, most) & (fresh["aid"] == "")]
    estimate = formulas.epley(rows["load_kg"], rows["made"], trade)
    return {str(lift): float(kg) for lift, kg in estimate.groupby(rows["lift"]).max().items()}


def rep_maxes(
    rows: pd.DataFrame, lifts: tuple[str, ...], *, first: pd.Timestamp, trade: Trade
) -> tuple[RepMaxFact, ...]:
    """Current doubles and triples of the goal lifts and the single they imply at the upper factor.

    A transfer gap is named only where even the upper factor implies the short tolerance (2.5 %) over the
    single; else it is 0. None where there is no current single.
    """
    now = rows.loc[rows["date"] >= first]
    found: list[RepMaxFact] = []
    for lift in lifts:
        mine = now.loc[now["lift"] == lift]
        if mine.empty:
            continue
        single = float(mine["load_kg"].iloc[0])
        for reps, name in ((2, "double"), (3, "triple")):
            best = mine.loc[mine["made"] >= reps]
            if best.empty:
                continue
            kg = float(best["load_kg"].iloc[0])
            implied = kg / trade.value(f"{name}_share_high")
            named = implied >= single * (1 + trade.value("short_tolerance"))
            found.append(
                RepMaxFact(
                    lift=lift,
                    reps=reps,
                    kg=kg,
                    date=day(best["date"].iloc[0]),
                    implied_single_kg=implied,
                    single_kg=single,
                    transfer_gap_kg=implied - single if named else 0.0,
                    implied_single_high_kg=kg / trade.value(f"{name}_share_low"),
                )
            )
    return tuple(found)


def running(rows: pd.DataFrame, lifts: tuple[str, ...]) -> pd.DataFrame:
    """The days that raised the best of a lift: date, lift, kg, kind; by lift and date."""
    mine = rows.loc[rows["lift"].isin(lifts)].sort_values(["lift", "date", "load_kg"], kind="stable")
    daily = mine.drop_duplicates(["lift", "date"], keep="last")
    best, raised = dict[str, float](), list[bool]()
    for lift, kg in plain(daily[["lift", "load_kg"]]):
        raised.append(kg > best.get(lift, -1.0))
        best[lift] = max(kg, best.get(lift, kg))
    found = daily.loc[raised, ["date", "lift", "load_kg", "kind"]]
    return found.rename(columns={"load_kg": "kg"}).reset_index(drop=True)
