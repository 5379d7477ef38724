"""From several repetitions to the single, against the printed chart and formulas (status R, products C)."""

import pytest

from reportgen.trade import formulas, load

NSCA = {1: 1.00, 2: 0.95, 3: 0.93, 4: 0.90, 5: 0.87, 6: 0.85, 7: 0.83, 8: 0.80, 9: 0.77, 10: 0.75, 12: 0.70}


def test_the_load_chart_is_the_printed_one() -> None:
    # R: NSCA load chart; it skips 11.
    assert load().reps_table == NSCA
    assert [load().reps_table.get(reps) for reps in (5, 11, 15)] == [0.87, None, None]


@pytest.mark.parametrize(
    ("load_kg", "reps", "single_kg"), [(100, 5, 116.667), (80, 3, 88.000), (120, 6, 144.000)]
)
def test_epley_with_a_thirtieth(load_kg: float, reps: int, single_kg: float) -> None:
    # R: Epley 1985, w (1 + r/30); C.
    assert formulas.epley(load_kg, reps, load()) == pytest.approx(single_kg, abs=5e-4)


def test_nothing_is_estimated_for_the_classic_lifts() -> None:
    # Nuzzo et al., Sports Med 2024;54:303-321 (S): the relation differs by exercise.
    estimable = {name for name, lift in load().lifts.items() if lift.estimable}
    assert estimable == {"back squat", "front squat", "strict press"}
    assert not any(load().lifts[name].classic for name in estimable)


def test_doubles_and_triples_of_the_snatch_stand_where_practice_has_them() -> None:
    # P: a double at about 0.90, a triple at about 0.85; factors used 0.90 to 0.96 and 0.85 to 0.92.
    rules = [f"{name}_share_{end}" for name in ("double", "triple") for end in ("low", "high")]
    assert [load().value(rule) for rule in rules] == [0.90, 0.96, 0.85, 0.92]
    assert {load().rules[rule].status for rule in rules} == {"P"}
    near_100_kg = [load().published[key].mid for key in ("double_near_100_kg", "triple_near_100_kg")]
    assert near_100_kg == [10, 15]
