"""A log of which much could not be read says nothing that is counted in it."""

import datetime as dt
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from reportgen.analysis import trust
from reportgen.analysis.needs import telling
from reportgen.model import doubts
from reportgen.model.doubts import EVERYTHING, Unsure
from reportgen.trade import load
from reportgen.words import said
from tests.trust.logs import HEAD, TOML, read

LAST = dt.date(2026, 6, 1)


def log(lost: int, done: int = 6, *, back: int = 0, name: str = "") -> str:
    """Rows of a log: some that can be read up to the last day, and some that can not, `back` days before."""
    who = f",{name}" if name else ""
    rows = [f"{LAST - dt.timedelta(days=n)},snatch,50,2{',Runa Velde' if name else ''}" for n in range(done)]
    rows += [f"{LAST - dt.timedelta(days=n + back)},snatch,heavy,2{who}" for n in range(lost)]
    return "\n".join(sorted(rows)) + "\n"


def unread(folder: Path, rows: str, toml: str = TOML, head: str = HEAD) -> list[Unsure]:
    records = read(folder, head + rows, toml).records
    assert records is not None
    return [one for one in trust.unsure(records, load()) if one.reason == "unread"]


def test_a_proposal_stops_where_over_a_third_of_the_last_rows_could_not_be_read(tmp_path: Path) -> None:
    found = unread(tmp_path, log(4))
    assert [one.stops for one in found] == [(EVERYTHING,)]
    assert "4 of 10 rows of the last 84 days in training.csv could not be read" in said(doubts.said(found[0]))


@pytest.mark.parametrize(("lost", "back"), [(3, 0), (20, 100), (0, 0)])
def test_few_rows_or_rows_of_long_ago_stop_nothing(lost: int, back: int, tmp_path: Path) -> None:
    assert unread(tmp_path, log(lost, back=back)) == []


def test_rows_of_other_lifters_are_none_that_could_not_be_read(tmp_path: Path) -> None:
    rows = log(10, name="Odd Sunde").replace("heavy", "60")
    assert unread(tmp_path, rows, head="date,lift,kg,reps,name\n") == []


def test_a_coach_lets_it_stand(tmp_path: Path) -> None:
    toml = TOML.replace("[[goal]]", 'confirmed = ["training.csv"]\n[[goal]]')
    assert unread(tmp_path, log(4), toml) == []


@pytest.mark.parametrize(
    ("source", "thin", "label"), [("log", True, "low"), ("log", False, "high"), ("misses", True, "high")]
)
def test_what_is_counted_in_such_a_log_is_told_as_low_whatever_its_chance(
    source: str, thin: bool, label: str
) -> None:
    given: Any = SimpleNamespace(value=load().value, thin=thin, trade=load())
    one: Any = SimpleNamespace(chance=0.97, named=SimpleNamespace(source=source, key="often", values={}))
    assert telling.label(given, one) == label
