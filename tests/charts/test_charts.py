"""Charts: golden specs, colours by role only, nothing computed in the chart, nothing smaller than 12 px."""

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import pandas as pd
import pytest

from reportgen.charts import Palette, draw, progress
from reportgen.charts.drawing import CHARTS
from reportgen.model.lifter import Goal
from reportgen.pages import drawing
from reportgen.trade import load
from reportgen.view import build
from reportgen.view.options import Small
from reportgen.view.page import Figure, Finding, Picture
from reportgen.words import another_tongue
from reportgen.words.numbers import Unit
from tests import kept
from tests.each import each
from tests.view import sample
from tests.view.reading import page_of

Pictures = dict[str, Picture]
Specs = dict[str, dict[str, Any]]


def drawn(figures: Pictures) -> Specs:
    return {name: draw(figure).to_dict() for name, figure in figures.items()}


def figures() -> Pictures:
    pages = (build(sample.full(), load(), edition="season"), build(sample.full(), load()))
    blocks = [block for page in pages for section in page.sections for block in section.blocks]
    smalls = [b.small for b in blocks if isinstance(b, Finding) and b.small is not None]
    return {one.chart: one for one in [*(b for b in blocks if isinstance(b, Figure)), *smalls]}


@pytest.fixture(scope="module")
def made() -> Pictures:
    return kept.once("figures of the sample", figures)


@pytest.fixture(scope="module")
def specs(made: Pictures) -> Specs:
    return kept.once("specs of the sample", lambda: drawn(made))


def parts(value: object) -> Iterator[tuple[str, object]]:
    """Every key and value of a spec, all the way down."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield str(key), inner
            yield from parts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from parts(inner)


def without_data(spec: dict[str, Any]) -> dict[str, Any]:
    """The spec with each data set as its columns only: what the chart decides, not what the log holds.

    `$schema` goes, too: it names the edition of the grammar that altair was made with. Nothing else may
    differ between the altairs that pyproject.toml allows; .ci/floors compares with the lowest and newest.
    """
    bare: dict[str, Any] = json.loads(json.dumps(spec))
    assert bare.pop("$schema").startswith("https://vega.github.io/schema/vega-lite/v6.")
    names = {name: f"data-{n}" for n, name in enumerate(bare.pop("datasets"))}
    columns = {
        names[name]: sorted({k for row in rows for k in row}) for name, rows in spec["datasets"].items()
    }
    text = json.dumps(bare)
    for name, plain in names.items():
        text = text.replace(name, plain)
    named: dict[str, Any] = json.loads(text)
    return named | {"datasets": columns}


def test_every_chart_is_drawn_from_the_sample(made: Pictures) -> None:
    assert set(made) == set(CHARTS)


@pytest.mark.parametrize("name", sorted(CHARTS))
def test_a_spec_is_the_one_that_was_read_and_accepted(
    name: str, golden: Callable[[str, object], None], specs: Specs
) -> None:
    golden(f"chart_{name}", without_data(specs[name]))


@pytest.mark.parametrize("name", sorted(CHARTS))
def test_no_chart_is_drawn_twice_at_one_width(name: str, drawings: list[float], specs: Specs) -> None:
    # What stands beside its plot is what `pages.drawing` reckons with; else writing takes half as long again.
    drawing.draw(specs[name], name)
    assert len(drawings) == 2


@each("name", sorted(CHARTS))
def test_a_chart_only_maps_columns_to_marks(name: str, specs: Specs) -> None:
    keys = {key for key, _ in parts({k: v for k, v in specs[name].items() if k != "datasets"})}
    assert not keys & {"transform", "aggregate", "bin", "timeUnit", "impute", "stack"}


@each("name", sorted(CHARTS))
def test_colours_are_roles_of_the_page(name: str, specs: Specs) -> None:
    spec = {k: v for k, v in specs[name].items() if k != "datasets"}
    named = {"color", "fill", "stroke", "labelColor", "titleColor", "gridColor", "domainColor", "tickColor"}
    plain = [v for k, v in parts(spec) if k in named and isinstance(v, str)]
    assert plain
    assert all(v.startswith("var(--") for v in plain)
    assert not re.findall(r"#[0-9a-fA-F]{3,8}\b|rgba?\(", json.dumps(spec))


@each("name", sorted(CHARTS))
def test_no_colour_scale_interpolates(name: str, specs: Specs) -> None:
    spec = {k: v for k, v in specs[name].items() if k != "datasets"}
    coloured = [
        v for k, v in parts(spec) if k in ("color", "fill", "stroke") and isinstance(v, dict) and "field" in v
    ]
    assert all(v["type"] in ("nominal", "ordinal") for v in coloured)


@each("name", sorted(CHARTS))
def test_text_is_never_under_twelve_pixels(name: str, specs: Specs) -> None:
    sizes = [v for k, v in parts(specs[name]) if k in ("fontSize", "labelFontSize", "titleFontSize")]
    assert sizes
    assert all(isinstance(v, int | float) and v >= 12 for v in sizes)


@each("name", sorted(CHARTS))
def test_a_chart_fits_its_width_and_says_nothing_to_a_screen_reader(name: str, specs: Specs) -> None:
    spec = specs[name]
    assert isinstance(spec["width"], int)
    assert spec["autosize"] == {"type": "fit-x", "contains": "padding"}
    assert spec["config"]["aria"] is False
    assert not {key for key, _ in parts(spec)} & {"hconcat", "vconcat", "concat", "facet", "url"}


@each("name", sorted(CHARTS))
def test_every_table_row_has_a_reading_in_plain_words(name: str, made: Pictures) -> None:
    # What others are held against, with labels.
    lines = ("bands", "levels", "events") if name == "small" else ()
    for table in (one for part, one in made[name].data.items() if part not in lines):
        assert "reading" in table.columns
        assert all(isinstance(words, str) and words for words in table["reading"])


@each("case", ["missed_at_the_jerk", "squat_chaser", "youth"])
def test_a_small_picture_names_its_places_heights_and_shares(case: str) -> None:
    blocks = [block for section in page_of(case).sections for block in section.blocks]
    smalls = [b.small for b in blocks if isinstance(b, Finding) and b.small is not None]
    named = [one for one in smalls if (o := one.given(Small)).places or o.rungs or o.share]
    assert named
    for one in named:
        shown = one.given(Small)
        told = " ".join(str(value) for key, value in parts(draw(one).to_dict()) if key == "labelExpr")
        assert all(f"'{name}'" in told for name in (*shown.places, *(word for _, word in shown.rungs)))
        assert ("' %'" in told) is shown.share


def test_a_palette_of_plain_colours_is_taken_as_it_is(made: Pictures) -> None:
    red = draw(made["miss_kinds"], Palette(missed="#aa0000")).to_dict()
    assert "#aa0000" in json.dumps(red)


def test_a_mark_looks_the_same_in_every_chart(specs: Specs) -> None:
    looks: dict[str, set[str]] = {}
    for spec in specs.values():
        for key, value in parts({k: v for k, v in spec.items() if k != "datasets"}):
            if key == "shape" and isinstance(value, dict) and "scale" in value:
                for kind, shape in zip(value["scale"]["domain"], value["scale"]["range"], strict=True):
                    looks.setdefault(kind, set()).add(shape)
    assert {"made", "missed", "test day"} <= set(looks)
    assert all(len(shapes) == 1 for shapes in looks.values())


def test_the_name_of_an_ordinary_day_stands_where_no_mark_and_no_line_is(made: Pictures) -> None:
    figure = made["running_best"]
    able, low = figure.data["ability"].iloc[:8], float(figure.data["ability"]["low"].min())
    days = figure.data["attempts"].iloc[[0]]
    domain = (low - 30, low + 30)
    free = progress._room(able, figure, domain)
    taken = days.assign(date=able["date"].iloc[free[0]], weight=able["low"].iloc[free[0]] - 2)
    beside = replace(figure, data=figure.data | {"attempts": pd.concat([figure.data["attempts"], taken])})
    assert not free[1]
    assert progress._room(able, beside, domain) != free


def test_the_same_figure_gives_the_same_spec_twice(specs: Specs) -> None:
    assert drawn(figures()) == specs


@each("unit", ["kg", "lb"])
def test_a_goal_set_by_body_mass_is_a_line_that_moves_over_the_bar_and_no_picture_apart(unit: Unit) -> None:
    lifter = replace(sample.LIFTER, goals=(Goal(lift="snatch", times_body_mass=1.0),), unit=unit)
    bare = sample.bare(lifter)
    shown = {b.id: b for s in build(bare, load()).sections for b in s.blocks if isinstance(b, Figure)}
    goal = shown["running-best"].data["goal"]
    last = bare.tables.bodymass["mass_kg"].iloc[-1] / (1.0 if unit == "kg" else 0.45359237)
    assert goal["weight"].iloc[-1] == pytest.approx(last, abs=0.01)
    assert goal["weight"].nunique() > 3
    assert "body-mass" not in shown
    assert "datasets" in draw(shown["running-best"]).to_dict()


def test_shares_on_an_axis_are_written_as_on_the_page(specs: Specs) -> None:
    axes = [
        value
        for spec in specs.values()
        for key, value in parts(spec)
        if key == "axis" and isinstance(value, dict) and value.get("format") == "%"
    ]
    assert len(axes) >= 3
    assert all(axis["labelExpr"] == "replace(datum.label, '%', ' %')" for axis in axes)


def test_a_figure_without_the_options_that_its_chart_draws_by_is_refused(made: Pictures) -> None:
    with pytest.raises(TypeError, match="running-best"):
        draw(replace(made["running_best"], options=None))


def test_a_legend_speaks_the_tongue_of_the_page_and_keeps_its_marks(made: Pictures) -> None:
    with another_tongue(lambda words: f"<{words}>"):
        spec = draw(made["running_best"]).to_dict()
    scales = [value["scale"] for key, value in parts(spec) if key == "shape" and isinstance(value, dict)]
    assert scales
    assert all(name.startswith("<") for scale in scales for name in scale["domain"])
    rows = [row for rows in spec["datasets"].values() for row in rows if "mark" in row]
    assert {row["mark"] for row in rows} == set(scales[0]["domain"])
