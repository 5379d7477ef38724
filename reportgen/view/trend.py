"""Where the goal's lift goes: the slope, how sure it is, and the range of arrival, or why there is none."""

import datetime as dt

import pandas as pd

from reportgen.model.peaks import TrendFact
from reportgen.view.page import Block, Paragraph
from reportgen.view.reader import Reader
from reportgen.words import Phrase, Weight, numbers
from reportgen.words.phrases import text_of


def blocks(reader: Reader) -> tuple[Block, ...]:
    """The slope with its interval and the range of arrival, or why there is none."""
    trend = reader.facts.trend
    if trend is None:
        return _none(reader)
    parts: Phrase = (
        f"Over {numbers.count(trend.weeks, 'week')} an ordinary day's {trend.lift} moved by about ",
        Weight(_tenth(trend.kg_per_month), True),
        " a month, likely ",
        Weight(_tenth(trend.low), True),
        " to ",
        Weight(_tenth(trend.high), True),
        f"{_whole(trend)}.",
        _when(reader, trend),
        *_chance(reader),
    )
    made: tuple[Block, ...] = (Paragraph(text=parts),)
    if trend.bar_kg_per_month is not None and trend.body_kg_per_month is not None:
        one = reader.goal is not None and reader.goal.times_body_mass == 1.0
        made += (
            Paragraph(
                text=(
                    "The gap to a goal set by body mass moves from two sides: the bar by ",
                    Weight(trend.bar_kg_per_month, True),
                    f" a month, {'body mass' if one else 'what body mass asks for'} by ",
                    Weight(trend.body_kg_per_month, True),
                    " a month.",
                )
            ),
        )
    return made


def _tenth(kg: float) -> float:
    """To a tenth: what is less is nothing."""
    return round(kg, 1) + 0.0


def _none(reader: Reader) -> tuple[Block, ...]:
    """Why the log gives no trend; nothing where the goal's lift was never made, which is said already."""
    if reader.dossier.tables.running_best.empty:
        return ()
    if reader.lift == "total":
        why = "No trend is worked out for a total: its two lifts are at their best on different days."
    else:
        least = int(reader.trade.value("ability_near_tries"))
        why = (
            f"Where the {reader.lift} goes can't be said yet: that takes twelve weeks with tries near the "
            f"limit, made and missed, {least} at the least, and the log holds fewer."
        )
    return (Paragraph(text=(why,)),)


def _whole(trend: TrendFact) -> str:
    """The change of the whole span beside what the lift scatters by anyway; "" where either is unknown."""
    if trend.change_share is None or trend.noise_share is None or trend.noise is None:
        return ""
    against = "inside" if trend.noise else "more than"
    return (
        f", {numbers.whole(numbers.change(trend.change_share))} in all, {against} the usual scatter of "
        f"{numbers.whole(numbers.percent(trend.noise_share))}"
    )


def _when(reader: Reader, trend: TrendFact) -> str:
    """The range of arrival in words, or why no date is given."""
    early, late = trend.reach_early, trend.reach_late
    if early is None:
        why = text_of(trend.reason) or "the slower side of that range never reaches the goal"
        return f" No date is given: {why}."
    if late is not None:
        between = f"between {numbers.month(early)} and {numbers.month(late)}"
        return f" At this rate the goal comes {between}."
    return (
        f" At this rate the goal comes in {numbers.month(early)} at the earliest, perhaps more than "
        f"{_years(reader)} from now."
    )


def _chance(reader: Reader) -> Phrase:
    """What the goal's day asks for a month, and the chance that it is made by then."""
    arrived = reader.facts.arrival
    if arrived is None or arrived.by is None or arrived.chance is None or arrived.asked_kg_per_month is None:
        return ()
    rarely = arrived.chance < reader.trade.value("arrival_rare")
    return (
        f" The goal's day, {numbers.day(arrived.by)}, asks for ",
        Weight(round(arrived.asked_kg_per_month, 1), True),
        f" a month: {'not at this rate, ' if rarely else ''}a chance of about {numbers.share(arrived.chance)}.",
    )


def _years(reader: Reader) -> str:
    return numbers.count(int(reader.trade.value("trend_reach_years")), "year")


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
        words = f"arrival from {numbers.day(early)} on, perhaps more than {_years(reader)} from now"
        if trend.reach_late is not None:
            words = f"arrival between {numbers.day(early)} and {numbers.day(trend.reach_late)}"
        rows.append((early, late, reader.number(goal_kg), words))
    table = pd.DataFrame(rows, columns=["start", "end", "weight", "reading"])
    days = {name: pd.to_datetime(table[name]).astype("datetime64[s]") for name in ("start", "end")}
    return table.assign(**days)
