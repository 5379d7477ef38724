"""Norms, checkpoints and published figures, against section 6, 9 and 10 of the check values."""

import pytest

from reportgen.trade import load

TRADE = load()


@pytest.mark.parametrize(
    ("name", "unit", "norm", "status", "change", "side"),
    [
        ("shoulder flexion", "degrees", 180, "S", 5, None),  # AAOS; 5 degrees: a phone's angle
        ("wrist extension", "degrees", 70, "S", 5, None),  # AAOS
        ("thoracic rotation", "degrees", 45, "S", 6, None),  # AMA; Johnson et al. 2012: under 6 is noise
        ("hip flexion", "degrees", 120, "M", 5, None),  # from memory
        ("knee to wall", "cm", 10, "M", 1.0, 1.5),  # limited under about 9 to 10 cm M; Chisholm et al. 2012 S
    ],
)
def test_a_norm_is_the_one_of_its_source(
    name: str, unit: str, norm: float, status: str, change: float, side: float | None
) -> None:
    found = TRADE.positions[name]
    assert (found.unit, found.norm, found.norm_status) == (unit, norm, status)
    assert (found.smallest_real_change, found.smallest_side_difference) == (change, side)


def test_the_three_questions_of_a_screening_are_kept_apart() -> None:
    kinds: dict[str, list[str]] = {}
    for name, one in TRADE.positions.items():
        kinds.setdefault(one.kind, []).append(name)
    assert kinds["control"] == ["dowel snatch", "dowel overhead squat", "pause in the bottom"]
    assert kinds["compensation"] == ["wrist laid back", "trunk inclination"]
    assert kinds["laxity"] == ["Beighton score"]
    assert len(kinds["flexibility"]) == 7


def test_every_area_is_one_of_the_mobility_log() -> None:
    areas = set(TRADE.words["area"].values())
    for one in TRADE.positions.values():
        assert set(one.areas) <= areas
        assert one.area in one.areas or (one.kind == "laxity" and not one.area)


def test_loose_joints_start_where_the_criteria_of_2017_have_them() -> None:
    # R
    names = ["beighton_child", "beighton_adult", "beighton_over_50"]
    assert [TRADE.value(name) for name in names] == [6, 5, 4]


def test_checkpoints_stand_in_the_order_of_the_model() -> None:
    found = list(TRADE.checkpoints.values())
    assert [one.order for one in found] == list(range(1, 15))
    phases = list(dict.fromkeys(one.phase for one in found))
    assert phases == [
        "start",
        "first pull",
        "transition",
        "second pull",
        "pull under",
        "receiving",
        "recovery",
    ]
    assert all(one.name.startswith(one.phase) for one in found)
    departures = {one.name for one in found if one.departure}
    assert departures == {"start hips", "start shoulders", "pull under feet"}


@pytest.mark.parametrize(
    ("key", "low", "mid", "high", "status"),
    [
        ("taper_cut_bosquet", 0.41, None, 0.60, "S"),
        ("taper_days_bosquet", None, 14, None, "S"),
        ("taper_gain_mujika", 0.005, 0.03, 0.06, "S"),
        ("taper_days_mujika", 4, None, 28, "S"),
        ("taper_days_winwood", 8.0 - 4.4, 8.0, 8.0 + 4.4, "S"),
        ("taper_cut_winwood", 0.431 - 0.146, 0.431, 0.431 + 0.146, "S"),
        ("taper_stop_winwood", 1.5 - 0.6, 1.5, 1.5 + 0.6, "S"),
        ("taper_days_travis_2021", 7, None, 10, "S"),
        ("taper_cut_travis_2021", 0.41, None, 0.50, "S"),
        ("taper_days_travis_2020", 7, None, 28, "R"),
        ("taper_cut_travis_2020", 0.31, None, 0.72, "R"),
        ("acsm_days_novice", 2, None, 3, "S"),
        ("acsm_days_intermediate", 3, None, 4, "S"),
        ("block_gain", 2.5, None, 5, "P"),
        ("record_prediction_error", 0.067, None, 0.081, "S"),
    ],
)
def test_a_published_figure_is_the_one_of_its_source(
    key: str, low: float | None, mid: float | None, high: float | None, status: str
) -> None:
    found = TRADE.published[key]
    assert (found.low, found.mid, found.high) == pytest.approx((low, mid, high))
    assert found.status == status


def test_the_reading_of_a_taper_is_the_one_decided() -> None:
    names = ["taper_short_days", "taper_long_days", "taper_cut_low", "taper_cut_high", "taper_load_kept"]
    assert [TRADE.value(name) for name in names] == [5, 21, 0.30, 0.60, 0.10]
