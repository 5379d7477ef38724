"""Test days, tapers and heavy days close together, in words and tables: what is counted, named and known."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pandas as pd
import pytest

from reportgen.model import peaks
from reportgen.model.dossier import Dossier
from reportgen.model.peaks import ChaseFact, TaperEffect
from reportgen.model.say import say
from reportgen.trade import load
from reportgen.view import Edition, build
from reportgen.view.page import Figure, Page, Table
from reportgen.view.reader import plain
from tests.view import sample
from tests.view.reading import section

TRADE = load()
LONG = next(t.taper for t in sample.full().facts.test_days or () if t.taper is not None and t.taper.prolonged)
LONG = replace(LONG, weeks_below=4, full_lost=3.0, best_since_kg=58.0)


def told(*tests: peaks.TestDayFact, chases: tuple[ChaseFact, ...] = (), lift: str = "") -> Dossier:
    made = sample.full()
    goals = made.facts.goals
    if lift:
        goals = (replace(goals[0], lift=lift), *goals[1:])
    return replace(made, facts=replace(made.facts, test_days=tests, chases=chases, goals=goals))


def days() -> tuple[peaks.TestDayFact, ...]:
    """Three test days of the sample's snatch: +2 kg, +3 kg, no gain."""
    tests = sample.full().facts.test_days
    assert tests is not None
    return tests


def with_long_taper(**more: object) -> Dossier:
    first, second, third = days()
    return told(first, replace(second, taper=replace(LONG, **more)), third)  # type: ignore[arg-type]


def in_season(made: Dossier) -> Dossier:
    """The same with the test days in the season's facts, too."""
    season = (made.facts.season or ())[-1]
    inside = tuple(t for t in made.facts.test_days or () if season.start <= t.date <= season.end)
    return replace(made, facts=replace(made.facts, season=(replace(season, test_days=inside),)))


def page(made: Dossier, edition: Edition = "review") -> Page:
    return build(in_season(made) if edition == "season" else made, TRADE, edition=edition)


def picture(made: Page) -> Figure:
    return next(
        b for s in made.sections for b in s.blocks if isinstance(b, Figure) and b.id == "tapers-aligned"
    )


def rows(made: Page, id_: str) -> list[dict[str, str]]:
    """One table's rows by their headings."""
    for block in (b for s in made.sections for b in s.blocks):
        table = block.table if isinstance(block, Figure) else block
        if isinstance(table, Table) and table.id == id_:
            return [
                dict(zip(table.head, (plain(c.text, "kg") for c in row), strict=True)) for row in table.rows
            ]
    raise AssertionError(id_)


@pytest.mark.parametrize("edition", ["review", "season"])
def test_what_a_drawn_out_taper_cost_is_said_under_the_test_days(edition: Edition) -> None:
    when = sample.TESTS[1]
    said = section(page(with_long_taper(), edition), "tapers")
    assert (
        f"The taper before {when.day} {when:%b %Y} (26 days, over 21 days): 4 weeks under 85 % of the usual "
        "load, 3 full sessions fewer than usual, best since 58 kg." in said
    )


def test_what_a_drawn_out_taper_cost_is_silent_on_what_is_not_known() -> None:
    said = section(page(with_long_taper(prolonged="day moved on", weeks_below=None, full_lost=0.0)), "tapers")
    assert "(26 days, the day moved on): no full sessions fewer than usual, best since 58 kg." in said
    none = section(page(with_long_taper(weeks_below=None, full_lost=None, best_since_kg=None)), "tapers")
    assert "The taper before" not in none
    assert "The taper before" not in section(page(with_long_taper(prolonged="")), "tapers")


def test_one_taper_before_two_lifts_is_told_once_with_the_best_of_each() -> None:
    both = tuple(
        replace(days()[1], lift=lift, taper=replace(LONG, best_since_kg=kg))
        for lift, kg in (("snatch", 58.0), ("clean and jerk", 75.0))
    )
    said = section(page(told(*both)), "tapers")
    assert said.count("The taper before") == 1
    assert "best snatch since 58 kg, best clean and jerk since 75 kg." in said


def test_what_heavy_days_close_together_cost_is_said_with_them() -> None:
    chase = ChaseFact(
        start=dt.date(2026, 9, 5), end=dt.date(2026, 9, 19), heavy_days=3, missed_days=2, gain_kg=0.0,
        lift="snatch", weeks_below=1, full_lost=1.0, best_since_kg=59.0,
    )  # fmt: skip
    cost = "; 1 week under 85 % of the usual load, 1 full session fewer than usual, best since 59 kg."
    for edition, where in (("review", "misses"), ("season", "tapers")):
        assert f"nothing gained{cost}" in section(page(told(chases=(chase,)), edition), where)  # type: ignore[arg-type]
    bare = replace(chase, weeks_below=None, full_lost=None, best_since_kg=None)
    assert "nothing gained." in section(page(told(chases=(bare,))), "misses")
    earlier = replace(bare, start=dt.date(2025, 9, 5), end=dt.date(2025, 9, 19))
    both = page(told(*days(), chases=(earlier,)), "season")
    assert "Heavy days" not in section(both, "tapers")


def test_a_gain_is_told_in_per_cent_beside_the_usual_scatter() -> None:
    first, second, third = (replace(t, scatter_share=0.04) for t in days())
    tests = (
        first,
        replace(second, noise=False),
        replace(third, gain_kg=-2.0, gain_share=-1 / 30, noise=True),
    )
    gains = [row["gain"].replace("\N{NO-BREAK SPACE}", " ") for row in rows(page(told(*tests)), "test-days")]
    assert gains == ["no gain", "+3 kg, 5.3 %", "+2 kg, 3.6 %, within scatter"]
    against = rows(page(told(*tests)), "test-days-against")
    assert [(row["change"], row["per cent"], row["usual scatter"]) for row in against] == [
        ("−2 kg", "−3.3 %", "4 %, inside it"),
        ("+3 kg", "+5.3 %", "4 %, more than it"),
        ("+2 kg", "+3.6 %", "4 %, inside it"),
    ]


def test_the_contest_best_before_stands_apart_from_the_other() -> None:
    test = replace(days()[0], previous_best_kg=55.0, previous_contest_kg=55.0, previous_training_kg=53.0)
    for edition in ("review", "season"):
        [row] = rows(page(told(test), edition), "test-days-against")
        assert (row["contest best before"], row["other best before"]) == ("55 kg", "53 kg")


def test_how_a_taper_went_down_is_told_with_the_cut_of_each_week_and_kind_of_lift() -> None:
    taper = replace(LONG, cuts_by_week=(0.3, 0.5, None, -0.1), volume_cut_classic=-0.02)
    tests = (days()[0], replace(days()[1], taper=taper))
    newest, oldest = rows(page(told(*tests)), "tapers-table")
    assert (newest["how"], newest["week by week"]) == ("little by little", "30 %, 50 %, –, 10 % more")
    assert newest["classic lifts"] == "2 % more"
    assert (oldest["how"], oldest["classic lifts"], oldest["squats and pulls"]) == ("at once", "40 %", "52 %")


def test_lifts_and_days_of_one_event_have_one_row_among_the_tapers() -> None:
    first = replace(days()[0], kind="contest", event="Osselwater Open")
    second = replace(first, lift="clean and jerk")
    next_day = replace(second, date=first.date + dt.timedelta(days=1))
    assert len(rows(page(told(first, second)), "tapers-table")) == 1
    assert len(rows(page(told(first, next_day)), "tapers-table")) == 1
    apart = replace(next_day, event="Reedmouth Open")
    assert len(rows(page(told(first, apart)), "tapers-table")) == 2


def jerked(test: peaks.TestDayFact, gain_kg: float) -> peaks.TestDayFact:
    """The same day's clean and jerk."""
    return replace(
        test, lift="clean and jerk", best_kg=75.0, previous_best_kg=75.0 - gain_kg, gain_kg=gain_kg,
        gain_share=gain_kg / 75,
    )  # fmt: skip


def test_a_new_best_is_one_of_the_goals_lift() -> None:
    first, second, third = days()
    tests = (first, second, third, jerked(third, 5.0))
    figure = picture(page(told(*tests)))
    said = plain(figure.sentence, "kg")
    assert "3 test days: 2 brought a new best, 2 had a taper before it." in said
    assert "The most, +3 kg, came on" in said
    labels = [label.split(": ")[1] for label in figure.data["tapers"]["label"]]
    assert labels == ["no new best", "a new best", "a new best"]


def test_a_new_best_of_another_lift_names_it() -> None:
    first, second, _ = days()
    figure = picture(page(told(first, jerked(second, 5.0))))
    said = plain(figure.sentence, "kg")
    assert "2 test days, 1 of them of clean and jerk only: 1 brought a new best in the snatch" in said
    assert "The most, +2 kg, came on" in said
    assert figure.data["tapers"]["label"].iloc[0].endswith(": a new best in the clean and jerk")
    alone = plain(picture(page(told(jerked(second, 5.0)))).sentence, "kg")
    assert "One test day of clean and jerk: it brought no new best in the snatch" in alone
    assert "The most" not in alone


def test_for_a_total_a_new_best_is_of_either_lift_and_the_lift_is_named() -> None:
    first, second, third = days()
    tests = (first, jerked(first, 2.5), second, jerked(second, 0.0), third, jerked(third, 5.0))
    figure = picture(page(told(*tests, lift="total")))
    said = plain(figure.sentence, "kg")
    assert "3 test days: 3 brought a new best in the snatch or the clean and jerk, 2 had a taper" in said
    assert "The most, +5 kg in the clean and jerk, came on" in said
    labels = [label.split(": ")[1] for label in figure.data["tapers"]["label"]]
    assert labels == [
        "a new best in the clean and jerk", "a new best in the snatch", "a new best in both lifts",
    ]  # fmt: skip


def test_a_picture_of_some_test_days_says_how_many_it_draws() -> None:
    first, second, third = days()
    more = tuple(replace(third, date=third.date - dt.timedelta(days=14 * n)) for n in (3, 2, 1))
    tests = tuple(sorted((first, second, *more, third), key=lambda test: test.date))
    assert "drawn" not in plain(picture(page(told(first, second, third))).sentence, "kg")
    made = told(*tests)
    table = made.tables.aligned
    copies = [table.assign(test=np.datetime64(test.date, "s")) for test in tests]
    windows = pd.concat([copy.loc[table["test"] == table["test"].iloc[0]] for copy in copies])
    figure = picture(page(replace(made, tables=replace(made.tables, aligned=windows))))
    drawn = "4 of the 6 are drawn, those with a taper first."
    assert drawn in plain(figure.sentence, "kg")
    assert drawn in figure.summary
    assert len(figure.data["tapers"]) == 4


def test_tapers_are_counted_not_rows() -> None:
    first = replace(days()[0], kind="contest", event="Osselwater Open")
    both = (first, jerked(first, 0.0))
    two_days = (first, replace(both[1], date=first.date + dt.timedelta(days=1)))
    for tests in (both, two_days):
        assert "One taper of one lifter proves nothing" in section(page(told(*tests)), "tapers")
    assert "2 tapers of one lifter prove nothing" in section(page(told(first, days()[1])), "tapers")


def test_published_figures_stand_in_per_cent_with_the_digits_and_the_note_of_their_source() -> None:
    found = {row["what"]: row for row in rows(page(told(*days())), "tapers-published")}
    figures = {what: row["figure"] for what, row in found.items()}
    assert figures["best cut in volume in a taper"] == "41 to 60 %"
    assert figures["weightlifters' cut in volume, mean and one SD"] == "43.1 ± 14.6 %"
    assert figures["weightlifters' tapers, mean and one SD"] == "8 ± 4.4 days"
    assert figures["powerlifters' cut in volume"] == "41 to 50 %"
    assert figures["gain of a taper"] == "0.5 to 6 %, middle 3 %"
    assert figures["length of a taper"] == "4 to 28 days"
    assert figures["best length of a taper"] == "14 days"
    assert found["best length of a taper"]["beside it"] == "Effect 0.59 ± 0.33; mostly endurance athletes."
    assert found["length of a taper"]["beside it"] == "28 days and more."
    assert not any("share" in figure for figure in figures.values())


def test_the_form_of_a_test_day_stands_beside_its_gain_with_its_range_and_a_best_stays_what_it_is() -> None:
    first, second, third = (
        replace(test, effect_share=share, effect_low=low, effect_high=high)
        for test, share, low, high in zip(
            days(), (0.031, -0.004, None), (-0.012, -0.05, None), (0.074, 0.041, None), strict=True
        )
    )
    told_rows = rows(page(told(first, second, third)), "test-days")
    said = [(row["gain"][:5], row["form, likely"].replace("\N{NO-BREAK SPACE}", " ")) for row in told_rows]
    assert said[1:] == [("+3 kg", "0 % (−5 to +4)"), ("+2 kg", "+3 % (−1 to +7)")]
    assert said[0][1] == "–"


def test_what_the_tapers_gave_is_told_in_per_cent_with_the_range_where_there_is_one() -> None:
    made = told(*days())
    effect = TaperEffect(share=0.024, low=0.003, high=0.045, tapers=2)
    known = replace(made, facts=replace(made.facts, taper_effect=effect))
    for edition in ("review", "season"):
        said = section(page(known, edition), "tapers").replace("\N{NO-BREAK SPACE}", " ")
        assert "+2 % after your 2 tapers (likely 0 to +4 %; what tapers give others is weighed in)." in said
    without = replace(made, facts=replace(made.facts, taper_effect=None))
    assert "Form on" not in section(page(without), "tapers")


def test_a_gain_over_working_loads_of_a_young_log_is_called_none() -> None:
    first, second, third = days()
    young = told(replace(first, gain_missing=say("analysis.log.short")), second, third)
    made = build(young, TRADE)
    table = next(b for s in made.sections for b in s.blocks if isinstance(b, Table) and b.id == "test-days")
    gains = [plain(row[table.head.index("gain")].text, "kg") for row in table.rows]
    assert gains[-1] == "not enough log before"
    assert gains[-2].startswith("+3 kg")
    assert "1 brought a new best" in section(made, "tapers")
    assert "2 brought a new best" in section(build(told(first, second, third), TRADE), "tapers")


@pytest.mark.parametrize(("kind", "rose"), [("training", False), ("contest", True)])
def test_a_rise_is_not_counted_from_the_working_loads_that_a_log_begins_with(kind: str, rose: bool) -> None:
    made = sample.full()
    best = made.tables.running_best.iloc[:2].assign(
        date=pd.to_datetime(["2026-03-02", "2026-03-14"]).astype("datetime64[s]"), kg=[75.0, 101.0],
        kind=[kind, "contest"], lift="snatch",
    )  # fmt: skip
    young = replace(made, tables=replace(made.tables, running_best=best))
    said = section(build(young, TRADE), "stands")
    assert ("rose by 26 kg to 101 kg" in said) is rose
    assert ("has stood at 101 kg since 14 Mar 2026" in said) is not rose
