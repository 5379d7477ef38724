"""A dossier becomes a page: sections in order, words from the figures, silence on what is unknown."""

import datetime as dt
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from reportgen.analysis.dossier import build as ask
from reportgen.analysis.tapers import cut_reading, load_kept
from reportgen.model.dossier import Dossier
from reportgen.model.doubts import Unsure
from reportgen.model.lifter import Goal
from reportgen.model.peaks import TaperFact
from reportgen.model.records import Records
from reportgen.model.tables import BODYMASS, SETS, empty, typed
from reportgen.trade import load
from reportgen.view import build, history, squad_line
from reportgen.view.options import RunningBest
from reportgen.view.page import Figure, Finding, Page, Paragraph, Points, Prose, Table
from reportgen.view.reader import plain
from reportgen.words import Phrase, Weight, said
from tests.view import sample
from tests.view.reading import section


@cache
def full() -> Page:
    return build(sample.full(), load())


@cache
def bare() -> Page:
    return build(sample.bare(), load())


ORDER = (
    "needs", "block", "supports", "stands", "exposure", "misses", "tapers", "positions", "technique", "notes",
    "read", "rules", "cautions",
)  # fmt: skip


def figures(page: Page) -> list[Figure]:
    return [b for s in page.sections for b in s.blocks if isinstance(b, Figure)]


def tables(page: Page) -> list[Table]:
    own = [b for s in page.sections for b in s.blocks if isinstance(b, Table)]
    return own + [f.table for f in figures(page)]


def phrases(page: Page) -> Iterator[Phrase]:
    """Every sentence of the page that is not in a table."""
    head = page.head
    yield from (head.goal, head.present, head.gap, head.sentence, *head.alerts)
    for part in page.sections:
        yield part.lead
        for block in part.blocks:
            if isinstance(block, Figure):
                yield block.sentence
            elif isinstance(block, Paragraph):
                yield block.text
            elif isinstance(block, Points):
                yield from block.items


def empty_log() -> Dossier:
    lifter = replace(sample.LIFTER, bests=())
    return ask(Records(folder="x", lifter=lifter, as_of=sample.LAST, sets=empty(SETS)), load())


def test_sections_stand_in_the_order_of_the_page() -> None:
    assert tuple(s.id for s in full().sections) == ORDER


def test_the_page_is_silent_on_what_was_not_computed() -> None:
    assert {s.id for s in full().sections} - {s.id for s in bare().sections} >= {"tapers", "block"}
    assert "expressed" not in {f.id for f in figures(bare())}


def test_a_bare_log_gives_eight_figures_at_least() -> None:
    """Sessions, load, tries near the limit and tapers are one."""
    assert len(figures(bare())) >= 8


def test_every_figure_has_a_sentence_a_summary_and_a_captioned_table() -> None:
    for figure in figures(full()):
        assert plain(figure.sentence, "kg").strip().endswith(".")
        assert len(figure.summary) > 40
        assert figure.table.caption
        assert figure.table.rows


def test_every_table_row_is_as_long_as_its_head() -> None:
    for table in tables(full()):
        assert table.caption
        assert all(len(row) == len(table.head) for row in table.rows)


def test_addresses_in_the_page_are_used_once() -> None:
    ids = (
        [s.id for s in full().sections]
        + [f.id for f in figures(full())]
        + [t.id for t in tables(full()) if t.id]
    )
    ids += [b.id for s in full().sections for b in s.blocks if isinstance(b, Finding)]
    assert len(ids) == len(set(ids))


def test_links_of_findings_lead_somewhere() -> None:
    ids = {s.id for s in full().sections}
    findings = [b for s in full().sections for b in s.blocks if isinstance(b, Finding)]
    links = [link for f in findings for _, _, link in f.evidence]
    assert links == ["#positions", "#misses", "#exposure"]
    assert all(link[1:] in ids for link in links)
    assert {f.figure for f in findings if f.figure} <= {f.id for f in figures(full())}


def test_weights_in_sentences_stay_weights() -> None:
    for phrase in phrases(bare()):
        words = "".join(part for part in phrase if isinstance(part, str))
        assert not re.search(r"\d kg\b", words), words


def test_a_reader_in_pounds_gets_charts_and_summaries_in_pounds() -> None:
    pounds = build(sample.bare(), load(), unit="lb")
    best = {p.head.unit: next(f for f in figures(p) if f.id == "running-best") for p in (bare(), pounds)}
    assert best["lb"].data["best"]["weight"].iloc[0] == pytest.approx(55 / 0.45359237, abs=0.01)
    goal = best["lb"].given(RunningBest).goal
    assert goal is not None
    assert goal.at == pytest.approx(64 / 0.45359237, abs=0.01)
    assert " kg" not in best["lb"].summary
    assert all(" kg" not in words for words in best["lb"].data["best"]["reading"])
    assert best["lb"].sentence == best["kg"].sentence


def test_the_one_sentence_is_the_first_needs_claim() -> None:
    assert sample.full().facts.needs is not None
    assert str(full().head.sentence[0]).startswith("The bottom position was reached in spring and lost since")


def test_without_a_need_the_sentence_says_so_and_repeats_no_gap() -> None:
    assert plain(bare().head.gap, "kg") == "4 kg"
    assert plain(bare().head.sentence, "kg") == "Nothing that was read stands out as holding the goal back."


def test_open_pain_and_rows_set_aside_are_told_first() -> None:
    alerts = [plain(a, "kg") for a in full().head.alerts]
    assert alerts[0] == "Open pain: wrist since 20 Oct 2026, 3 of 10. See a clinician before loading it."
    assert alerts[1].startswith("2 rows were not understood")


def test_a_best_that_may_be_a_slip_is_told_before_anything_that_rests_on_it() -> None:
    def page(lift: str) -> tuple[Page, str]:
        slip = Unsure(file="log.csv", line=9, reason="slip", stops=(lift,), lift=lift, found="520 kg")
        full = sample.full()
        slipped = replace(full, facts=replace(full.facts, unsure=(slip,)))
        return build(slipped, load()), plain(squad_line(slipped, load()).gap, "kg")

    of_goal, gap = page("snatch")
    assert plain(of_goal.head.sentence, "kg") == (
        "Where the snatch stands is not sure: 520 kg (log.csv, line 9)."
    )
    assert plain(of_goal.head.gap, "kg") == gap == "not sure"
    assert plain(of_goal.head.present, "kg").endswith("which is not sure")
    assert any("log.csv, line 9" in plain(alert, "kg") for alert in of_goal.head.alerts)
    of_squat, _ = page("back squat")
    assert of_squat.head.sentence == full().head.sentence
    told = plain(of_squat.head.alerts[1], "kg")
    assert told.startswith("log.csv, line 9: 520 kg in the back squat is far over everything else in the log")
    # In words, and the line to write only where it is opened; the page of a lifter begins alike.
    assert told.endswith("Mend the row, or let it stand once it is checked.")
    line = 'In lifter.toml: confirmed = ["log.csv:9"]'
    for one in (of_squat, of_goal):
        assert plain(one.head.let, "kg") == line
        assert not any("confirmed" in plain(words, "kg") for words in one.head.alerts)
    assert squad_line(sample.full(), load()).look.held == "Open pain: wrist."


def test_an_empty_week_is_a_question_and_a_week_away_is_not() -> None:
    words = section(bare(), "exposure")
    assert "1 week without any session and without a reason in away.csv, beginning 6 Apr 2026" in words
    grounds = next(f for f in figures(bare()) if f.id == "exposure-weeks").data["gaps"]
    assert list(grounds["ground"]) == ["empty", "away"]
    assert (grounds["end"] - grounds["start"]).dt.days.tolist() == [7, 14]


def test_every_problem_of_every_file_is_on_the_page() -> None:
    problems = next(t for t in tables(bare()) if t.id == "problems")
    assert [plain(row[6].text, "kg") for row in problems.rows] == [
        said(p.message) for f in sample.records().ledger for p in f.problems
    ]


def test_notes_are_cleaned_and_their_titles_stay_text() -> None:
    note = next(b for s in bare().sections for b in s.blocks if isinstance(b, Prose))
    assert note.title == "After <b>autumn</b>"
    assert "<script" not in note.html
    assert "<em>depth</em>" in note.html


def test_an_empty_log_gives_a_page_of_not_tested() -> None:
    page = build(empty_log(), load())
    assert figures(page) == []
    assert "Not tested: the log holds no made snatch." in section(page, "stands")
    assert squad_line(empty_log(), load()).look.last is None


@pytest.mark.parametrize("lift", ["clean and jerk", "total"])
def test_other_goals_give_a_page_too(lift: str) -> None:
    goal = Goal(lift=lift, kg=140.0)  # type: ignore[arg-type]
    page = build(sample.full(replace(sample.LIFTER, goals=(goal,))), load())
    assert page.title == f"Runa Velde: {lift}"
    assert figures(page)


def test_a_goal_without_a_known_weight_gives_no_gap() -> None:
    lifter = replace(sample.LIFTER, goals=(Goal(lift="snatch", times_body_mass=1.0),))
    records = replace(sample.records(lifter), bodymass=sample.bodymass().iloc[:0])
    page = build(ask(records, load()), load())
    assert plain(page.head.gap, "kg") == "not known"


@pytest.mark.parametrize("born", [2010, 2008])  # 2008: only the year is known, the birthday may be to come
def test_an_age_under_eighteen_puts_supervision_first(born: int) -> None:
    page = build(sample.bare(replace(sample.LIFTER, born=born)), load())
    points = next(b for s in page.sections if s.id == "cautions" for b in s.blocks if isinstance(b, Points))
    assert str(points.items[0][0]).startswith("Under 18")


def test_no_line_of_a_picture_has_more_than_a_thousand_points() -> None:
    days = [sample.LAST - dt.timedelta(days=n) for n in range(1500)][::-1]
    mass = typed(
        {"date": [np.datetime64(d, "s") for d in days], "mass_kg": [64.0 + n % 3 for n in range(1500)],
         "remark": [""] * 1500, "file": ["bodymass.csv"] * 1500, "line": list(range(2, 1502))}, BODYMASS
    )  # fmt: skip
    page = build(ask(replace(sample.records(), bodymass=mass), load()), load())
    assert all(len(table) <= 1000 for f in figures(page) for table in f.data.values())


def test_the_squad_line_holds_goal_gap_and_running_best() -> None:
    line = squad_line(sample.full(), load(), href="runa-velde.html")
    assert (line.name, line.href, line.gap_kg, line.rows_set_aside) == (
        "Runa Velde",
        "runa-velde.html",
        4.0,
        2,
    )
    assert line.best[0] == ("2025-09-20", 55.0)
    assert line.best[-1][1] == 60.0
    assert line.present[0] == Weight(60.0)


@pytest.mark.parametrize(
    ("cut", "change", "words"),
    [
        (0.45, -0.03, "10 days (usual), 45 % less; top load kept"),
        (0.30, -0.10, "10 days (usual), 30 % less; top load kept"),  # edges belong to what is usual
        (0.60, 0.10, "10 days (usual), 60 % less; top load kept"),
        (0.29, -0.14, "10 days (usual), 29 % less, a small cut; top load −14 %"),
        (0.72, None, "10 days (usual), 72 % less, a deep cut"),
    ],
)
def test_a_taper_s_cut_and_top_load_are_read_against_what_is_usual(
    cut: float, change: float | None, words: str
) -> None:
    test = next(t for t in sample.full().facts.test_days or () if t.taper is not None)
    taper = TaperFact(
        start=test.date - dt.timedelta(days=10), days=10, volume_cut=cut, load_change=change, reading="usual",
        cut_reading=cut_reading(cut, load()), load_kept=load_kept(change, load()),
    )  # fmt: skip
    rows = history.table((replace(test, taper=taper),)).rows
    assert plain(rows[0][-1].text, "kg") == words


def test_a_heavier_best_from_longer_ago_is_told_beside_the_present_one() -> None:
    full = sample.full()
    goal = full.facts.goals[0]
    assert goal.current_kg is not None
    assert "ago" not in section(build(full, load()), "stands")
    lower = replace(goal, current_kg=goal.current_kg - 2)
    older = replace(full, facts=replace(full.facts, goals=(lower, *full.facts.goals[1:])))
    weeks = full.records.lifter.weeks_current
    assert re.search(
        rf"{goal.current_kg:g} kg was made on \d+ \w+ 20\d\d, more than {weeks} weeks ago\.",
        section(build(older, load()), "stands"),
    )
