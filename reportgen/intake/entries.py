"""The shapes of lifter.toml and squad.toml, checked by pydantic. Imported only when such a file is read."""

import datetime as dt
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, StrictBool

from reportgen.intake.bounds import FIRST_YEAR, LAST_YEAR
from reportgen.trade import load

_MOST_KG = load().value("load_max_kg")
_Kg = Annotated[float, Field(strict=True, gt=0, le=_MOST_KG)]
_Lb = Annotated[float, Field(strict=True, gt=0, le=_MOST_KG / load().value("pound"))]
_Share = Annotated[float, Field(strict=True, gt=0, le=5)]
_PRINTED = r"^[^\x00-\x1f\x7f]*$"
_Words = Annotated[str, Field(strict=True, min_length=1, max_length=200, pattern=_PRINTED)]
_Date = Annotated[dt.date, Field(strict=True, ge=dt.date(FIRST_YEAR, 1, 1), le=dt.date(LAST_YEAR, 12, 31))]


class _Entry(BaseModel):
    model_config = ConfigDict(extra="ignore", str_strip_whitespace=True, allow_inf_nan=False)


class Head(_Entry):
    """The keys at the top of lifter.toml, all but `standards` with a default."""

    name: _Words | None = None
    standards: Literal["women", "men"] | None = None
    born: Annotated[int, Field(strict=True, ge=FIRST_YEAR, le=LAST_YEAR)] | None = None
    unit: Literal["kg", "lb"] | None = None
    weeks_current: Annotated[int, Field(strict=True, ge=1, le=520)] = 12
    supervised: StrictBool = False
    accepted: list[_Words] = []
    confirmed: list[_Words] = []
    date_format: _Words | None = None
    first_week: _Date | None = None
    test_day: _Date | None = None


class GoalEntry(_Entry):
    """One [[goal]]."""

    lift: _Words
    kg: _Kg | None = None
    lb: _Lb | None = None
    times_body_mass: Annotated[float, Field(strict=True, gt=0, le=10)] | None = None
    by: _Date | None = None


class BestEntry(_Entry):
    """One [[best]]."""

    lift: _Words
    kg: _Kg | None = None
    lb: _Lb | None = None
    date: _Date
    where: Literal["contest", "training"] = "training"


class BandEntry(_Entry):
    """One [bands.<indicator>]."""

    low: _Share | None = None
    high: _Share | None = None


class SourceEntry(_Entry):
    """One [sources."file"]."""

    layout: Literal["rows", "by lift", "weeks", "form", "diary"] | None = None
    order: (
        Annotated[str, Field(strict=True, pattern=r"^(load|reps|sets)( (load|reps|sets)){1,2}$")] | None
    ) = None
    miss: list[Literal["x", "f", "n", "m", "-", "()"]] = []
    made: list[Literal["x", "f", "n", "m", "-", "()"]] = []
    comma: Literal["decimal", "list"] | None = None
    year: Annotated[int, Field(strict=True, ge=FIRST_YEAR, le=LAST_YEAR)] | None = None
    days: list[_Words] = []
    turned: StrictBool | None = None
    bar: Annotated[float, Field(strict=True, gt=0, le=100)] | None = None


class SquadEntry(_Entry):
    """squad.toml."""

    coach: Annotated[str, Field(strict=True, max_length=200, pattern=_PRINTED)] = ""
    theme: Annotated[str, Field(strict=True, max_length=200, pattern=_PRINTED)] = ""
    remark: Annotated[str, Field(strict=True, max_length=500, pattern=_PRINTED)] = ""
    unit: Literal["kg", "lb"] = "kg"
