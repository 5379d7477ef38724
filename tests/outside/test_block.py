"""The proposal against figures from outside: Prilepin's counts, published tapers, attempts."""

import pytest

from reportgen.trade import formulas, load

TRADE = load()


@pytest.mark.parametrize(
    ("reps", "share", "taken"),
    # Prilepin's table as reported (R), worked counts (C): 5 x 3 at 75 % = 15 inside; 6 x 2 at 82.5 % = 12
    # inside; 8 x 1 at 92 % = 8 of 10; 5 x 5 at 85 % = 25 above 20.
    [(15, 0.75, 15 / 24), (12, 0.825, 12 / 20), (8, 0.92, 8 / 10), (25, 0.85, 25 / 20)],
)
def test_a_session_takes_up_so_much_of_prilepins_upper_bound(reps: int, share: float, taken: float) -> None:
    by_zone = [0.0] * len(TRADE.zones)
    by_zone[formulas.zone_index(share, TRADE.zones)] = reps
    assert formulas.prilepin_load(by_zone, TRADE.zones) == pytest.approx(taken)


def test_the_proposed_taper_lies_where_weightlifters_put_theirs() -> None:
    # Winwood et al. 2023 (S): 8.0 +- 4.4 days, cut 43.1 +- 14.6 %. Travis et al. 2021 (S): 7-10 days.
    value = TRADE.value
    assert 8.0 - 4.4 <= value("taper_days_low") <= value("taper_days_high") <= 8.0 + 4.4
    assert 0.431 - 0.146 <= value("taper_volume_cut_low") <= value("taper_volume_cut_high") <= 0.431 + 0.146
    assert (value("taper_days_low"), value("taper_days_high")) == (7, 10)


def test_the_medians_beside_the_attempts_are_the_published_ones() -> None:
    # Senior internationals 1998-2023, 32 242 lifter-meets (C).
    made = {"snatch": (0.774, 0.635, 0.456), "clean_and_jerk": (0.812, 0.613, 0.368)}
    for lift, shares in made.items():
        for attempt, share in zip(("first", "second", "third"), shares, strict=True):
            assert TRADE.published[f"{lift}_made_{attempt}"].mid == share


@pytest.mark.parametrize(
    ("tries", "faults"),
    # Federation's rules (S): whole kilograms, never down, +1 after a make, three attempts.
    [
        ([(90, True), (94, True), (97, False)], 0),
        ([(90, False), (90, True), (91, True)], 0),
        ([(90, True), (90, True)], 1),
        ([(90, False), (89, True)], 1),
        ([(90.5, True)], 1),
    ],
)
def test_attempts_are_judged_by_the_federations_rules(tries: list[tuple[float, bool]], faults: int) -> None:
    assert len(formulas.attempt_faults(tries, TRADE)) == faults
