"""Three stories more: a pull that is too weak, a log in pounds, six days a week. Invented people only."""

from tests.cases.make import Figures, Log, case, day, lifter, limits, ordinary, screening, technique

Files = dict[str, str]


def weak_pull() -> Files:
    """The legs are there, the bar does not get high enough."""
    can = Figures(snatch=80, squat=160, power=63, low_hang=74, balance=107, overhead=100)
    log = Log()
    ordinary(log, can)
    limits(log, can)
    for week in (3, 6, 9, 11, 13):
        log.miss(week, "mon", "snatch", 76, "not high enough")
    return {
        "lifter.toml": lifter("Odmar Tjelle", 96, best=79),
        "training.csv": log.text(),
        "technique.csv": technique(
            f"{day(5, 'mon')},snatch,76,receiving depth,good",
            f"{day(12, 'mon')},snatch,76,receiving depth,good",
        ),
        "case.toml": case(
            """
Odmar sits in the bottom as long as anybody asks and squats twice his snatch. The bar does not come high
enough: 63 in the power snatch, and every heavy miss falls from too low. The pull comes first.""",
            "power_snatch_short",
            "skill",
            "12.0",
            never=(
                "back_squat_short",
                "position_not_reached",
                "power_snatch_near_snatch",
                "no_heavy_singles",
            ),
            words=("stronger legs",),
        ),
    }


def legs_in_pounds() -> Files:
    """A squat that is short, in a log of pounds."""
    can = Figures(snatch=180, squat=290, power=170, low_hang=175)
    log = Log()
    ordinary(log, can)
    limits(log, can)
    log.miss(9, "sat", "back squat", 300, "")
    for week in (3, 6, 9, 12):
        log.miss(week, "mon", "snatch", 172, "recovery")
    toml = lifter("Ferris Oxenby", 225, best=180, more='unit = "lb"')
    return {
        "lifter.toml": toml.replace("kg = ", "lb = "),
        "training.csv": log.text().replace("date,lift,kg,", "date,lift,lb,", 1),
        "case.toml": case(
            """
Ferris power snatches 170 of his 180 pounds and stays down with what he receives. His squat of 290 pounds is
enough for 181. Legs first, in whatever unit the plates are.""",
            "back_squat_short",
            "strength",
            "19.8446661875",  # 225 less 290 / 1.60 lb
            never=("misses_recovery", "position_not_reached", "no_heavy_singles"),
        ),
    }


def six_days() -> Files:
    """Much training, everything in its place, growing."""
    log = Log()
    for week in range(1, 15):
        grown = 1 + 0.003 * week
        for name, share in (("mon", 0.80), ("wed", 0.76), ("fri", 0.82)):
            log.add(week, name, "snatch", 84 * share * grown, 4, 2)
        log.add(week, "mon", "snatch", 77 * grown, 2, 1)
        log.add(week, "mon", "back squat", 132 * grown, 4, 3)
        log.add(week, "tue", "clean and jerk", 84 * grown, 4, 1)
        log.add(week, "thu", "power snatch", 58 * grown, 4, 2)
        log.add(week, "thu", "snatch pull", 88 * grown, 4, 3)
        log.add(week, "sat", "front squat", 112 * grown, 3, 3)
        log.add(week, "sat", "clean and jerk", 78 * grown, 3, 2)
    limits(log, Figures(snatch=85, squat=160, power=72, low_hang=80, balance=106, overhead=102))
    log.miss(8, "mon", "snatch", 86, "forward")
    log.miss(13, "mon", "snatch", 87, "behind")
    return {
        "lifter.toml": lifter("Sigve Harnung", 92, best=83),
        "training.csv": log.text(),
        "screening.csv": screening(
            f"{day(4, 'mon')},snatch bottom position,both,,,held,shoes",
            f"{day(4, 'mon')},knee to wall,left,,11,,barefoot",
            f"{day(4, 'mon')},knee to wall,right,,11,,barefoot",
        ),
        "case.toml": case(
            """
Sigve trains six days, snatches on three of them, gains slowly and misses two heavy ones in a quarter, one to
each side. Nothing holds him back that a coach could name; it needs time.""",
            "",
            "",
            '"null"',
            never=("chase", "misses_one_kind", "load_jumped", "position_not_reached", "no_heavy_singles"),
        ),
    }


STORIES = (weak_pull, legs_in_pounds, six_days)
LAST: dict[str, Files] = {story.__name__: story() for story in STORIES}
