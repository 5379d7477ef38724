"""Pain: what is open stops proposals, what is settled is shown and stops nothing; youth.

No diagnosis: an open place means that a clinician sees it before it is loaded.
"""

import datetime as dt

import pandas as pd

from reportgen.analysis.readings import known
from reportgen.model.findings import PainFact, PainReading
from reportgen.model.records import Records
from reportgen.trade.claims import claims
from reportgen.trade.places import loading
from reportgen.trade.schema import Trade

#: Kinds of pain.csv after which nothing at all is proposed.
STOP = ("numb", "locking", "injury")


def read(records: Records, trade: Trade) -> PainReading | None:
    """Read pain.csv up to as_of.

    Args:
        records: Pain and the review day.
        trade: Lifts.

    Returns:
        Places with what they stop; None without a row.
    """
    table = records.pain
    as_of = pd.Timestamp(records.as_of)
    table = table.loc[table["date"] <= as_of].sort_values(["date", "file", "line"], kind="stable")
    if table.empty:
        return None
    still = table["settled"].isna() | (table["settled"] > as_of)
    # A place is open while any of its rows is: a settled row settles itself, not the others.
    places = [_place(str(name), rows, still.loc[rows.index]) for name, rows in table.groupby("place")]
    places.sort(key=lambda fact: (not fact.open, fact.first, fact.place))
    open_rows = table.loc[still]
    hurt = {
        lift
        for cells in open_rows[["place", "lift"]].to_dict("records")
        for lift in loading(str(cells["place"]), str(cells["lift"]), trade)
    }
    stopped = bool(open_rows["kind"].isin(STOP).any())
    return PainReading(
        places=tuple(places),
        nothing_proposed=stopped,
        lifts=tuple(name for name in trade.lifts if name in hurt),
        cautions=_cautions([fact for fact in places if fact.open], stopped),
    )


def _place(name: str, rows: pd.DataFrame, still: pd.Series) -> PainFact:
    """One place: the newest open row speaks for it, else the newest of all."""
    is_open = bool(still.any())
    newest = (rows.loc[still] if is_open else rows).iloc[-1]
    settled = None if is_open else rows["settled"].max().date()
    return PainFact(
        place=name,
        lift=str(newest["lift"]),
        score=known(newest["score"]),
        kind=str(newest["kind"]),
        first=rows["date"].min().date(),
        last=rows["date"].max().date(),
        settled=settled,
        open=is_open,
        lines=tuple(int(line) for line in rows["line"]),
    )


def _cautions(hurting: list[PainFact], stopped: bool) -> tuple[str, ...]:
    if not hurting:
        return ()
    words = claims().cautions
    said = words["pain_stop"] if stopped else words["pain_open"]
    return (said.format(places=", ".join(fact.place for fact in hurting)),)


def is_youth(born: int | None, as_of: dt.date, trade: Trade) -> bool:
    """Whether somebody may be under 18 on a day; only the year is known, so the careful answer is given."""
    return born is not None and as_of.year - born <= trade.value("youth_age")


def heavy_singles_allowed(records: Records, trade: Trade) -> bool:
    """Whether singles at 90 % and over may be asked of this lifter.

    Under 18 only with `supervised = true` and a year of log.

    References:
        Faigenbaum et al. 2009 and Lloyd et al. 2014 on qualified supervision and technique before load.
    """
    if not is_youth(records.lifter.born, records.as_of, trade):
        return True
    dates = records.sets.loc[records.sets["date"] <= pd.Timestamp(records.as_of), "date"]
    long = len(dates) > 0 and (pd.Timestamp(records.as_of) - dates.min()).days >= trade.value(
        "youth_log_days"
    )
    return records.lifter.supervised and long
