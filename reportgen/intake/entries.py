"""The shapes of lifter.toml and squad.toml.

What is expected of a key stands in the messages under [want.TABLE]; a field's default is the model's.
"""

import datetime as dt
from typing import Annotated, Literal

from msgspec import Meta, Struct

from reportgen.intake.bounds import FIRST_YEAR, LAST_YEAR
from reportgen.trade import load

_MOST_KG = load().value("load_max_kg")
_Kg = Annotated[float, Meta(gt=0, le=_MOST_KG)]
_Lb = Annotated[float, Meta(gt=0, le=_MOST_KG / load().value("pound"))]
_Share = Annotated[float, Meta(gt=0, le=5)]
_PRINTED = r"^[^\x00-\x1f\x7f]*\Z"
_Words = Annotated[str, Meta(min_length=1, max_length=200, pattern=_PRINTED)]
_Told = Annotated[str, Meta(max_length=500, pattern=_PRINTED)]
_Line = Annotated[str, Meta(max_length=200, pattern=_PRINTED)]
_Year = Annotated[int, Meta(ge=FIRST_YEAR, le=LAST_YEAR)]
_Signs = tuple[Literal["x", "f", "n", "m", "-", "()"], ...]
#: `load reps sets`, in any order, two or three of them.
_Order = Annotated[str, Meta(pattern=r"^(?!.*\b(\w+)\b.*\b\1\b)(load|reps|sets)( (load|reps|sets)){1,2}\Z")]


class Head(Struct, frozen=True, kw_only=True):
    """The keys at the top of lifter.toml, all but `standards` with a default."""

    name: _Words | None = None
    standards: Literal["women", "men"] | None = None
    born: _Year | None = None
    unit: Literal["kg", "lb"] | None = None
    weeks_current: Annotated[int, Meta(ge=1, le=520)] = 12
    supervised: bool = False
    accepted: list[_Words] = []
    confirmed: list[_Words] = []
    date_format: _Words | None = None
    first_week: dt.date | None = None
    test_day: dt.date | None = None


class GoalEntry(Struct, frozen=True, kw_only=True):
    """One [[goal]]."""

    lift: _Words
    kg: _Kg | None = None
    lb: _Lb | None = None
    times_body_mass: Annotated[float, Meta(gt=0, le=10)] | None = None
    by: dt.date | None = None


class BestEntry(Struct, frozen=True, kw_only=True):
    """One [[best]]."""

    lift: _Words
    kg: _Kg | None = None
    lb: _Lb | None = None
    date: dt.date
    where: Literal["contest", "training"] = "training"


class BandEntry(Struct, frozen=True, kw_only=True):
    """One [bands.<indicator>]."""

    low: _Share | None = None
    high: _Share | None = None


class SourceEntry(Struct, frozen=True, kw_only=True):
    """One [sources."file"]: the fields of `model.lifter.Manners`."""

    layout: Literal["", "rows", "by lift", "weeks", "form", "diary"] = ""
    order: _Order = ""
    miss: _Signs = ()
    made: _Signs = ()
    comma: Literal["", "decimal", "list"] = ""
    year: _Year | None = None
    days: tuple[_Words, ...] = ()
    turned: bool | None = None
    bar: Annotated[float, Meta(gt=0, le=100)] | None = None


class SquadEntry(Struct, frozen=True, kw_only=True):
    """squad.toml."""

    coach: _Line = ""
    theme: _Line = ""
    unit: Literal["kg", "lb"] = "kg"
    remark: _Told = ""
