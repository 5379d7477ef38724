"""What a block keeps of what was done, over generated lifters: load, raises, the taper, the day."""

import datetime as dt
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from reportgen.analysis import outlook
from reportgen.analysis.ability import Ability
from reportgen.model.proposal import BlockSession, BlockSet
from reportgen.trade import formulas, load
from reportgen.words import as_json
from tests.analysis.lifters import Story, story
from tests.each import each
from tests.searches import far

TRADE = load()
#: Every lifter costs a third of a second, once a run.
LIFTERS = range(far(20, 300, gate=60))


def lines(session: BlockSession) -> Iterator[BlockSet]:
    return (line for line in session.sets if line.role not in ("attempt", "test"))


def tonnage(session: BlockSession) -> float:
    return sum((one.kg or 0.0) * one.sets * sum(map(int, one.reps.split("+"))) for one in lines(session))


def worked(one: Story) -> bool:
    return any(week.kind == "work" for week in one.block.weeks)


@each("seed", LIFTERS)
def test_a_week_of_work_holds_85_to_110_per_cent_of_the_weeks_before_or_a_reason_is_said(seed: int) -> None:
    one = story(seed)
    for week in one.block.weeks:
        if week.kind == "work":
            assert week.load_share is not None
            assert week.load_share <= 1.10
            assert week.load_share >= 0.85 or one.block.load_reasons, (week.week, week.load_share)
    if one.block.load_share is not None and one.block.load_share < 0.85:
        assert one.block.load_reasons


@each("seed", LIFTERS)
def test_no_session_is_one_exercise_alone_unless_nothing_else_may_be_loaded(seed: int) -> None:
    one = story(seed)
    for week in one.block.weeks:
        for session in week.sessions if week.kind not in ("taper", "testing") else ():
            many = {(line.lift, line.variant) for line in lines(session)}
            assert len(many) > 1 or one.pain[0] or one.facts.unsure, (session.date, many)


@each("seed", LIFTERS)
def test_a_session_names_no_line_twice_and_no_line_holds_more_than_six_sets(seed: int) -> None:
    one = story(seed)
    most = TRADE.value("sets_most") + (one.age >= 18)  # with one set of them over the rest
    for week in one.block.weeks:
        for session in week.sessions:
            alike = Counter((x.lift, x.variant, x.aid, x.reps, x.kg) for x in lines(session))
            assert max(alike.values(), default=1) == 1, (session.date, alike)
            assert all(x.sets <= most for x in lines(session)), session.date


@each("seed", LIFTERS)
def test_a_load_steps_up_by_no_more_than_12_per_cent_and_a_light_week_goes_over_no_week_of_work(
    seed: int,
) -> None:
    last: dict[tuple[str, str, str, str, int], float] = {}
    for week in story(seed).block.weeks:
        now: dict[tuple[str, str, str, str, int], float] = {}
        for session in week.sessions:
            # One set over the work stands beside it: the work is what climbs.
            for x in sorted(lines(session), key=lambda x: -(x.kg or 0.0)):
                if x.role not in ("way up", "single"):
                    now[(x.lift, x.variant, x.aid, x.role, session.date.weekday())] = x.kg or 0.0
        for key, kg in now.items():
            if key not in last or week.kind == "taper":
                continue
            if week.kind == "light":
                assert kg <= last[key] + 1e-6, (week.week, key, last[key], kg)
            else:
                # A step of the plates is more than 12 per cent of a very light load.
                assert kg <= max(1.12 * last[key], last[key] + 5), (week.week, key, last[key], kg)
        last |= now if week.kind != "light" else {}


@each("seed", LIFTERS)
def test_two_squats_meet_in_one_session_only_where_there_are_too_few_days_for_them(seed: int) -> None:
    one = story(seed)
    sore = one.pain[0] != ""
    for week in one.block.weeks:
        squats = [{x.lift for x in lines(session) if x.role == "squat"} for session in week.sessions]
        if week.kind == "work" and any(len(lifts) > 1 for lifts in squats):
            assert all(squats) or len(squats) < 4, (week.week, squats)
        assert not sore or all(len(lifts) < 2 for lifts in squats), (week.week, squats)


@each("seed", LIFTERS)
def test_the_two_full_sessions_of_a_week_are_not_alike_and_loads_climb_over_the_block(seed: int) -> None:
    one = story(seed)
    goal = one.facts.goals[0].lift
    lift = "snatch" if goal == "total" else goal
    tops: dict[int, list[float]] = {}
    for week in one.block.weeks:
        if week.kind != "work":
            continue
        mine = [
            tuple((x.sets, x.reps, x.kg) for x in lines(s) if x.lift == lift and not x.variant)
            for s in week.sessions
        ]
        full = [session for session in mine if session]
        assert len(full) < 2 or len({*full}) > 1, week.week
        for session in week.sessions:
            loads = [x.kg or 0.0 for x in lines(session) if x.role == "full" and x.lift == lift]
            if loads:
                tops.setdefault(session.date.weekday(), []).append(max(loads))
    assert all(loads[-1] >= loads[0] for loads in tops.values())


@each("seed", LIFTERS)
def test_squats_that_a_need_raises_are_done_more_than_before_and_the_others_no_less_days(seed: int) -> None:
    one = story(seed)
    if not worked(one) or one.pain[0] or one.idle_days > 9 or one.block.load_reasons:
        return
    raised = [note for note in as_json(one.block.raised) if note.startswith("More") and "squat" in note]
    if not raised:
        return
    sets = one.dossier.tables.sets
    rows = sets.loc[sets["lift"].isin(["back squat", "front squat"]) & (sets["tried"] > 0)]
    weeks = sorted(sets["week"].unique())[-9:]
    rows = rows.loc[rows["week"].isin(weeks)]
    bases = {
        x.lift: x.base_kg or 0.0
        for w in one.block.weeks
        for s in w.sessions
        for x in lines(s)
        if x.role == "squat"
    }
    counted = rows.loc[rows["load_kg"] >= 0.65 * rows["lift"].map(bases).fillna(1e9)]
    before = float(counted["tried"].sum()) / len(weeks)
    now = [
        sum(
            x.sets * int(x.reps)
            for s in w.sessions
            for x in lines(s)
            if x.role == "squat" and (x.share or 0) >= 0.65
        )
        for w in one.block.weeks
        if w.kind == "work"
    ]
    assert max(now) >= before, (seed, before, now)


@each("seed", LIFTERS)
def test_a_taper_is_felt_from_its_first_session_and_holds_little_squatting_late(seed: int) -> None:
    one = story(seed)
    taper, test_day = one.block.taper, one.block.test_day
    if taper is None or test_day is None:
        return
    every = {s.date: s for w in one.block.weeks for s in w.sessions if any(True for _ in lines(s))}
    for day, session in every.items():
        before = every.get(day - dt.timedelta(weeks=1))
        if day < taper.start:
            continue
        if before is not None and before.date < taper.start and len(session.sets) > 1:
            assert tonnage(session) <= 0.9 * tonnage(before), (seed, day)
        if (test_day - day).days <= 5:
            reps = Counter[str]()
            for line in lines(session):
                reps[line.lift] += line.sets * int(line.reps) if line.role == "squat" else 0
            assert max(reps.values()) <= 9, (seed, day, reps)


@each("seed", LIFTERS)
def test_no_single_of_the_last_week_lies_over_the_opener_and_nothing_leads_up_past_it(seed: int) -> None:
    one = story(seed)
    openers = {x.lift: x.kg for x in one.block.attempts if x.attempt == 1}
    for session in (s for w in one.block.weeks for s in w.sessions):
        tops = {x.lift: x.kg or 0.0 for x in lines(session) if x.role == "single"}
        if one.block.test_day is not None and (one.block.test_day - session.date).days <= 7:
            assert all(kg <= openers.get(lift, kg) for lift, kg in tops.items()), (seed, session.date)
        for line in lines(session):
            if line.role == "way up" and line.lift in tops:
                assert (line.kg or 0.0) < tops[line.lift], (seed, session.date)


@each("seed", LIFTERS)
def test_each_session_of_the_taper_lies_below_the_one_of_the_week_before(seed: int) -> None:
    one = story(seed)
    taper = one.block.taper
    if taper is None:
        return
    every = {s.date: s for w in one.block.weeks for s in w.sessions if any(True for _ in lines(s))}
    for date, session in every.items():
        before = every.get(date - dt.timedelta(days=7))
        if date < taper.start or before is None:
            continue
        assert tonnage(session) < tonnage(before), (seed, date)
        assert sum(x.sets for x in lines(session)) <= sum(x.sets for x in lines(before))
        heaviest: dict[str, float] = {}
        for line in lines(before):
            heaviest[line.lift] = max(line.kg or 0.0, heaviest.get(line.lift, 0.0))
        late = {x.lift: x.kg or 0.0 for x in lines(session) if x.lift in heaviest}
        assert all(kg <= heaviest[lift] for lift, kg in late.items()), (seed, date)


@each("seed", LIFTERS)
def test_from_where_the_taper_begins_no_single_is_heavier_and_a_week_of_taper_holds_no_day_before_it(
    seed: int,
) -> None:
    one = story(seed)
    if one.block.taper is None:
        return
    heaviest: dict[str, float] = {}
    for week in one.block.weeks:
        over = [x for s in week.sessions for x in lines(s) if x.role == "single"]
        # Over 45 the last heavy single of all may stand in the week with whose end the taper begins.
        first = one.block.taper.start if one.age > 45 else week.start
        late = [x for s in week.sessions if s.date >= first for x in lines(s) if x.role == "single"]
        if week.kind in ("work_taper", "taper"):
            assert all((x.kg or 0.0) <= heaviest.get(x.lift, x.kg or 0.0) for x in late), (seed, week.start)
        if week.kind == "work_taper":
            assert week.sessions[0].date < one.block.taper.start <= week.sessions[-1].date
        elif week.kind == "taper" and week is not one.block.weeks[-1]:
            assert all(session.date >= one.block.taper.start for session in week.sessions)
        heaviest |= {x.lift: max(x.kg or 0.0, heaviest.get(x.lift, 0.0)) for x in over}


@each("seed", LIFTERS)
def test_the_last_two_days_before_a_test_hold_light_singles_or_nothing(seed: int) -> None:
    one = story(seed)
    test_day = one.block.test_day
    for week in one.block.weeks:
        for session in week.sessions:
            if test_day is not None and (test_day - session.date).days <= 2:
                every = list(lines(session))
                # A few of each, or, where the taper would leave too little, half of what the session holds.
                few = 3 * len({x.lift for x in every} & {"snatch", "clean and jerk"})
                assert sum(x.sets for x in every) <= (few if few_days_are_enough(one) else 12)
                assert all((x.share or 1.0) <= 0.85 for x in every), (seed, session.date)
                for x in every:
                    assert x.reps == "1" or "+" in x.lift, (seed, session.date, x)


def few_days_are_enough(one: Story) -> bool:
    """Does the lifter train on so many days that the last two are not half of the taper?"""
    return len(one.block.weeks[0].sessions) > 3


@each("seed", LIFTERS)
def test_the_young_do_no_more_sets_of_pulls_in_a_session_than_of_classic_lifts(seed: int) -> None:
    one = story(seed)
    for week in one.block.weeks if one.age < 18 else ():
        for session in week.sessions:
            every = list(lines(session))
            pulls = sum(x.sets for x in every if TRADE.lifts[x.lift.split(" + ")[0]].role == "pull")
            classic = sum(
                x.sets for x in every if any(TRADE.lifts[part].classic for part in x.lift.split(" + "))
            )
            assert pulls <= max(1, classic), (seed, session.date)


@each("seed", LIFTERS)
def test_no_step_up_to_a_heavy_single_is_longer_than_eight_per_cent_of_it(seed: int) -> None:
    one = story(seed)
    # A pair of the smallest plates may lie between what is wanted and what can be loaded.
    step = 1.0 if one.dossier.records.lifter.unit == "kg" else 5 * 0.45359237
    for week in one.block.weeks:
        for session in week.sessions:
            up: dict[str, list[float]] = {}
            for x in lines(session):
                if x.role in ("way up", "single"):
                    up.setdefault(x.lift, []).append(x.kg or 0.0)
            heavy = {x.lift for x in lines(session) if x.role == "single"}
            for kgs in (sorted(kgs) for lift, kgs in up.items() if lift in heavy):
                assert len(kgs) > 1, (seed, session.date, kgs)
                assert all(b - a <= 0.08 * kgs[-1] + step for a, b in pairwise(kgs)), (
                    seed,
                    session.date,
                    kgs,
                )


def able(one: Story) -> dict[str, Ability]:
    tables, facts = one.dossier.tables, one.facts
    found = outlook.read(one.dossier.records, tables.sets, facts.test_days, facts.goals[0], TRADE)
    return dict(found.lifts)


@each("seed", LIFTERS)
def test_an_opener_goes_85_times_in_100_and_heavy_singles_6_in_10_on_an_ordinary_day(seed: int) -> None:
    one = story(seed)
    if not one.facts.ability:
        return
    lifts = able(one)
    for attempt in one.block.attempts:
        if attempt.attempt == 1 and attempt.lift in lifts and "not sure enough" not in as_json(attempt.why):
            fresh = 0.02 if one.block.taper is not None else 0.0
            assert lifts[attempt.lift].chance(attempt.kg, fresh=fresh) >= 0.85, (seed, attempt)
    for week in one.block.weeks:
        for line in (x for s in week.sessions for x in lines(s) if x.role == "single"):
            if line.lift in lifts:
                assert lifts[line.lift].chance(line.kg or 0.0) >= 0.6 - 1e-6, (seed, line)


@each("seed", LIFTERS)
def test_the_third_is_a_new_best_or_the_goal_unless_it_says_why_not(seed: int) -> None:
    one = story(seed)
    current = {fact.lift: fact.kg or 0.0 for fact in one.facts.current}
    for third in one.block.attempts:
        if third.attempt == 3 and third.kg <= current[third.lift]:
            why = as_json(third.why)
            assert "out of reach" in why or "held down" in why or why.startswith("the goal"), (seed, third)


@each("seed", LIFTERS)
def test_a_contest_has_attempts_for_both_lifts_in_legal_steps(seed: int) -> None:
    one = story(seed)
    tries = one.block.attempts
    lifts = dict.fromkeys(attempt.lift for attempt in tries)
    if one.block.test_kind == "contest" and tries and not one.facts.unsure and not one.pain[0]:
        assert set(lifts) == {"snatch", "clean and jerk"}
    for lift in lifts:
        loads = [attempt.kg for attempt in tries if attempt.lift == lift]
        assert formulas.attempt_faults([(kg, True) for kg in loads], TRADE) == ()
        assert all(b > a for a, b in pairwise(loads))
    for attempt in tries:
        steps = [step for step in one.block.warmups if step.lift == attempt.lift]
        assert all(a.kg < b.kg and a.minutes > b.minutes for a, b in pairwise(steps))
        unit = one.dossier.records.lifter.unit
        step_kg = TRADE.value(f"warmup_step_{unit}") * (1 if unit == "kg" else TRADE.value("pound"))
        assert all(abs(x.kg / step_kg - round(x.kg / step_kg)) < 1e-6 for x in steps[1:-2]), steps
        assert steps[-1].kg < attempt.kg or attempt.attempt == 1
