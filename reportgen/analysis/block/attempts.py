"""Opener, second and third of each lift: sure enough to open with, and up to a new best."""

import datetime as dt
from dataclasses import replace

import pandas as pd

from reportgen.analysis import frames, platform, readings
from reportgen.analysis.ability import Ability
from reportgen.analysis.block import warmups
from reportgen.analysis.block.plates import Plates
from reportgen.analysis.block.setting import Setting
from reportgen.model.proposal import BlockAttempt, BlockWarmUp
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

_HAIR = 1e-9
#: What a federation counts in.
KILOGRAMS = Plates(unit="kg", unit_kg=1.0, step=1.0, bar=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """The attempts of one test day."""

    attempts: tuple[BlockAttempt, ...]
    warmups: tuple[BlockWarmUp, ...]
    ends: tuple[Say, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What attempts of one lift are chosen by.

    Attributes:
        tries: Every try, oldest first: load and whether it was made.
        best_kg: The current best.
        goal_kg: The goal of this lift; None without one.
        support_kg: The heaviest load made on any other day than the best one: a best that no other day comes
            near is no ground to go higher from. None = the best itself.
        opened: The lifter's own openers as shares of the best before them, and whether they were made.
        able: What the lifter makes on an ordinary day, where the log carries it.
        fresh: What the taper before the day gives (a share); 0 without one.
        sure_kg: The sure weight, said beside the opener.
        grid: The loads that there are: whole kilograms, or those of the lifter's own bar on a day at home.
    """

    tries: list[tuple[float, bool]]
    best_kg: float
    goal_kg: float | None = None
    support_kg: float | None = None
    opened: tuple[tuple[float, bool], ...] = ()
    able: Ability | None = None
    fresh: float = 0.0
    sure_kg: float | None = None
    grid: Plates = KILOGRAMS

    def chance(self, kg: float) -> float | None:
        """The chance of a load on the day, by the lifter's own tries alone."""
        return None if self.able is None else self.able.chance(kg, fresh=self.fresh)


def propose(setting: Setting, *, day: dt.date, contest: bool, fresh: float = 0.0) -> Day:
    """Propose the attempts of each lift of the day.

    Args:
        setting: The lifter.
        day: The test day.
        contest: Both lifts are done, three attempts each and no more.
        fresh: What the taper before the day gives (a share); 0 without one.

    Returns:
        Whole kilograms, never down, at least one up after a make. A lift without a current best has none:
        nobody can say from where it would be opened.
    """
    lifts = [*setting.goal_lifts]
    if setting.other and (contest or _together(setting, day)):
        lifts.append(setting.other)
    standards, trade = setting.facts.lifter.standards, setting.trade
    own = setting.stand.plates
    grid = own if not contest and own.unit == "lb" else KILOGRAMS
    found: list[BlockAttempt] = []
    steps: list[BlockWarmUp] = []
    for lift in sorted(lifts, key=lambda name: name != "snatch"):
        fact = setting.stand.current.get(lift)
        support_kg = supported(setting, lift)
        if fact is None or fact.kg is None or support_kg is None or lift in setting.trust.banned:
            continue
        # A best far over every other day may be a slip: nothing is opened by shares of it.
        far = lift in setting.trust.most_kg and fact.kg > (1 + trade.value("alone_share")) * support_kg
        sure = setting.facts.sure_weight
        known = Known(
            tries=tries(setting.sets, lift),
            best_kg=support_kg if far else fact.kg,
            goal_kg=target(setting, lift),
            support_kg=support_kg,
            opened=opened(setting.sets, lift),
            able=setting.expected.lifts.get(lift),
            fresh=fresh,
            sure_kg=sure.kg if sure is not None and sure.lift == lift else None,
            grid=grid,
        )
        mine = of_lift(known, lift, standards, trade)
        if far:
            alone = say("block.attempt.alone", best_kg=fact.kg, support_kg=support_kg)
            mine = [replace(one, why=say("block.attempt.joined", parts=(one.why, alone))) for one in mine]
        found += mine
        steps += warmups.up_to(mine[0].kg, lift, standards, own, trade) if mine else []
    over = ends(trade, grid, contest=contest) if found else ()
    return Day(attempts=tuple(found), warmups=tuple(steps), ends=over)


def _together(setting: Setting, day: dt.date) -> bool:
    """Whether the day is the first goal's date and a further goal asks for the other lift on it."""
    first, *further = setting.facts.goals
    return first.by == day and any(one.lift == setting.other and one.by == day for one in further)


def target(setting: Setting, lift: str) -> float | None:
    """The goal weight of one lift [kg]; a total's share of it; a later goal's where the first has none."""
    for goal in setting.facts.goals:
        if goal.lift == lift:
            return goal.goal_kg
        if goal.lift == "total" and goal.split is not None:
            return goal.split.snatch_kg if lift == "snatch" else goal.split.clean_and_jerk_kg
    return None


def supported(setting: Setting, lift: str) -> float | None:
    """The heaviest load made on any day but the best one [kg]; None where only one day holds the lift."""
    sets = setting.sets
    rows = sets.loc[(sets["lift"] == lift) & sets["counts"] & (sets["made"] > 0), ["date", "load_kg"]]
    days: dict[dt.date, float] = {}
    for date, kg in frames.plain(rows):
        days[date.date()] = max(kg, days.get(date.date(), 0.0))
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


def tries(sets: pd.DataFrame, lift: str) -> list[tuple[float, bool]]:
    """Every try of a lift's first repetition, oldest first: load and whether it was made."""
    rows = sets.loc[
        (sets["lift"] == lift) & (sets["variant"] == "") & (sets["tried"] > 0),
        ["load_kg", "tried", "made_reps"],
    ]
    found: list[tuple[float, bool]] = []
    for row in readings.cells(rows.tail(400)):
        made = int(row["made_reps"])
        found += [(float(row["load_kg"]), True)] * made
        found += [(float(row["load_kg"]), False)] * (int(row["tried"]) - made)
    return found


def opened(sets: pd.DataFrame, lift: str) -> tuple[tuple[float, bool], ...]:
    """The lifter's own openers, oldest first: share of the reference of that day, and whether it was made."""
    rows = sets.loc[(sets["lift"] == lift) & (sets["attempt"] == 1) & sets["share"].notna()]
    return tuple((float(row.share), bool(row.made)) for row in frames.each(rows[["share", "made"]]))


def sureness(history: list[tuple[float, bool]], kg: float, trade: Trade) -> tuple[int, int]:
    """Made and tried of the last ten tries at a weight or a little under it, and of makes over it.

    A heavier make would have been a make of this weight too; a heavier miss says nothing about it.
    """
    low, high = kg * (1 - trade.value("attempt_near")), kg + trade.value("attempt_step_kg")
    close = [made for load, made in history if low - _HAIR <= load and (made or load < high - _HAIR)]
    last = close[-int(trade.value("opener_tries")) :]
    return sum(last), len(last)


def of_lift(known: Known, lift: str, standards: str, trade: Trade) -> list[BlockAttempt]:
    """Three attempts of one lift.

    Args:
        known: What they are chosen by.
        lift: snatch or clean and jerk.
        standards: Whose bar.
        trade: Rules and published figures.

    References:
        Shares: common practice, measured in tests/bench/attempts.py. Whole kilograms, never down, one more
        after a make: IWF, Technical and Competition Rules.
    """
    step = _step(known, trade)
    first, first_why = _opener(known, trade)
    third, third_why = _third(known, first, trade)
    second, second_why = _second(known, first, third, trade)
    third = max(third, second + step)
    loads, texts = _held_down((first, second, third), (first_why, second_why, third_why), known, trade)
    if loads[0] < trade.value(f"bar_{standards}_kg"):
        return []
    return [_attempt(index, loads, text, lift, standards, known, trade) for index, text in enumerate(texts)]


def _attempt(
    index: int,
    loads: tuple[float, float, float],
    why: Say,
    lift: str,
    standards: str,
    known: Known,
    trade: Trade,
) -> BlockAttempt:
    """One attempt of the loads of a lift, with what internationals do beside it."""
    kg = loads[index]
    key, sources = lift.replace(" ", "_"), trade.published
    made_rule = sources.get(f"{key}_made_{('first', 'second', 'third')[index]}")
    share_rule = sources.get(f"{key}_{('opener', 'second_jump_share', 'third_jump_share')[index]}")
    last = index == int(trade.value("attempts_a_lift")) - 1
    made, tried = sureness(known.tries, kg, trade) if index == 0 else (0, 0)
    told = tried >= trade.value("opener_tries")
    return BlockAttempt(
        attempt=index + 1,
        kg=float(kg),
        why=why,
        lift=lift,
        chance=platform.chance(kg, index + 1, lift, known.able, fresh=known.fresh, trade=trade),
        after_make_kg=None if last else float(loads[index + 1]),
        after_miss_kg=None if last else float(kg),
        loading=warmups.side(kg, standards, known.grid, trade),
        made=made if told else None,
        tried=tried if told else None,
        published_made=made_rule.mid if made_rule is not None else None,
        published_share=share_rule.mid if share_rule is not None else None,
        source=made_rule.source if made_rule is not None else "",
    )


def _held_down(
    loads: tuple[float, float, float], texts: tuple[Say, Say, Say], known: Known, trade: Trade
) -> tuple[tuple[float, float, float], tuple[Say, Say, Say]]:
    """The attempts, none of them far over what any other day than the best one bears out."""
    first, second, third = loads
    support_kg = known.support_kg or known.best_kg
    step, most = _step(known, trade), trade.value("support_most")
    held = known.grid.down(most * support_kg)
    if third <= held + _HAIR:
        return loads, texts
    second = min(second, held - step)
    why = say("block.attempt.held", support_kg=support_kg)
    key = "held_most" if held > known.best_kg + _HAIR else "held_under"
    last = say(f"block.attempt.{key}", support_kg=support_kg, best_kg=known.best_kg)
    return (min(first, second - step), second, held), (why, why, last)


def _step(known: Known, trade: Trade) -> float:
    """From one attempt to the next at least: what the rules ask for, on plates that give it."""
    return known.grid.up(trade.value("attempt_step_kg"))


def _opener(known: Known, trade: Trade) -> tuple[float, Say]:
    """The heaviest weight inside the usual range that is sure enough; lower where none is.

    Sure is what the ability makes so often on the day, or, without one, what was made 9 of the last 10 times;
    and it lies under what another day than the best one bears out.
    """
    value, best = trade.value, known.best_kg
    share = _opener_high(known, trade)
    borne_kg = max(share, value("opener_support")) * (known.support_kg or best)
    high = known.grid.down(min(share * best, borne_kg))
    low = min(high, known.grid.up(value("opener_low") * best))
    least = min(low, known.grid.up(value("opener_least") * best))
    sure = (say("block.attempt.sure", sure_kg=known.sure_kg),) if known.sure_kg is not None else ()
    kg = high + known.grid.unit_kg * known.grid.step
    while kg > least + _HAIR:
        kg = known.grid.below(kg)
        chance = known.chance(kg)
        made, tried = sureness(known.tries, kg, trade)
        if chance is not None:
            if chance < value("opener_chance"):
                continue
            why = say("block.attempt.opener_sure", share=kg / best)
        elif tried < value("opener_tries"):
            break
        elif made < value("opener_made"):
            continue
        else:
            why = say("block.attempt.opener_made", share=kg / best, made=made, tried=tried)
        lower = () if kg >= low else (say("block.attempt.opener_lower", low_kg=float(low)),)
        return kg, say("block.attempt.joined", parts=(why, *lower, *sure))
    made, tried = sureness(known.tries, low, trade)
    if known.able is None and tried < value("opener_tries"):
        few = say("block.attempt.few" if tried else "block.attempt.no_try", made=made, tried=tried)
        why = say("block.attempt.opener_few", share=low / best)
        return low, say("block.attempt.joined", parts=(why, few, *sure))
    why = say("block.attempt.opener_least", share=least / best, low_kg=float(low))
    return least, say("block.attempt.joined", parts=(why, *sure))


def _opener_high(known: Known, trade: Trade) -> float:
    """The highest share to open with: the usual one, or what the lifter opens with and makes."""
    value = trade.value
    if len(known.opened) < value("opener_own_least"):
        return value("opener_high")
    last = known.opened[-int(value("opener_tries")) :]
    shares = sorted(share for share, _ in last)
    own, made = shares[len(shares) // 2], sum(made for _, made in last) / len(last)
    if made < value("opener_own_made"):
        return min(value("opener_high"), own)
    return min(value("opener_own_high"), max(value("opener_high"), own))


def _third(known: Known, first: float, trade: Trade) -> tuple[float, Say]:
    """A new best, or the goal where it is within reach; less where the best itself is out of reach today."""
    value, best, down = trade.value, known.best_kg, known.grid.down
    step = _step(known, trade)
    new = down(best) + step
    chance = known.chance(new)
    if chance is not None and chance < value("third_chance_least"):
        assert known.able is not None
        likely = known.able.heaviest(value("third_chance_wanted")) * (1 + known.fresh)
        kg = max(first + 2 * step, min(new - step, down(likely)))
        return kg, say("block.attempt.out_of_reach", best_kg=best, chance=chance)
    most = max(new, down(value("third_most") * best))
    wanted = max(new, down(value("third_share") * best))
    if known.goal_kg is None:
        return wanted, say("block.attempt.new_best", best_kg=best)
    goal = known.grid.up(known.goal_kg)
    whole = () if round(goal, 1) == round(known.goal_kg, 1) or known.grid != KILOGRAMS else (
        say("block.attempt.whole", goal_kg=known.goal_kg, kg=float(goal)),
    )  # fmt: skip
    if new <= goal <= most:
        return goal, say("block.attempt.joined", parts=(say("block.attempt.goal"), *whole))
    if goal < new:
        return wanted, say("block.attempt.goal_behind", best_kg=best)
    far = say("block.attempt.goal_far", best_kg=best, goal_kg=float(goal), more_kg=float(goal - wanted))
    return min(wanted, goal - step), say("block.attempt.joined", parts=(far, *whole))


def _second(known: Known, first: float, third: float, trade: Trade) -> tuple[float, Say]:
    """Between opener and third, nearer to the third: the longer step comes first."""
    value = trade.value
    step, down = _step(known, trade), known.grid.down
    half = known.grid.unit_kg * known.grid.step / 2
    wanted = first + down(value("second_way") * (third - first) + half)
    longest = max(first + step, down(first * (1 + value("second_jump_max"))))
    kg = max(first + step, min(wanted, longest, third - step))
    cut = "_cut" if wanted > longest else ""
    return kg, say(f"block.attempt.second{cut}", share=kg / known.best_kg, step_kg=float(kg - first))


def ends(trade: Trade, grid: Plates = KILOGRAMS, *, contest: bool) -> tuple[Say, ...]:
    """When the day is over; a step up is a kilogram, or the least that the lifter's own plates give."""
    step_kg = grid.up(trade.value("attempt_step_kg"))
    after = say("block.ends.after") if grid == KILOGRAMS else say("block.ends.after_plates", step_kg=step_kg)
    if contest:
        return say("block.ends.contest"), after
    return after, *(say(f"block.ends.{name}") for name in ("go_on", "misses", "nothing_after"))


def is_contest(setting: Setting, test_day: dt.date, *, given: bool) -> bool:
    """Whether the day is taken for a contest: the goal's own date, and the lifter has been to contests."""
    if not given:
        return False
    attempts = setting.records.sets.loc[setting.records.sets["kind"] != "training"]
    named = attempts.loc[attempts["date"] == pd.Timestamp(test_day), "kind"]
    if len(named):
        return bool((named == "contest").any())
    been = bool((setting.sets["kind"] == "contest").any())
    return been or any(best.where == "contest" for best in setting.records.lifter.bests)
