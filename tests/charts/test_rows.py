"""Tables of charts: plain cells, named once, carried along without being copied."""

import copy

import altair as alt
import pandas as pd
import pytest

from reportgen.charts.rows import Rows, chart


def datasets(found: alt.Chart | alt.LayerChart | alt.FacetChart) -> dict[str, list[dict[str, object]]]:
    sets: dict[str, list[dict[str, object]]] = found.to_dict()["datasets"]
    return sets


def test_cells_are_plain_and_what_is_missing_is_null() -> None:
    frame = pd.DataFrame(
        {
            "date": pd.Series(["2026-03-02", None]).astype("datetime64[s]"),
            "load": [60.5, float("nan")],
            "word": pd.Series(["made", None], dtype="str"),
            "whole": [1, 2],
            "sure": [True, False],
        }
    )
    (rows,) = datasets(chart(frame).mark_point().encode(x="date:T")).values()
    assert rows == [
        {"date": "2026-03-02T00:00:00", "load": 60.5, "word": "made", "whole": 1, "sure": True},
        {"date": None, "load": None, "word": None, "whole": 2, "sure": False},
    ]
    assert [type(cell) for cell in rows[0].values()] == [str, float, str, int, bool]


def test_layers_of_one_table_carry_it_once_and_layers_of_two_carry_both() -> None:
    rows: list[dict[str, object]] = [{"x": 1}, {"x": 2}]
    layers = [chart(rows).mark_point().encode(x="x:Q") for _ in range(2)]
    layers.append(chart([{"x": 3}]).mark_rule().encode(x="x:Q"))
    assert sorted(map(len, datasets(alt.layer(*layers)).values())) == [1, 2]


def test_a_copied_chart_shares_its_rows() -> None:
    table = Rows([{"x": 1}])
    assert copy.deepcopy(alt.Chart(table)).data is table


def test_a_number_that_json_has_not_is_refused() -> None:
    with pytest.raises(ValueError, match="JSON"):
        chart([{"x": float("inf")}])
