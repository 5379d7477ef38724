"""A log of many years: what is long ago is drawn coarser and not lost, and tables say what they hold."""

import datetime as dt

import numpy as np
import pandas as pd
import pytest

from reportgen import face
from reportgen.trade import load as trade
from reportgen.view import build, load, pieces
from reportgen.view.page import Figure, Page, Table
from tests.trust.logs import lay

WEEKS = 8 * 52
FIRST = dt.date(2018, 1, 1)
TOML = 'name = "Runa Velde"\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 60\n'


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Page:
    """The goal weight every Monday for eight years, two power snatches of 40 beside it."""
    days = [FIRST + dt.timedelta(weeks=week) for week in range(WEEKS)]
    rows = "".join(f"{day},snatch,60,1\n{day},power snatch,40,2\n" for day in days)
    folder = lay(tmp_path_factory.mktemp("years") / "runa", "date,lift,kg,reps\n" + rows)
    (folder / "lifter.toml").write_text(TOML)
    return build(face.read(folder), trade(), edition="review", unit="kg")


def figure(page: Page, name: str) -> Figure:
    found = (one for section in page.sections for one in section.blocks if isinstance(one, Figure))
    return next(one for one in found if one.id == name)


def test_the_strip_has_a_mark_a_week_of_two_years_and_a_quarter_before(page: Page) -> None:
    marks = figure(page, "goal-weight").data["marks"]
    mine = marks.loc[marks["part"].str.contains("floor")]
    old = mine["reading"].str.startswith("quarter from")
    assert (~old).sum() == pytest.approx(104, abs=2)
    assert old.sum() == pytest.approx((WEEKS - 104) / 13, abs=2)
    times = mine["reading"].str.extract(r"(\d+) times?,")[0].fillna("1").astype(int)
    assert times.sum() == WEEKS


def test_the_load_has_a_bar_a_week_of_the_newest_and_a_quarter_s_mean_week_before(page: Page) -> None:
    bars = figure(page, "exposure-weeks").data["loads"]
    starts = bars.drop_duplicates("start")
    means = starts["reading"].str.contains("each on average")
    assert (~means).sum() == load.RECENT_BARS
    assert means.sum() == pytest.approx((WEEKS - load.RECENT_BARS) / 13, abs=2)
    assert bars["high"].max() == pytest.approx(0.14)  # 60 + 2 x 40 kg in every week, alone or in a mean
    assert (starts["start"].iloc[1:].to_numpy() == starts["end"].iloc[:-1].to_numpy()).all()


def test_tries_near_the_limit_have_a_mark_a_day_of_two_years_and_a_quarter_before(page: Page) -> None:
    marks = figure(page, "exposure-weeks").data["tries"]
    old = marks["reading"].str.startswith("quarter from")
    assert (~old).sum() == pytest.approx(104, abs=2)
    assert old.sum() == pytest.approx((WEEKS - 104) / 13, abs=2)
    days = marks.loc[old, "reading"].str.extract(r"on (\d+) days?")[0].astype(int)
    # No best is known in the first weeks, so nothing is near it.
    assert days.sum() + (~old).sum() == WEEKS - trade().value("reference_known_days") / 7
    assert marks.loc[old, "reading"].iloc[1] == "quarter from Apr 2018: made on 13 days, up to 60 kg"


def test_weeks_taken_together_keep_their_sum_and_empty_weeks_count_as_none() -> None:
    rng = np.random.default_rng(4)
    every = pd.date_range("2018-01-01", periods=400, freq="7D")
    trained = pd.DatetimeIndex([day for day in every if rng.random() > 0.1])
    weeks = pd.DataFrame({"tonnage_kg": rng.uniform(1000, 9000, len(trained))}, index=trained)
    made = load._coarser(weeks)
    spans = (pd.DatetimeIndex(made["end"]) - pd.DatetimeIndex(made.index)).days / 7
    assert float((made["tonnage_kg"] * spans).sum()) == pytest.approx(float(weeks["tonnage_kg"].sum()))
    few = weeks.iloc[: load.MOST_BARS]
    assert load._coarser(few)["tonnage_kg"].equals(few["tonnage_kg"])


def test_a_table_over_the_log_holds_the_newest_rows_and_says_so(page: Page) -> None:
    every = [block for one in page.sections for block in one.blocks]
    table = next(block for block in every if isinstance(block, Table) and block.id == "load-months")
    assert len(table.rows) == pieces.MOST_ROWS
    assert table.rows[-1][0].text == ("Dec 2025",)
    assert table.note == ("The newest 40 of 96 rows.",)
    short = Table(caption="", head=(), rows=((),) * pieces.MOST_ROWS)
    assert pieces.newest(short) is short
