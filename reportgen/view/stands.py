"""Where the lift stands: running best, goal, test days, body mass, the trend."""

import datetime as dt
from typing import Any, Final

import pandas as pd

from reportgen.view import ability, head, trend
from reportgen.view.page import Block, Figure, Paragraph, Section, Table
from reportgen.view.reader import Reader, as_day, load, plain, said, words
from reportgen.words import Phrase, Weight, numbers

#: Points of one line that a picture shows; on a phone more cannot be told apart.
MOST_READINGS: Final = 60


def section(reader: Reader) -> Section:
    """The section with its figures and tables."""
    blocks: list[Block] = [running_best(reader), *trend.blocks(reader)]
    mass = body_mass(reader)
    if mass is not None:
        blocks.append(mass)
    blocks.extend((current_table(reader), best_table(reader)))
    if len(reader.facts.goals) > 1:
        blocks.append(goal_table(reader))
    return Section(id="stands", title="Where the lift stands", lead=lead(reader), blocks=tuple(blocks))


def lead(reader: Reader) -> Phrase:
    """Goal, present and gap in words."""
    goal = reader.goal
    if goal is None or goal.goal_kg is None:
        return ("The goal's weight is not known: it hangs on a body mass that was not logged.",)
    parts: list[str | Weight] = [f"The goal is a {goal.lift} of ", Weight(goal.goal_kg)]
    if goal.times_body_mass is not None and goal.body_mass_kg is not None:
        times = goal.times_body_mass
        if times == 1:
            parts.append(", the lifter's own body mass")
        else:
            parts += [f", {numbers.number(times, 2)} times a body mass of ", Weight(goal.body_mass_kg)]
    if goal.by is not None:
        parts.append(f", by {numbers.day(goal.by)}")
    parts.append(". ")
    if goal.current_kg is None or goal.current_date is None:
        parts.append(f"No made {goal.lift} of the last weeks is in the log, so the gap is not known.")
        return tuple(parts)
    parts += ["The present best is ", Weight(goal.current_kg), f" from {numbers.day(goal.current_date)}"]
    if head.doubtful(reader):
        return (*parts, ", which is not sure: nothing is said of the gap.")
    if goal.gap_kg:
        parts += [", ", Weight(goal.gap_kg), " short of it."]
    else:
        parts.append(": the goal is reached.")
    older = once(reader)
    if older is not None:
        weeks = reader.dossier.records.lifter.weeks_current
        parts += [
            " ",
            Weight(older[0]),
            f" was made on {numbers.day(older[1])}, more than {weeks} weeks ago.",
        ]
    return tuple(parts)


def once(reader: Reader) -> tuple[float, dt.date] | None:
    """A best that is heavier than the present one, and its day; None where the present one is the best."""
    goal = reader.goal
    best = reader.dossier.tables.running_best
    mine = best.loc[best["lift"] == reader.lift] if len(best) else best
    if goal is None or goal.current_kg is None or mine.empty:
        return None
    kg, day = max(zip(mine["kg"], mine["date"], strict=True), key=lambda pair: float(pair[0]))
    return (float(kg), as_day(day)) if kg > goal.current_kg else None


def _heights(reader: Reader) -> pd.DataFrame:
    """The running best with readings, each lift carried on to the review day."""
    best = reader.dossier.tables.running_best
    ends = best.groupby("lift", sort=True).tail(1).assign(date=pd.Timestamp(reader.facts.as_of), kind="")
    frame = pd.concat([best, ends], ignore_index=True).sort_values(["lift", "date"], kind="stable")
    frame = frame.assign(weight=reader.numbers(frame["kg"]))
    frame["reading"] = [
        f"{numbers.day(as_day(d))}: {lift} {reader.say(kg)}" + (f", {kind}" if kind else "")
        for d, lift, kg, kind in zip(frame["date"], frame["lift"], frame["kg"], frame["kind"], strict=True)
    ]
    return frame[["date", "lift", "weight", "kind", "reading"]].reset_index(drop=True)


def _attempts(reader: Reader) -> pd.DataFrame:
    """Every attempt at the goal's lifts, made or missed."""
    sets = reader.dossier.tables.sets
    rows = sets.loc[(sets["kind"] != "training") & sets["lift"].isin(reader.lifts) & (sets["tried"] > 0)]
    made = rows["made_reps"] > 0
    frame = pd.DataFrame(
        {
            "date": rows["date"],
            "lift": rows["lift"],
            "weight": reader.numbers(rows["load_kg"]),
            "mark": made.map({True: "made", False: "missed"}),
            "kg": rows["load_kg"],
            "event": rows["event"].where(rows["event"] != "", rows["kind"]),
            "miss": rows["miss"],
        }
    )
    frame["reading"] = [
        f"{numbers.day(as_day(d))}, {event}: {lift} {reader.say(kg)} {mark}" + (f" ({miss})" if miss else "")
        for d, event, lift, kg, mark, miss in zip(
            *(frame[c] for c in ("date", "event", "lift", "kg", "mark", "miss")), strict=True
        )
    ]
    return frame[["date", "lift", "weight", "mark", "reading"]].reset_index(drop=True)


def _tests(reader: Reader) -> pd.DataFrame:
    """One mark a test day, given or found, whatever the number of lifts that were tested on it."""
    readings: dict[dt.date, str] = {}
    lifts = {d.lift for d in reader.facts.test_days or ()}
    for d in reader.facts.test_days or ():
        said = f"{d.made} of {d.tried} made" + (f", best {reader.say(d.best_kg)}" if d.best_kg else "")
        before = readings.get(d.date, f"{numbers.day(d.date)}: {d.event or _kind(d.kind)}")
        mark = "; " if d.date in readings else ", "
        readings[d.date] = f"{before}{mark}{d.lift} {said}" if len(lifts) > 1 else f"{before}{mark}{said}"
    days = pd.to_datetime(list(readings)).astype("datetime64[s]")
    return pd.DataFrame({"date": days, "reading": list(readings.values())})


def _kind(kind: str) -> str:
    return {"contest": "contest", "test": "test day", "found": "test day found from the log"}[kind]


def running_best(reader: Reader) -> Figure | Paragraph:
    """Running best against the goal, what an ordinary day makes, attempts and test days marked."""
    best = reader.dossier.tables.running_best
    if best.empty:
        return Paragraph(text=(f"Not tested: the log holds no made {reader.either}.",))
    goal = reader.goal
    heights, attempts, tests = _heights(reader), _attempts(reader), _tests(reader)
    first = as_day(best["date"].min())
    goal_kg = goal.goal_kg if goal is not None and reader.lift != "total" else None
    options: dict[str, object] = {
        "unit": reader.unit,
        "goal": None if goal_kg is None else reader.number(goal_kg),
        "goal_label": "" if goal_kg is None else f"goal {reader.say(goal_kg)}",
        "first": first.isoformat(),
        "last": max(reader.facts.as_of, trend.arrival(reader)[1] or reader.facts.as_of).isoformat(),
        "lifts": tuple(sorted(set(heights["lift"]))),
    }
    rows = tuple(
        (words(as_day(d)), words(lift), load(kg), words(kind), *ability.cells(reader, lift, as_day(d)))
        for d, lift, kg, kind in zip(*(best[c] for c in ("date", "lift", "kg", "kind")), strict=True)
    )
    now = reader.facts.as_of
    rows += tuple(
        (words(now), words(one.lift), load(None), words("review day"), *ability.cells(reader, one.lift, now))
        for one in ability.facts(reader)
    )
    table = Table(
        caption=f"Each day that raised the best {numbers.listing(options['lifts'])}, and what an ordinary day "  # type: ignore[arg-type]
        "of its week makes",
        head=("day", "lift", "best", "where", *ability.HEAD),
        rows=rows,
        folded=True,
        id="running-best-table",
    )
    sentence = (*_rise(reader), *ability.sentence(reader))
    return Figure(
        id="running-best",
        title="Running best against the goal",
        sentence=sentence,
        summary=f"A line that steps up with each new best from {numbers.day(first)} to "
        f"{numbers.day(reader.facts.as_of)}. {plain(sentence, reader.unit)} "
        f"{numbers.sentence(numbers.count(len(attempts), 'attempt'))} and "
        f"{numbers.count(len(tests), 'test day')} are marked.{ability.summary(reader)}",
        chart="running_best",
        data={
            "best": heights,
            "attempts": attempts,
            "tests": tests,
            "arrival": trend.reach(reader, goal_kg),
            "ability": ability.band(reader, first),
        },
        options=options,
        table=table,
        over_time=True,
    )


def _rise(reader: Reader) -> Phrase:
    best = reader.dossier.tables.running_best
    parts: list[str | Weight] = []
    for lift, rows in best.groupby("lift", sort=True):
        start, end = _first_known(rows, reader), rows.iloc[-1]
        gained = end["kg"] - start["kg"]
        still = (reader.facts.as_of - as_day(end["date"])).days
        if gained > 0:
            parts += [f"The best {lift} rose by ", Weight(gained), " to ", Weight(end["kg"])]
            parts.append(f" since {numbers.day(as_day(start['date']))}")
        else:
            parts += [f"The best {lift} has stood at ", Weight(end["kg"])]
            parts.append(f" since {numbers.day(as_day(end['date']))}")
        parts.append(
            f"; the last new best lies {numbers.days(still)} back. " if still else ", on the review day. "
        )
    return (*parts[:-1], str(parts[-1]).rstrip()) if parts else ()


def _first_known(rows: pd.DataFrame, reader: Reader) -> Any:
    """The best that a rise is counted from: a log that begins with working loads has none for some weeks."""
    if rows["kind"].iloc[0] != "training":
        return rows.iloc[0]
    young = pd.Timedelta(days=int(reader.trade.value("reference_known_days")))
    return rows.loc[rows["date"] < rows["date"].iloc[0] + young].iloc[-1]


def body_mass(reader: Reader) -> Figure | None:
    """Body mass, or for a goal set by body mass the bar against the body; None without body mass."""
    mass = reader.dossier.tables.bodymass
    if mass.empty:
        return None
    goal = reader.goal
    times = goal.times_body_mass if goal is not None else None
    thinned = mass if len(mass) <= MOST_READINGS else mass.iloc[:: -(-len(mass) // MOST_READINGS)]
    wanted = thinned["mass_kg"] * (times or 1.0)
    body = pd.DataFrame({"date": thinned["date"], "weight": reader.numbers(wanted)})
    what = "body mass" if times is None or times == 1 else f"{numbers.number(times, 2)} times body mass"
    body["reading"] = [
        f"{numbers.day(as_day(d))}: body mass {reader.say(kg)}"
        + (f", goal {reader.say(kg * times)}" if times is not None and times != 1 else "")
        for d, kg in zip(thinned["date"], thinned["mass_kg"], strict=True)
    ]
    first, last = mass.iloc[0], mass.iloc[-1]
    moved = last["mass_kg"] - first["mass_kg"]
    sentence: tuple[str | Weight, ...] = ("Body mass is ", Weight(last["mass_kg"]))
    if len(mass) > 1:
        sentence += (", ", Weight(moved, True), f" since {numbers.day(as_day(first['date']))}")
    data = {"body": body}
    if times is not None and not reader.dossier.tables.running_best.empty:
        if reader.lift != "total":  # the weight asked for is the total's, and no bar is lifted with that
            data["bar"] = _heights(reader)
        sentence += (", so the weight that the goal asks for moved by ", Weight(moved * times, True))
    sentence += (".",)
    return Figure(
        id="body-mass",
        title="The bar against body mass" if "bar" in data else "Body mass",
        sentence=sentence,
        summary=f"{numbers.sentence(what)} from {numbers.day(as_day(first['date']))} to "
        f"{numbers.day(as_day(last['date']))}, {numbers.count(len(mass), 'reading')}. "
        f"{plain(sentence, reader.unit)}",
        chart="body_mass",
        data=data,
        options={
            "unit": reader.unit,
            "what": what,
            "lift": reader.lift,
            "last": reader.facts.as_of.isoformat(),
        },
        table=_by_month(reader, mass),
        over_time=True,
    )


def _by_month(reader: Reader, mass: pd.DataFrame) -> Table:
    """A month's figure as the facts give it, between its lowest and its highest reading."""
    median_kg = {
        month: kg
        for season in reader.facts.season or ()
        for month, kg in (season.body_mass.months if season.body_mass is not None else ())
    }
    by_month = mass.groupby(mass["date"].dt.to_period("M").dt.start_time)["mass_kg"]
    return Table(
        caption="Body mass by month: median, lowest and highest reading",
        head=("month", "median", "lowest", "highest", "readings"),
        rows=tuple(
            (
                words(numbers.month(as_day(month))),
                load(median_kg.get(f"{month:%Y-%m}")),
                load(low),
                load(high),
                words(str(many)),
            )
            for month, low, high, many in by_month.agg(["min", "max", "count"]).itertuples()
        ),
        folded=True,
        id="body-mass-table",
    )


def current_table(reader: Reader) -> Table:
    """The heaviest made loads of the last weeks, older ones marked."""
    weeks = reader.dossier.records.lifter.weeks_current
    rows = []
    for fact in reader.facts.current:
        stale = fact.kg is None
        older: Phrase = ()
        if stale and fact.stale_kg is not None and fact.stale_date is not None:
            older = (Weight(fact.stale_kg), f" on {numbers.day(fact.stale_date)}")
        beside: Phrase = ()
        if fact.estimated_kg is not None and fact.estimated_kg > (fact.kg or 0.0):
            beside = ("about ", Weight(fact.estimated_kg), ", worked out from a set of several")
        if fact.with_straps_kg is not None:
            beside += ("; " if beside else "", Weight(fact.with_straps_kg), " with straps")
        rows.append(
            (words(fact.lift), load(fact.kg), words(fact.date), said(older), said(beside)),
        )
    return Table(
        caption=f"Heaviest made repetition of the last {numbers.count(weeks, 'week')}, by lift",
        head=("lift", "made", "day", "only an older one", "beside it"),
        rows=tuple(rows),
        folded=True,
        id="current",
    )


def best_table(reader: Reader) -> Table:
    """Bests of one, two and three repetitions of the lifts that matter to the goal."""
    carrying = {i.lift for i in reader.facts.indicators or () if not i.context}
    named = {*reader.lifts, *carrying, *(g.lift for g in reader.facts.goals)}
    shown = [b for b in reader.facts.bests if b.reps <= 3 and b.lift in named]
    return Table(
        caption="Bests over all time for one, two and three repetitions in one set: the goal's lifts and "
        "what carries them (`reportgen facts` prints all)",
        head=("lift", "repetitions", "load", "day", "where"),
        rows=tuple(
            (
                words(b.lift),
                words(str(b.reps)),
                load(b.kg),
                words(b.date),
                words(b.where + (", part of a complex" if b.complex else "")),
            )
            for b in shown
        ),
        folded=True,
        id="bests",
    )


def goal_table(reader: Reader) -> Table:
    """Every goal with where it stands."""

    def by(date: dt.date | None) -> str:
        return "" if date is None else numbers.day(date)

    return Table(
        caption="All goals; this dossier is about the first",
        head=("lift", "goal", "by", "present", "gap"),
        rows=tuple(
            (words(g.lift), load(g.goal_kg), words(by(g.by)), load(g.current_kg), load(g.gap_kg))
            for g in reader.facts.goals
        ),
        id="goals",
    )
