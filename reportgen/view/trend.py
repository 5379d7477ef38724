"""Where the goal's lift goes: the slope, how sure it is, and the range of arrival, or why there is none."""

import datetime as dt

import pandas as pd

from reportgen.model.peaks import TrendFact
from reportgen.view import pieces
from reportgen.view.page import Paragraph
from reportgen.view.reader import Reader, of, tidy
from reportgen.words import Phrase, numbers, phrase, text, together


def blocks(reader: Reader) -> tuple[Paragraph, ...]:
    """The slope with its interval and the range of arrival, or why there is none."""
    trend = reader.facts.trend
    if trend is None:
        return _none(reader)
    made = (Paragraph(text=together((_slope(trend), _when(trend), *_chance(reader)))),)
    if trend.bar_kg_per_month is None or trend.body_kg_per_month is None:
        return made
    key = f"stands.trend.sides{'_own' if reader.goal.times_body_mass == 1.0 else ''}"
    bar, body = _tenth(trend.bar_kg_per_month), _tenth(trend.body_kg_per_month)
    return (*made, Paragraph(text=phrase(key, **of(trend, bar_kg_per_month=bar, body_kg_per_month=body))))


def _tenth(kg: float) -> float:
    """To a tenth: what is less is nothing."""
    return round(kg, 1) + 0.0


def _none(reader: Reader) -> tuple[Paragraph, ...]:
    """Why the log gives no trend; nothing where the goal's lift was never made, which is said already."""
    if reader.dossier.tables.running_best.empty:
        return ()
    if reader.lift == "total":
        return (pieces.paragraph("stands.trend.total"),)
    return (pieces.paragraph("stands.trend.young", lift=reader.lift),)


def _slope(trend: TrendFact) -> Phrase:
    """What an ordinary day gains a month, and all of it beside what the lift scatters by anyway."""
    return phrase(
        f"stands.trend.slope{'_inside' if trend.noise else '_beyond'}",
        weeks=trend.weeks,
        lift=trend.lift,
        middle_kg=_tenth(trend.kg_per_month),
        low_kg=_tenth(trend.low),
        high_kg=_tenth(trend.high),
        all=numbers.whole(numbers.change(round(trend.change_share, 3))),
        scatter=numbers.whole(numbers.percent(trend.noise_share)),
    )


def _when(trend: TrendFact) -> Phrase:
    """The range of arrival in words, or why no date is given."""
    if trend.reach_early is None:
        return phrase("stands.trend.no_date", **of(trend))
    if trend.reach_late is None:
        return phrase("stands.trend.earliest", **of(trend))
    return phrase("stands.trend.between", **of(trend))


def _chance(reader: Reader) -> tuple[Phrase, ...]:
    """What the goal's day asks for a month, and the chance that it is made by then."""
    arrived = reader.facts.arrival
    if arrived is None or arrived.by is None or arrived.chance is None or arrived.asked_kg_per_month is None:
        return ()
    asked = round(arrived.asked_kg_per_month, 1)
    key = f"stands.trend.asked{'_rare' if arrived.rare else ''}"
    return (phrase(key, by=arrived.by, asked_kg=asked, chance=arrived.chance),)


def drawn_until(reader: Reader) -> dt.date:
    """The last day that a picture of the best has room for: half as far ahead as the log goes back."""
    facts = reader.facts
    back = facts.as_of - (facts.span.first or facts.as_of)
    return facts.as_of + back * reader.trade.value("arrival_drawn")


def arrival(reader: Reader) -> tuple[dt.date | None, dt.date | None]:
    """The early and the late end of the range of arrival as far as a picture has room for it."""
    trend, last = reader.facts.trend, drawn_until(reader)
    if trend is None or trend.reach_early is None or trend.reach_early >= last:
        return None, None
    return trend.reach_early, min(trend.reach_late or last, last)


def reach(reader: Reader, goal_kg: float | None) -> pd.DataFrame:
    """The range of arrival at the goal's height: start, end, weight, reading; no row without one."""
    trend, (early, late) = reader.facts.trend, arrival(reader)
    rows = []
    if trend is not None and early is not None and late is not None and goal_kg is not None:
        words = text(f"stands.trend.arrival{'_open' if trend.reach_late is None else ''}", **of(trend))
        rows.append((early, late, reader.number(goal_kg), words))
    return tidy("start end weight reading", rows)
