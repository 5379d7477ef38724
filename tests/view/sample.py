"""An invented lifter with every fact filled, for the tests of `view` and `charts` and for looking at charts.

The log is drawn with a fixed seed and asked by the real `analysis`; what a short log cannot give (tapers,
positions, technique, needs, a block) is set by hand, so that every section and figure is there.
"""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd

from reportgen.model.dossier import Dossier
from reportgen.model.findings import (
    CheckpointFact,
    CompensationFact,
    Evidence,
    ExpressedStrength,
    Grade,
    Need,
    NotTested,
    PainFact,
    PainReading,
    ScreeningFact,
    ScreeningItem,
    TechniqueFact,
    UpkeepFact,
)
from reportgen.model.lifter import Goal, Lifter, PriorBest
from reportgen.model.peaks import ChaseFact, TaperFact, TestDayFact, TrendFact
from reportgen.model.problems import FileLedger, Problem
from reportgen.model.proposal import (
    BlockAttempt,
    BlockBefore,
    BlockDose,
    BlockFact,
    BlockSession,
    BlockSet,
    BlockTaper,
    BlockWeek,
    PlannedDone,
    PlannedWeek,
)
from reportgen.model.records import Note, Records
from reportgen.model.say import Say, say
from reportgen.model.tables import AWAY, BODYMASS, MOBILITY, PAIN, SCREENING, SETS, typed
from reportgen.trade import load
from tests import kept

FIRST = dt.date(2025, 12, 1)
LAST = dt.date(2026, 11, 8)
DAY = dt.timedelta(days=1)

LIFTER = Lifter(
    name="Runa Velde",
    standards="women",
    goals=(Goal(lift="snatch", kg=64.0, by=dt.date(2026, 11, 28)),),
    born=1991,
    bests=(PriorBest(lift="snatch", kg=55.0, date=dt.date(2025, 9, 20), where="contest"),),
)
TESTS = (dt.date(2026, 3, 28), dt.date(2026, 6, 27), dt.date(2026, 11, 7))
AWAY_WEEKS = (dt.date(2026, 7, 20), dt.date(2026, 7, 27))

_PLAIN: dict[str, object] = {
    "session": "",
    "part": 0,
    "parts": 1,
    "sets": 1,
    "declined": 0,
    "miss": "",
    "variant": "",
    "aid": "",
    "effort": np.nan,
    "kind": "training",
    "event": "",
    "attempt": 0,
    "remark": "",
    "file": "training.csv",
}


def _days() -> list[dt.date]:
    """Three days a week, with two weeks away and one empty week."""
    days = [FIRST + DAY * n for n in range((LAST - FIRST).days + 1)]
    empty = dt.date(2026, 4, 6)
    gone = {*AWAY_WEEKS, empty}
    return [
        d for d in days if d.weekday() in (0, 2, 5) and d - DAY * d.weekday() not in gone and d not in TESTS
    ]


def _taper(day: dt.date) -> float:
    """Share of the usual sets: less in the ten days before a test day."""
    return 0.5 if any(0 < (test - day).days <= 10 for test in TESTS) else 1.0


def _session(day: dt.date, rng: np.random.Generator, best: float) -> list[dict[str, object]]:
    usual = _taper(day)
    rows: list[dict[str, object]] = []

    def add(lift: str, kg: float, sets: int, reps: int, *, made: int | None = None, miss: str = "") -> None:
        done = reps if made is None else made
        rows.append(
            _PLAIN
            | {
                "date": np.datetime64(day, "s"),
                "lift": lift,
                "load_kg": round(kg * 2) / 2,
                "sets": max(1, round(sets * usual)),
                "reps": reps,
                "made": done,
                "miss": miss,
            }
        )

    main = {0: "snatch", 2: "power snatch" if day.month % 3 else "low hang snatch", 5: "snatch"}[
        day.weekday()
    ]
    if day.weekday() == 5 and day.isocalendar().week % 3 == 0:
        main = "hang snatch"
    scale = {"power snatch": 0.84, "low hang snatch": 0.9, "hang snatch": 0.88, "snatch": 1.0}[main]
    for share, sets, reps in ((0.65, 2, 3), (0.75, 3, 2), (0.85, 2, 2)):
        add(main, best * scale * share, sets, reps)
    if main == "snatch" and day.weekday() == 5:
        for share in (0.9, 0.95, 1.01):
            made = rng.random() < 1.9 - 1.4 * share
            add(
                main,
                best * share,
                1,
                1,
                made=int(made),
                miss="" if made else str(rng.choice(["behind", "forward", "recovery", ""])),
            )
    if day.weekday() == 0:
        add("snatch balance", best * rng.uniform(0.9, 1.0), 3, 2)
    add("snatch pull", best * rng.uniform(1.0, 1.1), 3, 3)
    add("back squat", best * rng.uniform(1.35, 1.52), 4, 3 if day.weekday() else 5)
    if day.weekday() == 2:
        add("clean and jerk", best * 1.2 * rng.uniform(0.7, 0.85), 4, 1)
        add("Romanian deadlift", best, 3, 6)
    return rows


def sets() -> pd.DataFrame:
    """The log."""
    rng = np.random.default_rng(7)
    rows: list[dict[str, object]] = []
    for day in _days():
        rows.extend(_session(day, rng, 55 + 6 * (day - FIRST).days / (LAST - FIRST).days))
    plans = ((54, 57, 58), (55, 58, 60), (58, 60, 62))
    for test, loads in zip(TESTS, plans, strict=True):
        for n, kg in enumerate(loads, start=1):
            made = n < 3 or test == TESTS[1]
            rows.append(
                _PLAIN
                | {
                    "date": np.datetime64(test, "s"),
                    "lift": "snatch",
                    "load_kg": float(kg),
                    "sets": 1,
                    "reps": 1,
                    "made": int(made),
                    "miss": "" if made else "behind",
                    "kind": "test",
                    "event": "test evening",
                    "attempt": n,
                    "file": "attempts.csv",
                }
            )
    numbered = [row | {"line": n + 2} for n, row in enumerate(rows)]
    return typed({name: [row[name] for row in numbered] for name in SETS}, SETS)


def bodymass() -> pd.DataFrame:
    """A reading a week."""
    rng = np.random.default_rng(3)
    days = [FIRST + DAY * 7 * n for n in range(48)]
    mass = [round(64.5 - 0.02 * n + float(rng.normal(0, 0.3)), 1) for n in range(48)]
    data: dict[str, list[object]] = {
        "date": [np.datetime64(d, "s") for d in days],
        "mass_kg": list(mass),
        "remark": [""] * 48,
        "file": ["bodymass.csv"] * 48,
        "line": list(range(2, 50)),
    }
    return typed(data, BODYMASS)


def away() -> pd.DataFrame:
    """Two weeks of travel."""
    data: dict[str, list[object]] = {
        "from": [np.datetime64("2026-07-20", "s")],
        "to": [np.datetime64("2026-08-02", "s")],
        "reason": ["travel"],
        "remark": [""],
        "file": ["away.csv"],
        "line": [2],
    }
    return typed(data, AWAY)


def pain() -> pd.DataFrame:
    """An open ache."""
    data: dict[str, list[object]] = {
        "date": [np.datetime64("2026-10-20", "s")],
        "place": ["wrist"],
        "lift": ["snatch"],
        "score": [3.0],
        "kind": ["ache"],
        "settled": [np.datetime64("NaT", "s")],
        "remark": [""],
        "file": ["pain.csv"],
        "line": [2],
    }
    return typed(data, PAIN)


def records(lifter: Lifter = LIFTER) -> Records:
    """The folder as read."""
    return Records(
        folder="runa-velde",
        lifter=lifter,
        as_of=LAST,
        sets=sets(),
        bodymass=bodymass(),
        away=away(),
        pain=pain(),
        notes=(
            Note(
                file="notes/a.md",
                date=dt.date(2026, 10, 1),
                kind="review",
                title="After <b>autumn</b>",
                text="# Less\n\nKeep the *depth*.\n\n<script>alert(1)</script> "
                "![x](https://example.org/x.png)",
            ),
        ),
        ledger=(
            FileLedger(
                file="training.csv",
                rows_read=900,
                rows_used=898,
                rows_set_aside=2,
                problems=(
                    Problem(
                        file="training.csv",
                        line=14,
                        column=3,
                        heading="kg",
                        found="1O2.5",
                        expected=say("intake.want.load"),
                        message=say("intake.cell", heading="kg", found="1O2.5", want=say("intake.want.load")),
                    ),
                    Problem(
                        file="training.csv",
                        line=20,
                        column=2,
                        heading="lift",
                        found="snach",
                        expected=say("intake.want.lift"),
                        message=say("intake.no_lift", found="snach", n=1, line="snatch"),
                    ),
                    Problem(file="training.csv", line=44, level="odd", message=say("intake.same", other=43)),
                ),
            ),
            FileLedger(file="bodymass.csv", rows_read=48, rows_used=48, rows_set_aside=0),
        ),
    )


def bare(lifter: Lifter = LIFTER) -> Dossier:
    """Only what is counted in the log: nothing that is judged, proposed or found about a test day."""
    made = kept.build(records(lifter), load())
    later: dict[str, Any] = dict.fromkeys((
        "test_days", "chases", "screening", "technique", "trend", "expressed_strength", "block",
        "planned_done", "season", "pain", "said_and_done",
    ))  # fmt: skip
    return replace(made, facts=replace(made.facts, needs=(), not_tested=(), **later))


def full(lifter: Lifter = LIFTER) -> Dossier:
    """Every fact filled."""
    dossier = bare(lifter)
    facts = replace(
        dossier.facts,
        season=kept.build(dossier.records, load()).facts.season,
        test_days=_tests(),
        chases=_chases(),
        screening=_screening(),
        technique=_technique(),
        trend=_trend(),
        expressed_strength=_expressed(),
        needs=_needs(),
        not_tested=_not_tested(),
        block=_block(),
        planned_done=_planned(),
        pain=_pain(),
    )
    held = replace(dossier.records, screening=_screened(), mobility=_mobility())
    return replace(dossier, facts=facts, records=held)


def _screened() -> pd.DataFrame:
    """The rows behind the positions below: three days of the ankles, a loss on the last, one in shoes."""
    march, june, october = dt.date(2026, 3, 1), dt.date(2026, 6, 13), dt.date(2026, 10, 3)
    rows = [
        (march, "knee to wall", "left", 10.5, "barefoot"),
        (march, "knee to wall", "right", 10.5, "barefoot"),
        (march, "shoulder flexion", "both", 165.0, ""),
        (june, "knee to wall", "left", 11.0, "barefoot"),
        (june, "knee to wall", "left", 12.0, "shoes"),
        (october, "knee to wall", "left", 8.0, "barefoot"),
        (october, "knee to wall", "right", 10.0, "barefoot"),
        (october, "shoulder flexion", "both", 172.0, ""),
        (october, "hip flexion", "both", 124.0, ""),
    ]
    columns = dict(
        zip(("date", "item", "side", "reading", "conditions"), zip(*rows, strict=True), strict=True)
    )
    return typed(_told(columns, SCREENING, "screening.csv"), SCREENING)


def _mobility() -> pd.DataFrame:
    """Ankles until September, shoulders until now."""
    days = [(FIRST + DAY * 7 * n, area) for n in range(49) for area in ("ankles", "shoulders")]
    days = [(day, area) for day, area in days if area == "shoulders" or day < dt.date(2026, 9, 6)]
    columns: dict[str, list[object]] = {
        "date": [d for d, _ in days],
        "area": [a for _, a in days],
        "minutes": [20.0] * len(days),
        "remark": [""] * len(days),
    }
    return typed(_told(columns, MOBILITY, "mobility.csv"), MOBILITY)


def _told(
    columns: Mapping[str, Sequence[object]], names: Mapping[str, str], file: str
) -> dict[str, list[object]]:
    """The columns of a file's rows, with what is not given empty."""
    n = len(next(iter(columns.values())))
    blank = {"str": "", "float64": float("nan")}
    given = {**columns, "file": [file] * n, "line": range(2, n + 2)}
    return {name: list(given.get(name, [blank.get(kind)] * n)) for name, kind in names.items()}


def _tests() -> tuple[TestDayFact, ...]:
    tapers = (
        TaperFact(
            start=dt.date(2026, 3, 18),
            days=10,
            volume_cut=0.46,
            load_change=-0.02,
            reading="usual",
            shape="step",
            volume_cut_classic=0.4,
            volume_cut_strength=0.52,
        ),
        TaperFact(
            start=dt.date(2026, 6, 1),
            days=26,
            volume_cut=0.38,
            load_change=-0.08,
            reading="long",
            shape="ramp",
            prolonged="over 21 days",
        ),
        TaperFact(start=None, days=None, volume_cut=None, load_change=None, reading="none"),
    )
    best = ((57.0, 55.0), (60.0, 57.0), (60.0, 60.0))
    return tuple(
        TestDayFact(
            date=day,
            kind="test",
            event="test evening",
            lift="snatch",
            best_kg=kg,
            previous_best_kg=before,
            gain_kg=kg - before,
            gain_share=kg / before - 1,
            tried=3,
            made=3 if n == 1 else 2,
            taper=taper,
            noise=n == 0,
            scatter_share=0.022,
        )
        for n, (day, (kg, before), taper) in enumerate(zip(TESTS, best, tapers, strict=True))
    )


def _chases() -> tuple[ChaseFact, ...]:
    return (
        ChaseFact(
            start=dt.date(2026, 9, 5), end=dt.date(2026, 9, 19), heavy_days=3, missed_days=2, gain_kg=0.0
        ),
    )


def _item(item: str, side: str, latest: float, norm: float, unit: str, **more: object) -> ScreeningItem:
    base: dict[str, object] = {
        "item": item,
        "side": side,
        "kind": "flexibility",
        "latest": latest,
        "latest_date": dt.date(2026, 10, 3),
        "grade": "",
        "norm": norm,
        "norm_source": "aaos",
        "change": None,
        "lapsed": False,
        "unit": unit,
        "conditions": "barefoot, warm",
        "reached": latest >= norm,
    }
    return ScreeningItem(**(base | more))  # type: ignore[arg-type]


def _screening() -> ScreeningFact:
    march = dt.date(2026, 3, 1)
    return ScreeningFact(
        items=(
            _item(
                "knee to wall",
                "left",
                8.0,
                10.0,
                "cm",
                earlier=10.5,
                earlier_date=march,
                change=-2.5,
                clear_change=True,
                lapsed=True,
            ),
            _item(
                "knee to wall",
                "right",
                10.0,
                10.0,
                "cm",
                earlier=10.5,
                earlier_date=march,
                change=-0.5,
                clear_change=False,
            ),
            _item(
                "shoulder flexion",
                "both",
                172.0,
                180.0,
                "degrees",
                earlier=165.0,
                earlier_date=march,
                change=7.0,
            ),
            _item("hip flexion", "both", 124.0, 120.0, "degrees"),
            ScreeningItem(
                item="dowel overhead squat",
                side="both",
                kind="control",
                latest=None,
                latest_date=dt.date(2026, 10, 3),
                grade="partly",
                norm=None,
                norm_source="",
                change=None,
                lapsed=False,
                reached=False,
            ),
            ScreeningItem(
                item="Beighton score",
                side="",
                kind="laxity",
                latest=3.0,
                latest_date=march,
                grade="",
                norm=5.0,
                norm_source="ama",
                change=None,
                lapsed=None,
                unit="points",
            ),
        ),
        compensation=(
            CompensationFact(
                item="trunk inclination",
                per_kg=0.5,
                at_goal=46.0,
                low=42.0,
                high=50.0,
                side="both",
                date=dt.date(2026, 10, 3),
                loads_kg=(30.0, 40.0, 50.0, 55.0),
                readings=(30.0, 33.0, 39.0, 42.0),
            ),
            CompensationFact(
                item="wrist laid back",
                per_kg=None,
                at_goal=None,
                low=None,
                high=None,
                reason=say("analysis.compensation.few_loads"),
            ),
        ),
        upkeep=(
            UpkeepFact(
                area="ankles", minutes_per_week=0.0, peak_minutes_per_week=45.0, days_since=64, stopped=True
            ),
            UpkeepFact(
                area="shoulders",
                minutes_per_week=22.5,
                peak_minutes_per_week=40.0,
                days_since=2,
                stopped=False,
            ),
            UpkeepFact(
                area="hips", minutes_per_week=12.0, peak_minutes_per_week=20.0, days_since=6, stopped=False
            ),
        ),
    )


def _technique() -> TechniqueFact:
    def grades(*given: str) -> tuple[Grade, ...]:
        return tuple(
            Grade(date=dt.date(2026, 1, 10) + DAY * 42 * n, grade=grade, load_kg=48.0 + 1.5 * n, line=n + 2)
            for n, grade in enumerate(given)
        )

    def point(checkpoint: str, phase: str, given: tuple[Grade, ...], **more: object) -> CheckpointFact:
        return CheckpointFact(
            checkpoint=checkpoint,
            phase=phase,
            lift="snatch",
            grades=given,
            latest=given[-1].grade,
            **({"persistence_days": None, "load_onset_kg": None} | more),  # type: ignore[arg-type]
        )

    return TechniqueFact(
        checkpoints=(
            point(
                "receiving depth",
                "receiving",
                grades("good", "good", "drifting", "off", "off", "off"),
                persistence_days=126,
                load_onset_kg=55.0,
            ),
            point("start back", "start", grades("good", "good", "good", "good")),
            point(
                "second pull bar distance",
                "second pull",
                grades("off", "drifting", "drifting", "good", "drifting"),
            ),
            point("pull under feet", "pull under", grades("off", "off"), departure=True, accepted=True),
        )
    )


def _trend() -> TrendFact:
    return TrendFact(
        lift="snatch",
        kg_per_month=0.5,
        low=0.2,
        high=0.9,
        reach_date=dt.date(2027, 4, 1),
        reach_early=dt.date(2027, 1, 10),
        reach_late=dt.date(2028, 2, 1),
        months=9,
        first=dt.date(2026, 2, 1),
        last=dt.date(2026, 11, 8),
        change_share=0.08,
        noise=False,
        noise_share=0.02,
    )


def _expressed() -> tuple[ExpressedStrength, ...]:
    shares = (0.99, 0.98, 1.0, 0.97, 0.96, 0.955, 0.95, 0.945, 0.94)
    return tuple(
        ExpressedStrength(
            month=f"2026-{n:02d}", snatch_kg=55 + n * 0.6, supported_kg=(55 + n * 0.6) / share, share=share
        )
        for n, share in enumerate(shares, start=2)
    )


def raw(text: str) -> Say:
    """Words as they stand."""
    return say("needs.drawn.weight", load_kg=text)


def _needs() -> tuple[Need, ...]:
    return (
        Need(
            rank=1,
            area="positions",
            id="position_lapsed",
            kilos=2.5,
            confidence="high",
            claim=raw(
                "The bottom position was reached in spring and lost since: the ankles' work stopped 64 "
                "days ago."
            ),
            evidence=(
                Evidence(
                    text=raw("left knee to wall 8 cm, 10.5 cm in March"),
                    file="screening.csv",
                    rule="real_change",
                    lines=(4, 5, 6, 9),
                    source_kind="screening",
                ),
                Evidence(
                    text=raw("3 misses behind at 95 % and over"),
                    file="training.csv",
                    rule="kind_of_miss",
                    lines=(801, 833),
                    source_kind="miss",
                ),
            ),
            what_would_settle=raw("Measure knee to wall again after three weeks of the old work."),
            confidence_reason=say("needs.confidence.high"),
            figure="positions-then-now",
            caution=(raw("Care with end-range positions."),),
            conflicts=(raw("The dowel overhead squat is held on good days."),),
        ),
        Need(
            rank=2,
            area="programming",
            id="heavy_days_close",
            kilos=None,
            confidence="fair",
            claim=raw("Three heavy days within 15 days in September brought nothing."),
            evidence=(
                Evidence(
                    text=raw("heavy days"),
                    file="training.csv",
                    rule="chase",
                    dates=(dt.date(2026, 9, 5), dt.date(2026, 9, 19)),
                    source_kind="exposure",
                ),
            ),
            what_would_settle=raw("Four weeks without a try over 95 %."),
            confidence_reason=say("needs.confidence.fair"),
        ),
    )


def _not_tested() -> tuple[NotTested, ...]:
    return (
        NotTested(id="overhead_squat", what_would_settle=raw("an overhead squat taken to a heavy triple")),
    )


def _block() -> BlockFact:
    monday = dt.date(2026, 11, 9)

    def session(day: dt.date, *lines: BlockSet) -> BlockSession:
        return BlockSession(date=day, sets=lines)

    snatch = BlockSet(
        lift="snatch", sets=4, reps="2", kg=50.0, floor_kg=47.0, share=0.83, need="position_lapsed",
        serves=say("block.serves.full"),
    )  # fmt: skip
    squat = BlockSet(
        lift="back squat", sets=4, reps="3", kg=82.5, floor_kg=None, share=None, need="upkeep",
        serves=say("block.serves.kept", sets=5, reps=4, kg=80.0),
    )  # fmt: skip
    return BlockFact(
        weeks=tuple(
            BlockWeek(
                week=f"2026-W{46 + n}",
                start=monday + DAY * 7 * n,
                kind="light" if n == 3 else "work",
                sessions=(
                    session(monday + DAY * 7 * n, snatch, squat),
                    session(monday + DAY * (7 * n + 3), snatch),
                ),
                load_kg=(4900.0, 5200.0, 5500.0, 3100.0)[n],
                load_share=(4900.0, 5200.0, 5500.0, 3100.0)[n] / 5150,
            )
            for n in range(4)
        ),
        flexibility=(BlockDose(area="ankles", minutes=30.0, times_per_week=3, need="position_lapsed"),),
        test_day=dt.date(2026, 12, 12),
        taper=BlockTaper(
            start=dt.date(2026, 12, 4),
            cut=0.4,
            days=8,
            last_heavy_pull=dt.date(2026, 12, 3),
            last_heavy_squat=dt.date(2026, 12, 5),
            last_near_limit=dt.date(2026, 12, 7),
        ),
        attempts=(
            BlockAttempt(
                attempt=1,
                kg=56.0,
                why=say("block.attempt.opener_made", share=0.93, made=9, tried=10),
                chance=0.86,
                after_make_kg=59.0,
                after_miss_kg=56.0,
            ),
            BlockAttempt(attempt=2, kg=59.0, why=say("block.attempt.new_best", best_kg=58.0), chance=0.62),
        ),
        cautions=(say("doubts.caution.place_open", places=("wrist",)),),
        load_share=1.0,
        before=tuple(
            BlockBefore(start=monday - DAY * 7 * (8 - n), load_kg=5000.0 + 300 * (n % 2)) for n in range(8)
        ),
        left_out=(say("block.left.waits", need="short front squat"),),
        film=(say("block.film.squat", lift="back squat", date=monday),),
        watch=(say("block.watch.start"),),
    )


def _planned() -> PlannedDone:
    done = ((3, 3, 40, 40), (3, 2, 42, 30), (3, 0, 42, 0), (3, 3, 36, 41))
    return PlannedDone(
        weeks=tuple(
            PlannedWeek(
                week=f"2026-W{40 + n}",
                start=dt.date.fromisocalendar(2026, 40 + n, 1),
                sessions_planned=a,
                sessions_done=b,
                sets_planned=c,
                sets_done=d,
                load_off=None if not d else -0.02 * n,
            )
            for n, (a, b, c, d) in enumerate(done)
        )
    )


def _pain() -> PainReading:
    day = dt.date(2026, 10, 20)
    place = PainFact(
        place="wrist",
        lift="snatch",
        score=3.0,
        kind="ache",
        first=day,
        last=day,
        settled=None,
        open=True,
        lines=(2,),
    )
    caution = say("doubts.caution.place_open", places=("wrist",))
    return PainReading(places=(place,), nothing_proposed=False, lifts=("snatch",), cautions=(caution,))
