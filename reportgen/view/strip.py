"""Where the goal weight has already been: pulled, squatted, held overhead, lifted from the hang, tried."""

from typing import Final

import pandas as pd

from reportgen.model.facts import GoalWeightFact
from reportgen.view import text
from reportgen.view.page import Block, Figure, Paragraph, Phrase, Table, Weight
from reportgen.view.reader import Reader, as_day, load, plain, tally, words

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
    """The strip: where the goal weight has already been; its sentence and table where it has not been yet."""
    facts = reader.facts.goal_weight or ()
    goal = reader.goal
    if not facts or goal is None or goal.goal_kg is None:
        return (Paragraph(text=("Where the goal weight has been is not known: the goal has no weight.",)),)
    marks = _strip(reader, goal.goal_kg)
    sentence = _strip_sentence(goal.goal_kg, facts)
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


def _times(facts: tuple[GoalWeightFact, ...]) -> dict[str, tuple[int, int]]:
    """Times and made by part, in the order of `PARTS`."""
    return {
        part: (sum(f.times for f in facts if f.part == part), sum(f.made for f in facts if f.part == part))
        for part in PARTS
        if any(f.part == part for f in facts)
    }


def _strip_labels(facts: tuple[GoalWeightFact, ...]) -> dict[str, str]:
    return {
        part: f"{PARTS[part]}: {f'{made} of {times}' if times else 'never'}"
        for part, (times, made) in _times(facts).items()
    }


def _strip(reader: Reader, goal_kg: float) -> pd.DataFrame:
    """One row a part, day and outcome at the goal weight or more."""
    sets = reader.dossier.tables.sets
    labels = _strip_labels(reader.facts.goal_weight or ())
    parts = {
        part: lifts for part, lifts in reader.trade.goal_weight.get(reader.lift, {}).items() if part in labels
    }
    lifts = pd.DataFrame(
        [(lift, n) for n, lifts in enumerate(parts.values()) for lift in lifts], columns=["lift", "way"]
    )
    heavy = (sets["load_kg"] >= goal_kg - 0.01) & (sets["tried"] > 0)
    rows = sets.loc[heavy, ["lift", "date", "week", "load_kg", *MARKS.values()]].merge(lifts, on="lift")
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
    names, marks = [*parts], [*MARKS]
    found["reading"] = [
        f"{(text.week if crowded else text.day)(as_day(day))}: {PARTS[names[way]]}, {marks[missed]} "
        f"{text.times(int(n))}, up to {reader.say(kg)}"
        for way, missed, day, crowded, n, kg in found.itertuples(index=False)
    ]
    found["mark"] = [marks[missed] for missed in found["missed_there"]]
    found["part"] = [labels[names[way]] for way in found["way"]]
    return found[["date", "part", "mark", "reading"]]


def _strip_sentence(goal_kg: float, facts: tuple[GoalWeightFact, ...]) -> Phrase:
    never = [PARTS[p] for p, (times, _) in _times(facts).items() if not times]
    tried = [p for p, (times, made) in _times(facts).items() if times and not made]
    parts: list[str | Weight] = [Weight(goal_kg), " or more was "]
    had = [f"{PARTS[p]} {text.times(made)}" for p, (_, made) in _times(facts).items() if made]
    parts.append(text.listing(had) if had else "never handled in any of these ways")
    parts.append(".")
    if tried:
        parts.append(f" {text.sentence(text.listing(PARTS[p] for p in tried))}, but never made.")
    if never and had:
        parts.append(f" Never yet {text.listing(never, 'or')}: what is missing here is the question.")
    return tuple(parts)


def _strip_table(facts: tuple[GoalWeightFact, ...]) -> Table:
    rows = tuple(
        (
            words(PARTS[f.part]),
            words(f.lift),
            tally(f.times),
            tally(f.made),
            words(text.listing(f"{kind} {n}" for kind, n in f.misses.items())),
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
