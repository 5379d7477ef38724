"""Tobin Marlsworth, invented: logs in pounds, snatches well, squats too little for the goal."""

import datetime as dt
from collections.abc import Sequence

from diary import Diary, Item, Story, Taper, Try, minutes, weighings
from tables import Files, tabbed

D = dt.date
FIRST, LAST = D(2025, 9, 22), D(2026, 11, 12)


def line(start: float, end: float) -> Sequence[tuple[dt.date, float]]:
    """A lift's limit in pounds from the first to the last day."""
    return ((FIRST, start), (LAST, end))


CURVES = {
    "snatch": line(190.0, 206.0),
    "power snatch": line(164.0, 177.0),
    "low hang snatch": line(172.0, 187.0),
    "snatch balance": line(208.0, 221.0),
    "overhead squat": line(212.0, 226.0),
    "clean and jerk": line(240.0, 264.0),
    "power clean": line(200.0, 216.0),
    "push press": line(190.0, 206.0),
    "jerk": line(250.0, 272.0),
    "front squat": line(255.0, 276.0),
    "back squat": line(300.0, 316.0),
    "romanian deadlift": line(300.0, 315.0),
    "good morning": line(150.0, 160.0),
}
CAPS = {
    "snatch": ((FIRST, 180.0), (D(2026, 3, 14), 190.0), (D(2026, 6, 27), 190.0), (D(2026, 10, 10), 195.0)),
    "clean and jerk": ((FIRST, 230.0), (D(2026, 3, 14), 240.0), (D(2026, 10, 10), 245.0)),
}
SNATCH_PULL = Item(lift="snatch pull", of="snatch", top=1.06, reps=3, sets=4, kind="pull", aid="straps")
CLEAN_PULL = Item(lift="clean pull", of="clean and jerk", top=1.0, reps=3, sets=4, kind="pull", aid="straps")
SQUAT = Item(lift="back squat", top=0.84, reps=4, sets=5, kind="squat")
SESSIONS = {
    0: (
        Item(lift="snatch", top=0.83, reps=2, sets=5),
        SQUAT,
        CLEAN_PULL,
        Item(lift="good morning", top=0.7, reps=6, sets=3, kind="light"),
    ),
    1: (
        Item(lift="power snatch", top=0.82, reps=2, sets=4),
        Item(lift="push press", top=0.8, reps=3, sets=4, kind="light"),
        Item(lift="front squat", top=0.8, reps=3, sets=3, kind="squat"),
    ),
    3: (
        Item(lift="clean and jerk", top=0.82, reps=2, sets=4),
        Item(lift="snatch balance", top=0.82, reps=2, sets=4),
        SNATCH_PULL,
        Item(lift="Romanian deadlift", of="romanian deadlift", top=0.68, reps=6, sets=3, kind="light"),
    ),
    5: (
        Item(lift="snatch", top=0.915, reps=1, sets=5),
        Item(lift="clean and jerk", top=0.87, reps=1, sets=4),
        Item(lift="back squat", top=0.7, reps=3, sets=3, kind="light", variant="pause"),
        Item(lift="overhead squat", top=0.76, reps=3, sets=3, kind="light"),
    ),
}


def sessions(day: dt.date, week: int) -> Sequence[Item]:
    """Four days a week; every third Tuesday brings the low hang, every other Thursday the jerk alone."""
    items = SESSIONS.get(day.weekday(), ())
    if day.weekday() == 1 and week % 3 == 1:
        return (Item(lift="low hang snatch", top=0.84, reps=2, sets=4), *items[1:])
    if day.weekday() == 1 and week % 3 == 2:
        return (Item(lift="snatch pull + snatch", of="snatch", top=0.8, reps=1, sets=5), *items[1:])
    if day.weekday() == 3 and week % 2:
        return (Item(lift="clean + jerk", of="clean and jerk", top=0.8, reps=1, sets=5), *items[1:])
    return items


ARRANGED = {
    D(2025, 12, 8): {"back squat": (Try(load=305, effort="9.5"), Try(load=315, made=0, miss="recovery"))},
    D(2026, 4, 27): {"back squat": (Try(load=310, effort="9.5"), Try(load=320, made=0, miss="recovery"))},
    D(2026, 6, 27): {
        "snatch": (
            Try(load=190),
            Try(load=200, remark="clean lift; slow up"),
            Try(load=205, made=0, miss="recovery"),
        )
    },
    D(2026, 8, 31): {
        "back squat": (
            Try(load=305),
            Try(load=315, effort="9.5", remark="all there was"),
            Try(load=325, made=0, miss="recovery", remark="stuck just above the bottom"),
        )
    },
    D(2026, 9, 3): {
        "snatch balance": (
            Try(load=210, reps=2, made=2),
            Try(load=220, effort="9"),
            Try(load=225, made=0, miss="recovery", remark="caught it and could not stand"),
        )
    },
    D(2026, 9, 8): {
        "front squat": (
            Try(load=265, effort="9"),
            Try(load=275, effort="9.5"),
            Try(load=285, made=0, miss="recovery"),
        )
    },
    D(2026, 9, 12): {"overhead squat": (Try(load=205, reps=2, made=2), Try(load=225, effort="9"))},
    D(2026, 9, 15): {
        "power snatch": (
            Try(load=165),
            Try(load=175, effort="9"),
            Try(load=180, made=0, miss="not high enough"),
        )
    },
    D(2026, 9, 22): {"low hang snatch": (Try(load=175), Try(load=185, effort="9"))},
    D(2026, 11, 9): {
        "back squat": (
            Try(load=300, effort="9"),
            Try(load=315, effort="10"),
            Try(load=320, made=0, miss="recovery"),
        )
    },
}
STORY = Story(
    seed=22500,
    first=FIRST,
    last=LAST,
    step=5,
    curves=CURVES,
    sessions=sessions,
    caps=CAPS,
    tapers=(Taper(day=D(2026, 3, 14), days=9, cut=0.55), Taper(day=D(2026, 10, 10), days=10, cut=0.52)),
    misses={
        "snatch": (("recovery", 8), ("forward", 1.5), ("behind", 1), ("", 0.7)),
        "clean": (("clean", 4), ("jerk", 1)),
    },
    arranged=ARRANGED,
    tests={
        D(2026, 3, 14): {"snatch": 190, "clean and jerk": 240},
        D(2026, 10, 10): {"snatch": 195, "clean and jerk": 245},
    },
    off=(
        (D(2025, 12, 24), D(2025, 12, 27)),
        (D(2026, 5, 11), D(2026, 5, 17)),
        (D(2026, 7, 13), D(2026, 7, 19)),
    ),
    remarks=(
        "slow up",
        "fast under",
        "legs heavy from Monday",
        "good bar path",
        "late night at work",
        "grip sore",
        "shoes retied",
    ),
    block_start=D(2025, 9, 29),
    plan_from=D(2026, 10, 19),
    shaky=0.65,
    weeks={D(2026, 9, 21): 1, D(2026, 9, 28): 2, D(2026, 10, 12): 3, D(2026, 10, 19): 0},
)
NAMES = {
    "snatch": "full snatch",
    "power snatch": "PS",
    "low hang snatch": "below-knee snatch",
    "snatch balance": "drop under",
    "overhead squat": "OHS",
    "clean and jerk": "C&J",
    "clean + jerk": "clean + jerk",
    "front squat": "FS",
    "back squat": "squat",
    "good morning": "Good Morning",
    "Romanian deadlift": "RDL",
    "snatch pull + snatch": "snatch pull + full snatch",
}

LIFTER = """\
# Tobin Marlsworth is invented, like everybody in this squad.
name = "Tobin Marlsworth"
standards = "men"
born = 1996
unit = "lb"                   # body mass and loads without a unit are pounds
weeks_current = 12

[[goal]]
lift = "snatch"
lb = 225
by = 2027-05-29

[[goal]]
lift = "clean and jerk"
lb = 285
by = 2027-05-29

[[best]]
lift = "snatch"
lb = 190
date = 2025-05-17
where = "contest"

[[best]]
lift = "clean and jerk"
lb = 240
date = 2025-05-17
where = "contest"

[lift_names]                  # his own words
"full snatch" = "snatch"
"below-knee snatch" = "low hang snatch"
"drop under" = "snatch balance"
"squat" = "back squat"
"RDL" = "Romanian deadlift"
"""
ATTEMPTS = (
    "date,event,kind,lift,attempt,kg,made,miss",
    "2026-03-14,Reedmouth Spring Meeting,contest,snatch,1,86,yes,",
    "2026-03-14,Reedmouth Spring Meeting,contest,snatch,2,89,yes,",
    "2026-03-14,Reedmouth Spring Meeting,contest,snatch,3,92,no,recovery",
    "2026-03-14,Reedmouth Spring Meeting,contest,clean and jerk,1,108,yes,",
    "2026-03-14,Reedmouth Spring Meeting,contest,clean and jerk,2,113,yes,",
    "2026-03-14,Reedmouth Spring Meeting,contest,clean and jerk,3,117,no,clean",
    "2026-10-10,Three Piers Open,contest,snatch,1,87,yes,",
    "2026-10-10,Three Piers Open,contest,snatch,2,91,yes,",
    "2026-10-10,Three Piers Open,contest,snatch,3,93,yes,",
    "2026-10-10,Three Piers Open,contest,clean and jerk,1,112,yes,",
    "2026-10-10,Three Piers Open,contest,clean and jerk,2,117,no,clean",
    "2026-10-10,Three Piers Open,contest,clean and jerk,3,118,yes,",
)
SCREENING = (
    "date,item,side,lb,reading,grade,conditions,remark",
    "2026-01-10,knee to wall,left,,12,,barefoot,",
    "2026-01-10,knee to wall,right,,12.5,,barefoot,",
    "2026-01-10,shoulder flexion,both,,181,,warm,",
    "2026-01-10,hip flexion,both,,124,,warm,",
    "2026-01-10,thoracic rotation,left,,52,,warm,",
    "2026-01-10,thoracic rotation,right,,50,,warm,",
    "2026-01-10,snatch start position,both,,,held,shoes,",
    "2026-01-10,snatch bottom position,both,,,held,shoes,",
    "2026-01-10,dowel snatch,both,,,held,shoes,",
    "2026-09-26,knee to wall,left,,12,,barefoot,",
    "2026-09-26,knee to wall,right,,12,,barefoot,",
    "2026-09-26,shoulder flexion,both,,181,,warm,",
    "2026-09-26,wrist extension,both,,76,,warm,",
    "2026-09-26,snatch start position,both,,,held,shoes,",
    "2026-09-26,snatch bottom position,both,,,held,shoes,",
    "2026-09-26,dowel snatch,both,,,held,shoes,",
    "2026-09-26,dowel overhead squat,both,,,held,barefoot,",
    "2026-09-26,Beighton score,both,,1,,,",
    "2026-09-26,trunk inclination,both,135,22,,video,",
    "2026-09-26,trunk inclination,both,160,23,,video,",
    "2026-09-26,trunk inclination,both,185,25,,video,",
)
CHECKS = (
    ("start hips", "ggggg"),
    ("start back", "ggggg"),
    ("first pull bar path", "ggggg"),
    ("transition knees", "dgggg"),
    ("second pull bar distance", "ggdgg"),
    ("pull under timing", "ggggg"),
    ("receiving lockout", "ggggg"),
    ("recovery balance", "gggdd"),
)
VIDEO_DAYS = (
    (D(2025, 12, 6), 175),
    (D(2026, 2, 28), 180),
    (D(2026, 5, 30), 185),
    (D(2026, 8, 22), 190),
    (D(2026, 10, 31), 190),
)
GRADES = {"g": "good", "d": "drifting"}
PAIN = (
    "date,place,lift,score,kind,settled,remark",
    "2026-05-04,knee,front squat,3,ache,2026-05-25,eased during the week of travel",
)
AWAY = (
    "from,to,reason,remark",
    "2025-12-24,2025-12-27,no gym,",
    "2026-05-11,2026-05-17,work,on the road",
    "2026-07-13,2026-07-19,travel,",
)
DECISIONS = (
    "date,finding,verdict,why,check",
    "2026-05-20,back_squat_short,kept,squats first on Mondays until the autumn,2026-09-01",
    "2026-09-14,back_squat_short,kept,up 10 lb and still short,2026-12-15",
)
NOTES = {
    "2026-03-15-review.md": """\
Date: 2026-03-15
Kind: review
Title: Reedmouth

Technique held on all six. 92 kg was **caught and sat on**; the third clean the same. He turns almost all of
his squat into snatch already.
""",
    "2026-10-11-review.md": """\
Date: 2026-10-11
Kind: review
Title: Three Piers

Three snatches made, 93 the best so far. The second clean stayed on the knees. Next: legs.
""",
    "2026-10-18-plan.md": """\
Date: 2026-10-18
Kind: plan
Title: Winter block

- back squat twice a week, one day heavy
- snatch balance for doubles, then the goal weight
- snatch twice a week, kept where it is
""",
}


def files() -> Files:
    """Every file of the folder, by name."""
    diary = Diary(STORY).written()
    weighed = weighings(85, FIRST, LAST, (6,), ((FIRST, 184.0), (D(2026, 3, 14), 185.5), (LAST, 186.5)))
    work = minutes(
        23, ((D(2025, 10, 1), LAST, (2,), "hips", 10), (D(2025, 10, 1), LAST, (2, 6), "shoulders", 5))
    )
    graded = sorted(
        (day, name, GRADES[marks[place]], lb)
        for name, marks in CHECKS
        for place, (day, lb) in enumerate(VIDEO_DAYS)
    )
    return {
        "lifter.toml": LIFTER,
        "training.csv": tabbed(diary.rows, NAMES),
        "plan.csv": tabbed(diary.planned, NAMES, plan=True),
        "attempts.csv": "\n".join((*ATTEMPTS, "")),
        "screening.csv": "\n".join((*SCREENING, "")),
        "technique.csv": "date,lift,lb,checkpoint,grade,clip,remark\n"
        + "".join(f"{d},snatch,{lb},{name},{grade},,\n" for d, name, grade, lb in graded),
        "bodymass.csv": "date,load\n" + "".join(f"{d},{lb}\n" for d, lb in weighed),
        "mobility.csv": "date,area,minutes\n" + "".join(f"{d},{area},{m}\n" for d, area, m in work),
        "pain.csv": "\n".join((*PAIN, "")),
        "away.csv": "\n".join((*AWAY, "")),
        "decisions.csv": "\n".join((*DECISIONS, "")),
        **{f"notes/{name}": text for name, text in NOTES.items()},
    }
