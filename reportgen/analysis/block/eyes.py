"""What the lifter films and what the coach watches for in the first week."""

from collections import Counter

from reportgen.analysis.block.setting import SQUATS, Setting
from reportgen.model.facts import Facts
from reportgen.model.findings import CheckpointFact
from reportgen.model.proposal import BlockWeek
from reportgen.model.say import Say, say
from reportgen.trade.schema import Trade

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
    """Checkpoints of the first need, then those that are off, the longest first; the kind of most misses."""
    found = [
        say(
            "block.watch.point", point=one.checkpoint, lift=one.lift or now.goal_lifts[0],
            cue=cue(one.checkpoint),
            **{"from": say("block.watch.from", kg=one.load_onset_kg) if one.load_onset_kg else ""},
        )
        for one in dict.fromkeys((*_needed(now), *off(now.facts)[: _MOST - 1]))
    ]  # fmt: skip
    kinds = lost(now.facts, now.goal_lifts, now.trade)
    if kinds:
        found.append(say("block.watch.misses", kinds=kinds[:2]))
    if not found and week.kind in ("work", "work_taper", "return", "light"):
        found.append(say("block.watch.start"))
    return tuple(found[:_MOST])


def _needed(now: Setting) -> list[CheckpointFact]:
    """The checkpoints that the first need rests on, as far as they are not good by now."""
    seen = [link.key.partition(":")[2] for need in now.needs[:1] for link in need.chain]
    points = now.facts.technique.checkpoints if now.facts.technique is not None else ()
    found = [one for one in points if one.checkpoint in seen and one.latest != "good" and not one.accepted]
    return sorted(found, key=lambda one: seen.index(one.checkpoint))


def off(facts: Facts) -> list[CheckpointFact]:
    """Checkpoints that are off and that the coach does not accept, the longest first."""
    points = facts.technique.checkpoints if facts.technique is not None else ()
    found = [one for one in points if one.latest == "off" and not one.accepted]
    return sorted(found, key=lambda one: -(one.persistence_days or 0))


def lost(facts: Facts, lifts: tuple[str, ...], trade: Trade) -> tuple[str, ...]:
    """How heavy tries of some lifts are lost, the most frequent kind first; () where hardly one is named."""
    kinds: Counter[str] = Counter()
    for rate in facts.make_rates:
        if rate.lift in lifts and (rate.zone_low or 0.0) >= trade.value("heavy_share"):
            kinds.update({kind: count for kind, count in rate.misses.items() if kind != "not stated"})
    order = sorted(kinds, key=lambda kind: (-kinds[kind], kind))
    return tuple(order) if order and kinds[order[0]] > 1 else ()


def cue(of: str) -> Say:
    """What is said to a lifter about a checkpoint, or about how attempts are lost."""
    return say(f"block.cue.{of.replace(' ', '_')}")
