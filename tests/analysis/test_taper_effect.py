"""What a lifter's own tapers gave: told by form and not by a best, which is also luck."""

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace
from typing import cast

from reportgen.analysis import form
from reportgen.analysis.block import span
from reportgen.analysis.block.setting import Setting
from reportgen.analysis.outlook import Outlook
from reportgen.model import peaks
from reportgen.model.peaks import TaperEffect
from reportgen.trade import load

TRADE = load()


def tapered(
    days: int, *, form_share: float | None, gain_kg: float, lift: str = "snatch"
) -> peaks.TestDayFact:
    """A test day after a taper of so many days."""
    day = dt.date(2026, 3, 28)
    return peaks.TestDayFact(
        date=day, kind="contest", event="", lift=lift, best_kg=90.0, previous_best_kg=90.0 - gain_kg,
        gain_kg=gain_kg, gain_share=gain_kg / 90, tried=3, made=2, effect_share=form_share,
        scatter_share=0.02,
        taper=peaks.TaperFact(
            start=day - dt.timedelta(days=days), days=days, volume_cut=days / 20, load_change=0.0,
            reading="usual",
        ),
    )  # fmt: skip


def own(*tests: peaks.TestDayFact, what: str = "days") -> float | None:
    found = _own(*tests)
    return found.own_days if what == "days" else found.own_cut


def _own(*tests: peaks.TestDayFact) -> span.OwnTapers:
    given = SimpleNamespace(
        facts=SimpleNamespace(test_days=tests), goal_lifts=("snatch",), trade=TRADE,
        carried=SimpleNamespace(less_trained=False),
    )  # fmt: skip
    return span._own(cast("Setting", given))


def test_one_own_taper_moves_the_next_one_a_little_and_several_move_it_most_of_the_way() -> None:
    one, three = (tapered(10, form_share=0.03, gain_kg=0.0) for _ in range(2)), []
    for weeks in (0, 10, 20):
        test = tapered(10, form_share=0.03, gain_kg=0.0)
        assert test.taper is not None
        start = test.taper.start
        assert start is not None
        three.append(replace(test, taper=replace(test.taper, start=start - dt.timedelta(weeks=weeks))))
    usual, few, many = (_own(*tests) for tests in ((), one, three))
    assert usual.cut < few.cut < many.cut <= 0.5
    assert usual.days <= few.days <= many.days <= 10


def test_a_taper_that_gave_form_counts_without_a_best_and_a_best_without_form_does_not() -> None:
    helped = tapered(8, form_share=0.03, gain_kg=-1.0)
    lucky = tapered(20, form_share=0.0, gain_kg=3.0)
    assert own(helped, lucky) == 8
    assert own(helped, lucky, what="cut") == 0.4
    assert own(lucky) is None


def test_a_taper_whose_form_nobody_knows_and_one_of_another_lift_say_nothing() -> None:
    unknown = tapered(8, form_share=None, gain_kg=3.0)
    other = tapered(8, form_share=0.05, gain_kg=3.0, lift="clean and jerk")
    assert own(unknown, other) is None


def test_the_pooled_effect_is_a_fact_only_where_a_taper_of_the_lifters_own_is_in_it() -> None:
    nothing = Outlook(ability=(), lifts={}, taper=form.pooled((), TRADE), arrival=None, trend=None)
    assert nothing.effect is None
    gave = form.pooled((TaperEffect(share=0.04, low=0.01, high=0.07, tapers=1),), TRADE)
    told = replace(nothing, taper=gave, tapers=1).effect
    assert told is not None
    assert (told.share, told.low, told.high, told.tapers) == (gave.share, gave.low, gave.high, 1)
