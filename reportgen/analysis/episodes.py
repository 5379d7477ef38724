"""Episodes of pain, and what the two weeks before each held against the usual."""

from collections import defaultdict
from dataclasses import replace
from typing import Any, Final

import pandas as pd

from reportgen.analysis import pain, spans
from reportgen.model.findings import Alike, Before, EpisodeFact
from reportgen.model.records import Records
from reportgen.trade.schema import Trade

_NONE: Final = Before(load=None, sessions=None, stopped=None)
#: The gravest first.
_KINDS: Final = ("injury", "locking", "numb", "sharp", "ache")


def read(records: Records, sets: pd.DataFrame, trade: Trade) -> tuple[EpisodeFact, ...]:
    """Every episode, newest start last.

    Returns:
        None of a figure where less than four weeks of log lie before the two weeks.
    """
    done = sets.loc[sets["tried"] > 0, ["date", "session_id"]]
    daily = spans.tonnage(sets)
    sessions = done.groupby("date")["session_id"].nunique()
    found: dict[str, list[EpisodeFact]] = defaultdict(list)
    for one in pain.episodes(records, trade):
        fact = _fact(one, trade)
        before = _before(fact, daily, sessions, records.mobility, trade)
        found[fact.place.casefold()].append(replace(fact, before=before))
    every = [one for same in found.values() for one in _alike(same, trade)]
    return tuple(sorted(every, key=lambda one: (one.start, one.place)))


def _fact(one: pain.Episode, trade: Trade) -> EpisodeFact:
    kinds = set(one.rows["kind"])
    worst = one.rows["score"].max()
    return EpisodeFact(
        place=str(one.rows["place"].iloc[0]),
        start=one.start,
        settled=one.settled,
        worst=None if pd.isna(worst) else float(worst),
        kind=next((kind for kind in _KINDS if kind in kinds), ""),
        open=one.settled is None,
        lifts=one.lifts(trade),
        before=_NONE,
        file=str(one.rows["file"].iloc[0]),
        lines=tuple(int(line) for line in one.rows["line"]),
    )


def _before(
    fact: EpisodeFact, daily: pd.DataFrame, sessions: pd.Series, mobility: pd.DataFrame, trade: Trade
) -> Before:
    """The two weeks before the start as shares of the usual two weeks before them."""
    held = spans.spans(pd.Timestamp(fact.start), trade.value("pain_before_days"), daily["date"].min(), trade)
    if held is None:
        return _NONE
    mine = daily.loc[daily["lift"].isin(fact.lifts)]
    areas, kept = held.sides(mobility.loc[mobility["minutes"] > 0], "area")
    then, now = held.sides(mine, "lift")
    return Before(
        load=held.share(mine.groupby("date")["kg"].sum()),
        sessions=held.share(sessions),
        stopped=tuple(sorted(areas - kept)),
        new_lifts=tuple(sorted(now - then)),
        left_lifts=tuple(sorted(then - now)) if now else (),
    )


def _alike(same: list[EpisodeFact], trade: Trade) -> list[EpisodeFact]:
    """The episodes of one place, each with how often its signs came before the others, too."""
    known = [one for one in same if one.before.stopped is not None]
    if len(known) < trade.value("pain_alike_least"):
        return same
    signs = {one.start: _signs(one.before, trade) for one in known}
    return [
        replace(
            one,
            alike=tuple(
                Alike(sign=sign, times=sum(sign in mine for mine in signs.values()), of=len(known))
                for sign in signs.get(one.start, ())
            ),
        )
        for one in same
    ]


def _signs(before: Before, trade: Trade) -> tuple[Any, ...]:
    more = 1 + trade.value("pain_more_share")
    said = {
        "more load": before.load is not None and before.load >= more,
        "more sessions": before.sessions is not None and before.sessions >= more,
        "work stopped": bool(before.stopped),
        "new lift": bool(before.new_lifts),
    }
    return tuple(sign for sign, true in said.items() if true)
