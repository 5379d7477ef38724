"""The season edition: what was not made and what is not known is said, and nothing in its place."""

import datetime as dt
from dataclasses import replace
from typing import Literal

import pytest

from reportgen.model.dossier import Dossier
from reportgen.model.season import ContestFact, LiftResult, SeasonFact, TriedFact
from reportgen.trade import load
from reportgen.view import build, squad_line
from reportgen.view.page import Figure, Page, Table
from reportgen.view.reader import plain
from tests.view import sample
from tests.view.reading import section

TRADE = load()


def newest(made: Dossier) -> SeasonFact:
    return (made.facts.season or ())[-1]


def told(**more: object) -> Dossier:
    """The sample with another newest season."""
    made = sample.full()
    season = replace(newest(made), **more)  # type: ignore[arg-type]
    return replace(made, facts=replace(made.facts, season=(season,)))


def contest(kind: Literal["contest", "test"] = "contest", **best_kg: float | None) -> ContestFact:
    lifts = tuple(
        LiftResult(lift=lift.replace("_", " "), attempts=3, best_kg=kg, bombed=kg is None)
        for lift, kg in best_kg.items()
    )
    return ContestFact(
        date=dt.date(2026, 10, 17), kind=kind, event="Osselwater Open", lifts=lifts, total_kg=None,
        body_mass_kg=None, body_mass_date=None, sinclair_kg=None, sinclair_cycle="", sinclair_borrowed=False,
    )  # fmt: skip


def total(made: Page) -> str:
    [table] = [b for s in made.sections for b in s.blocks if isinstance(b, Table) and b.id == "contests"]
    return plain(table.rows[0][table.head.index("total")].text, "kg")


@pytest.mark.parametrize(
    ("held", "words"),
    [
        (contest(snatch=None, clean_and_jerk=75.0), "no total: the snatch was not made"),
        (contest(snatch=58.0, clean_and_jerk=None), "no total: the clean and jerk was not made"),
        (contest(snatch=None, clean_and_jerk=None), "no total: neither lift was made"),
        (contest(snatch=None), "no total: the snatch was not made"),
        (contest("test", snatch=None, clean_and_jerk=75.0), "no total: the snatch was not made"),
        (contest("test", snatch=None), "–"),
        (contest(snatch=58.0), "–"),
        (replace(contest(snatch=58.0, clean_and_jerk=75.0), total_kg=133.0), "133 kg"),
    ],
)
def test_a_lift_that_was_not_made_is_named_where_the_total_would_stand(held: ContestFact, words: str) -> None:
    made = told(contests=(held,))
    assert total(build(made, TRADE, edition="season")) == words
    cell = plain(dict(squad_line(made, TRADE, edition="season").season)["Best total"], "kg")
    assert cell == ("none" if words.startswith("no total") else words)


@pytest.mark.parametrize(
    ("lacking", "cycle", "words", "noted"),
    [
        ("coefficients", "2005-08", "coefficients of 2005-08 not known", True),
        ("body mass", "2021-24", "not weighed near the day", False),
        ("total", "", "no total", False),
    ],
)
def test_a_contest_without_a_sinclair_total_says_what_it_lacks(
    lacking: Literal["coefficients", "body mass", "total"], cycle: str, words: str, noted: bool
) -> None:
    held = replace(contest(snatch=58.0, clean_and_jerk=75.0), sinclair_missing=lacking, sinclair_cycle=cycle)
    made = build(told(contests=(held,)), TRADE, edition="season")
    [table] = [b for s in made.sections for b in s.blocks if isinstance(b, Table) and b.id == "contests"]
    assert plain(table.rows[0][table.head.index("Sinclair total")].text, "kg") == words
    assert ("federation's table was not found" in plain(table.note, "kg")) is noted


def test_a_lift_that_was_only_declined_was_not_tried() -> None:
    held = contest(snatch=None, clean_and_jerk=75.0)
    declined = replace(held, lifts=(replace(held.lifts[0], attempts=0), held.lifts[1]))
    made = build(told(contests=(declined,)), TRADE, edition="season")
    assert total(made) == "no total: the snatch was not tried"


def test_a_test_day_without_a_made_attempt_says_so_among_the_test_days() -> None:
    made = sample.full()
    tests = made.facts.test_days
    assert tests is not None
    none = replace(tests[0], best_kg=None, gain_kg=None, gain_share=None, made=0)
    page = build(replace(made, facts=replace(made.facts, test_days=(none,))), TRADE)
    [table] = [b for s in page.sections for b in s.blocks if isinstance(b, Table) and b.id == "test-days"]
    assert plain(table.rows[0][table.head.index("best of the day")].text, "kg") == "none made"


NONE_TRIED = TriedFact(tried=0, made=0, rate=None, rate_low=None, rate_high=None)


@pytest.mark.parametrize(
    ("unknown", "words", "short"),
    [
        (0, "No single at 90 % or over was tried.", "none tried"),
        (5, "No single at 90 % or over was tried, as far as the best was known.", "none tried"),
        (200, "Singles at 90 % and over: the best was not known well enough to say.", "not known"),
    ],
)
def test_no_single_is_said_to_be_untried_in_weeks_whose_best_was_not_known(
    unknown: int, words: str, short: str
) -> None:
    made = told(heavy_singles=NONE_TRIED)
    exposure, season = made.facts.exposure, newest(made)
    assert exposure is not None
    inside = [week for week in exposure.weeks if week.full and week.start >= season.start]
    blind = {week.start for week in inside[:unknown]}
    if unknown > len(inside):  # the week on the edge, too
        blind |= {week.start for week in exposure.weeks}
    weeks = tuple(replace(week, heavy_singles=None if week.start in blind else 0) for week in exposure.weeks)
    made = replace(made, facts=replace(made.facts, exposure=replace(exposure, weeks=weeks)))
    assert words in section(build(made, TRADE, edition="season"), "attendance")
    cells = dict(squad_line(made, TRADE, edition="season").season)
    assert plain(cells["Heavy singles"], "kg") == short


def test_body_mass_by_month_is_the_figure_of_the_facts() -> None:
    made = sample.full()
    season = newest(made)
    assert season.body_mass is not None
    odd = replace(season.body_mass, months=tuple((month, 61.5) for month, _ in season.body_mass.months))
    made = replace(made, facts=replace(made.facts, season=(replace(season, body_mass=odd),)))
    for edition in ("review", "season"):
        page = build(made, TRADE, edition=edition)
        [figure] = [
            b for s in page.sections for b in s.blocks if isinstance(b, Figure) and b.id == "body-mass"
        ]
        assert figure.table.head[:2] == ("month", "median")
        shown = [plain(row[1].text, "kg") for row in figure.table.rows]
        assert shown[-len(odd.months) :] == ["61.5 kg"] * len(odd.months)
        # A month outside the seasons has no figure in the facts, and none is worked out for the page.
        assert set(shown[: -len(odd.months)]) <= {"–"}


def test_a_span_without_training_has_a_sentence_all_the_same() -> None:
    empty = told(bests=(), attendance=None, heavy_singles=None, contests=(), test_days=())
    assert plain(build(empty, TRADE, edition="season").head.sentence, "kg").startswith(
        "Nothing was trained from "
    )
