"""Statements of one page agree: what the head says, the picture draws and the sections tell."""

import datetime as dt
import re
import shutil
from dataclasses import replace
from pathlib import Path

import pandas as pd
import pytest

from reportgen import face
from reportgen.model import doubts
from reportgen.model.ability import ArrivalFact
from reportgen.model.doubts import EVERYTHING, Unsure
from reportgen.trade import load
from reportgen.trade.claims import called
from reportgen.view import build, head, spans, squad_line
from reportgen.view.page import Figure, Finding, Page, Paragraph
from reportgen.view.reader import Reader, plain
from reportgen.words import Phrase, Weight, say, spoken, text
from reportgen.words import plain as words
from tests.each import each
from tests.kept import dossier
from tests.view import sample
from tests.view.reading import page_of, section

BOOK = Path(__file__).parents[1] / "cases"
SQUAD = Path(__file__).parents[2] / "content_demo" / "squad"
NELKE = SQUAD / "nelke-ostrandt"
CASES = tuple(sorted(p.parent for p in BOOK.glob("*/training.csv")))
EVERY = (*CASES, *sorted(p.parent for p in SQUAD.glob("*/training.csv")))


def weights(*phrases: Phrase) -> list[float]:
    return [part.kg for phrase in phrases for part in phrase if isinstance(part, Weight)]


def figure(page: Page, id_: str) -> Figure | None:
    drawn = (b for s in page.sections for b in s.blocks if isinstance(b, Figure))
    return next((one for one in drawn if one.id == id_), None)


@pytest.mark.parametrize("case", EVERY, ids=lambda case: case.name)
def test_the_head_names_the_weight_at_which_the_line_of_the_picture_ends(case: Path) -> None:
    page = page_of(case, unit="kg")
    picture = figure(page, page.head.figure)
    if picture is None:
        return  # no best to draw
    best = picture.data["best"]
    for lift in set(best["lift"]) & {dossier(case).facts.goals[0].lift}:
        last = best.loc[best["lift"] == lift, "weight"].iloc[-1]
        assert pytest.approx(last, abs=0.01) in weights(page.head.present, *page.head.alerts)


@pytest.mark.parametrize("case", EVERY, ids=lambda case: case.name)
def test_what_changed_says_one_thing_about_each_finding(case: Path) -> None:
    now = dossier(case)
    made = face.changed(now, now.facts.as_of - dt.timedelta(weeks=9))
    changes = made.facts.changes
    assert changes is not None
    if changes.needs is None:
        return
    found = changes.needs
    told = [*found.came, *found.stayed, *found.asked, *found.gone, *found.unsure]
    assert len(told) == len(set(told))
    asked = {one.id for one in made.facts.not_tested or () if one.kind == "question"}
    assert not asked & set(found.gone)
    page = build(made, load(), edition="progress")
    said = section(page, "changed")
    assert all(said.count(called(one)) <= 1 for one in told)


@each("case", EVERY)
def test_what_is_watched_for_begins_with_the_checkpoint_of_the_first_need(case: Path) -> None:
    facts = dossier(case).facts
    kept = [need for need in facts.needs or () if need.decided != "dropped"]
    points = facts.technique.checkpoints if facts.technique is not None else ()
    graded = {one.checkpoint for one in points if one.latest != "good" and not one.accepted}
    wanted = (
        [name for link in kept[0].chain if (name := link.key.partition(":")[2]) in graded] if kept else []
    )
    if wanted and facts.block is not None and facts.block.watch:
        assert words(spoken(facts.block.watch[0])).lower().startswith(wanted[0])


@each("case", ["once_a_week", "back_from_gap", "keeps_testing", "squat_chaser", "no_limits"])
def test_a_finding_of_today_is_never_told_as_gone(case: str) -> None:
    now = dossier(case)
    ids = {need.id for need in now.facts.needs or ()}
    assert ids
    for weeks in (2, 5, 9):
        made = face.changed(now, now.facts.as_of - dt.timedelta(weeks=weeks))
        changes = made.facts.changes
        assert changes is not None
        assert changes.needs is not None
        assert not ids & {*changes.needs.gone, *changes.needs.unsure}
        told = section(build(made, load()), "changed")
        gone = told.partition(text("changed.needs.gone", names=("",)).rstrip(". "))[2].partition(".")[0]
        assert not [id_ for id_ in ids if called(id_) in gone]


@each("case", EVERY)
def test_work_that_keeps_a_position_has_stopped_everywhere_or_nowhere(case: Path) -> None:
    screening = dossier(case).facts.screening
    page = page_of(case)
    upkeep = () if screening is None else screening.upkeep
    stopped = {one.area for one in upkeep if one.stopped}
    findings = " ".join(plain(b.claim) for s in page.sections for b in s.blocks if isinstance(b, Finding))
    told = f"{plain(page.head.sentence)} {findings}"
    named = {*re.findall(r"[Ww]ork on the ([a-z ]+?) stopped", told)}
    assert named <= stopped
    assert named or case != NELKE
    blocks = [b for s in page.sections for b in s.blocks if isinstance(b, Paragraph)]
    lines = [plain(b.text) for b in blocks if plain(b.text).startswith("Work that stopped")]
    for one in upkeep:
        assert any(f"{one.area} (" in line for line in lines) is one.stopped


@each("case", EVERY)
def test_the_head_says_the_first_finding_and_no_other(case: Path) -> None:
    page = page_of(case)
    findings = [b for s in page.sections for b in s.blocks if isinstance(b, Finding)]
    assert bool(page.head.sure) <= bool(findings)
    if page.head.sure:
        assert plain(findings[0].claim).startswith(plain(page.head.sentence).rstrip("."))
        assert page.head.sure.lower().startswith(findings[0].confidence[:3])


@each("case", EVERY)
def test_an_order_of_causes_is_promised_where_a_cause_is_found(case: Path) -> None:
    (part,) = (one for one in page_of(case).sections if one.id == "needs")
    assert bool(part.lead) is any(isinstance(one, Finding) for one in part.blocks)


@each("case", EVERY)
def test_the_line_of_the_index_says_what_the_head_says_and_draws_where_it_ends(case: Path) -> None:
    made = dossier(case)
    page, line = page_of(case), squad_line(made, load())
    assert (weights(line.present), line.gap) == (weights(page.head.present), page.head.gap)
    assert weights(line.goal) == weights(page.head.goal)
    if page.head.sure:
        assert plain(page.head.sentence, line.unit).startswith(line.first_need.rstrip("."))
    if line.best:
        known = [*weights(page.head.present, *page.head.alerts), *(best.kg for best in made.facts.bests)]
        assert pytest.approx(line.best[-1][1], abs=0.01) in known


@each("case", EVERY)
def test_a_test_day_and_heavy_days_gave_a_best_where_the_line_rises_and_nowhere_else(case: Path) -> None:
    made = dossier(case)
    best = made.tables.running_best
    rises = {
        (lift, day.date())
        for lift, rows in best.groupby("lift")
        for day in rows.sort_values("date")["date"].iloc[1:]
    }
    for day in made.facts.test_days or ():
        if day.lift in set(best["lift"]) and day.previous_best_kg is not None:
            assert ((day.gain_kg or 0) > 0) is ((day.lift, day.date) in rises)
    for chase in made.facts.chases or ():
        rose = [day for lift, day in rises if lift == chase.lift and chase.start <= day <= chase.end]
        assert bool(chase.gain_kg) is bool(rose)


@each("case", EVERY)
def test_the_season_says_the_bests_that_the_line_of_the_review_shows(case: Path) -> None:
    made = dossier(case)
    reader = Reader(dossier=made, trade=load(), unit="kg")
    line = made.tables.running_best
    for season in made.facts.season or ():
        start, end = pd.Timestamp(season.start), pd.Timestamp(season.end)
        for lift, top, before in spans.tops(reader, season):
            mine = line.loc[line["lift"] == lift]
            earlier = mine.loc[mine["date"] < start, "kg"]
            assert before == (None if earlier.empty else earlier.max())
            until = mine.loc[mine["date"] <= end, "kg"].max()
            assert max(top, before or 0.0) == until
    held = spans.newest(reader)
    said = page_of(case, "season").head.sentence
    shown = {kg for _, top, before in (spans.tops(reader, held) if held else ()) for kg in (top, before)}
    assert set(weights(said)) <= shown


@each("case", EVERY)
def test_a_finding_about_too_little_is_not_contradicted_by_what_was_counted(case: Path) -> None:
    facts = dossier(case).facts
    exposure, ids = facts.exposure, {need.id for need in facts.needs or ()}
    assert exposure is not None
    if "no_heavy_singles" in ids:
        assert exposure.weeks_since_heavy_single
    if "too_few_full_sessions" in ids:
        weeks = exposure.weeks[-int(load().value("full_weeks")) :]
        assert sum(week.full for week in weeks) < load().value("full_per_week_wanted") * len(weeks)
    if "upkeep_stopped" in ids:
        assert facts.screening is not None
        assert any(one.stopped for one in facts.screening.upkeep)


@each("case", EVERY)
def test_progress_and_review_say_the_same_of_goal_first_need_and_test_day(case: Path) -> None:
    made = dossier(case)
    review, sent = page_of(case).head, page_of(case, "progress")
    for name in ("goal", "present", "gap", "chance", "sentence", "sure", "alerts"):
        assert getattr(sent.head, name) == getattr(review, name)
    block, asked = made.facts.block, section(sent, "questions")
    if block is not None and block.test_day is not None and block.attempts:
        opener = plain(review.test).partition("opener ")[2].partition(",")[0].rstrip(".")
        assert f"opened with {opener}: is that the day" in asked


@each(
    "chance, rare, by, words",
    [
        (0.31, False, True, "about 31 % by then"),
        (0.02, True, True, "not at this rate: 2 % by then"),
        (None, None, True, ""),
        (None, None, False, "between Jan 2027 and Jun 2027"),
    ],
)
def test_how_likely_the_goal_is_stands_in_the_head_where_it_is_known(
    chance: float | None, rare: bool | None, by: bool, words: str
) -> None:
    day = dt.date(2027, 3, 1) if by else None
    fact = ArrivalFact(
        goal_kg=64, by=day, asked_kg_per_month=1.0, chance=chance, rare=rare,
        early=dt.date(2027, 1, 5), late=dt.date(2027, 6, 9),
    )  # fmt: skip
    full = sample.full()
    made = replace(full, facts=replace(full.facts, arrival=fact))
    assert plain(head.chance(Reader(dossier=made, trade=load(), unit="kg"))) == words
    none = replace(full, facts=replace(full.facts, arrival=None))
    assert head.chance(Reader(dossier=none, trade=load(), unit="kg")) == ()


@each("case", EVERY)
def test_the_head_asks_how_likely_of_a_day_and_when_without_one(case: Path) -> None:
    goal, top = dossier(case).facts.goals[0], page_of(case).head
    assert top.ask == ("When" if goal.by is None else "How likely")
    said = plain(top.chance)
    assert not said or bool(re.search("%|that day", said)) is (goal.by is not None)


def test_without_a_proposal_the_head_says_why_and_without_a_block_nothing() -> None:
    full = sample.full()
    block = full.facts.block
    assert block is not None
    reader = Reader(dossier=full, trade=load(), unit="kg")
    first = block.weeks[0].sessions[0]
    days = [plain(line) for line in head.week(reader)]
    assert len(days) == len(block.weeks[0].sessions)
    assert first.sets[0].lift in days[0]
    assert "opener 56 kg" in plain(head.test_day(reader))
    third = replace(block, attempts=(*block.attempts, replace(block.attempts[-1], attempt=3, kg=61.0)))
    whole = replace(full, facts=replace(full.facts, block=third))
    told = plain(head.test_day(Reader(dossier=whole, trade=load(), unit="kg")))
    assert "opener 56 kg, third 61 kg" in told
    few = replace(
        full,
        facts=replace(
            full.facts,
            block=replace(block, weeks=(), reason=say("block.reason.not_logged", lifts=("snatch",))),
        ),
    )
    assert [plain(line) for line in head.week(Reader(dossier=few, trade=load(), unit="kg"))] == [
        "No made snatch of the last year is logged: there is nothing to take loads from."
    ]
    none = replace(full, facts=replace(full.facts, block=None))
    assert head.week(Reader(dossier=none, trade=load(), unit="kg")) == ()
    assert head.test_day(Reader(dossier=none, trade=load(), unit="kg")) == ()


def test_this_week_names_three_lifts_of_a_day_with_their_sets_and_not_the_way_up_to_them() -> None:
    full = sample.full()
    block = full.facts.block
    assert block is not None
    session = block.weeks[0].sessions[0]
    up = replace(session.sets[0], role="way up", kg=41.0)
    more = tuple(replace(session.sets[-1], lift=lift, kg=90.0) for lift in ("front squat", "deadlift", "row"))
    week = replace(block.weeks[0], sessions=(replace(session, sets=(up, *session.sets, *more)),))
    led = replace(full, facts=replace(full.facts, block=replace(block, weeks=(week, *block.weeks[1:]))))
    (told,) = (plain(line) for line in head.week(Reader(dossier=led, trade=load(), unit="kg")))
    mine = [one for one in session.sets if one.lift == up.lift]
    shown = next((one for one in mine if one.role == "single"), max(mine, key=lambda one: one.sets))
    assert f"{up.lift} {shown.sets} × {shown.reps} at {shown.kg:g} kg, " in told
    assert told.count(" kg") == 3
    rest = len({one.lift for one in session.sets} | {"front squat", "deadlift", "row"}) - 3
    assert told.endswith(f" kg, {rest} more")
    assert "41 kg" not in told


def test_what_a_doubt_stops_is_told_once_in_the_head() -> None:
    full = sample.full()
    assert full.facts.block is not None
    doubt = Unsure(file="away.csv", line=0, reason="away_file", stops=(EVERYTHING,))
    block = replace(full.facts.block, weeks=(), reason=doubts.said(doubt))
    page = build(replace(full, facts=replace(full.facts, unsure=(doubt,), block=block)), load())
    assert [plain(line) for line in page.head.week] == ["Nothing is proposed."]
    assert sum("away.csv" in plain(alert) for alert in page.head.alerts) == 1


def test_two_readings_of_one_week_that_disagree_are_a_doubt_everywhere_on_a_page(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(NELKE, tmp_path / "doubted"))
    latest = [
        row for row in (NELKE / "screening.csv").read_text("utf-8").splitlines() if "knee to wall" in row
    ][-2:]
    day = latest[0].split(",")[0]
    before = (dt.date.fromisoformat(day) - dt.timedelta(days=3)).isoformat()
    rows = [re.sub(r",8(\.5)?,", ",11,", row.replace(day, before)) for row in latest]
    assert all(",11," in row for row in rows)
    with (folder / "screening.csv").open("a", encoding="utf-8") as file:
        file.write("\n".join(rows) + "\n")
    made = face.read(folder)
    facts = made.facts.screening
    assert facts is not None
    doubted = [one for one in facts.items if one.contradicted]
    assert {(one.item, one.side) for one in doubted} == {("knee to wall", side) for side in ("left", "right")}
    page = build(made, load())
    told = section(page, "positions")
    assert "Readings disagree, measure again: knee to wall (left) and knee to wall (right)." in told
    assert "knee to wall" not in told.partition("Missing range: ")[2].partition(".")[0]
    asked = [plain(spoken(one.what_would_settle)) for one in made.facts.not_tested or ()]
    assert "Another reading of knee to wall: those taken within 7 days of each other disagree." in asked
    evidence = [
        plain(words) for b in page.sections[0].blocks if isinstance(b, Finding) for words, *_ in b.evidence
    ]
    assert evidence
    assert not [one for one in evidence if "knee to wall" in one.lower() and " from " in one]


@each("case", EVERY)
def test_usual_work_that_a_block_makes_lighter_has_its_reason_on_the_page(case: Path) -> None:
    block = dossier(case).facts.block
    weeks = () if block is None else block.weeks
    sets = (one for week in weeks for session in week.sessions for one in session.sets)
    lighter = {line.lift for line in sets if line.serves.key == "block.serves.lighter"}
    if block is None or not lighter:
        return
    told = section(page_of(case), "block")
    reasons = [words(spoken(one)) for one in (*block.load_reasons, *block.notes)]
    ways_back = ("block.load.rested", "block.load.careful", "block.load.back")
    known = any(one.key in ways_back for one in block.load_reasons)
    for lift in lighter:
        assert known or any(f"{lift}" in one and one in told for one in reasons), (lift, reasons)


@each("case", EVERY)
def test_the_picture_of_a_figure_names_the_load_that_its_finding_names(case: Path) -> None:
    facts, small = dossier(case).facts, page_of(case, unit="kg").head.small
    rules = {one.rule for one in facts.needs[0].evidence} if facts.needs else set()
    mine = [one for one in facts.indicators or () if one.id in rules]
    if small is None:
        return
    points = small.data.get("points")
    if (
        points is None
        or len(mine) != 1
        or mine[0].current_kg is None
        or f"{mine[0].lift}" not in small.title.lower()
    ):
        return
    named = [label for label in points["label"] if label]
    assert named == [f"{round(mine[0].current_kg, 1):g} kg"]
