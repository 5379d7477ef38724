"""Where the lift goes, in words and in the picture: how sure it is, when it arrives, why there is none."""

import datetime as dt
from dataclasses import replace

import pytest

from reportgen.model.ability import ArrivalFact
from reportgen.model.dossier import Dossier
from reportgen.trade import load
from reportgen.view import Edition, build
from reportgen.view.options import RunningBest
from reportgen.view.page import Figure, Page
from reportgen.view.reader import plain
from reportgen.words.numbers import Unit
from tests.view import sample
from tests.view.reading import section

TRADE = load()


def told(**more: object) -> Dossier:
    """The sample with another trend."""
    made = sample.full()
    assert made.facts.trend is not None
    trend = replace(made.facts.trend, **more)  # type: ignore[arg-type]
    return replace(made, facts=replace(made.facts, trend=trend))


def page(made: Dossier, edition: Edition = "review") -> Page:
    return build(made, TRADE, edition=edition)


def running_best(made: Page) -> Figure:
    return next(
        b for s in made.sections for b in s.blocks if isinstance(b, Figure) and b.id == "running-best"
    )


def test_the_picture_of_the_best_carries_the_ordinary_day_in_the_readers_unit_from_the_same_path() -> None:
    made = sample.full()
    (able,) = (one for one in made.facts.ability or () if one.lift == "snatch")
    units: tuple[tuple[Unit, float], ...] = (("kg", 1.0), ("lb", 1 / 0.45359237))
    for unit, factor in units:
        drawn = running_best(build(made, TRADE, unit=unit))
        band = drawn.data["ability"]
        assert list(band["weight"]) == pytest.approx(
            [w.kg * factor for w in able.weeks[::-3][::-1]], abs=0.006
        )
        assert (band["low"] < band["weight"]).all()
        assert (band["weight"] < band["high"]).all()
        assert f"{round(able.kg * factor, 1):g} {unit} now (likely" in drawn.summary
        assert plain(drawn.table.rows[-1][-2].text, unit) == f"{round(able.kg * factor, 1):g} {unit}"


def test_without_an_ability_the_picture_is_the_best_alone() -> None:
    made = sample.full()
    drawn = running_best(page(replace(made, facts=replace(made.facts, ability=()))))
    assert drawn.data["ability"].empty
    assert "ordinary day" not in drawn.summary + plain(drawn.sentence, "kg")
    assert {plain(row[-1].text, "kg") for row in drawn.table.rows} == {"–"}


@pytest.mark.parametrize(
    ("share", "noise", "words"),
    [
        (
            0.012,
            True,
            "+1.2~% in all, inside the usual scatter of 4~%.",
        ),
        (
            0.08,
            False,
            "+8~% in all, more than the usual scatter of 4~%.",
        ),
    ],
)
def test_a_trend_inside_the_usual_scatter_says_so_in_per_cent(share: float, noise: bool, words: str) -> None:
    trended = told(change_share=share, noise=noise, noise_share=0.04)
    for edition in ("review", "progress"):
        exact = words.replace("~", "\N{NO-BREAK SPACE}")
        assert exact in section(page(trended, edition), "stands")


def test_a_range_of_arrival_without_a_late_end_is_drawn_as_far_as_the_picture_has_room() -> None:
    made = told()
    early = made.facts.as_of + dt.timedelta(days=30)
    drawn = page(told(reach_early=early, reach_date=None, reach_late=None))
    figure = running_best(drawn)
    [arrival] = figure.data["arrival"].to_dict("records")
    assert arrival["start"].date() == early
    assert arrival["end"].date() == figure.given(RunningBest).last
    first = made.facts.span.first
    assert first is not None
    assert arrival["end"].date() - made.facts.as_of <= (made.facts.as_of - first) / 2
    assert arrival["reading"].endswith("on, perhaps more than 2 years from now")
    assert "at the earliest, perhaps more than 2 years from now." in section(drawn, "stands")


def test_an_arrival_beyond_the_picture_is_said_and_not_drawn() -> None:
    far = page(told(reach_early=dt.date(2028, 6, 3), reach_date=None, reach_late=None))
    assert running_best(far).data["arrival"].empty
    assert running_best(far).given(RunningBest).last == told().facts.as_of
    assert "Too uncertain to name a date: at this rate Jun 2028 at the earliest" in section(far, "stands")


def test_a_range_of_arrival_with_both_ends_names_them() -> None:
    assert "At this rate the goal comes between Jan 2027 and Feb 2028." in section(page(told()), "stands")


@pytest.mark.parametrize("edition", ["review", "progress"])
def test_where_there_is_no_trend_the_reason_is_said(edition: Edition) -> None:
    made = sample.full()
    few = replace(made, facts=replace(made.facts, trend=None))
    assert (
        "Where the snatch goes can't be said yet: that takes 12 weeks with tries near the limit, made "
        "and missed, 8 at the least, and the log holds fewer." in section(page(few, edition), "stands")
    )
    goal = replace(made.facts.goals[0], lift="total")
    total = replace(made, facts=replace(made.facts, trend=None, goals=(goal,)))
    assert "No trend is worked out for a total" in section(page(total, edition), "stands")


def test_a_trend_says_the_weeks_that_it_is_of_and_how_sure_it_is() -> None:
    said = section(page(told(weeks=20)), "stands")
    assert "Over 20 weeks an ordinary day's snatch moved by about +0.5 kg a month (likely" in said


@pytest.mark.parametrize(
    ("rare", "words"), [(False, "a month: a chance"), (True, "a month: not at this rate, a chance")]
)
def test_the_goals_day_says_what_it_asks_for_and_how_likely_it_is(rare: bool, words: str) -> None:
    made, chance, by = told(), 0.2, dt.date(2027, 3, 27)
    arrived = ArrivalFact(
        goal_kg=64, by=by, asked_kg_per_month=0.9, chance=chance, early=None, late=None, rare=rare
    )
    said = section(page(replace(made, facts=replace(made.facts, arrival=arrived))), "stands")
    assert f"The goal's day, 27 Mar 2027, asks for +0.9 kg {words}" in said
    assert f"a chance of about {chance:.0%}" in said.replace("\N{NO-BREAK SPACE}", "").replace(" %", "%")


def test_what_a_goal_of_several_body_masses_asks_for_is_not_called_body_mass() -> None:
    made = told(bar_kg_per_month=0.5, body_kg_per_month=-0.75)
    for times, words in ((1.5, "what body mass asks for by −0.8 kg"), (1.0, "body mass by −0.8 kg")):
        goals = (replace(made.facts.goals[0], times_body_mass=times), *made.facts.goals[1:])
        one = replace(made, facts=replace(made.facts, goals=goals))
        assert f"a month, {words} a month" in section(page(one), "stands")
