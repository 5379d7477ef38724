"""Where the lift stands: running best, goal, test days, body mass, the trend."""

import datetime as dt
from collections.abc import Iterator
from typing import Any, Final

import pandas as pd

from reportgen.model import doubts
from reportgen.model.facts import CurrentFact
from reportgen.view import ability, head, pieces, trend
from reportgen.view.options import CalendarWeights, RunningBest
from reportgen.view.page import Block, Figure, Paragraph, Section, Table
from reportgen.view.reader import Reader, as_day, load, of, tidy
from reportgen.words import Phrase, Say, exists, numbers, phrase, say, text, together

#: Points of one line that a picture shows; on a phone more cannot be told apart.
MOST_READINGS: Final = 60


def section(reader: Reader) -> Section:
    """The section with its figures and tables; where goal and best stand is said in the head."""
    blocks: tuple[Block, ...] = (
        running_best(reader),
        *trend.blocks(reader),
        *_mass(reader),
        current_table(reader),
        best_table(reader),
        *((goal_table(reader),) if len(reader.facts.goals) > 1 else ()),
    )
    return Section(id="stands", title=text("stands.title"), lead=_once(reader), blocks=blocks)


def _mass(reader: Reader) -> tuple[Block, ...]:
    """Body mass; where it moves the goal it is drawn with the bar, and only its words and months are here."""
    mass = body_mass(reader)
    if mass is None:
        return ()
    return (mass,) if moving_goal(reader).empty else (Paragraph(text=mass.sentence), mass.table)


def _once(reader: Reader) -> Phrase:
    """A best that is heavier than the present one and older than a present best may be."""
    older = None if head.doubtful(reader) else head.once(reader)
    if older is None:
        return ()
    weeks = reader.dossier.records.lifter.weeks_current
    return phrase("stands.lead.once", best_kg=older[0], date=older[1], weeks=weeks)


def where(name: str) -> str:
    """What a set was lifted in: training, a contest or a test in words, an event by its name."""
    key = f"stands.kind.{name}"
    return text(key) if exists(key) else name


def _heights(reader: Reader) -> pd.DataFrame:
    """The running best with readings, each lift carried on to the review day."""
    best = reader.dossier.tables.running_best
    ends = best.groupby("lift", sort=True).tail(1).assign(date=pd.Timestamp(reader.facts.as_of), kind="")
    frame = pd.concat([best, ends], ignore_index=True).sort_values(["lift", "date"], kind="stable")
    frame["weight"] = reader.numbers(frame["kg"])
    frame["reading"] = reader.readings(frame, lambda row: f"stands.best.day{'_where' if row['kind'] else ''}")
    return frame[["date", "lift", "weight", "kind", "reading"]].reset_index(drop=True)


def _attempts(reader: Reader) -> pd.DataFrame:
    """Every attempt at the goal's lifts, made or missed."""
    sets = reader.dossier.tables.sets
    rows = sets.loc[(sets["kind"] != "training") & sets["lift"].isin(reader.lifts) & (sets["tried"] > 0)]
    mark = (rows["made_reps"] > 0).map({True: "made", False: "missed"})
    told = pd.DataFrame(
        {
            "date": rows["date"],
            "lift": rows["lift"],
            "kg": rows["load_kg"],
            "event": rows["event"].where(rows["event"] != "", rows["kind"].map(where)),
            "miss": rows["miss"],
            "mark": mark.map({name: text(f"charts.mark.{name}") for name in ("made", "missed")}),
        }
    )
    readings = reader.readings(told, lambda row: f"stands.best.attempt{'_miss' if row['miss'] else ''}")
    weight = reader.numbers(rows["load_kg"])
    frame = told[["date", "lift"]].assign(weight=weight, mark=mark, reading=readings)
    return frame.reset_index(drop=True)


def _tests(reader: Reader) -> pd.DataFrame:
    """One mark a test day, given or found, whatever the number of lifts that were tested on it."""
    facts = reader.facts.test_days or ()
    several = len({d.lift for d in facts}) > 1
    told: dict[dt.date, list[Say]] = {}
    events: dict[dt.date, str] = {}
    for d in facts:
        made = say(f"stands.best.made{'_best' if d.best_kg else ''}", **of(d))
        told.setdefault(d.date, []).append(
            say("stands.best.of_lift", lift=d.lift, made=made) if several else made
        )
        events.setdefault(d.date, d.event or where(d.kind))
    return tidy(
        "date reading",
        (
            (day, reader.text("stands.best.test", date=day, event=events[day], lifts=tuple(lifts)))
            for day, lifts in told.items()
        ),
    )


def _thinned(reader: Reader) -> pd.DataFrame:
    """Readings of body mass, as many as can be told apart, the last among them."""
    mass = reader.dossier.tables.bodymass
    step = -(-len(mass) // MOST_READINGS) or 1
    return mass.iloc[::-1].iloc[::step].iloc[::-1]


def moving_goal(reader: Reader) -> pd.DataFrame:
    """What a goal set by body mass asked for on each day: date, weight, reading; no row for any other."""
    goal, best = reader.goal, reader.dossier.tables.running_best
    asks = goal.times_body_mass is not None and reader.lift != "total"
    mass = _thinned(reader)
    if not asks or mass.empty or best.empty:
        return tidy("date weight reading", [])
    asked = mass.assign(goal_kg=mass["mass_kg"] * (goal.times_body_mass or 1.0))
    said = reader.readings(asked, f"stands.mass.day{'' if goal.times_body_mass == 1 else '_goal'}")
    return pd.DataFrame({"date": asked["date"], "weight": reader.numbers(asked["goal_kg"]), "reading": said})


def running_best(reader: Reader) -> Figure | Paragraph:
    """Running best against the goal, what an ordinary day makes, attempts and test days marked."""
    best = reader.dossier.tables.running_best
    if best.empty:
        return pieces.paragraph("stands.best.none", lifts=reader.lifts)
    goal, now = reader.goal, reader.facts.as_of
    attempts, tests = _attempts(reader), _tests(reader)
    first = as_day(best["date"].min())
    goal_kg = goal.goal_kg if reader.lift != "total" else None
    rows = [
        (as_day(d), lift, load(kg), where(kind), *ability.cells(reader, lift, as_day(d)))
        for d, lift, kg, kind in zip(*(best[c] for c in ("date", "lift", "kg", "kind")), strict=True)
    ]
    rows += [
        (now, one.lift, load(None), text("stands.best.review_day"), *ability.cells(reader, one.lift, now))
        for one in ability.facts(reader)
    ]
    lifts = tuple(sorted(set(best["lift"])))
    sentence = together((*_rise(reader), ability.sentence(reader)))
    drawn = (("attempts", attempts), ("tests", tests))
    marks = tuple(say(f"stands.best.{key}", n=len(table)) for key, table in drawn if len(table))
    return pieces.figure(
        "stands.best",
        "running-best",
        "running_best",
        {
            "best": _heights(reader),
            "attempts": attempts,
            "tests": tests,
            "arrival": trend.reach(reader, goal_kg),
            "ability": ability.band(reader, first),
            "goal": moving_goal(reader),
        },
        pieces.table("stands.best.table", rows, address="running-best-table", folded=True, lifts=lifts),
        options=RunningBest(
            unit=reader.unit,
            goal=reader.level("goal", goal_kg),
            first=first,
            last=max(now, trend.arrival(reader)[1] or now),
        ),
        over_time=True,
        sentence=sentence,
        unit=reader.unit,
        told=together((sentence, ability.told(reader, "stands.ordinary.summary"))),
        first=first,
        last=now,
        marked=say("stands.best.marked", marks=marks) if marks else "",
    )


def _rise(reader: Reader) -> Iterator[Phrase]:
    """How far each best rose, or since when it has stood; nothing of a lift whose figures are not sure."""
    for lift, rows in reader.dossier.tables.running_best.groupby("lift", sort=True):
        if any(doubts.of_figures(one, (str(lift),)) for one in reader.facts.unsure):
            continue
        start, end = _first_known(rows, reader), rows.iloc[-1]
        gained = end["kg"] - start["kg"]
        still = (reader.facts.as_of - as_day(end["date"])).days
        yield phrase(
            f"stands.best.{'rose' if gained > 0 else 'stood'}{'' if still else '_today'}",
            lift=str(lift),
            gain_kg=gained,
            best_kg=end["kg"],
            start=as_day(start["date"]),
            end=as_day(end["date"]),
            still_days=still,
        )


def _first_known(rows: pd.DataFrame, reader: Reader) -> Any:
    """The best that a rise is counted from: a log that begins with working loads has none for some weeks."""
    if rows["kind"].iloc[0] != "training":
        return rows.iloc[0]
    young = pd.Timedelta(days=int(reader.trade.value("reference_known_days")))
    return rows.loc[rows["date"] < rows["date"].iloc[0] + young].iloc[-1]


def body_mass(reader: Reader) -> Figure | None:
    """Body mass, or what a goal set by it asks for; None without body mass."""
    mass = reader.dossier.tables.bodymass
    if mass.empty:
        return None
    times = reader.goal.times_body_mass
    asks, thinned = times not in (None, 1), _thinned(reader)
    wanted = thinned["mass_kg"] * (times or 1.0)
    body = pd.DataFrame({"date": thinned["date"], "weight": reader.numbers(wanted)})
    body["reading"] = reader.readings(
        thinned.assign(goal_kg=wanted), "stands.mass.day_goal" if asks else "stands.mass.day"
    )
    first, last = mass.iloc[0], mass.iloc[-1]
    moved = last["mass_kg"] - first["mass_kg"]
    known = times is not None and not reader.dossier.tables.running_best.empty
    what = text("stands.mass.times" if asks else "stands.mass.alone", times=times or 1.0)
    sentence = phrase(
        f"stands.mass.{'asks' if known else 'moved' if len(mass) > 1 else 'now'}",
        mass_kg=last["mass_kg"],
        moved_kg=moved,
        first=as_day(first["date"]),
        asked_kg=moved * (times or 1.0),
    )
    return Figure(
        id="body-mass",
        title=text("stands.mass.title"),
        sentence=sentence,
        summary=reader.text(
            "stands.mass.summary",
            what=what,
            first=as_day(first["date"]),
            last=as_day(last["date"]),
            n=len(mass),
            sentence=sentence,
        ),
        chart="body_mass",
        data={"body": body},
        options=CalendarWeights(unit=reader.unit, first=as_day(body["date"].min()), last=reader.facts.as_of),
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
    rows = (
        (
            numbers.month(as_day(month)),
            load(median_kg.get(f"{month:%Y-%m}")),
            load(low),
            load(high),
            str(many),
        )
        for month, low, high, many in by_month.agg(["min", "max", "count"]).itertuples()
    )
    table = pieces.table("stands.mass.table", rows, address="body-mass-table", folded=True)
    return pieces.newest(table, last=True)


def current_table(reader: Reader) -> Table:
    """The heaviest made loads of the last weeks, older ones marked."""

    def beside(fact: CurrentFact) -> Iterator[Say]:
        if fact.estimated_kg is not None and fact.estimated_kg > (fact.kg or 0.0):
            yield say("stands.current.estimated", **of(fact))
        if fact.with_straps_kg is not None:
            yield say("stands.current.straps", **of(fact))

    rows = (
        (
            fact.lift,
            load(fact.kg),
            fact.date,
            phrase("stands.current.older", **of(fact))
            if fact.kg is None and fact.stale_kg is not None and fact.stale_date is not None
            else None,
            phrase("common.clauses", parts=tuple(beside(fact))),
        )
        for fact in reader.facts.current
    )
    weeks = reader.dossier.records.lifter.weeks_current
    return pieces.table("stands.current", rows, address="current", folded=True, weeks=weeks)


def best_table(reader: Reader) -> Table:
    """Bests of one, two and three repetitions of the lifts that matter to the goal."""
    carrying = {i.lift for i in reader.facts.indicators or () if not i.context}
    named = {*reader.lifts, *carrying, *(g.lift for g in reader.facts.goals)}
    rows = (
        (
            b.lift,
            str(b.reps),
            load(b.kg),
            b.date,
            text("stands.bests.complex", where=where(b.where)) if b.complex else where(b.where),
        )
        for b in reader.facts.bests
        if b.reps <= 3 and b.lift in named
    )
    return pieces.table("stands.bests", rows, address="bests", folded=True)


def goal_table(reader: Reader) -> Table:
    """Every goal with where it stands."""
    rows = (
        (goal.lift, load(goal.goal_kg), goal.by, load(goal.current_kg), load(goal.gap_kg))
        for goal in reader.facts.goals
    )
    return pieces.table("stands.goals", rows, address="goals")
