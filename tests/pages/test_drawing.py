"""Charts are drawn the same everywhere, at two widths, and leave the process as it was."""

import json
import os
import re

import altair as alt
import pandas as pd
import pytest

from reportgen.pages import drawing
from tests.pages import sample

pytestmark = pytest.mark.afresh
PAGE = sample.page()
FIGURE = PAGE.sections[0].blocks[0]


def spec(figure: object = FIGURE) -> dict[str, object]:
    return dict(sample.charts(figure))  # type: ignore[arg-type]


def test_the_same_chart_gives_the_same_bytes() -> None:
    assert drawing.draw(spec(), "a", over_time=True) == drawing.draw(spec(), "a", over_time=True)


def test_a_chart_is_drawn_for_the_desk_and_for_the_phone() -> None:
    drawn = drawing.draw(spec(), "a")
    assert re.search(r'viewBox="0 0 680 \d+"', drawn.wide)
    assert re.search(r'viewBox="0 0 328 \d+"', drawn.narrow)


def rowed(words: str, *, extent: float = 0.0) -> dict[str, object]:
    """Two rows whose labels stand beside the plot."""
    axis = alt.Axis(title=None, minExtent=extent) if extent else alt.Axis(title=None)
    rows = [{"x": 1, "y": words}, {"x": 3, "y": words[::-1]}]
    chart = alt.Chart({"values": rows}).mark_bar().encode(x="x:Q", y=alt.Y("y:N", axis=axis))
    return dict(chart.to_dict())


@pytest.mark.parametrize(
    "words", ["a", "somewhat longer words", "words that take more room than was thought"]
)
def test_long_labels_take_their_room_from_the_plot_not_from_the_page(words: str) -> None:
    drawn = drawing.draw(rowed(words), "a")
    for svg, width in ((drawn.wide, 680), (drawn.narrow, 328)):
        assert f'viewBox="0 0 {width} ' in svg
        assert words in svg
        left = float(re.search(r"translate\(([\d.]+),", svg)[1])  # type: ignore[index]
        plot = max(float(right) for right in re.findall(r"M0\.5,0\.5h([\d.]+)v", svg))
        assert width - 20 < left + plot <= width


def test_what_is_known_to_stand_beside_the_plot_is_not_tried_out(drawings: list[float]) -> None:
    drawing.draw(rowed("a", extent=60), "a")
    assert len(drawings) == 2
    drawing.draw(rowed("words that take their room"), "a")
    assert len(drawings) == 2 + 4


def test_colours_stay_variables_of_the_pages_style() -> None:
    assert 'stroke="var(--goal)"' in drawing.draw(spec(), "a").wide


def test_no_id_is_shared_between_two_pictures() -> None:
    chart = (
        alt.Chart(pd.DataFrame({"x": [1, 2], "y": [1, 2]}))
        .mark_line(clip=True)
        .encode(x="x", y="y")
        .to_dict()
    )
    ids = [
        found
        for name in ("a", "b")
        for svg in (drawing.draw(chart, name).wide, drawing.draw(chart, name).narrow)
        for found in set(re.findall(r' id="([^"]+)"', svg))
    ]
    assert len(ids) == len(set(ids)) >= 4


def test_the_surroundings_are_put_back(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TZ", "Asia/Tokyo")
    monkeypatch.delenv("FONTCONFIG_FILE", raising=False)
    drawing.draw(spec(), "a")
    assert os.environ["TZ"] == "Asia/Tokyo"
    assert "FONTCONFIG_FILE" not in os.environ


def test_the_calendar_can_be_narrowed_only_where_there_is_one() -> None:
    assert drawing.draw(spec(), "a", over_time=True).over_time
    rates = PAGE.sections[3].blocks[1]
    assert not drawing.draw(spec(rates), "a", over_time=True).over_time


def test_the_living_chart_names_no_address() -> None:
    live = drawing.draw(spec(), "a").live
    assert "http" not in live
    assert "$schema" not in json.loads(live)


def test_the_living_chart_carries_every_row_by_columns() -> None:
    rows = [{"x": n, "y": n / 8, "kind": "made"} for n in range(5)]
    chart = alt.Chart({"values": rows}).mark_point().encode(x="x:Q", y="y:Q").to_dict()
    table = json.loads(drawing.draw(chart, "a").live)["data"][0]
    columns = table["values"]["columns"]
    assert [dict(zip(columns, cells, strict=True)) for cells in zip(*columns.values(), strict=True)] == rows


def test_rows_that_lack_a_cell_stay_rows() -> None:
    rows: list[dict[str, float]] = [{"x": 1, "y": 2}, {"x": 1}]
    chart = alt.Chart({"values": rows}).mark_point().encode(x="x:Q").to_dict()
    assert json.loads(drawing.draw(chart, "a").live)["data"][0]["values"] == rows


def test_a_chart_that_points_at_a_file_is_refused() -> None:
    chart = alt.Chart("elsewhere.csv").mark_point().encode(x="x:Q").to_dict()
    with pytest.raises(ValueError, match="carries its data inside"):
        drawing.draw(chart, "a")


def test_a_facetted_chart_is_refused() -> None:
    chart = (
        alt.Chart(pd.DataFrame({"x": [1, 2], "f": ["a", "b"]}))
        .mark_point()
        .encode(x="x", column="f")
        .to_dict()
    )
    with pytest.raises(ValueError, match="one width"):
        drawing.draw(chart, "a")


def test_hostile_words_in_the_data_are_words_in_the_picture() -> None:
    hostile = sample.page("</text><script>alert(1)</script>")
    drawn = drawing.draw(spec(hostile.sections[1].blocks[0]), "a")
    assert "<script" not in drawn.wide
    assert "&lt;script" in drawn.wide
