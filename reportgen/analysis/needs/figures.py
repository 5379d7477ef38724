"""Signs of the lifts against one another: short, enough, the two-sided ones, the squat that rises alone."""

import math
from collections.abc import Iterator

import pandas as pd

from reportgen.analysis import strength
from reportgen.analysis.frames import arrays
from reportgen.analysis.needs.signs import Given, Sign, Values, evidence
from reportgen.model.facts import IndicatorFact
from reportgen.model.say import say
from reportgen.trade.schema import Band

SOURCE = "figures"
KIND = "indicator"


def read(given: Given) -> Iterator[Sign]:
    """Signs of every indicator of the goal, and of the squat against the lift over time."""
    for fact in given.facts.indicators or ():
        if (
            not fact.context
            and fact.base == "goal"
            and fact.current_kg is not None
            and not _grown(given, fact)
        ):
            yield from _indicator(given, fact)
    yield from transfer(given)
    for lift in given.lifts:
        found = strength.rise(given.scored, given.tables.sets, lift, as_of=given.as_of, trade=given.trade)
        if found is not None and found.tried:
            yield _rise(given, found)


def _grown(given: Given, fact: IndicatorFact) -> bool:
    """Whether a figure of squats or pulls is one of the grown that a child is not held against."""
    born, role = given.records.lifter.born, given.trade.lifts[fact.lift].role
    child = born is not None and given.as_of.year - born < given.value("norms_age")
    return child and role in ("squat", "pull") and fact.source != "coach"


def _indicator(given: Given, fact: IndicatorFact) -> Iterator[Sign]:
    size = short(given, fact)
    if size is not None and size > 0 and not only_nominal(given, fact):
        yield _sign(given, fact, "short", f"short:{fact.id}", size=size, kilos=kilos(given, fact))
    elif size is not None:
        yield _sign(given, fact, "enough", f"enough:{fact.id}", size=min(0.0, size))
    if fact.reading == "beyond" and fact.id == "back_squat":
        yield _sign(given, fact, "beyond", f"beyond:{fact.id}")
    shares = {
        "power_snatch": ("power_near", "power_snatch_inflated"),
        "low_hang_snatch": ("low_hang_above", "low_hang_inflated"),
    }
    if fact.reading == "beyond" and fact.id in shares and fact.present_share is not None:
        key, rule = shares[fact.id]
        if fact.present_share >= given.value(rule) - 1e-9:
            yield _sign(given, fact, key, key, rule=rule)


def short(given: Given, fact: IndicatorFact) -> float | None:
    """The log odds that a figure is short: none at the edge of what is called short, one a step beyond it.

    A lift that was missed above its best has its limit between the two. Near a limit weighs less; what was
    not taken to a limit carries at least so much, so it only ever speaks against.

    Returns:
        None where the figure has no lower edge, or says nothing.
    """
    target, edge = given.targets.get(fact.goal_lift), _edge(given, fact)
    if edge is None or target is None or fact.current_kg is None:
        return None
    far = math.log(fact.current_kg / (edge * target))
    if fact.limit == "open":
        return (
            max(-given.value("figure_most_against"), -far / given.value("figure_step")) if far > 0 else None
        )
    shown = fact.limit == "shown"
    limit = _limit(given, fact) if shown else _implied(given, fact)
    size = -math.log(limit / (edge * target)) / given.value("figure_step")
    size *= 1.0 if shown else given.value("figure_near_part")
    # Who makes more of a squat than most is efficient, and the legs may be what holds the lift all the same.
    doubtful = outdone(given, fact) and given.trade.lifts[fact.lift].family != "squat"
    most = given.value("figure_outdone_most" if doubtful else "figure_most")
    return max(-given.value("figure_most_against"), min(most, size))


def outdone(given: Given, fact: IndicatorFact) -> bool:
    """Whether the lifter already lifts more than a figure is usually enough for: they are efficient."""
    present, most = given.present_kg(fact.goal_lift), fact.supports_high_kg
    return present is not None and most is not None and present > most + given.value("edge_kg")


def _edge(given: Given, fact: IndicatorFact) -> float | None:
    """The share of the goal under which a figure is called short."""
    band = _band(given, fact)
    if band is not None and band.short_at is not None and fact.source != "coach":
        return band.short_at
    return None if fact.low is None else fact.low * (1 - given.value("short_tolerance"))


def _band(given: Given, fact: IndicatorFact) -> Band | None:
    """The table's own band of a figure."""
    bands = given.trade.indicator_bands(fact.goal_lift, given.records.lifter.standards)
    return next((one for one in bands if one.id == fact.id), None)


def _limit(given: Given, fact: IndicatorFact) -> float:
    """Where the limit of a lift lies: half way from its best to the lightest miss above it [kg]."""
    kg, sets = fact.current_kg or 0.0, given.tables.sets
    first = pd.Timestamp(given.as_of) - pd.Timedelta(weeks=given.records.lifter.weeks_current)
    lift, counts, lost, load_kg, date = arrays(sets, "lift", "counts", "missed", "load_kg", "date")
    missed = load_kg[(lift == fact.lift) & counts & (lost > 0) & (load_kg > kg) & (date >= first.to_numpy())]
    return (kg + min(float(missed.min()), kg * 1.15)) / 2 if len(missed) else kg


def _implied(given: Given, fact: IndicatorFact) -> float:
    """The single that the heaviest double or triple of a lift near its limit leaves room for [kg]."""
    sets, kg = given.tables.sets, fact.current_kg or 0.0
    mine = sets.loc[(sets["lift"] == fact.lift) & (sets["load_kg"] >= kg - given.value("edge_kg")), "made"]
    reps = int(mine.max()) if len(mine) else 1
    return kg / {1: 1.0, 2: given.value("double_share_low")}.get(reps, given.value("triple_share_low"))


def only_nominal(given: Given, fact: IndicatorFact) -> bool:
    """A squat that is short by its number only: near a limit in sets, with a single that they say is enough.

    An estimate never makes a need; here it keeps one from being made of a figure that nobody tested.
    """
    now = next((one for one in given.facts.current if one.lift == fact.lift), None)
    edge = _edge(given, fact)
    if fact.limit != "near" or now is None or now.estimated_kg is None or edge is None:
        return False
    return now.estimated_kg >= edge * given.targets.get(fact.goal_lift, 0.0)


def kilos(given: Given, fact: IndicatorFact) -> float | None:
    """min(gap, max(0, goal - supports_high)): what hangs on one short figure [kg of the goal lift]."""
    gap, target = given.gap_kg(fact.goal_lift), given.targets.get(fact.goal_lift)
    if target is None or fact.supports_high_kg is None:
        return None
    left = max(0.0, target - fact.supports_high_kg)
    return left if gap is None else min(gap, left)


def _sign(
    given: Given,
    fact: IndicatorFact,
    template: str,
    key: str,
    *,
    size: float = 1.0,
    kilos: float | None = None,
    rule: str = "",
) -> Sign:
    band = _band(given, fact)
    borrowed = band is not None and band.borrowed
    whose = "coach" if fact.source == "coach" else "borrowed" if borrowed else "table"
    values: Values = {
        "lift": fact.lift,
        "goal_lift": fact.goal_lift,
        "current_kg": fact.current_kg or 0.0,
        "low_kg": fact.low_kg or 0.0,
        "high_kg": fact.high_kg or 0.0,
        "goal_kg": given.targets.get(fact.goal_lift, 0.0),
        "shortfall_kg": max(0.0, (fact.low_kg or 0.0) - (fact.current_kg or 0.0)),
        "supports_kg": fact.supports_high_kg or fact.supports_low_kg or 0.0,
        "present_kg": given.present_kg(fact.goal_lift) or 0.0,
        "outdone": outdone(given, fact),
        "date": fact.current_date or given.as_of,
        "present_share": fact.present_share or 0.0,
        "limit": say(f"needs.limits.{fact.limit or 'open'}"),
        "whose": say(f"needs.whose.{whose}"),
    }
    shown = evidence(
        template,
        values,
        file=fact.file,
        rule=rule or fact.id,
        lines=(fact.line,),
        dates=(fact.current_date,) if fact.current_date else (),
        kind=KIND,
    )
    return Sign(
        key=key, source=SOURCE, size=size, name=fact.lift, evidence=(shown,), values=values, kilos=kilos
    )


def transfer(given: Given) -> Iterator[Sign]:
    """Doubles and triples that are not yet a single; the larger gap of a lift speaks."""
    gaps = [fact for fact in given.facts.rep_maxes if fact.transfer_gap_kg]
    if not gaps:
        return
    fact = max(gaps, key=lambda one: one.transfer_gap_kg or 0.0)
    rows = given.scored
    row = rows.loc[
        (rows["lift"] == fact.lift) & (rows["made"] >= fact.reps) & (rows["load_kg"] == fact.kg)
        & (rows["date"] == pd.Timestamp(fact.date))
    ].iloc[0]  # fmt: skip
    values: Values = {
        "set": say(f"needs.drawn.of_{fact.reps}"),
        "several_kg": fact.kg,
        "implied_kg": fact.implied_single_kg,
        "single_kg": fact.single_kg or 0.0,
        "date": fact.date,
    }
    rule = "double_share_high" if fact.reps == 2 else "triple_share_high"
    shown = evidence(
        "transfer", values, file=str(row["file"]), rule=rule,
        lines=(int(row["line"]),), dates=(fact.date,), kind=KIND,
    )  # fmt: skip
    gap, stake = given.gap_kg(fact.lift), fact.transfer_gap_kg or 0.0
    yield Sign(
        key="transfer", source="log", name=fact.lift, evidence=(shown,), values=values,
        kilos=stake if gap is None else min(gap, stake),
    )  # fmt: skip


def _rise(given: Given, found: strength.Rise) -> Sign:
    (then_file, then_line), (now_file, now_line) = found.squat_rows
    dates = given.tables.sets.set_index(["file", "line"])["date"]
    then, now = (dates.loc[[row]].iloc[0].date() for row in found.squat_rows)
    values: Values = {
        "lift": found.lift,
        "lift_kg": found.lift_kg,
        "squat_then_kg": found.squat_then_kg,
        "squat_now_kg": found.squat_now_kg,
        "weeks": found.weeks,
        "then": then,
        "now": now,
        "share": found.share,
        "days": len(found.tried_days),
        "since": found.since,
    }
    shown = [
        evidence(
            "squat_rise", values, file=now_file, rule="squat_rise",
            lines=(then_line, now_line) if then_file == now_file else (now_line,),
            dates=(then, now), kind=KIND,
        ),
        *(
            evidence(
                "lift_tried", values, file=file, rule="lift_tried_days",
                lines=[line for name, line in found.tried_rows if name == file],
                dates=found.tried_days, kind=KIND,
            )
            for file in sorted({name for name, _ in found.tried_rows})
        ),
    ]  # fmt: skip
    size = min(given.value("squat_rise_most"), found.share / given.value("squat_rise_full"))
    return Sign(
        key="squat_up", source=SOURCE, size=size, name="back squat", evidence=tuple(shown), values=values
    )
