"""What `rules` prints: everything in force, with unit, status and source."""

import re

import pytest

from reportgen.model.lifter import CoachBand
from reportgen.trade import load
from reportgen.words import listing, messages
from reportgen.words.listing import Listed

TRADE = load()
STATUSES = {v for k, v in messages.messages("rules").items() if k.startswith("rules.status.")}
OWN = (CoachBand(indicator="back_squat", low=1.55, high=None),)


def rows(group: str, *, goal_lift: str = "", bands: tuple[CoachBand, ...] = ()) -> list[Listed]:
    return [row for row in listing.listed(TRADE, bands, goal_lift=goal_lift) if row.group.startswith(group)]


def test_every_rule_band_norm_checkpoint_and_coefficient_is_listed() -> None:
    text = listing.listing(TRADE)
    for name in (*TRADE.rules, *TRADE.positions, *TRADE.checkpoints, *TRADE.published):
        assert re.search(rf"^{re.escape(name)} ", text, re.MULTILINE), name
    assert len(rows("Bands")) == len(TRADE.bands)
    assert len(rows("Sinclair")) == len(TRADE.sinclair) + len(TRADE.sinclair_unknown)
    assert len(rows("Prilepin")) == len(TRADE.zones)


def test_every_listed_number_has_a_status_and_a_source_that_is_printed() -> None:
    sources = listing.listing(TRADE).split("\nSources\n")[1]
    for row in listing.listed(TRADE):
        if row.value not in ("graded only", "no norm", "not known"):
            assert row.status in STATUSES, row.id
            assert TRADE.sources[row.source].citation in sources, row.id


def test_a_coachs_band_stands_in_place_and_is_shown_as_the_coachs() -> None:
    squat = [row for row in rows("Bands for a snatch goal", bands=OWN) if row.id.startswith("back_squat")]
    assert [(row.value, row.status, row.source) for row in squat] == [
        ("back squat: 1.55 and over", "the coach's own", "coach")
    ] * 2
    assert squat[0].note == "In place of 1.6 to 1.8 (common practice)."


def test_a_coachs_band_for_one_goal_leaves_the_other_goals_bands_alone() -> None:
    other = [
        row
        for row in rows("Bands for a clean and jerk goal", bands=OWN, goal_lift="snatch")
        if row.id == "back_squat, men"
    ]
    assert [(row.value, row.source) for row in other] == [("back squat: 1.2 to 1.35", "practice")]


def test_context_is_listed_apart_from_the_bands_that_can_become_needs() -> None:
    context = {row.group for row in rows("Bands") if row.unit == "share of the present lift"}
    assert context == {f"Bands for a {lift} goal, context only" for lift in ("snatch", "clean and jerk")}


def test_the_text_is_aligned_and_without_trailing_spaces() -> None:
    lines = listing.listing(TRADE, OWN).splitlines()
    assert all(line == line.rstrip() for line in lines)
    start = lines.index("Rules: contest") + 2
    table = [line for line in lines[start : lines.index("", start)] if not line.startswith("    ")]
    units = [TRADE.rules[line.split()[0]].unit for line in table]
    assert len({line.index(f"  {unit} ") for line, unit in zip(table, units, strict=True)}) == 1


@pytest.mark.parametrize(
    ("part", "unit"),
    [("low hang snatch: 0.78", "short"), ("Short under 1.5.", ""), ("Short at or under 1.", "")],
)
def test_a_band_says_from_where_it_is_short(part: str, unit: str) -> None:
    found = " ".join(f"{row.value} {row.note}" for row in rows("Bands"))
    assert (part in found) is (unit == "")
