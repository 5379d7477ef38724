"""A day in its three forms: a date in facts, a stamp in frames, a number of days since 1970 in arrays."""

import datetime as dt
from typing import Any, Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.model.records import Records

_EPOCH: Final = dt.date(1970, 1, 1).toordinal()


def stamp(date: dt.date) -> pd.Timestamp:
    """A date as a frame has it."""
    return pd.Timestamp(date).as_unit("s")


def day(value: Any) -> dt.date:
    """A date column's value as a plain date."""
    found: dt.date = pd.Timestamp(value).date()
    return found


def number_of(date: dt.date) -> int:
    """Days since 1970 of a date."""
    return date.toordinal() - _EPOCH


def date_of(number: int) -> dt.date:
    """The date of a number of days since 1970."""
    return dt.date.fromordinal(int(number) + _EPOCH)


def to_days(dates: pd.Series) -> NDArray[np.int64]:
    """Days since 1970 of a date column."""
    days: NDArray[np.int64] = dates.to_numpy().astype("datetime64[D]").astype(np.int64)
    return days


def mondays(dates: pd.Series) -> pd.Series:
    """The Monday of each day's ISO week."""
    found: pd.Series = dates - pd.to_timedelta(dates.dt.day_of_week, unit="D")
    return found


def upto(table: pd.DataFrame, date: dt.date) -> pd.DataFrame:
    """The rows of a table up to a day."""
    return table.loc[table["date"] <= stamp(date)] if len(table) else table


def known(records: Records, table: pd.DataFrame, column: str = "date") -> pd.DataFrame:
    """Rows that were known on the review day: all of them, unless the day was asked for."""
    if not records.asked or table.empty:
        return table
    return table.loc[table[column].isna() | (table[column] <= stamp(records.as_of))]
