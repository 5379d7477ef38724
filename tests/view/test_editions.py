"""Editions, each a document of its own: what changed, questions and clips, the season summed up."""

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest

from reportgen.analysis.changes import between
from reportgen.analysis.dossier import build as ask
from reportgen.model.changes import (
    Changes,
    CheckpointChange,
    Followed,
    LoadChange,
    NeedChanges,
    PositionChange,
)
from reportgen.model.dossier import Dossier
from reportgen.model.export import as_json
from reportgen.model.findings import NotTested, SaidDone
from reportgen.model.records import Records
from reportgen.model.say import say
from reportgen.model.season import SeasonFact
from reportgen.model.tables import SETS, empty
from reportgen.trade import load
from reportgen.view import Edition, build, spans, squad_line
from reportgen.view.page import Figure, Page, Paragraph, Points, Section, Table
from reportgen.view.reader import Reader, plain
from reportgen.words import Weight, numbers
from tests.view import sample

TRADE = load()
EDITIONS: tuple[Edition, ...] = ("review", "progress", "season")
SINCE = dt.date(2026, 8, 1)
CHANGES = Changes(
    since=SINCE,
    source="the log",
    gap_before_kg=6.0,
    gap_now_kg=4.0,
    full_before_per_week=1.5,
    full_now_per_week=2.0,
    bests=(
        LoadChange(
            id="", lift="snatch", before_kg=58.0, now_kg=60.0, change_kg=2.0, change_share=2 / 58,
            clear=False, scatter_kg=2.3,
        ),
        LoadChange(
            id="", lift="good morning", before_kg=40.0, now_kg=50.0, change_kg=10.0, change_share=1 / 4,
            clear=True,
        ),
    ),
    indicators=(
        LoadChange(
            id="back_squat",
            lift="back squat",
            before_kg=90.0,
            now_kg=104.0,
            change_kg=14.0,
            change_share=14 / 90,
            clear=True,
            before_reading="short",
            now_reading="within",
            scatter_kg=3.6,
        ),
    ),
    needs=NeedChanges(gone=("back_squat_short",), stayed=("chase",), came=("position_not_reached",)),
    screening=(
        PositionChange(
            item="knee to wall", side="left", unit="cm", before=11.0, now=8.0, before_grade="",
            now_grade="", change=-3.0, clear=True,
        ),
        PositionChange(
            item="knee to wall", side="right", unit="cm", before=10.0, now=9.5, before_grade="",
            now_grade="", change=-0.5, clear=False,
        ),
    ),
    technique=(CheckpointChange(checkpoint="receiving depth", lift="snatch", before="good", now="off"),),
    sessions_planned=12,
    sessions_done=11,
    gap_clear=False,
    gap_scatter_kg=2.3,
    full_clear=True,
    full_band=0.1,
    full_weeks_before=10,
    full_weeks_now=12,
    followed=(
        Followed(
            what="plan", sessions_planned=12, sessions_done=11, sets_planned=90, sets_done=80,
            load_off=-0.015, load_near=True,
        ),
    ),
)  # fmt: skip


def page(edition: Edition, dossier: Dossier | None = None, changes: Changes | None = None) -> Page:
    made = dossier or sample.full()
    facts = made.facts if changes is None else replace(made.facts, changes=changes)
    return build(replace(made, facts=facts), TRADE, edition=edition)


def part(made: Page, id_: str) -> Section:
    return next(s for s in made.sections if s.id == id_)


def words(section: Section) -> str:
    """Every word of a section, tables too."""
    found = [plain(section.lead, "kg")]
    for block in section.blocks:
        if isinstance(block, Paragraph):
            found.append(plain(block.text, "kg"))
        elif isinstance(block, Points):
            found += [plain(item, "kg") for item in block.items]
        elif isinstance(block, Figure):
            found.append(plain(block.sentence, "kg"))
        elif isinstance(block, Table):
            found += [block.caption, *(plain(cell.text, "kg") for row in block.rows for cell in row)]
    return "\n".join(found)


def empty_log() -> Dossier:
    lifter = replace(sample.LIFTER, bests=())
    return ask(Records(folder="x", lifter=lifter, as_of=sample.LAST, sets=empty(SETS)), TRADE)


@pytest.mark.parametrize("edition", EDITIONS)
def test_an_edition_names_itself_and_uses_each_address_once(edition: Edition) -> None:
    made = page(edition, changes=CHANGES)
    assert made.head.edition.startswith(edition)
    ids = [s.id for s in made.sections]
    for section in made.sections:
        for block in section.blocks:
            if isinstance(block, Figure):
                ids += [block.id, block.table.id]
            elif isinstance(block, Table) and block.id:
                ids.append(block.id)
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("edition", EDITIONS)
def test_links_inside_tables_lead_to_something_in_the_same_page(edition: Edition) -> None:
    made = page(edition, changes=CHANGES)
    here = {s.id for s in made.sections} | {getattr(b, "id", "") for s in made.sections for b in s.blocks}
    links = {
        cell.link
        for s in made.sections
        for b in s.blocks
        if isinstance(b, Table)
        for row in b.rows
        for cell in row
        if cell.link
    }
    assert {link.removeprefix("#") for link in links} <= here


@pytest.mark.parametrize("edition", EDITIONS)
def test_an_empty_log_gives_sentences_and_no_empty_figure(edition: Edition) -> None:
    made = page(edition, empty_log())
    assert made.sections
    assert not [b for s in made.sections for b in s.blocks if isinstance(b, Figure)]
    assert plain(made.head.sentence, "kg").endswith(".")


def test_an_unknown_edition_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="no edition 'weekly'"):
        build(sample.full(), TRADE, edition="weekly")  # type: ignore[arg-type]


def test_the_head_holds_one_sentence() -> None:
    for edition in EDITIONS:
        sentence = plain(page(edition).head.sentence, "kg")
        assert sentence.count(". ") == 0
        assert sentence.endswith(".")


def test_changes_stand_behind_the_evidence_of_a_review_only_where_something_was_compared() -> None:
    ids = [s.id for s in page("review", changes=CHANGES).sections]
    assert ids[ids.index("technique") + 1] == "changed"
    assert "changed" not in {s.id for s in page("review").sections}


def test_a_change_inside_the_scatter_is_no_clear_change() -> None:
    section = part(page("review", changes=CHANGES), "changed")
    table = next(b for b in section.blocks if isinstance(b, Table) and b.id == "changed-loads")
    rows = {plain(row[0].text, "kg"): [plain(cell.text, "kg") for cell in row] for row in table.rows}
    assert rows["snatch"][5] == "no clear change"
    assert rows["back squat"][5:] == ["clearly more", "short, now enough"]
    assert rows["back squat"][4] == "± 3.6 kg"
    assert "good morning" not in rows


def test_positions_without_a_clear_change_are_only_counted() -> None:
    text = words(part(page("review", changes=CHANGES), "changed"))
    assert "knee to wall (left)" in text
    assert "knee to wall, right" not in text
    assert "1 other position read since, without a clear change." in text


def test_needs_that_came_stayed_and_went_and_the_plan_are_told() -> None:
    text = words(part(page("review", changes=CHANGES), "changed"))
    assert "Findings that are new: missing range of motion." in text
    assert "Findings that are gone: short back squat." in text
    assert "11 of 12 planned sessions and 80 of 90 sets done, loads within 2 % of what was planned." in text


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({}, "To go: 4 kg; it was 6 kg: no clear change (usual scatter ± 2.3 kg)."),
        ({"gap_clear": True}, "To go: 4 kg; it was 6 kg: clearly less (usual scatter ± 2.3"),
        (
            {"goal_before_kg": 66.0, "lift_change_kg": 3.0, "gap_clear": True},
            "it was 6 kg (to 66 kg). The lift itself: clearly more (usual scatter ± 2.3 kg).",
        ),
        ({}, "2 a week in 12 weeks since, 1.5 a week in 10 weeks before: more often."),
        (
            {"full_clear": False},
            "in 10 weeks before: no clear change.",
        ),
        ({"full_before_per_week": None}, "in 12 weeks since; how often before is not known."),
    ],
)
def test_the_gap_and_the_sessions_a_week_stand_with_what_chance_makes(
    changes: dict[str, Any], sentence: str
) -> None:
    assert sentence in words(part(page("review", changes=replace(CHANGES, **changes)), "changed"))


@pytest.mark.parametrize(
    ("followed", "source", "sentence"),
    [
        ((), "the log", "No plan.csv holds whole weeks since then"),
        ((), "old.html", "That dossier proposed nothing, and no plan.csv holds whole weeks since then."),
        (("proposal", 0, 0, 0, 0, None), "old.html", "No session that was proposed then was due yet."),
        (
            ("proposal", 6, 1, 30, 4, 0.054),
            "old.html",
            "1 of 6 proposed sessions and 4 of 30 sets done, loads 5 % over what was proposed.",
        ),
        (
            ("proposal", 6, 0, 30, 0, None),
            "old.html",
            "0 of 6 proposed sessions and 0 of 30 sets done.",
        ),
    ],
)
def test_whether_the_last_proposal_was_followed_is_told_with_sets_and_loads(
    followed: tuple[Any, ...], source: str, sentence: str
) -> None:
    names = ("what", "sessions_planned", "sessions_done", "sets_planned", "sets_done", "load_off")
    ones = (Followed(**dict(zip(names, followed, strict=True))),) if followed else ()
    section = part(page("review", changes=replace(CHANGES, followed=ones, source=source)), "changed")
    assert sentence in words(section)


def test_what_can_not_be_compared_is_said_and_counts_neither_as_new_nor_as_gone() -> None:
    changes = replace(
        CHANGES,
        needs=NeedChanges(gone=(), stayed=(), came=(), unsure=("position_not_reached",)),
        screening=(),
        missing=("positions", "technique"),
        unread=(say("analysis.earlier.part.current"),),
        log_begins=dt.date(2026, 9, 1),
    )
    text = words(part(page("review", changes=changes), "changed"))
    assert "nothing of what they rest on was known: missing range of motion." in text
    assert "nothing was known of it then: positions and technique." in text
    assert "Could not be compared, since it can't be read: bests." in text
    assert "The log begins on 1 Sep 2026, after that day" in text
    assert "new" not in text
    brief = words(part(page("progress", changes=changes), "changed"))
    assert (
        "nothing was known of it then: technique." in brief
    )  # which positions were read is not for everybody


def test_a_log_compared_with_itself_says_that_nothing_is_clear() -> None:
    facts = as_json(sample.full().facts)
    same = between(facts, facts, source="the log", trade=TRADE)
    text = words(part(page("review", changes=same), "changed"))
    assert "clearly" not in text


def test_progress_shows_no_screening_unless_it_is_asked_for() -> None:
    assert "positions" not in {s.id for s in page("progress", changes=CHANGES).sections}
    assert "knee to wall" not in words(part(page("progress", changes=CHANGES), "changed"))
    full = sample.full()
    full = replace(full, facts=replace(full.facts, changes=CHANGES))
    asked = build(full, TRADE, edition="progress", keep_screening=True)
    assert "positions" in {s.id for s in asked.sections}
    assert "knee to wall" in words(part(asked, "changed"))


def test_progress_leads_with_what_changed_numbered_questions_and_the_clips_wanted() -> None:
    made = page("progress", changes=CHANGES)
    assert [s.id for s in made.sections][:4] == ["changed", "questions", "clips", "stands"]
    asked = part(made, "questions").blocks[0]
    assert isinstance(asked, Points)
    assert asked.numbered
    assert all("?" in plain(item, "kg") for item in asked.items)
    assert part(made, "clips").blocks


def test_open_pain_is_the_first_question() -> None:
    assert (
        words(part(page("progress"), "questions")).splitlines()[1].startswith("Wrist: pain since 20 Oct 2026")
    )


def test_a_decision_that_is_due_and_still_listed_is_asked_about() -> None:
    full = sample.full()
    row = SaidDone(
        date=SINCE, finding="upkeep_stopped", verdict="kept", why="ankles first", check=dt.date(2026, 10, 1),
        state="listed", rank=2, due=True, gain_kg=None, outcome="too early",
        proved=None, text=sample.raw("Kept."),
    )  # fmt: skip
    asked = replace(full, facts=replace(full.facts, said_and_done=(row,)))
    assert "due 1 Oct 2026 and still number 2. Keep it, change it or drop it?" in words(
        part(page("progress", asked), "questions")
    )
    early = replace(full, facts=replace(full.facts, said_and_done=(replace(row, due=False),)))
    assert "Keep it, change it" not in words(part(page("progress", early), "questions"))


def test_what_nobody_measured_is_one_question_and_an_empty_week_is_none() -> None:
    full = sample.full()
    missing = (
        NotTested(
            id="figure",
            what_would_settle=sample.raw("A heavy single of the power snatch: none is in the log."),
        ),
        NotTested(id="screening", what_would_settle=sample.raw("A screening: start and bottom position.")),
        NotTested(id="empty_weeks", what_would_settle=sample.raw("What happened in 3 weeks.")),
    )
    asked = replace(full, facts=replace(full.facts, not_tested=missing))
    text = words(part(page("progress", asked), "questions"))
    assert (
        "Not tested yet: a heavy single of the power snatch; a screening. Which of these is wanted before "
        "the next block?" in text
    )
    assert "3 weeks" not in text


def test_notes_of_a_progress_dossier_are_those_since_the_day_compared_with() -> None:
    records = sample.full().records
    late = replace(CHANGES, since=max(note.date for note in records.notes))
    assert "notes" in {s.id for s in page("progress").sections}
    assert "notes" not in {s.id for s in page("progress", changes=late).sections}


def test_the_season_is_summed_up_from_its_figures() -> None:
    made = page("season")
    season = sample.full().facts.season
    assert season is not None
    newest: SeasonFact = season[-1]
    assert made.head.edition == f"season {newest.label}"
    assert newest.attendance is not None
    sentence = plain(made.head.sentence, "kg")
    assert f"{newest.attendance.sessions} sessions in {newest.attendance.weeks_trained} of" in sentence
    tops = [part for part in made.head.sentence if isinstance(part, Weight)]
    assert tops[-1].kg == max(b.kg for b in newest.bests if b.lift == "snatch")


def test_every_month_with_a_best_has_its_dot() -> None:
    made = page("season")
    season = (sample.full().facts.season or ())[-1]
    figure = next(b for b in part(made, "bests-by-month").blocks if isinstance(b, Figure))
    assert len(figure.data["bests"]) == len(season.bests) == len(figure.table.rows)


def test_the_season_leaves_room_for_the_coachs_words() -> None:
    lines = part(page("season"), "words").blocks
    assert len(lines) >= 6
    assert all(isinstance(block, Paragraph) and block.tone == "line" for block in lines)


def test_the_season_shows_body_mass_of_its_span_only() -> None:
    season = (sample.full().facts.season or ())[-1]
    made = page("season")
    figures = [b for s in made.sections for b in s.blocks if isinstance(b, Figure) and b.id == "body-mass"]
    assert figures
    days = figures[0].data["body"]["date"].dt.date
    assert days.min() >= season.start
    assert days.max() <= season.end


def test_every_line_of_the_block_says_what_it_is_for_in_words() -> None:
    made = page("review")
    tables = {b.id: b for s in made.sections for b in s.blocks if isinstance(b, Table)}
    assert "block-key" not in tables
    whats = [plain(row[1].text, "kg") for row in tables["block-weeks"].rows]
    assert "back squat: kept; now about 5 × 4 at 80 kg" in whats
    assert all(plain(row[0].text, "kg") for row in tables["block-weeks"].rows), "a row has no header"
    assert all(": " in what for what in whats[:-1])


def test_a_best_on_a_season_s_first_day_is_no_best_from_before_it() -> None:
    full = sample.full()
    reader = Reader(dossier=full, trade=TRADE, unit="kg")
    lift = reader.lifts[0]
    best = full.tables.running_best
    mine = best.loc[best["lift"] == lift].sort_values("date")
    held = spans.newest(reader)
    assert held is not None
    first = replace(held, start=mine["date"].iloc[0].date())
    assert [before for name, _, before in spans.tops(reader, first) if name == lift] == [None]
    later = replace(held, start=mine["date"].iloc[-1].date())
    [(top, before)] = [(top, before) for name, top, before in spans.tops(reader, later) if name == lift]
    assert before is not None
    assert before == mine["kg"].iloc[-2]
    only = replace(full, facts=replace(full.facts, season=(later,)))
    cells = dict(squad_line(only, TRADE, edition="season").season)
    more = f"({numbers.kg(top - before)} more)" if top > before else lift
    assert more in plain(cells["Heaviest made"], "kg")
