"""Planned against done, by week: sessions kept, sets done, and how far the loads lay from the plan."""

import pandas as pd

from reportgen.model.proposal import PlannedDone, PlannedWeek

#: A planned line is met by sets of the same lift, variant and complex in the same week, on any day of it.
_KEY = ["week", "what"]


def compare(plan: pd.DataFrame, sets: pd.DataFrame, as_of: pd.Timestamp) -> PlannedDone | None:
    """Compare plan.csv with training.csv.

    Args:
        plan: The planned sets, columns `model.tables.SETS`; unchanged.
        sets: Prepared sets up to as_of.
        as_of: Review day; what is planned later is not missed yet.

    Returns:
        A week for every ISO week with planned sets up to as_of; None without any (a missing plan is no
        fault). `load_off` is the mean distance of the done loads from the planned ones as a share of
        these, over the sets done; None where none was done.
    """
    due = plan.loc[plan["date"] <= as_of]
    if due.empty:
        return None
    due = due.assign(week=_monday(due["date"]))
    done = sets.loc[(sets["kind"] == "training") & sets["week"].isin(due["week"])]
    wanted, found = _lines(due), _lines(done)
    both = wanted.join(found.add_suffix("_done"), how="left")
    both["met"] = both["sets_done"].fillna(0.0).clip(upper=both["sets"])
    both["off"] = (both["kg_done"] / both["kg"] - 1).abs() * both["met"]
    weekly = both.groupby(level="week")[["sets", "met", "off"]].sum()
    sessions = due.groupby("week")[["date", "session"]].apply(lambda rows: len(rows.drop_duplicates()))
    trained = done.groupby("week")["session_id"].nunique().reindex(weekly.index).fillna(0)
    return PlannedDone(
        weeks=tuple(
            PlannedWeek(
                week=week.strftime("%G-W%V"),
                sessions_planned=int(sessions[week]),
                sessions_done=int(trained[week]),
                sets_planned=int(row["sets"]),
                sets_done=int(row["met"]),
                load_off=float(row["off"] / row["met"]) if row["met"] else None,
            )
            for week, row in weekly.iterrows()
            if isinstance(week, pd.Timestamp)
        )
    )


def _monday(dates: pd.Series) -> pd.Series:
    monday: pd.Series = dates - pd.to_timedelta(dates.dt.day_of_week, unit="D")
    return monday


def _lines(rows: pd.DataFrame) -> pd.DataFrame:
    """Sets and their mean load by week and by what was lifted; a complex is one line."""
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
    whole["lifted"] = whole["kg"] * whole["sets"]
    table = whole.groupby(_KEY)[["sets", "lifted"]].sum()
    table["kg"] = table["lifted"] / table["sets"]
    return table[["sets", "kg"]]
