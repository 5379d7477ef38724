"""A week that finds out what nobody knows yet, where the log carries no block."""

import datetime as dt

from reportgen.analysis.block.lines import Wanted, most_kg
from reportgen.analysis.block.setting import Setting
from reportgen.model.proposal import BlockSession, BlockSet, BlockWeek
from reportgen.model.say import say

#: What is looked at, on which of three days; the goal's lifts come first.
_DAYS = (0, 2, 5)
_BESIDE = {
    "snatch": (("power snatch", "snatch balance"), ("low hang snatch", "overhead squat")),
    "clean and jerk": (("power clean", "front squat"), ("low hang clean", "push press")),
}


def week(setting: Setting) -> BlockWeek | None:
    """Propose a testing week: each figure once, no heavier than it looks good.

    Args:
        setting: The lifter.

    Returns:
        Three days at most; None where nothing may be loaded.
    """
    rest = setting.trade.value("single_after_test_days")
    days = [setting.begin + dt.timedelta(days=day) for day in _weekdays(setting)]
    days = [day for day in days if (day - setting.tested).days > rest]
    goal = setting.goal_lifts
    beside = _BESIDE[goal[0]]
    plans: list[tuple[str, ...]] = [goal, (*beside[0], "back squat"), (*goal[:1], *beside[1])]
    sessions = []
    for day, lifts in zip(days, plans, strict=False):
        lines = tuple(
            _line(setting, lift)
            for lift in dict.fromkeys(lifts)
            if lift not in setting.trust.banned and not setting.is_new(lift)
        )
        if lines:
            sessions.append(BlockSession(date=day, sets=lines))
    if not sessions:
        return None
    year, number, _ = setting.begin.isocalendar()
    return BlockWeek(
        week=f"{year}-W{number:02d}", start=setting.begin, kind="testing", sessions=tuple(sessions)
    )


def _weekdays(setting: Setting) -> tuple[int, ...]:
    known = setting.carried.weekdays
    return known[:3] if len(known) >= len(_DAYS) else _DAYS


def _line(setting: Setting, lift: str) -> BlockSet:
    """One figure: begun at three quarters of what is logged, or with the empty bar."""
    trade = setting.trade
    base = setting.stand.bases.get(lift)
    plates = setting.stand.plates
    bar_kg = plates.bar_kg
    squat = trade.lifts[lift].role in ("squat", "overhead")
    reps = 3 if squat or not setting.trust.heavy else 1
    serves = say("block.serves.gather")
    wanted = Wanted(
        parts=(lift,), reps=(reps,), low=0, high=0, least=1, most=1, weight=0, role="test", need="",
        serves=serves, group="",
    )  # fmt: skip
    kg = bar_kg
    if base is not None:
        kg = min(base.kg * trade.value("return_load_max"), most_kg(setting, setting.begin, wanted, base))
        kg = max(bar_kg, plates.down(kg))
    begin = say(f"block.test.begin{'' if base is not None else '_empty'}")
    stop = say(f"block.test.stop{'' if setting.trust.heavy else '_light'}")
    return BlockSet(
        lift=lift, sets=1, reps=str(reps), kg=kg, floor_kg=bar_kg,
        share=kg / base.kg if base is not None else None, need="gather", remark=(begin, stop),
        base_kg=base.kg if base is not None else None, serves=serves, role="test",
    )  # fmt: skip
