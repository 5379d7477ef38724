"""Pain: episodes by place; what is open stops proposals, what is settled is shown and stops nothing.

No diagnosis: an open place means that a clinician sees it before it is loaded. What was written down after
the last session counts as well: who is hurt stops, and logs it.
"""

import datetime as dt

import pandas as pd

from reportgen.analysis import when
from reportgen.analysis.readings import known
from reportgen.analysis.when import stamp
from reportgen.model.findings import PainFact, PainReading
from reportgen.model.records import Records
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade.places import loading
from reportgen.trade.schema import Trade
from reportgen.trade.words import fold

#: Kinds of pain.csv after which nothing at all is proposed.
STOP = ("numb", "locking", "injury")


@dataclass(frozen=True, slots=True, kw_only=True)
class Episode:
    """Rows of one place from a start until it settled; `settled` is None while one of them is open."""

    rows: pd.DataFrame
    settled: dt.date | None

    @property
    def start(self) -> dt.date:
        """Its first day."""
        day: dt.date = self.rows["date"].min().date()
        return day

    def lifts(self, trade: Trade) -> tuple[str, ...]:
        """The lifts that load the place."""
        hurt = {
            lift
            for place, during in zip(self.rows["place"], self.rows["lift"], strict=True)
            for lift in loading(str(place), str(during), trade)
        }
        return tuple(name for name in trade.lifts if name in hurt)


def episodes(records: Records, trade: Trade) -> tuple[Episode, ...]:
    """Every episode that was known on the review day, by place and start.

    Args:
        records: Pain and the review day; later rows count unless the day was asked for.
        trade: `pain_again_days`: pain that is back so soon had not settled.
    """
    as_of = stamp(records.as_of)
    table = when.known(records, records.pain).sort_values(
        ["date", "file", "line"], kind="stable", ignore_index=True
    )
    again = pd.Timedelta(days=int(trade.value("pain_again_days")))
    found: list[Episode] = []
    for _, rows in table.groupby(table["place"].map(fold), sort=True):
        runs: list[list[int]] = []
        over: pd.Timestamp | None = None  # None: a row of the run is open
        for place, day, settled in zip(rows.index, rows["date"], rows["settled"], strict=True):
            if not runs or (over is not None and day > over + again):
                runs.append([])
                over = settled
            over = None if over is None or pd.isna(settled) else max(over, settled)
            runs[-1].append(place)
        found += [_episode(rows.loc[run], as_of) for run in runs]
    return tuple(found)


def _episode(rows: pd.DataFrame, as_of: pd.Timestamp) -> Episode:
    """A row without a settled day, or with one after the review day, keeps its episode open."""
    still = bool((rows["settled"].isna() | (rows["settled"] > as_of)).any())
    return Episode(rows=rows, settled=None if still else rows["settled"].max().date())


def read(records: Records, trade: Trade) -> PainReading | None:
    """Read pain.csv.

    Returns:
        Places, each by its newest episode, with what they stop; None without a row.
    """
    every = episodes(records, trade)
    if not every:
        return None
    newest = {fold(str(one.rows["place"].iloc[0])): one for one in every}
    places = [_place(one, stamp(records.as_of)) for one in newest.values()]
    places.sort(key=lambda fact: (not fact.open, fact.first, fact.place))
    still = [one for one in every if one.settled is None]
    hurt = {lift for one in still for lift in one.lifts(trade)}
    stopped = any(one.rows["kind"].isin(STOP).any() for one in still)
    return PainReading(
        places=tuple(places),
        nothing_proposed=stopped,
        lifts=tuple(name for name in trade.lifts if name in hurt),
        cautions=_cautions([fact for fact in places if fact.open], stopped),
    )


def _place(one: Episode, as_of: pd.Timestamp) -> PainFact:
    """One place: the newest open row speaks for it, else the newest of all."""
    rows = one.rows
    still = rows.loc[rows["settled"].isna() | (rows["settled"] > as_of)]
    newest = (still if len(still) else rows).iloc[-1]
    return PainFact(
        place=str(newest["place"]),
        lift=str(newest["lift"]),
        score=known(newest["score"]),
        kind=str(newest["kind"]),
        first=one.start,
        last=rows["date"].max().date(),
        settled=one.settled,
        open=one.settled is None,
        lines=tuple(int(line) for line in rows["line"]),
    )


def _cautions(hurting: list[PainFact], stopped: bool) -> tuple[Say, ...]:
    places = tuple(fact.place for fact in hurting)
    return (say(f"doubts.caution.place_{'stop' if stopped else 'open'}", places=places),) if places else ()
