"""Signs of the lifts against one another: short, enough, the two-sided ones, the squat that rises alone."""

from collections.abc import Iterator

import pandas as pd

from reportgen.analysis import strength
from reportgen.analysis.needs import wording
from reportgen.analysis.needs.signs import Given, Sign, evidence
from reportgen.analysis.needs.wording import Value
from reportgen.model.facts import IndicatorFact
from reportgen.model.findings import Worded

KIND = "indicator"


def read(given: Given) -> Iterator[Sign]:
    """Signs of every indicator of the goal, and of the squat against the lift over time."""
    for fact in given.facts.indicators or ():
        if not fact.context and fact.base == "goal" and fact.current_kg is not None:
            yield from _indicator(given, fact)
    yield from transfer(given)
    for lift in given.lifts:
        found = strength.rise(given.scored, given.tables.sets, lift, as_of=given.as_of, trade=given.trade)
        if found is not None and found.tried:
            yield _rise(given, found)


def _indicator(given: Given, fact: IndicatorFact) -> Iterator[Sign]:
    if fact.reading == "short" and not only_nominal(given, fact):
        yield _sign(given, fact, "short", f"short:{fact.id}", kilos=kilos(given, fact))
    elif fact.reading in ("within", "beyond"):
        yield _sign(given, fact, "enough", f"enough:{fact.id}")
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


def only_nominal(given: Given, fact: IndicatorFact) -> bool:
    """A squat that is short by its number only: near a limit in sets, with a single that they say is enough.

    An estimate never makes a finding; here it keeps one from being made of a figure that nobody tested.
    """
    now = next((one for one in given.facts.current if one.lift == fact.lift), None)
    if fact.limit != "near" or now is None or now.estimated_kg is None or fact.low is None:
        return False
    bands = given.trade.indicator_bands(fact.goal_lift, given.records.lifter.standards)
    edge = next((one.short_at for one in bands if one.id == fact.id and fact.source != "coach"), None)
    least = edge if edge is not None else fact.low * (1 - given.value("short_tolerance"))
    return now.estimated_kg >= least * given.targets.get(fact.goal_lift, 0.0)


def kilos(given: Given, fact: IndicatorFact) -> float | None:
    """min(gap, max(0, goal - supports_high)): what hangs on one short figure [kg of the goal lift]."""
    gap, target = given.gap_kg(fact.goal_lift), given.targets.get(fact.goal_lift)
    if target is None or fact.supports_high_kg is None:
        return None
    left = max(0.0, target - fact.supports_high_kg)
    return left if gap is None else min(gap, left)


def _sign(
    given: Given, fact: IndicatorFact, template: str, key: str, *, kilos: float | None = None, rule: str = ""
) -> Sign:
    whose = "coach" if fact.source == "coach" else "borrowed" if _borrowed(given, fact) else ""
    values: dict[str, Value | Worded] = {
        "lift": fact.lift,
        "goal_lift": fact.goal_lift,
        "current_kg": fact.current_kg or 0.0,
        "low_kg": fact.low_kg or 0.0,
        "high_kg": fact.high_kg or 0.0,
        "goal_kg": given.targets.get(fact.goal_lift, 0.0),
        "shortfall_kg": fact.shortfall_kg or 0.0,
        "supports": wording.supports(fact.supports_low_kg, fact.supports_high_kg),
        "date": fact.current_date or given.as_of,
        "present_percent": wording.percent(fact.present_share or 0.0),
        "limit": given.claims.limits[fact.limit or "open"],
        "whose": given.claims.whose[whose] if whose else "",
    }
    shown = evidence(
        given,
        template,
        values,
        file=fact.file,
        rule=rule or fact.id,
        lines=(fact.line,),
        dates=(fact.current_date,) if fact.current_date else (),
        kind=KIND,
    )
    return Sign(
        key=key,
        kind=KIND,
        name=(fact.lift,),
        evidence=(shown,),
        values=values,
        kilos=kilos,
        doubts=_doubts(given, fact),
    )


def _doubts(given: Given, fact: IndicatorFact) -> tuple[tuple[str, dict[str, Value | Worded]], ...]:
    found: list[tuple[str, dict[str, Value | Worded]]] = []
    if fact.limit == "near":
        found.append(("near", {}))
    if fact.days_apart is not None and fact.days_apart > given.value("pair_days_max"):
        found.append(("apart", {"days": fact.days_apart}))
    return tuple(found)


def _borrowed(given: Given, fact: IndicatorFact) -> bool:
    bands = given.trade.indicator_bands(fact.goal_lift, given.records.lifter.standards)
    return any(band.borrowed for band in bands if band.id == fact.id)


def transfer(given: Given) -> Iterator[Sign]:
    """Doubles and triples that are not yet a single; the larger gap of a lift speaks."""
    gaps = [fact for fact in given.facts.rep_maxes or () if fact.transfer_gap_kg]
    if not gaps:
        return
    fact = max(gaps, key=lambda one: one.transfer_gap_kg or 0.0)
    rows = given.scored
    row = rows.loc[
        (rows["lift"] == fact.lift) & (rows["made"] >= fact.reps) & (rows["load_kg"] == fact.kg)
        & (rows["date"] == pd.Timestamp(fact.date))
    ].iloc[0]  # fmt: skip
    values: dict[str, Value | Worded] = {
        "set_name": "double" if fact.reps == 2 else "triple",
        "several_kg": fact.kg,
        "implied_kg": fact.implied_single_kg,
        "single_kg": fact.single_kg or 0.0,
        "date": fact.date,
        "today": "",
    }
    if fact.chance is not None:
        values["today"] = given.claims.drawn["today"].format(percent=wording.percent(fact.chance))
    shown = evidence(
        given, "transfer", values, file=str(row["file"]), rule=f"{values['set_name']}_share_high",
        lines=(int(row["line"]),), dates=(fact.date,), kind=KIND,
    )  # fmt: skip
    gap = given.gap_kg(fact.lift)
    at_stake = (
        fact.transfer_gap_kg
        if gap is None or fact.transfer_gap_kg is None
        else min(gap, fact.transfer_gap_kg)
    )
    yield Sign(key="transfer", kind=KIND, name=(fact.lift,), evidence=(shown,), values=values, kilos=at_stake)


def _rise(given: Given, found: strength.Rise) -> Sign:
    (then_file, then_line), (now_file, now_line) = found.squat_rows
    dates = given.tables.sets.set_index(["file", "line"])["date"]
    then, now = (dates.loc[[row]].iloc[0].date() for row in found.squat_rows)
    values: dict[str, Value | Worded] = {
        "lift": found.lift,
        "lift_kg": found.lift_kg,
        "squat_then_kg": found.squat_then_kg,
        "squat_now_kg": found.squat_now_kg,
        "weeks": found.weeks,
        "then": then,
        "now": now,
        "set_name": "singles" if found.reps == 1 else f"sets of up to {found.reps}",
        "percent": wording.percent(found.share),
        "days": len(found.tried_days),
        "since": found.since,
    }
    shown = [
        evidence(
            given, "squat_rise", values, file=now_file, rule="squat_rise",
            lines=(then_line, now_line) if then_file == now_file else (now_line,),
            dates=(then, now), kind=KIND,
        ),
        *(
            evidence(
                given, "lift_tried", values, file=file, rule="lift_tried_days",
                lines=[line for name, line in found.tried_rows if name == file],
                dates=found.tried_days, kind=KIND,
            )
            for file in sorted({name for name, _ in found.tried_rows})
        ),
    ]  # fmt: skip
    return Sign(key="squat_up", kind=KIND, name=("back squat",), evidence=tuple(shown), values=values)
