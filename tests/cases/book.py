"""The stories of the case book, first half; the log beside its expectation. Invented people only."""

from tests.cases.last import LAST
from tests.cases.latest import LATEST
from tests.cases.make import Figures, Log, case, day, lifter, limits, ordinary, screening, table, technique
from tests.cases.more import MORE

Files = dict[str, str]


def stiff_ankles() -> Files:
    """Inflated power snatch, stiff ankles."""
    can = Figures(snatch=88, squat=165, power=84, low_hang=82, balance=111, overhead=104)
    log = Log()
    ordinary(log, can)
    limits(log, can)
    for week, kind in (
        (3, "did not go under"),
        (7, "forward"),
        (11, "did not go under"),
        (13, "did not go under"),
    ):
        log.miss(week, "mon", "snatch", 84, kind)
    return {
        "lifter.toml": lifter("Ruben Aske", 100, best=87),
        "training.csv": log.text(),
        "screening.csv": screening(
            f"{day(2, 'mon')},knee to wall,left,,6.0,,barefoot",
            f"{day(2, 'mon')},knee to wall,right,,6.5,,barefoot",
            f"{day(2, 'mon')},snatch bottom position,both,,,no,barefoot",
            f"{day(2, 'mon')},snatch start position,both,,,held,barefoot",
            f"{day(2, 'mon')},dowel snatch,both,,,held,barefoot",
            f"{day(12, 'mon')},knee to wall,left,,6.5,,barefoot",
            f"{day(12, 'mon')},knee to wall,right,,6.5,,barefoot",
            f"{day(12, 'mon')},snatch bottom position,both,,,no,barefoot",
        ),
        "technique.csv": technique(
            f"{day(5, 'mon')},snatch,81,receiving depth,off",
            f"{day(12, 'mon')},snatch,81,receiving depth,off",
            f"{day(12, 'mon')},snatch,70,second pull extension,good",
        ),
        "case.toml": case(
            """
Ruben power snatches 84 and snatches 88. People tell him his power snatch is a strength. It is the other
way round: his knees stop 6 cm from the wall and he cannot sit into the bottom, so every snatch is
caught high and the heavy ones are not caught at all. The squat is enough for 100. First comes the
position; the high power snatch is its shadow.""",
            "position_not_reached",
            "positions",
            never=("power_snatch_short", "back_squat_short", "too_few_full_sessions", "no_heavy_singles"),
            words=("costs", "costing"),
            more='\n[also]\nchain = ["unreached:snatch bottom position", "power_near", "miss:did not go under"]\n',  # noqa: E501
        ),
    }


def cannot_stand_up() -> Files:
    """Supple, skilled, under-legged."""
    can = Figures(snatch=82, squat=128, power=77, low_hang=81)
    log = Log()
    ordinary(log, can)
    limits(log, can)
    log.miss(8, "sat", "back squat", 132, "")
    for week in (3, 6, 9, 11, 13):
        log.miss(week, "mon", "snatch", 79, "recovery")
    return {
        "lifter.toml": lifter("Iljan Vantor", 100, best=81),
        "training.csv": log.text(),
        "screening.csv": screening(
            f"{day(6, 'mon')},knee to wall,left,,13,,barefoot",
            f"{day(6, 'mon')},knee to wall,right,,13,,barefoot",
            f"{day(6, 'mon')},snatch bottom position,both,,,held,barefoot",
            f"{day(6, 'mon')},snatch start position,both,,,held,barefoot",
            f"{day(6, 'mon')},dowel overhead squat,both,,,held,barefoot",
            f"{day(6, 'mon')},pause in the bottom,both,,,held,barefoot",
            f"{day(6, 'mon')},Beighton score,both,,4,,",
        ),
        "technique.csv": technique(
            f"{day(6, 'mon')},snatch,75,pull under timing,good",
            f"{day(12, 'mon')},snatch,75,receiving depth,good",
        ),
        "case.toml": case(
            """
Iljan meets the bar in the bottom as if he lived there and stays there. Five heavy snatches received and
not stood up, a back squat of 128 that missed at 132. A squat like his goes with a snatch of 80, not of
100. The legs come first, without rushing them ahead of the snatch.""",
            "back_squat_short",
            "strength",
            "18.0",
            never=("position_not_reached", "misses_recovery", "loose_joints", "power_snatch_near_snatch"),
            words=("costs", "flexib"),
            more='\n[also]\ncaution = "expense"\n',
        ),
    }


def squat_chaser() -> Files:
    """The squat rises, the snatch stands."""
    can = Figures(snatch=84, squat=172, power=77)
    log = Log()
    weeks = 26
    for week in range(1, weeks + 1):
        squat = 172 + 14 * min(week, 24) / 24
        log.add(week, "mon", "snatch", 66, 4, 2)
        log.add(week, "mon", "snatch", 77, 1, 1)
        log.add(week, "mon", "back squat", 0.85 * squat, 4, 3)
        log.add(week, "thu", "snatch", 63, 4, 2)
        log.add(week, "thu", "back squat", 0.75 * squat, 3, 5)
        log.add(week, "sat", "power snatch", 62, 3, 2)
        if week % 4 == 0:
            log.add(week, "thu", "back squat", squat, 1, 1, effort=9.5)
    for week, kg, kind in (
        (3, 84, ""),
        (9, 83, ""),
        (14, 81, ""),
        (17, 82, "forward"),
        (21, 81, ""),
        (24, 82, "forward"),
    ):
        if kind:
            log.miss(week, "mon", "snatch", kg, kind)
        else:
            log.add(week, "mon", "snatch", kg, effort=9)
    log.add(19, "sat", "power snatch", can.power, effort=9)
    log.add(20, "sat", "snatch balance", 94)
    return {
        "lifter.toml": lifter("Tarek Molin", 100, best=84),
        "training.csv": log.text(),
        "technique.csv": technique(
            f"{day(10, 'mon')},snatch,80,pull under timing,drifting",
            f"{day(22, 'mon')},snatch,80,pull under timing,drifting",
        ),
        "case.toml": case(
            """
Half a year ago Tarek squatted 174 and snatched 84. Today he squats 186 and snatches 83 when he tries,
and he did try. Two thirds of his work is squats. His video shows little. More legs will not help; the
snatch wants teaching.""",
            "squat_up_lift_still",
            "skill",
            never=("back_squat_short", "front_squat_short", "not_enough_squats", "no_heavy_singles"),
            words=("squat more", "costs"),
        ),
    }


def double_chaser() -> Files:
    """Doubles nearly as heavy as the single, no single for months."""
    can = Figures(snatch=80, squat=150, power=74)
    log = Log()
    ordinary(log, can, single=0)
    log.add(2, "sat", "snatch", 80, effort=9)
    for week, kg in ((4, 77), (6, 78), (8, 79), (10, 79), (12, 80), (13, 79)):
        log.add(week, "sat", "snatch", kg, 1, 2, effort=9)
    log.add(6, "sat", "back squat", 150, effort=9)
    log.add(7, "wed", "power snatch", 74, effort=9)
    log.add(9, "sat", "snatch balance", 96, effort=9)
    return {
        "lifter.toml": lifter("Priya Oman", 90, best=80, standards="women"),
        "training.csv": log.text(),
        "case.toml": case(
            """
Priya wins a double every month: 77, 78, 79, 80. Her single is 80 too, and it is from spring; she has
not put a single over 90 per cent on the bar for three months. A double of 80 says there is a bigger
single in her. It has to be practised as a single.""",
            "no_heavy_singles",
            "programming",
            never=("back_squat_short", "too_few_full_sessions", "needs_time"),
            words=("weak", "costs"),
            more='\n[also]\nchain = ["no_singles", "transfer"]\n',
        ),
    }


def once_a_week() -> Files:
    """Hardly ever snatches."""
    log = Log()
    for week in range(1, 15):
        if week not in (3, 6, 8, 12):
            log.add(week, "sat", "snatch", 70, 4, 2)
            log.add(week, "sat", "snatch", 78, 2, 1)
        log.add(week, "mon", "back squat", 132, 4, 3)
        log.add(week, "mon", "clean and jerk", 85, 4, 1)
        log.add(week, "thu", "front squat", 110, 4, 3)
        log.add(week, "thu", "clean and jerk", 90, 3, 1)
    log.add(4, "sat", "snatch", 85, effort=9)
    log.add(7, "mon", "back squat", 162, effort=9)
    log.add(9, "sat", "snatch balance", 98, effort=9)
    return {
        "lifter.toml": lifter("Jonas Pell", 95, best=84),
        "training.csv": log.text(),
        "case.toml": case(
            """
Jonas trains three days a week and snatches on Saturdays, when Saturday is free. Ten snatch sessions in
fourteen weeks. Everything around the lift is enough for 95. Before anybody looks for a fault in his
snatch, he has to do it twice a week.""",
            "too_few_full_sessions",
            "programming",
            never=("back_squat_short", "technique_off", "no_heavy_singles"),
            words=("lazy", "costs"),
        ),
    }


def needs_time() -> Files:
    """Nothing is short; the accepted habit is left alone."""
    can = Figures(snatch=92, squat=165, power=78, low_hang=82.5, balance=112, overhead=108)
    log = Log()
    ordinary(log, can)
    limits(log, can)
    for week, kind in ((5, "forward"), (9, "behind"), (12, "forward"), (13, "behind")):
        log.miss(week, "sat", "snatch", 88, kind)
    return {
        "lifter.toml": lifter("Sefan Lindro", 100, best=91, more='accepted = ["pull under feet"]'),
        "training.csv": log.text(),
        "screening.csv": screening(
            f"{day(8, 'mon')},knee to wall,left,,12,,barefoot",
            f"{day(8, 'mon')},knee to wall,right,,12,,barefoot",
            f"{day(8, 'mon')},snatch bottom position,both,,,held,barefoot",
            f"{day(8, 'mon')},snatch start position,both,,,held,barefoot",
            f"{day(8, 'mon')},dowel snatch,both,,,held,barefoot",
            f"{day(8, 'mon')},dowel overhead squat,both,,,held,barefoot",
        ),
        "technique.csv": technique(
            f"{day(6, 'mon')},snatch,80,pull under feet,off",
            f"{day(12, 'mon')},snatch,85,pull under feet,off",
            f"{day(12, 'mon')},snatch,85,receiving lockout,good",
            f"{day(12, 'mon')},snatch,85,start hips,good",
        ),
        "case.toml": case(
            """
Sefan does everything: snatches twice a week, singles at 92 per cent, squats enough, sits well, power
snatches what goes with 100. His feet never leave the floor and his coach lets them. Nothing holds the
goal back but time under the bar, and a dossier that invents a fault here is worse than none.""",
            "",
            "",
            never=(
                "departure_from_model",
                "technique_off",
                "back_squat_short",
                "power_snatch_short",
                "power_snatch_near_snatch",
                "misses_forward",
                "too_few_full_sessions",
            ),
            words=("feet", "short", "weak"),
        ),
    }


def keeps_testing() -> Files:
    """Three kilograms away, and tries it every few days."""
    can = Figures(snatch=97, squat=168, power=78, low_hang=84, balance=110, overhead=108)
    log = Log()
    ordinary(log, can, weeks=range(1, 9))
    limits(log, can)
    for week in range(9, 15):
        log.add(week, "mon", "snatch", 78, 3, 2)
        log.add(week, "mon", "snatch", 95, 1, 1)
        log.miss(week, "mon", "snatch", 99, "forward" if week % 2 else "behind")
        log.add(week, "mon", "back squat", 130, 3, 3)
        log.add(week, "wed", "power snatch", 66, 3, 2)
        log.add(week, "fri", "snatch", 78, 2, 2)
        log.miss(week, "fri", "snatch", 98 if week % 2 else 100, "behind" if week % 2 else "forward")
        log.add(week, "fri", "front squat", 108, 3, 3)
    return {
        "lifter.toml": lifter("Mikko Sand", 100, best=96),
        "training.csv": log.text(),
        "case.toml": case(
            """
Mikko stands three kilograms from 100 and tries it on Mondays and Fridays. Twelve heavy days in six
weeks, a miss on every one, nothing gained. All he needs for 100 he has. He has to stop testing and
train.""",
            "chase",
            "programming",
            never=("back_squat_short", "power_snatch_short", "no_heavy_singles", "too_few_full_sessions"),
            words=("weak", "chase"),
        ),
    }


def no_limits() -> Files:
    """Never took anything to a limit."""
    log = Log()
    for week in range(1, 15):
        log.add(week, "mon", "snatch", 66, 5, 3, effort=6)
        log.add(week, "mon", "back squat", 110, 3, 5, effort=6)
        log.add(week, "wed", "clean and jerk", 80, 4, 2, effort=6)
        log.add(week, "fri", "snatch", 62, 5, 3, effort=6)
        log.add(week, "fri", "power snatch", 50, 4, 4, effort=5)
        log.add(week, "fri", "front squat", 90, 3, 5, effort=6)
        if week in (5, 10):
            log.add(week, "wed", "snatch balance", 60, 3, 3, effort=6)
    return {
        "lifter.toml": lifter("Nouri Castel", 90),
        "training.csv": log.text(),
        "case.toml": case(
            """
Nouri trains fives and threes at effort 6, every week, and nobody knows what he can do. The squat in the
log is 110 for five with plenty left; that is not a squat that is too small for 90, it is a squat nobody
tested. Singles have to come into training, then one can say more.""",
            "no_heavy_singles",
            "programming",
            never=(
                "back_squat_short",
                "power_snatch_short",
                "snatch_balance_short",
                "overhead_squat_short",
                "squat_up_lift_still",
                "needs_time",
            ),
            words=("short", "weak", "costs", "lies"),
            more='\n[also]\nnot_tested = ["limit_back_squat"]\n',
        ),
    }


def hardly_any_data() -> Files:
    """Six rows."""
    return {
        "lifter.toml": lifter("Bo Ferrin", 70),
        "training.csv": table(
            "date,lift,kg,sets,reps",
            "2026-06-15,snatch,40,5,3",
            "2026-06-15,back squat,70,3,5",
            "2026-06-18,clean and jerk,50,5,2",
            "2026-06-22,snatch,42,5,2",
            "2026-06-22,front squat,60,3,5",
            "2026-06-25,snatch,45,3,1",
        ),
        "case.toml": case(
            """
Ten days of log from somebody who just began writing things down. There is nothing to find in them, and
the honest dossier names no need. It lists what to gather.""",
            "",
            "",
            never=(
                "back_squat_short",
                "too_few_full_sessions",
                "no_heavy_singles",
                "needs_time",
                "technique_off",
                "return_after_gap",
            ),
            words=("short", "weak", "too few"),
            more='\n[also]\nnot_tested = ["screening", "technique", "limit_back_squat", "power_snatch"]\n',
        ),
    }


def contradictory() -> Files:
    """The screen says held, the video says off."""
    can = Figures(snatch=86, squat=160, power=74, low_hang=80, balance=106, overhead=104)
    log = Log()
    ordinary(log, can)
    limits(log, can)
    for week in (3, 6, 9, 12, 13):
        log.miss(week, "mon", "snatch", 82, "did not go under")
    return {
        "lifter.toml": lifter("Verin Tull", 95, best=85),
        "training.csv": log.text(),
        "screening.csv": screening(
            f"{day(9, 'mon')},snatch bottom position,both,,,held,barefoot",
            f"{day(9, 'mon')},dowel snatch,both,,,held,barefoot",
            f"{day(9, 'mon')},dowel overhead squat,both,,,held,barefoot",
            f"{day(9, 'mon')},pause in the bottom,both,,,held,barefoot",
        ),
        "technique.csv": technique(
            f"{day(4, 'mon')},snatch,70,receiving depth,good",
            f"{day(5, 'mon')},snatch,79,receiving depth,off",
            f"{day(10, 'mon')},snatch,79,receiving depth,off",
            f"{day(13, 'mon')},snatch,82,receiving depth,off",
        ),
        "case.toml": case(
            """
On the mat Verin holds every position. On video, from 79 kilograms on, he catches high and his misses
are lifts he did not go under. Both are true and the dossier says both: what he can sit into empty-
handed he does not use with a heavy bar. That is skill, not flexibility.""",
            "technique_off",
            "skill",
            never=("position_not_reached", "position_not_controlled", "back_squat_short"),
            words=("stretch", "costs"),
            more="\n[also]\nconflict = true\n",
        ),
    }


CASES: dict[str, Files] = {
    "stiff_ankles": stiff_ankles(),
    "cannot_stand_up": cannot_stand_up(),
    "squat_chaser": squat_chaser(),
    "double_chaser": double_chaser(),
    "once_a_week": once_a_week(),
    "needs_time": needs_time(),
    "keeps_testing": keeps_testing(),
    "no_limits": no_limits(),
    "hardly_any_data": hardly_any_data(),
    "contradictory": contradictory(),
    **MORE,
    **LATEST,
    **LAST,
}
