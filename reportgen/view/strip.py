"""Where the goal weight has already been: pulled, squatted, held overhead, lifted from the hang, tried."""

from collections.abc import Mapping
from typing import Final

import pandas as pd

from reportgen.model.facts import GoalWeightFact
from reportgen.view.page import Block, Figure, Paragraph, Table
from reportgen.view.reader import Reader, as_day, load, plain, said, tally, words
from reportgen.words import Phrase, Weight, numbers

Facts = tuple[GoalWeightFact, ...]
#: The lift whose goal weight it is, and what was done with it.
Way = tuple[str, str]

PARTS: Final = {
    "pulled": "pulled",
    "squatted": "stood up in a squat",
    "overhead": "held overhead",
    "hang": "lifted from the hang or blocks",
    "floor": "tried from the floor",
}
#: Marks of a row by the column that counts them.
MARKS: Final = {"made": "made_reps", "missed": "missed"}
#: Days with a mark that one row of the strip can show apart on a phone.
ROW_MARKS: Final = 48


def goal_weight(reader: Reader) -> tuple[Block, ...]:
    """The strip: where the goal weight has already been; its sentence and table where it has not been yet.

    Of a total each of its two lifts has a weight of its own: nobody pulls a total.
    """
    facts = reader.facts.goal_weight or ()
    if not facts:
        return (Paragraph(text=("Where the goal weight has been is not known: the goal has no weight.",)),)
    marks = _strip(reader, facts)
    sentence = _strip_sentence(facts)
    if marks.empty:
        return (Paragraph(text=sentence), _strip_table(facts))
    first = as_day(reader.dossier.tables.sets["date"].min())
    figure = Figure(
        id="goal-weight",
        title="Where the goal weight has already been",
        sentence=sentence,
        summary="One row a way of handling the weight, a dot for a day it was made, a cross for a day it was "
        f"missed. {plain(sentence, reader.unit)}",
        chart="goal_weight",
        data={"marks": marks},
        options={
            "unit": reader.unit,
            "first": first.isoformat(),
            "last": reader.facts.as_of.isoformat(),
            "parts": tuple(_strip_labels(facts).values()),
        },
        table=_strip_table(facts),
        over_time=True,
    )
    return (figure,)


def _targets(facts: Facts) -> dict[str, float]:
    """The weight that is looked for, by the lift that it is the goal weight of."""
    return {fact.goal_lift: fact.goal_kg for fact in facts if fact.goal_kg is not None}


def _times(facts: Facts) -> dict[Way, tuple[int, int]]:
    """Times and made by goal lift and part, in the order of `PARTS`."""
    found = {}
    for goal_lift in dict.fromkeys(fact.goal_lift for fact in facts):
        for part in PARTS:
            mine = [fact for fact in facts if (fact.goal_lift, fact.part) == (goal_lift, part)]
            if mine:
                found[goal_lift, part] = (sum(f.times for f in mine), sum(f.made for f in mine))
    return found


def _strip_labels(facts: Facts) -> dict[Way, str]:
    """A row's label; of a total it says for which lift."""
    found = {}
    for (lift, part), (times, made) in _times(facts).items():
        whose = f"{lift}, " if len(_targets(facts)) > 1 else ""
        found[lift, part] = f"{whose}{PARTS[part]}: {f'{made} of {times}' if times else 'never'}"
    return found


def _strip(reader: Reader, facts: Facts) -> pd.DataFrame:
    """One row a way, day and outcome at the goal weight or more."""
    sets = reader.dossier.tables.sets
    labels = _strip_labels(facts)
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
    rows = rows.loc[rows["load_kg"] >= rows["least_kg"] - 0.01]
    hits = pd.concat(
        [rows.assign(missed_there=n, times=rows[column]) for n, column in enumerate(MARKS.values())]
    )
    hits = hits.loc[hits["times"] > 0]
    if hits.empty:
        return pd.DataFrame(columns=["date", "part", "mark", "reading"])
    # More marks than a row can hold are drawn a week each, so that none is dropped.
    row = ["way", "missed_there"]
    hits["crowded"] = hits.groupby(row)["date"].transform("nunique") > ROW_MARKS
    hits["date"] = hits["date"].where(~hits["crowded"], hits["week"])
    dots = hits.groupby([*row, "date", "crowded"])
    found = pd.DataFrame({"times": dots["times"].sum(), "kg": dots["load_kg"].max()}).reset_index()
    marks = [*MARKS]
    found["reading"] = [
        f"{(numbers.week if crowded else numbers.day)(as_day(day))}: {PARTS[ways[way][1]]}, {marks[missed]} "
        f"{numbers.times(int(n))}, up to {reader.say(kg)}"
        for way, missed, day, crowded, n, kg in found.itertuples(index=False)
    ]
    found["mark"] = [marks[missed] for missed in found["missed_there"]]
    found["part"] = [labels[ways[way]] for way in found["way"]]
    return found[["date", "part", "mark", "reading"]]


def _strip_sentence(facts: Facts) -> Phrase:
    several = len(_targets(facts)) > 1
    parts: list[str | Weight] = []
    for lift, goal_kg in _targets(facts).items():
        parts += [" "] if parts else []
        parts += [Weight(goal_kg), f" or more{f', the {lift} of the total,' if several else ''} was "]
        parts += _been({part: counts for (goal, part), counts in _times(facts).items() if goal == lift})
    return tuple(parts)


def _been(times: Mapping[str, tuple[int, int]]) -> Phrase:
    """How one weight was handled, and how it never was."""
    never = [PARTS[p] for p, (tried, _) in times.items() if not tried]
    missed = [p for p, (tried, made) in times.items() if tried and not made]
    had = [f"{PARTS[p]} {numbers.times(made)}" for p, (_, made) in times.items() if made]
    parts = [numbers.listing(had) if had else "never handled in any of these ways", "."]
    if missed:
        parts.append(f" {numbers.sentence(numbers.listing(PARTS[p] for p in missed))}, but never made.")
    if never and had:
        parts.append(f" Never yet {numbers.listing(never, 'or')}: what is missing here is the question.")
    return tuple(parts)


def _strip_table(facts: Facts) -> Table:
    several = len(_targets(facts)) > 1
    rows = tuple(
        (
            said((f"{PARTS[f.part]}, ", Weight(f.goal_kg)) if several and f.goal_kg else (PARTS[f.part],)),
            words(f.lift),
            tally(f.times),
            tally(f.made),
            words(numbers.listing(f"{kind} {n}" for kind, n in f.misses.items())),
            load(f.heaviest_kg),
            words(f.last),
        )
        for f in facts
    )
    return Table(
        caption="The goal weight or more, by lift",
        head=("how", "lift", "times", "made", "missed by", "heaviest made at any weight", "last"),
        rows=rows,
        folded=True,
        id="goal-weight-table",
    )
