"""The shapes of lifter.toml and squad.toml, checked by pydantic. Imported only when such a file is read.

What is expected of a key stands in the messages under [want.TABLE]; a field's default is the model's.
"""

import datetime as dt
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, StrictBool

from reportgen.intake.bounds import FIRST_YEAR, LAST_YEAR
from reportgen.trade import load

_MOST_KG = load().value("load_max_kg")
_Kg = Annotated[float, Field(strict=True, gt=0, le=_MOST_KG)]
_Lb = Annotated[float, Field(strict=True, gt=0, le=_MOST_KG / load().value("pound"))]
_Share = Annotated[float, Field(strict=True, gt=0, le=5)]
_PRINTED = r"^[^\x00-\x1f\x7f]*$"
_Words = Annotated[str, Field(strict=True, min_length=1, max_length=200, pattern=_PRINTED)]
_Told = Annotated[str, Field(strict=True, max_length=500, pattern=_PRINTED)]
_Line = Annotated[_Told, Field(max_length=200)]
_Date = Annotated[dt.date, Field(strict=True, ge=dt.date(FIRST_YEAR, 1, 1), le=dt.date(LAST_YEAR, 12, 31))]
_Year = Annotated[int, Field(strict=True, ge=FIRST_YEAR, le=LAST_YEAR)]
_Signs = tuple[Literal["x", "f", "n", "m", "-", "()"], ...]


def _numbers(order: object) -> tuple[str, ...]:
    """`load reps sets`, in any order, two or three of them."""
    words = tuple(order.split(" ")) if isinstance(order, str) else ()
    if not 2 <= len(words) <= 3 or not {"load", "reps", "sets"} >= set(words):
        raise ValueError
    return words


class _Entry(BaseModel):
    model_config = ConfigDict(extra="ignore", str_strip_whitespace=True, allow_inf_nan=False)


class Head(_Entry):
    """The keys at the top of lifter.toml, all but `standards` with a default."""

    name: _Words | None = None
    standards: Literal["women", "men"] | None = None
    born: _Year | None = None
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
    """One [sources."file"]: the fields of `model.lifter.Manners`."""

    layout: Literal["rows", "by lift", "weeks", "form", "diary"] = ""  # type: ignore[assignment]
    order: Annotated[Any, BeforeValidator(_numbers)] = ()
    miss: _Signs = ()
    made: _Signs = ()
    comma: Literal["decimal", "list"] = ""  # type: ignore[assignment]
    year: _Year | None = None
    days: tuple[_Words, ...] = ()
    turned: StrictBool | None = None
    bar: Annotated[float, Field(strict=True, gt=0, le=100)] | None = None


class SquadEntry(_Entry):
    """squad.toml."""

    coach: _Line = ""
    theme: _Line = ""
    unit: Literal["kg", "lb"] = "kg"
    remark: _Told = ""
