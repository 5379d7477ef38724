"""Nelke Ostrandt, invented: a bodyweight snatch held back by positions, with a power snatch close behind."""

import datetime as dt
from collections.abc import Sequence

from diary import Diary, Item, Story, Taper, Try, minutes, weighings
from tables import Files, training

D = dt.date
FIRST, LAST = D(2025, 9, 29), D(2026, 11, 7)
TAPERS = (
    Taper(day=D(2026, 3, 28), days=10, cut=0.58),
    Taper(day=D(2026, 7, 11), days=26, cut=0.5, ramp=False),
    Taper(day=D(2026, 10, 17), days=11, cut=0.5),
)


def line(start: float, end: float) -> Sequence[tuple[dt.date, float]]:
    """A lift's limit from the first to the last day."""
    return ((FIRST, start), (LAST, end))


CURVES = {
    "snatch": line(55.0, 59.5),
    "power snatch": line(51.0, 54.5),
    "low hang snatch": line(50.0, 53.5),
    "snatch balance": line(65.0, 70.0),
    "overhead squat": line(62.0, 67.0),
    "clean and jerk": line(69.0, 75.0),
    "power clean": line(60.0, 64.0),
    "push press": line(52.0, 55.0),
    "front squat": line(85.0, 90.0),
    "back squat": line(101.0, 106.5),
    "romanian deadlift": line(92.0, 98.0),
    "back extension": line(22.0, 28.0),
}
CAPS = {
    "snatch": ((FIRST, 53.0), (D(2025, 12, 20), 54.0), (D(2026, 3, 28), 55.0), (D(2026, 10, 17), 56.0)),
    "low hang snatch": ((FIRST, 50.0), (D(2026, 5, 1), 52.0)),
}
PULL = Item(lift="snatch pull", of="snatch", top=1.07, reps=3, sets=4, kind="pull", aid="straps")
PAUSE = Item(lift="back squat", top=0.68, reps=3, sets=3, kind="light", variant="pause")
EXTENSION = Item(lift="back extension", top=0.8, reps=8, sets=3, kind="light")
SESSIONS = {
    0: (
        Item(lift="snatch", top=0.82, reps=2, sets=5),
        PULL,
        Item(lift="back squat", top=0.83, reps=4, sets=4, kind="squat"),
        Item(lift="Romanian deadlift", of="romanian deadlift", top=0.72, reps=6, sets=3, kind="light"),
    ),
    2: (
        Item(lift="power snatch", top=0.83, reps=2, sets=5),
        Item(lift="clean and jerk", top=0.8, reps=2, sets=4),
        Item(lift="push press", top=0.78, reps=4, sets=4, kind="light"),
        EXTENSION,
    ),
    4: (
        Item(lift="low hang snatch", top=0.83, reps=2, sets=4),
        Item(lift="snatch balance", top=0.8, reps=2, sets=4),
        Item(lift="front squat", top=0.82, reps=3, sets=4, kind="squat"),
    ),
    5: (
        Item(lift="snatch", top=0.925, reps=1, sets=5),
        Item(lift="clean and jerk", top=0.85, reps=1, sets=4),
        PAUSE,
        Item(lift="overhead squat", top=0.78, reps=3, sets=3, kind="light"),
    ),
}


def sessions(day: dt.date, week: int) -> Sequence[Item]:
    """Four days a week; every second Friday the hang gives way to the complex."""
    items = SESSIONS.get(day.weekday(), ())
    if day.weekday() == 4 and week % 2:
        joined = Item(lift="snatch pull + snatch", of="snatch", top=0.8, reps=1, sets=5)
        return (joined, *items[1:])
    return items


ARRANGED = {
    D(2025, 11, 21): {"front squat": (Try(load=84, effort="9"), Try(load=87, made=0, miss="recovery"))},
    D(2026, 2, 23): {"back squat": (Try(load=103, effort="9"), Try(load=106, made=0, miss="recovery"))},
    D(2026, 5, 16): {
        "snatch": (
            Try(load=55),
            Try(load=58, made=0, miss="behind", remark="felt light, so went up without planning it"),
            Try(load=58, made=0, miss="behind"),
        )
    },
    D(2026, 9, 7): {"back squat": (Try(load=106, effort="9.5"), Try(load=109, made=0, miss="recovery"))},
    D(2026, 9, 9): {
        "power snatch": (
            Try(load=52),
            Try(load=54, effort="8.5", remark="caught above parallel with room to spare"),
            Try(load=56, made=0, miss="not high enough"),
        )
    },
    D(2026, 9, 25): {"low hang snatch": (Try(load=51), Try(load=53, effort="9"))},
    D(2026, 9, 18): {
        "snatch balance": (
            Try(load=64, reps=2, made=2),
            Try(load=68, effort="8", remark="arms rolled back a little"),
        )
    },
    D(2026, 9, 12): {"overhead squat": (Try(load=60, reps=2, made=2), Try(load=64, effort="8"))},
}
STORY = Story(
    seed=6301,
    first=FIRST,
    last=LAST,
    step=1,
    curves=CURVES,
    sessions=sessions,
    caps=CAPS,
    tapers=TAPERS,
    misses={
        "snatch": (("behind", 6.5), ("recovery", 2.2), ("forward", 0.6), ("press-out", 0.6), ("", 0.6)),
        "clean and jerk": (("jerk", 3), ("clean", 1)),
    },
    arranged=ARRANGED,
    tests={
        D(2025, 12, 20): {"snatch": 52},
        D(2026, 3, 28): {"snatch": 54, "clean and jerk": 68},
        D(2026, 7, 11): {"snatch": 54},
        D(2026, 10, 17): {"snatch": 55, "clean and jerk": 70},
    },
    off=(
        (D(2025, 12, 24), D(2025, 12, 28)),
        (D(2026, 2, 2), D(2026, 2, 7)),
        (D(2026, 7, 20), D(2026, 7, 29)),
    ),
    remarks=(
        "heels wanted to lift",
        "elbows slow to lock",
        "ankles stiff today",
        "better after the second warm-up",
        "video sent",
        "short of sleep",
        "stood up slowly",
    ),
    block_start=D(2025, 10, 6),
    plan_from=D(2026, 9, 28),
    shaky=0.85,
    weeks={
        D(2026, 3, 30): 3,
        D(2026, 6, 8): 1,
        D(2026, 9, 28): 1,
        D(2026, 10, 5): 2,
        D(2026, 10, 19): 3,
        D(2026, 10, 26): 0,
        D(2026, 11, 2): 1,
    },
)
NAMES = {
    "snatch": "Snatch",
    "power snatch": "PS",
    "low hang snatch": "LHS",
    "snatch balance": "SB",
    "overhead squat": "OHS",
    "clean and jerk": "C&J",
    "back squat": "BS",
    "front squat": "FS",
    "snatch pull + snatch": "snatch pull + snatch",
}

LIFTER = """\
# Nelke Ostrandt is invented, like everybody in this squad.
name = "Nelke Ostrandt"
standards = "women"
born = 1994
unit = "kg"
weeks_current = 12

[[goal]]                      # her own body mass, overhead
lift = "snatch"
times_body_mass = 1.0
by = 2027-03-27

[[goal]]
lift = "total"
kg = 140

[[best]]                      # from before this log
lift = "snatch"
kg = 55
date = 2025-06-14
where = "contest"

[[best]]
lift = "clean and jerk"
kg = 68
date = 2025-06-14
where = "contest"
"""
ATTEMPTS = (
    "date,event,kind,lift,attempt,kg,made,miss",
    "2025-12-20,Winter test evening,test,snatch,1,53,yes,",
    "2025-12-20,Winter test evening,test,snatch,2,56,yes,",
    "2025-12-20,Winter test evening,test,snatch,3,58,no,behind",
    "2026-03-28,Osselwater Spring Lift,contest,snatch,1,54,yes,",
    "2026-03-28,Osselwater Spring Lift,contest,snatch,2,57,yes,",
    "2026-03-28,Osselwater Spring Lift,contest,snatch,3,58,yes,",
    "2026-03-28,Osselwater Spring Lift,contest,clean and jerk,1,68,yes,",
    "2026-03-28,Osselwater Spring Lift,contest,clean and jerk,2,71,yes,",
    "2026-03-28,Osselwater Spring Lift,contest,clean and jerk,3,73,no,jerk",
    "2026-07-11,Boathouse test day,test,snatch,1,55,yes,",
    "2026-07-11,Boathouse test day,test,snatch,2,59,no,recovery",
    "2026-07-11,Boathouse test day,test,snatch,3,59,no,behind",
    "2026-10-17,Osselwater Club Contest,contest,snatch,1,55,yes,",
    "2026-10-17,Osselwater Club Contest,contest,snatch,2,57,yes,",
    "2026-10-17,Osselwater Club Contest,contest,snatch,3,59,yes,",
    "2026-10-17,Osselwater Club Contest,contest,clean and jerk,1,70,yes,",
    "2026-10-17,Osselwater Club Contest,contest,clean and jerk,2,73,yes,",
    "2026-10-17,Osselwater Club Contest,contest,clean and jerk,3,76,no,clean",
)
SCREENING = (
    "date,item,side,kg,reading,grade,conditions,remark",
    '2025-11-08,knee to wall,left,,7.5,,"barefoot, cold",',
    '2025-11-08,knee to wall,right,,8,,"barefoot, cold",',
    "2025-11-08,shoulder flexion,both,,168,,cold,arms drift forward at the end",
    "2025-11-08,hip flexion,both,,122,,cold,",
    "2025-11-08,thoracic rotation,left,,46,,cold,",
    "2025-11-08,thoracic rotation,right,,47,,cold,",
    "2025-11-08,wrist extension,both,,72,,cold,",
    "2025-11-08,snatch start position,both,,,held,shoes,",
    "2025-11-08,snatch bottom position,both,,,partly,shoes,heels heavy at the bottom",
    "2025-11-08,dowel snatch,both,,,partly,shoes,",
    "2025-11-08,dowel overhead squat,both,,,partly,barefoot,",
    "2025-11-08,Beighton score,both,,2,,,",
    '2026-03-07,knee to wall,left,,9.5,,"barefoot, cold",',
    '2026-03-07,knee to wall,right,,9.5,,"barefoot, cold",',
    "2026-03-07,shoulder flexion,both,,170,,cold,",
    "2026-03-07,snatch bottom position,both,,,held,shoes,first time without a heel",
    '2026-06-27,knee to wall,left,,10.5,,"barefoot, cold",',
    '2026-06-27,knee to wall,right,,10.5,,"barefoot, cold",',
    "2026-06-27,shoulder flexion,both,,171,,cold,",
    "2026-06-27,snatch bottom position,both,,,held,shoes,",
    "2026-06-27,dowel snatch,both,,,held,shoes,",
    "2026-06-27,dowel overhead squat,both,,,held,barefoot,",
    '2026-10-24,knee to wall,left,,8,,"barefoot, cold",no ankle work since July',
    '2026-10-24,knee to wall,right,,8.5,,"barefoot, cold",',
    "2026-10-24,shoulder flexion,both,,168,,cold,",
    "2026-10-24,hip flexion,both,,121,,cold,",
    "2026-10-24,thoracic rotation,left,,46,,cold,",
    "2026-10-24,thoracic rotation,right,,47,,cold,",
    "2026-10-24,snatch bottom position,both,,,partly,shoes,sits back on the heels again",
    "2026-10-24,dowel snatch,both,,,held,shoes,",
    "2026-10-24,dowel overhead squat,both,,,partly,barefoot,",
    "2026-10-24,pause in the bottom,both,40,,partly,shoes,",
    "2026-10-24,wrist laid back,both,40,12,,video,",
    "2026-10-24,wrist laid back,both,46,15,,video,",
    "2026-10-24,wrist laid back,both,52,19,,video,",
    "2026-10-24,trunk inclination,both,40,27,,video,",
    "2026-10-24,trunk inclination,both,46,31,,video,",
    "2026-10-24,trunk inclination,both,52,36,,video,",
)
CHECKS = (  # checkpoint, grades and loads by month
    ("start hips", "ggggggg", (45, 48, 50, 52, 52, 54, 55)),
    ("first pull bar path", "ggdgggg", (45, 48, 52, 52, 52, 54, 55)),
    ("second pull extension", "ggggggg", (45, 48, 50, 52, 52, 54, 55)),
    ("pull under timing", "dggggdg", (45, 48, 50, 52, 52, 54, 55)),
    ("receiving depth", "odddooo", (52, 53, 54, 54, 54, 55, 56)),
    ("receiving lockout", "ddggddo", (50, 50, 50, 52, 52, 54, 56)),
    ("receiving bar over foot", "ddddddo", (50, 52, 52, 53, 53, 54, 56)),
    ("recovery balance", "dgggddd", (50, 50, 50, 52, 52, 54, 56)),
)
VIDEO_DAYS = (
    D(2025, 11, 15),
    D(2026, 1, 17),
    D(2026, 3, 14),
    D(2026, 5, 9),
    D(2026, 7, 4),
    D(2026, 9, 5),
    D(2026, 10, 31),
)
GRADES = {"g": "good", "d": "drifting", "o": "off"}
PAIN = (
    "date,place,lift,score,kind,settled,remark",
    "2026-01-22,wrist,snatch,3,ache,2026-02-14,after the overhead squats; left it alone for two weeks",
    "2026-06-03,hip,back squat,2,ache,2026-06-12,",
)
AWAY = (
    "from,to,reason,remark",
    "2025-12-24,2025-12-28,no gym,hall closed",
    "2026-02-02,2026-02-07,illness,cold",
    "2026-07-20,2026-07-29,travel,at the coast",
)
DECISIONS = (
    "date,finding,verdict,why,check",
    "2026-03-30,upkeep_stopped,kept,ankles first; ten minutes three times a week,2026-06-27",
    "2026-07-14,long_taper,changed,ten days before the autumn contest and not four weeks,2026-10-20",
    "2026-07-14,power_snatch_near_snatch,kept,the power snatch stays but no longer heavy,2026-10-24",
)
NOTES = {
    "2025-11-08-screening.md": """\
Date: 2025-11-08
Kind: screening
Title: First screening by video

Knees stop **8 cm** from the wall and the arms drift forward at the end of the reach. The start is fine. In
the bottom she sits back as soon as the bar passes 50 kg.

- ankles: three times a week, ten minutes
- shoulders: twice a week
""",
    "2026-03-29-review.md": """\
Date: 2026-03-29
Kind: review
Title: After the spring lift

Three for three in the snatch. The ten days before were easy in volume, with the bar still heavy on two days.
The bottom position held for the first time.
""",
    "2026-07-12-review.md": """\
Date: 2026-07-12
Kind: review
Title: After the boathouse day

Nearly four quiet weeks, and 59 was lost twice, once standing up and once behind. She felt *rested and rusty*.
Less rest and more snatches before the next one.
""",
    "2026-08-20-remark.md": """\
Date: 2026-08-20
Kind: remark
Title: Ankles

The ankle work stopped after the trip to the coast. She says the warm-up takes longer again.
""",
    "2026-11-01-plan.md": """\
Date: 2026-11-01
Kind: plan
Title: Until the new year

1. Ankles daily, short.
2. Pauses in the bottom at 40 to 46 kg.
3. No heavy power snatch before Christmas.
""",
}


def files() -> Files:
    """Every file of the folder, by name."""
    diary = Diary(STORY).written()
    weighed = weighings(
        63, FIRST, LAST, (0, 3), ((FIRST, 64.6), (D(2026, 3, 28), 63.6), (D(2026, 8, 1), 64.3), (LAST, 63.4))
    )
    ankles_end = D(2026, 7, 17)
    work = minutes(
        17,
        (
            (D(2025, 11, 10), ankles_end, (0, 2, 4), "ankles", 10),
            (D(2025, 11, 10), LAST, (1, 5), "shoulders", 10),
            (D(2025, 11, 10), LAST, (3,), "thoracic spine", 5),
        ),
    )
    graded = sorted(
        (day, name, GRADES[marks[place]], loads[place], place)
        for name, marks, loads in CHECKS
        for place, day in enumerate(VIDEO_DAYS)
    )
    return {
        "lifter.toml": LIFTER,
        "training.csv": training(diary.rows, NAMES),
        "plan.csv": training(diary.planned, NAMES, plan=True),
        "attempts.csv": "\n".join((*ATTEMPTS, "")),
        "screening.csv": "\n".join((*SCREENING, "")),
        "technique.csv": "date,lift,kg,checkpoint,grade,clip,remark\n"
        + "".join(
            f"{d},snatch,{kg},{name},{grade},clip-{d:%m%d}-{kg},\n" for d, name, grade, kg, _ in graded
        ),
        "bodymass.csv": "date,kg\n" + "".join(f"{d},{kg}\n" for d, kg in weighed),
        "mobility.csv": "date,area,minutes\n" + "".join(f"{d},{area},{m}\n" for d, area, m in work),
        "pain.csv": "\n".join((*PAIN, "")),
        "away.csv": "\n".join((*AWAY, "")),
        "decisions.csv": "\n".join((*DECISIONS, "")),
        **{f"notes/{name}": text for name, text in NOTES.items()},
    }
