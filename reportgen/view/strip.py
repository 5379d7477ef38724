"""Where the goal weight has already been: pulled, squatted, held overhead, lifted from the hang, tried."""

from collections.abc import Mapping
from typing import Final

import numpy as np
import pandas as pd

from reportgen.model.facts import GoalWeightFact
from reportgen.view import pieces
from reportgen.view.options import CalendarRows
from reportgen.view.page import Block, Paragraph, Table
from reportgen.view.reader import Reader, as_day, load, tidy
from reportgen.words import Phrase, numbers, phrase, text, together

Facts = tuple[GoalWeightFact, ...]
#: The lift whose goal weight it is, and what was done with it.
Way = tuple[str, str]

PARTS: Final = ("pulled", "squatted", "overhead", "hang", "floor")
#: Marks of a row by the column that counts them.
MARKS: Final = {"made": "made_reps", "missed": "missed"}
#: Days with a mark that one row of the strip can show apart on a phone.
ROW_MARKS: Final = 48
#: Weeks with a mark that a row shows; of more the newest so many days are drawn by the week.
LONG_MARKS: Final = 156
RECENT: Final = pd.Timedelta(days=2 * 365)


def goal_weight(reader: Reader) -> tuple[Block, ...]:
    """The strip: where the goal weight has already been; its sentence and table where it has not been yet.

    Of a total each of its two lifts has a weight of its own: nobody pulls a total.
    """
    facts = reader.facts.goal_weight
    if not facts:
        return (pieces.paragraph("supports.strip.unknown"),)
    labels = _labels(facts)
    marks = _strip(reader, facts, labels)
    sentence = _sentence(facts)
    if marks.empty:
        return (Paragraph(text=sentence), _table(facts))
    figure = pieces.figure(
        "supports.strip",
        "goal-weight",
        "goal_weight",
        {"marks": marks},
        _table(facts),
        options=CalendarRows(
            first=as_day(reader.dossier.tables.sets["date"].min()),
            last=reader.facts.as_of,
            rows=tuple(labels.values()),
        ),
        over_time=True,
        sentence=sentence,
        unit=reader.unit,
    )
    return (figure,)


def _way(part: str) -> str:
    return text(f"supports.way.{part}")


def _targets(facts: Facts) -> dict[str, float]:
    """The weight that is looked for, by the lift that it is the goal weight of."""
    return {fact.goal_lift: fact.goal_kg for fact in facts}


def _times(facts: Facts) -> dict[Way, tuple[int, int]]:
    """Times and made by goal lift and part, in the order of `PARTS`."""
    found = {}
    for goal_lift in dict.fromkeys(fact.goal_lift for fact in facts):
        for part in PARTS:
            mine = [fact for fact in facts if (fact.goal_lift, fact.part) == (goal_lift, part)]
            if mine:
                found[goal_lift, part] = (sum(f.times for f in mine), sum(f.made for f in mine))
    return found


def _labels(facts: Facts) -> dict[Way, str]:
    """A row's label; of a total it says for which lift."""
    found = {}
    for (lift, part), (times, made) in _times(facts).items():
        key = "supports.strip.row" if times else "supports.strip.row_never"
        row = text(key, way=_way(part), made=made, times=times)
        several = len(_targets(facts)) > 1
        found[lift, part] = text("supports.strip.row_of", lift=lift, row=row) if several else row
    return found


def _strip(reader: Reader, facts: Facts, labels: Mapping[Way, str]) -> pd.DataFrame:
    """One row a way, day and outcome at the goal weight or more."""
    sets = reader.dossier.tables.sets
    ways = [*labels]
    lifts = pd.DataFrame(
        [
            (lift, n, _targets(facts)[goal_lift])
            for n, (goal_lift, part) in enumerate(ways)
            for lift in reader.trade.goal_weight[goal_lift][part]
        ],
        columns=["lift", "way", "least_kg"],
    )
    asked = ["lift", "date", "week", "load_kg", *MARKS.values()]
    rows = sets.loc[sets["tried"] > 0, asked].merge(lifts, on="lift")
    rows = rows.loc[rows["load_kg"] >= rows["least_kg"] - reader.trade.value("edge_kg")]
    hits = pd.concat([rows.assign(mark=mark, times=rows[column]) for mark, column in MARKS.items()])
    hits = hits.loc[hits["times"] > 0]
    if hits.empty:
        return tidy("date part mark reading", ())
    # More marks than a row can hold are drawn a week each, so that none is dropped.
    row = ["way", "mark"]
    crowded = hits.groupby(row)["date"].transform("nunique") > ROW_MARKS
    hits["date"] = hits["date"].where(~crowded, hits["week"])
    # Of many years those long ago are drawn a quarter each.
    old = hits.groupby(row)["date"].transform("nunique") > LONG_MARKS
    old &= hits["date"] < pd.Timestamp(reader.facts.as_of) - RECENT
    hits["date"] = hits["date"].where(~old, hits["date"].dt.to_period("Q").dt.start_time)
    hits["step"] = np.where(old, "_quarter", np.where(crowded, "_week", ""))
    dots = hits.groupby([*row, "date", "step"])
    found = pd.DataFrame({"times": dots["times"].sum(), "kg": dots["load_kg"].max()}).reset_index()
    names = {mark: text(f"charts.mark.{mark}") for mark in MARKS}
    told = found.assign(way=[_way(ways[way][1]) for way in found["way"]], mark=found["mark"].map(names))
    found["reading"] = reader.readings(told, lambda row: f"supports.strip.mark{row['step']}")
    found["part"] = [labels[ways[way]] for way in found["way"]]
    return found[["date", "part", "mark", "reading"]]


def _sentence(facts: Facts) -> Phrase:
    several = len(_targets(facts)) > 1
    parts: list[Phrase] = []
    for lift, goal_kg in _targets(facts).items():
        times = {part: counts for (goal, part), counts in _times(facts).items() if goal == lift}
        had = tuple(
            text("supports.strip.had", way=_way(part), made=made) for part, (_, made) in times.items() if made
        )
        parts.append(
            phrase(
                "supports.strip.was_of" if several else "supports.strip.was",
                goal_kg=goal_kg,
                lift=lift,
                had=had or text("supports.strip.nothing"),
            )
        )
        missed = [_way(part) for part, (tried, made) in times.items() if tried and not made]
        if missed:
            parts.append(phrase("supports.strip.missed", ways=numbers.listing(missed)))
        never = tuple(_way(part) for part, (tried, _) in times.items() if not tried)
        if never and had:
            parts.append(phrase("supports.strip.never", ways=never))
    return together(parts)


def _table(facts: Facts) -> Table:
    several = len(_targets(facts)) > 1
    rows = (
        (
            phrase("supports.strip.way_of", way=_way(f.part), goal_kg=f.goal_kg)
            if several and f.goal_kg
            else _way(f.part),
            f.lift,
            f.times,
            f.made,
            numbers.listing(text("supports.strip.missed_by", kind=k, n=n) for k, n in f.misses.items()),
            load(f.heaviest_kg),
            f.last,
        )
        for f in facts
    )
    return pieces.table("supports.strip.table", rows, address="goal-weight-table", folded=True)
