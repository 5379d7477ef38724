"""Planned against done, by week: sessions kept, sets done, and how far the loads lay from the plan."""

from typing import Any

import pandas as pd

from reportgen.analysis.frames import each
from reportgen.analysis.when import day, mondays
from reportgen.model.proposal import PlannedDone, PlannedWeek, Skipped
from reportgen.trade.schema import Trade

_KEY = ["week", "what"]


def compare(plan: pd.DataFrame, sets: pd.DataFrame, as_of: pd.Timestamp, trade: Trade) -> PlannedDone | None:
    """Compare plan.csv with training.csv.

    Args:
        plan: The planned sets, columns `model.tables.SETS`; unchanged.
        sets: Prepared sets up to as_of.
        as_of: Review day; what is planned later is not missed yet.
        trade: Rules.

    Returns:
        A week for every ISO week with planned sets up to as_of; None without any (a missing plan is no
        fault). A planned line is met by sets of the same lift, variant and complex on any day of its week;
        where more of them were done, by the heaviest: the others are the way up to them.
    """
    due = plan.loc[plan["date"] <= as_of]
    if due.empty:
        return None
    due = due.assign(week=mondays(due["date"]))
    done = sets.loc[sets["week"].isin(due["week"])]
    wanted = _lines(due)
    found = _lines(done, wanted["sets"])
    both = wanted.join(found.add_suffix("_done"), how="left")
    both["met"] = both["sets_done"].fillna(0.0).clip(upper=both["sets"])
    both["off"] = (both["kg_done"] / both["kg"] - 1) * both["met"]
    both["apart"] = both["off"].abs()
    weekly = both.groupby(level="week")[["sets", "met", "off", "apart"]].sum()
    weekly["lifted"] = found["sets"].groupby(level="week").sum()
    return PlannedDone(
        weeks=tuple(_week(row, due, done) for row in each(weekly.fillna(0.0).reset_index())),
        skipped=_skipped(due.loc[due["week"] + pd.Timedelta(days=6) <= as_of], done, trade),
    )


def _skipped(due: pd.DataFrame, done: pd.DataFrame, trade: Trade) -> tuple[Skipped, ...]:
    """Lifts that are skipped far more often than the rest: planned days less days on which they were done.

    A lift that was done on another day of its week was not skipped.
    """
    planned, kept = (rows.groupby(["week", "lift"])["date"].nunique() for rows in (due, done))
    missed = (planned - kept.reindex(planned.index).fillna(0)).clip(lower=0)
    table = pd.DataFrame({"planned": planned, "skipped": missed}).groupby(level="lift").sum().astype(int)
    total = table.sum()
    return tuple(
        Skipped(
            lift=row.lift,
            planned=row.planned,
            skipped=row.skipped,
            rest_planned=int(total["planned"]) - row.planned,
            rest_skipped=int(total["skipped"]) - row.skipped,
        )
        for row in each(table.reset_index())
        if row.skipped >= trade.value("skip_least")
        and total["planned"] > row.planned
        and row.skipped / row.planned
        >= trade.value("skip_times") * (total["skipped"] - row.skipped) / (total["planned"] - row.planned)
    )


def _week(row: Any, due: pd.DataFrame, done: pd.DataFrame) -> PlannedWeek:
    """One week: sessions kept on their day or on another one of the week, sets met by the same lift."""
    planned = due.loc[due["week"] == row.week, ["date", "session"]].drop_duplicates()
    trained = done.loc[done["week"] == row.week]
    count = int(trained["session_id"].nunique())
    kept = min(len(planned), count)
    on_their_day = int(planned["date"].isin(trained["date"]).sum())
    return PlannedWeek(
        week=row.week.strftime("%G-W%V"),
        sessions_planned=len(planned),
        sessions_done=kept,
        sets_planned=int(row.sets),
        sets_done=int(row.met),
        load_off=float(row.off / row.met) if row.met else None,
        start=day(row.week),
        load_apart=float(row.apart / row.met) if row.met else None,
        sessions_moved=max(0, kept - on_their_day),
        sessions_extra=max(0, count - len(planned)),
        sets_extra=max(0, int(row.lifted - row.met)),
    )


def _lines(rows: pd.DataFrame, most: pd.Series | None = None) -> pd.DataFrame:
    """Sets and their mean load by week and by what was lifted; a complex is one line.

    Args:
        rows: Planned or done, with their week.
        most: So many sets of each week and line are weighed, the heaviest; all of them where None.
    """
    if rows.empty:
        index = pd.MultiIndex.from_arrays([rows["week"], rows["lift"]], names=_KEY)
        return pd.DataFrame(
            {"sets": pd.Series(dtype="float64"), "kg": pd.Series(dtype="float64")}, index=index
        )
    whole = rows.groupby(["file", "line"], sort=False).agg(
        week=("week", "first"),
        lifts=("lift", " + ".join),
        variant=("variant", "first"),
        sets=("sets", "first"),
        kg=("load_kg", "first"),
    )
    whole["what"] = whole["lifts"] + " / " + whole["variant"]
    whole = whole.sort_values("kg", ascending=False, kind="stable")
    whole["weighed"] = whole["sets"]
    if most is not None:
        heavier = whole.groupby(_KEY)["sets"].cumsum() - whole["sets"]
        wanted = most.reindex(pd.MultiIndex.from_frame(whole[_KEY])).fillna(0.0).set_axis(whole.index)
        whole["weighed"] = (wanted - heavier).clip(lower=0.0, upper=whole["sets"])
    whole["lifted"] = whole["kg"] * whole["weighed"]
    table = whole.groupby(_KEY)[["sets", "weighed", "lifted"]].sum()
    table["kg"] = table["lifted"] / table["weighed"]
    return table[["sets", "kg"]]
