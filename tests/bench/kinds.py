"""The kinds of lifter in the world: what is wrong, how they train, how they fail, what they write down.

A share is of the goal. `first` names the findings of which one should come first, `needs` every one that is
true; both are empty where nothing is wrong and it needs time.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from reportgen.model.lifter import GoalLift

Shares = Mapping[str, tuple[float, float]]

#: What a lifter has who lacks nothing.
SNATCH: Shares = {
    "back squat": (1.6, 1.76),
    "front squat": (1.38, 1.5),
    "power snatch": (0.77, 0.82),
    "low hang snatch": (0.83, 0.88),
    "snatch balance": (1.1, 1.18),
    "overhead squat": (1.1, 1.2),
    "power clean": (0.8, 0.85),
}
JERK: Shares = {
    "back squat": (1.24, 1.34),
    "front squat": (1.08, 1.16),
    "power clean": (0.8, 0.85),
    "power snatch": (0.62, 0.66),
    "low hang snatch": (0.66, 0.7),
    "snatch balance": (0.85, 0.92),
    "overhead squat": (0.85, 0.95),
}
KIND_OF_MISS = ("forward", "behind", "press-out", "not high enough", "did not go under", "recovery")
EVEN = (30, 22, 6, 20, 14, 8)


@dataclass(frozen=True, kw_only=True)
class Kind:
    """One kind of lifter."""

    name: str
    needs: tuple[str, ...] = ()
    first: tuple[str, ...] = ()
    lacking: Shares = field(default_factory=dict)  # for a snatch goal
    lacking_jerk: Shares = field(default_factory=dict)  # for a clean and jerk goal
    fails: tuple[int, ...] = EVEN  # weights of KIND_OF_MISS
    fails_jerk: int = 45  # of a clean and jerk, beside 30 for the clean
    goal: GoalLift | None = None  # None = drawn
    snatch_only: bool = False
    snatch: tuple[float, float] = (60, 120)
    gap: tuple[float, float] = (0.04, 0.1)
    weeks: tuple[int, int] = (36, 56)
    days: int = 4
    plan: tuple[str, ...] = ("full", "derivative", "full", "strength")
    singles: float = 0.7  # share of the heavier days that end in singles
    limits: float = 0.07  # how often another lift is taken to its limit
    growth: float = 0.0010  # a week, log
    noise: float = 1.0
    loss: float = 0.011  # a week away
    away: tuple[int, int] | None = None
    back: tuple[int, int] = (2, 4)
    chase: bool = False
    jump: tuple[int, int] | None = None  # the last so many weeks hold half as much again, and it tires
    tests: bool = True
    tapers: tuple[int, ...] = (0, 7, 9, 12)
    cuts_all: bool = False  # a taper takes from the lift itself, too
    born: tuple[int, int] | None = (22, 34)
    skips: float = 0.03
    lost: float = 0.03
    lost_misses: float = 0.08
    wrong: float = 0.006
    slips: float = 0.0004
    unnamed: float = 0.3
    papers: tuple[str, ...] = ()  # what screening, video and the rest show

    def shares(self, goal_lift: str) -> Shares:
        """Every other lift at its share of the goal."""
        usual, lacking = (SNATCH, self.lacking) if goal_lift == "snatch" else (JERK, self.lacking_jerk)
        return {**usual, **lacking}

    def misses(self, lift: str) -> tuple[tuple[str, ...], tuple[int, ...]]:
        """Kinds of miss and how often each comes."""
        if lift == "clean and jerk":
            return ("clean", "jerk", "recovery", "elbow"), (30, self.fails_jerk, self.fails[5], 3)
        return KIND_OF_MISS, self.fails


_LEGS = Kind(
    name="short legs",
    needs=("back_squat_short", "misses_recovery"),
    first=("back_squat_short", "misses_recovery"),
    lacking={"back squat": (1.34, 1.47), "front squat": (1.14, 1.26)},
    lacking_jerk={"back squat": (1.04, 1.15), "front squat": (0.9, 1.0)},
    fails=(10, 8, 4, 8, 10, 60),
)
_PULL = Kind(
    name="pull",
    needs=("power_snatch_short", "technique_off"),
    first=("power_snatch_short", "technique_off", "power_clean_short"),
    lacking={"power snatch": (0.64, 0.71)},
    lacking_jerk={"power clean": (0.66, 0.73)},
    fails=(40, 4, 4, 40, 8, 4),
    papers=("pull",),
    snatch_only=True,
)
_NOTHING = Kind(name="nothing wrong", papers=("well",))

KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        _LEGS,
        _PULL,
        Kind(
            name="positions",
            needs=("position_not_reached",),
            first=("position_not_reached",),
            fails=(35, 40, 8, 5, 10, 2),
            papers=("stiff",),
            snatch_only=True,
        ),
        Kind(
            name="overhead",
            needs=("snatch_balance_short", "overhead_squat_short"),
            first=("snatch_balance_short", "overhead_squat_short"),
            lacking={"snatch balance": (0.86, 0.96), "overhead squat": (0.86, 0.95)},
            fails=(20, 38, 14, 4, 20, 4),
            snatch_only=True,
        ),
        Kind(
            name="too few sessions",
            needs=("too_few_full_sessions",),
            first=("too_few_full_sessions", "weeks_without_full", "full_sessions_under_wanted"),
            plan=("strength", "derivative", "strength", "derivative"),
            days=4,
            growth=0.0004,
            snatch_only=True,
        ),
        Kind(
            name="no heavy singles",
            needs=("no_heavy_singles",),
            first=("no_heavy_singles", "transfer_gap"),
            singles=0.0,
            tests=False,
            growth=0.0006,
        ),
        Kind(
            name="chase",
            needs=("chase",),
            first=("chase",),
            chase=True,
            growth=0.0002,
            gap=(0.02, 0.05),
            days=5,
            plan=("full", "derivative", "full", "strength", "full"),
            snatch_only=True,
        ),
        _NOTHING,
        replace(_NOTHING, name="nothing wrong, growing", papers=(), growth=0.0016),
        replace(
            _LEGS,
            name="two at once",
            needs=("back_squat_short", "no_heavy_singles"),
            first=("back_squat_short", "no_heavy_singles"),
            singles=0.0,
            tests=False,
        ),
        replace(
            _PULL, name="sparse", lost=0.45, lost_misses=0.55, days=3, weeks=(22, 40), skips=0.15, tests=False
        ),
        replace(_LEGS, name="noisy", noise=1.6, wrong=0.025, lost_misses=0.25, slips=0.002, unnamed=0.7),
        Kind(
            name="back after injury",
            needs=("return_after_gap",),
            first=("return_after_gap",),
            away=(5, 10),
            papers=("injury",),
            tests=False,
            loss=0.014,
        ),
        Kind(
            name="back after break",
            needs=("return_after_gap",),
            first=("return_after_gap",),
            away=(3, 6),
            papers=("travel",),
            tests=False,
        ),
        replace(
            _LEGS,
            name="contradicting",
            first=("back_squat_short",),
            fails=(45, 20, 5, 20, 8, 2),
            papers=("pull",),
            snatch_only=True,
        ),
        Kind(
            name="beginner",
            snatch=(32, 60),
            growth=0.0035,
            noise=1.3,
            weeks=(16, 30),
            gap=(0.06, 0.14),
            days=3,
            plan=("full", "derivative", "full"),
            tapers=(0, 0, 7),
        ),
        Kind(
            name="master",
            born=(46, 61),
            growth=0.0,
            days=3,
            plan=("full", "derivative", "full"),
            snatch=(45, 85),
            needs=(),
            gap=(0.03, 0.07),
        ),
        Kind(
            name="youth",
            born=(14, 16),
            snatch=(35, 60),
            growth=0.0028,
            singles=0.35,
            needs=("technique_off",),
            first=("technique_off",),
            fails=(60, 5, 5, 15, 10, 5),
            papers=("pull",),
            snatch_only=True,
        ),
        Kind(
            name="long taper",
            needs=("long_taper",),
            first=("long_taper",),
            tapers=(26, 30, 34),
            cuts_all=True,
            growth=0.0002,
            weeks=(44, 60),
        ),
        replace(_NOTHING, name="total", goal="total", papers=()),
    )
}

#: Kinds that only the causes are measured on: they come after the others, whose numbers stay what they were.
CAUSES: dict[str, Kind] = {
    **KINDS,
    **{
        kind.name: kind
        for kind in (
            replace(_NOTHING, name="nothing wrong, all measured", papers=("all",)),
            Kind(
                name="lapsed",
                needs=("upkeep_stopped", "position_not_reached"),
                first=("upkeep_stopped", "position_not_reached"),
                fails=(35, 35, 10, 5, 12, 3),
                papers=("lapsed",),
                snatch_only=True,
            ),
            Kind(
                name="not controlled",
                needs=("position_not_controlled", "misses_recovery"),
                first=("position_not_controlled", "misses_recovery"),
                fails=(8, 20, 10, 3, 5, 54),
                papers=("loose",),
                snatch_only=True,
            ),
            Kind(
                name="jerk",
                needs=("misses_jerk", "jerk_short"),
                first=("misses_jerk", "jerk_short"),
                goal="clean and jerk",
                fails_jerk=200,
            ),
            Kind(
                name="load jumped", needs=("load_jumped",), first=("load_jumped",), jump=(2, 4), tests=False
            ),
        )
    },
}
