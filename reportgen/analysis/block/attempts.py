"""Opener, second and third; warm-ups; the loading of the bar; when the day ends."""

import datetime as dt
import math
from dataclasses import dataclass, replace

import pandas as pd

from reportgen.analysis import frames, platform
from reportgen.analysis.block.setting import Setting
from reportgen.analysis.needs import wording
from reportgen.model.proposal import BlockAttempt, BlockWarmUp
from reportgen.trade import formulas
from reportgen.trade.choices import choices
from reportgen.trade.schema import Trade

_HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """The attempts of one test day."""

    attempts: tuple[BlockAttempt, ...]
    warmups: tuple[BlockWarmUp, ...]
    ends: tuple[str, ...]


def propose(setting: Setting, sets: pd.DataFrame, *, contest: bool, fresh: float = 0.0) -> Day:
    """Propose the attempts of each lift of the day.

    Args:
        setting: The lifter.
        sets: Prepared sets, for how sure a weight is.
        contest: Both lifts are done, three attempts each and no more.
        fresh: What the taper before the day gives (a share); 0 without one.

    Returns:
        Whole kilograms, never down, at least one up after a make. A lift without a current best has none:
        nobody can say from where it would be opened.
    """
    lifts = [*setting.goal_lifts]
    if contest and setting.other:
        lifts.append(setting.other)
    attempts: list[BlockAttempt] = []
    warmups: list[BlockWarmUp] = []
    for lift in sorted(lifts, key=lambda name: name != "snatch"):
        fact = setting.stand.current.get(lift)
        if fact is None or fact.kg is None:
            continue
        support_kg = supported(setting, sets, lift)
        if support_kg is None or lift in setting.trust.banned:
            continue
        mine = of_lift(
            tries(sets, lift), fact.kg, target(setting, lift), lift, setting.facts.lifter.standards,
            setting.trade, sure_kg=_sure(setting, lift), support_kg=support_kg,
        )  # fmt: skip
        able = setting.expected.lifts.get(lift)
        attempts += [
            replace(
                one, chance=platform.chance(one.kg, one.attempt, lift, able, fresh=fresh, trade=setting.trade)
            )
            for one in mine
        ]
        warmups += (
            [] if not mine else warm_up(mine[0].kg, lift, setting.facts.lifter.standards, setting.trade)
        )
    return Day(
        attempts=tuple(attempts),
        warmups=tuple(warmups),
        ends=ends(setting, contest=contest) if attempts else (),
    )


def target(setting: Setting, lift: str) -> float | None:
    """The goal weight of one lift [kg]; a total's share of it."""
    goal = setting.facts.goals[0]
    if goal.lift == lift:
        return goal.goal_kg
    if goal.lift == "total" and goal.split is not None:
        return goal.split.snatch_kg if lift == "snatch" else goal.split.clean_and_jerk_kg
    return None


def supported(setting: Setting, sets: pd.DataFrame, lift: str) -> float | None:
    """The heaviest load made on any day but the best one [kg]; None where only one day holds the lift."""
    rows = sets.loc[(sets["lift"] == lift) & sets["counts"] & (sets["made"] > 0)]
    top = rows.groupby("date", as_index=False)[["load_kg"]].max()
    days = {row.date.date(): float(row.load_kg) for row in frames.each(top)}
    for best in setting.records.lifter.bests:
        if best.lift == lift and best.date <= setting.facts.as_of:
            days[best.date] = max(best.kg, days.get(best.date, 0.0))
    tops = sorted(days.values())
    if len(tops) < 2:
        return None
    most_kg = setting.trust.most_kg.get(lift, tops[-2])
    return (
        min(tops[-2], most_kg / (1 + setting.trade.value("held_share"))) if most_kg < tops[-1] else tops[-2]
    )


def _sure(setting: Setting, lift: str) -> float | None:
    sure = setting.facts.sure_weight
    return sure.kg if sure is not None and sure.lift == lift else None


def tries(sets: pd.DataFrame, lift: str) -> list[tuple[float, bool]]:
    """Every try of a lift's first repetition, oldest first: load and whether it was made."""
    rows = sets.loc[
        (sets["lift"] == lift) & (sets["variant"] == "") & (sets["tried"] > 0),
        ["load_kg", "tried", "made_reps"],
    ]
    found: list[tuple[float, bool]] = []
    for row in rows.tail(400).to_dict("records"):
        made = int(row["made_reps"])
        found += [(float(row["load_kg"]), True)] * made
        found += [(float(row["load_kg"]), False)] * (int(row["tried"]) - made)
    return found


def sureness(history: list[tuple[float, bool]], kg: float, trade: Trade) -> tuple[int, int]:
    """Made and tried of the last ten tries at a weight or a little under it, and of makes over it.

    A heavier make would have been a make of this weight too; a heavier miss says nothing about it.
    """
    low, high = kg * (1 - trade.value("attempt_near")), kg + trade.value("attempt_step_kg")
    close = [made for load, made in history if low - _HAIR <= load and (made or load < high - _HAIR)]
    last = close[-int(trade.value("opener_tries")) :]
    return sum(last), len(last)


def of_lift(
    history: list[tuple[float, bool]], current_kg: float, goal_kg: float | None, lift: str, standards: str,
    trade: Trade, *, sure_kg: float | None = None, support_kg: float | None = None,
) -> list[BlockAttempt]:  # fmt: skip
    """Three attempts of one lift.

    Args:
        history: Tries, oldest first.
        current_kg: Current best.
        goal_kg: The goal, None without one for this lift.
        lift: snatch or clean and jerk.
        standards: Whose bar.
        trade: Rules and published figures.
        sure_kg: The sure weight, said beside the opener.
        support_kg: The heaviest load made on any other day than the best one: a best that no other day comes
            near is no ground to go higher from.

    References:
        Shares: common practice. Whole kilograms, never down, one more after a make: IWF, Technical and
        Competition Rules.
    """
    step = int(trade.value("attempt_step_kg"))
    first, why = _opener(history, current_kg, standards, trade)
    if sure_kg is not None:
        why += f"; the sure weight is {round(sure_kg, 1):g} kg"
    second = max(first + step, _second(current_kg, goal_kg, trade))
    longest = max(first + step, math.floor(first * (1 + trade.value("second_jump_max")) + _HAIR))
    second, cut = min(second, longest), second > longest
    third, third_why = _third(second, current_kg, goal_kg, trade)
    most = f", {wording.percent(trade.value('second_jump_max'))} from the opener at most" if cut else ""
    texts = (
        why,
        f"{wording.percent(second / current_kg)} of the current best, {second - first:g} kg up{most}",
        third_why,
    )
    loads, texts = _held_down((first, second, third), texts, support_kg or current_kg, trade)
    if loads[0] < trade.value(f"bar_{standards}_kg"):
        return []
    sure = sureness(history, loads[0], trade)
    return [
        _attempt(index, loads, text, lift, standards, sure if index == 0 else (0, 0), trade)
        for index, text in enumerate(texts)
    ]


def _attempt(
    index: int, loads: tuple[int, int, int], why: str, lift: str, standards: str, sure: tuple[int, int],
    trade: Trade,
) -> BlockAttempt:  # fmt: skip
    """One attempt of the loads of a lift, with what internationals do beside it."""
    kg = loads[index]
    key, sources = lift.replace(" ", "_"), trade.published
    made_rule = sources.get(f"{key}_made_{('first', 'second', 'third')[index]}")
    share_rule = sources.get(f"{key}_{('opener', 'second_jump_share', 'third_jump_share')[index]}")
    last = index == int(trade.value("attempts_a_lift")) - 1
    made, tried = sure if sure[1] >= trade.value("opener_tries") else (None, None)
    return BlockAttempt(
        attempt=index + 1,
        kg=float(kg),
        why=why,
        lift=lift,
        after_make_kg=None if last else float(loads[index + 1]),
        after_miss_kg=None if last else float(kg),
        loading=loading(kg, standards, trade),
        made=made,
        tried=tried,
        published_made=made_rule.mid if made_rule is not None else None,
        published_share=share_rule.mid if share_rule is not None else None,
        source=made_rule.source if made_rule is not None else "",
    )


def _held_down(
    loads: tuple[int, int, int], texts: tuple[str, str, str], support_kg: float, trade: Trade
) -> tuple[tuple[int, int, int], tuple[str, str, str]]:
    """The attempts, none of them far over what any other day than the best one bears out."""
    first, second, third = loads
    step, most = int(trade.value("attempt_step_kg")), trade.value("support_most")
    held = math.floor(most * support_kg + _HAIR)
    if third <= held:
        return loads, texts
    second = min(second, held - step)
    why = f"held down: the heaviest of any other day is {round(support_kg, 1):g} kg"
    return (min(first, second - step), second, held), (
        why,
        why,
        f"{why}, and {wording.percent(most)} of it is the most",
    )


def _opener(
    history: list[tuple[float, bool]], current_kg: float, standards: str, trade: Trade
) -> tuple[int, str]:
    """The heaviest weight of 90 to 93 % that was made 9 of the last 10 times; lower where none was."""
    value = trade.value
    bar_kg = int(value(f"bar_{standards}_kg"))
    wanted, whole = value("opener_made"), int(value("opener_tries"))
    high = math.floor(value("opener_high") * current_kg + _HAIR)
    low = min(high, math.ceil(value("opener_low") * current_kg - _HAIR))
    least = math.ceil(value("opener_least") * current_kg - _HAIR)
    for kg in range(high, min(low, least) - 1, -1):
        made, tried = sureness(history, kg, trade)
        if tried >= whole and made >= wanted:
            text = f"{wording.percent(kg / current_kg)} of the current best; made {made} of the last {tried} "
            text += "tries near it or over it"
            return max(kg, bar_kg), text if kg >= low else f"{text}. More was not made so often"
    made, tried = sureness(history, low, trade)
    if tried < whole:
        known = f"made {made} of {tried} tries near it or over it, no more are logged"
        text = f"{wording.percent(low / current_kg)} of the current best; "
        return max(low, bar_kg), text + (known if tried else "no try near it is logged")
    least = max(bar_kg, least)
    return (
        least,
        f"{wording.percent(least / current_kg)} of the current best: {low} kg was made {made} of the last "
        f"{tried} tries near it or over it",
    )


def _second(current_kg: float, goal_kg: float | None, trade: Trade) -> int:
    """95 to 97 % of the current best; the upper end where only that brings the goal or a best in reach."""
    low = math.ceil(trade.value("second_low") * current_kg - _HAIR)
    high = max(low, math.floor(trade.value("second_high") * current_kg + _HAIR))
    within = goal_kg is not None and math.ceil(goal_kg - _HAIR) <= _most(high, trade)
    middle = math.floor((low + high) / 2)
    return high if within or _most(middle, trade) <= current_kg + _HAIR else middle


def _most(second: int, trade: Trade) -> int:
    """The heaviest third after a second: a jump of 4 % or less, one kilogram at least."""
    jump = math.floor(second * (1 + trade.value("third_jump_max")) + _HAIR)
    return max(second + int(trade.value("attempt_step_kg")), jump)


def _third(second: int, current_kg: float, goal_kg: float | None, trade: Trade) -> tuple[int, str]:
    most = _most(second, trade)
    step = int(trade.value("attempt_step_kg"))
    best = math.floor(current_kg + _HAIR) + step
    if goal_kg is None:
        return max(second + step, min(most, best)), "one more than the current best, where the jump allows it"
    goal = math.ceil(goal_kg - _HAIR)
    if second < goal <= most:
        return goal, f"the goal{_whole(goal, goal_kg)}"
    if goal <= second:
        return max(second + step, min(most, best)), "the goal lies behind: one more than the current best"
    beside = (
        "; it equals the current best"
        if abs(most - current_kg) < step and most >= math.floor(current_kg + _HAIR)
        else f"; it lies under the current best of {round(current_kg, 1):g} kg, which the steps do not reach"
        if most < current_kg
        else ""
    )
    jump, up = wording.percent(trade.value("third_jump_max")), wording.percent(goal / second - 1)
    up = f"more than {up}" if up == jump else up
    whole = _whole(goal, goal_kg) or f", {goal} kg"
    return most, f"a jump of {jump} or less; the goal{whole}, would be {up} up{beside}"


def _whole(goal: int, goal_kg: float) -> str:
    """Where the goal is no whole kilogram: which weight is asked for in its place."""
    exact = round(goal_kg, 1)
    return "" if exact == goal else f" ({goal} kg is the first whole kilogram that reaches {exact:g} kg)"


def loading(kg: float, standards: str, trade: Trade) -> str:
    """One side of the bar in words: `bar 20, a side 25 + 10 + collar 2.5`; none where they weigh too much."""
    bar_kg, collar_kg = trade.value(f"bar_{standards}_kg"), trade.value("collar_kg")
    side = formulas.bar_discs(kg, standards, trade)
    if side is not None:
        return f"bar {bar_kg:g}, a side " + " + ".join(
            [*(f"{disc:g}" for disc in side), f"collar {collar_kg:g}"]
        )
    plain = formulas.bar_discs(kg + 2 * collar_kg, standards, trade)
    if plain:
        return f"bar {bar_kg:g}, a side " + " + ".join(f"{disc:g}" for disc in plain) + ", no collars"
    return f"bar {bar_kg:g}, empty" if kg == bar_kg else ""


def warm_up(opener_kg: float, lift: str, standards: str, trade: Trade) -> list[BlockWarmUp]:
    """Steps up to an opener: whole kilograms, rising, each a load of its own."""
    bar_kg = int(trade.value(f"bar_{standards}_kg"))
    found: list[BlockWarmUp] = []
    for step in (None, *choices().warmups):
        kg = bar_kg if step is None else max(bar_kg, math.floor(step.share * opener_kg))
        if kg < opener_kg and (not found or kg > found[-1].kg):
            reps = choices().warmups[0].reps if step is None else step.reps
            found.append(
                BlockWarmUp(lift=lift, kg=float(kg), reps=reps, loading=loading(kg, standards, trade))
            )
    return found


def ends(setting: Setting, *, contest: bool) -> tuple[str, ...]:
    """When the day is over."""
    value = setting.trade.value
    most = int(value("attempts_a_lift"))
    after = "After a miss the same weight again, never less; after a make at least 1 kg more."
    if contest:
        return (
            f"{most} attempts a lift and no more; {most} misses in one lift and there is no total.",
            after,
        )
    return (
        after,
        f"With all {most} made it may go on, {int(value('attempt_step_kg'))} kg up or more at a time, "
        "while the lifts look like the ones before.",
        f"It ends with {int(value('test_misses_max'))} misses at the goal, "
        f"or with {int(value('test_singles_max'))} singles at 90 % and over, the warm-up's among them.",
        "Nothing is made up for on the next day.",
    )


def is_contest(setting: Setting, sets: pd.DataFrame, test_day: dt.date, *, given: bool) -> bool:
    """Whether the day is taken for a contest: the goal's own date, and the lifter has been to contests."""
    if not given:
        return False
    attempts = setting.records.sets.loc[setting.records.sets["kind"] != "training"]
    named = attempts.loc[attempts["date"] == pd.Timestamp(test_day), "kind"]
    if len(named):
        return bool((named == "contest").any())
    been = bool((sets["kind"] == "contest").any())
    return been or any(best.where == "contest" for best in setting.records.lifter.bests)
