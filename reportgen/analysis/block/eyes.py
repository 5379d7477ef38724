"""What the lifter films and what the coach watches for in the first week."""

from reportgen.analysis.block.setting import SQUATS, Setting
from reportgen.model.proposal import BlockWeek
from reportgen.model.say import Say, say

#: Clips and points of one week: more is not looked at.
_MOST = 3


def film(now: Setting, week: BlockWeek) -> tuple[Say, ...]:
    """The clips of a week: the heaviest goal lift, the derivative, the squat where it is raised."""
    found: dict[str, Say] = {}
    lines = [
        (one.date, line) for one in week.sessions for line in one.sets if line.role not in ("attempt", "test")
    ]
    for role, key in (("single", "single"), ("full", "single"), ("derivative", "derivative")):
        mine = [(date, line) for date, line in lines if line.role == role]
        if mine and key not in found:
            date, line = max(mine, key=lambda one: one[1].kg or 0.0)
            name = "derivative" if role == "full" else key
            found[key] = say(f"block.film.{name}", date=date, lift=line.lift)
    squats = [(date, line) for date, line in lines if line.lift in SQUATS and line.lift in now.raised]
    if squats:
        date, line = max(squats, key=lambda one: one[1].kg or 0.0)
        found["squat"] = say("block.film.squat", date=date, lift=line.lift)
    return tuple(found.values())[:_MOST]


def watch(now: Setting, week: BlockWeek) -> tuple[Say, ...]:
    """Checkpoints that are off, the longest first; the kind of most misses."""
    technique = now.facts.technique
    off = (
        [one for one in technique.checkpoints if one.latest == "off" and not one.accepted]
        if technique
        else []
    )
    off.sort(key=lambda one: -(one.persistence_days or 0))
    found = [
        say(
            "block.watch.point", point=one.checkpoint, lift=one.lift or now.goal_lifts[0],
            **{"from": say("block.watch.from", kg=one.load_onset_kg) if one.load_onset_kg else ""},
        )
        for one in off[: _MOST - 1]
    ]  # fmt: skip
    kinds: dict[str, int] = {}
    for rate in now.facts.make_rates or ():
        if (
            rate.lift in now.goal_lifts
            and rate.zone_low is not None
            and rate.zone_low >= now.trade.value("heavy_share")
        ):
            for kind, count in rate.misses.items():
                kinds[kind] = kinds.get(kind, 0) + count
    named = sorted((kind for kind in kinds if kind != "not stated"), key=lambda kind: (-kinds[kind], kind))
    if named and kinds[named[0]] > 1:
        found.append(say("block.watch.misses", kinds=tuple(named[:2])))
    if week.kind in ("work", "return", "light"):
        found.append(say(f"block.watch.{'makes' if found else 'start'}"))
    return tuple(found[:_MOST])
