"""The grammar of shorthand: what each notation gives, and what can be read in two ways."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.intake.shorthand import entry
from reportgen.intake.tokens import SIGNS, Unclear, Use
from reportgen.intake.use import learn
from reportgen.model.say import NOTHING
from reportgen.words import as_json

Set = tuple[float, int, str, str]


def shown(text: str, use: Use) -> list[str]:
    """Each set as `load unit x repetitions x sets`, with what was made where that is less."""
    got = entry(text, use)
    assert not isinstance(got, Unclear), got
    lines = []
    for one in got:
        reps = "+".join(map(str, one.reps))
        made = "" if one.made is None else " made " + "+".join(map(str, one.made))
        more = f" @{one.effort:g}" if one.effort else ""
        more += f" {one.variant}" if one.variant else ""
        more += f" {one.aid}" if one.aid else ""
        lines.append(f"{one.load:g}{one.unit}x{reps}x{one.sets}{made}{more}")
    return lines


PLAIN = Use(bar=15)
READ = {
    "70": ["70x1x1"],
    "70x2": ["70x2x1"],
    "43 ❌❌✅": ["43x1x1 made 0", "43x1x1 made 0", "43x1x1"],
    "70x2 ✅❌": ["70x2x1 made 1"],
    "48x1x3 ✅": ["48x1x3"],
    "46 🔥PR!!": ["46x1x1"],
    "worked to 90": ["90x1x1"],
    "70x2, built up to 92x1": ["70x2x1", "92x1x1"],
    "top set 95": ["95x1x1"],
    "70x2 rpe 7.3": ["70x2x1 @7.3"],
    "70/2x3": ["70x2x3"],
    "70x2x3": ["70x2x3"],
    "70 × 2 × 3": ["70x2x3"],
    "70*2*3": ["70x2x3"],
    "70 х 2": ["70x2x1"],
    "3x2@70": ["70x2x3"],
    "3 × 2 with 70": ["70x2x3"],
    "3x2 70": ["70x2x3"],
    "3x2x70": ["70x2x3"],
    "70kg 3x3": ["70kgx3x3"],
    "3 sets of 2 @ 70": ["70x2x3"],
    "70kg 3 sets x 2 reps": ["70kgx2x3"],
    "3 подхода по 2 с 70": ["70x2x3"],
    "2@70": ["70x2x1"],
    "70x2, 75x2, 80": ["70x2x1", "75x2x1", "80x1x1"],
    "60x3 70x2 80x1": ["60x3x1", "70x2x1", "80x1x1"],
    "60x2 + 65x2": ["60x2x1", "65x2x1"],
    "60-65-70": ["60x1x1", "65x1x1", "70x1x1"],
    "60/65/70": ["60x1x1", "65x1x1", "70x1x1"],
    "70x2,2,1": ["70x2x1", "70x2x1", "70x1x1"],
    "3x2@60/65/70": ["60x2x1", "65x2x1", "70x2x1"],
    "154 lb x 3": ["154lbx3x1"],
    "70 kg (154 lb) x2": ["70kgx2x1"],
    "60x1+1": ["60x1+1x1"],
    "3x(1+2)@60": ["60x1+2x3"],
    "60x(1+2)x3": ["60x1+2x3"],
    "70x2 @8": ["70x2x1 @8"],
    "70 @8.5": ["70x1x1 @8.5"],
    "70x2 RPE 8": ["70x2x1 @8"],
    "70x2 (80%)": ["70x2x1"],
    "70x2 paused": ["70x2x1 paused"],
    "70x3 straps": ["70x3x1 straps"],
    "bar x5, 40x3": ["15x5x1", "40x3x1"],
    "70x2 felt good, 75": ["70x2x1", "75x1x1"],
    "70 miss": ["70x1x1 made 0"],
    "70✗": ["70x1x1 made 0"],
    "70 ❌": ["70x1x1 made 0"],
    "70 no": ["70x1x1 made 0"],
    "70 no lift": ["70x1x1 made 0"],
    "70x0": ["70x1x1 made 0"],
    "70x2(1)": ["70x2x1 made 1"],
    "70x3 missed 3rd": ["70x3x1 made 2"],
    "70x3 (2 made)": ["70x3x1 made 2"],
    "80 xxo": ["80x1x1 made 0", "80x1x1 made 0", "80x1x1"],
    "80 o": ["80x1x1"],
    "70x2, no misses": ["70x2x1"],
}
TWO_WAYS = {
    "3x70": ("3 repetitions with 70", "3 singles with 70"),
    "5x3": ("3 repetitions with 5", "5 sets of 3 with no load given"),
    "70-75": ("a load between 70 and 75", "70, then 75"),
    "70,5": ("70.5", "70, then 5"),
    "70 x": ("70 missed", "70 made"),
    "70-": ("70 missed", "70 made"),
    "-70": ("70 missed", "70 made"),
    "(70)": ("70 missed", "70 made"),
    "70 f": ("70 missed", "70 made"),
    "70x3(2)": ("2 made", "2 missed"),
    "70: 3x2": ("3 sets of 2", "2 sets of 3"),
}
NEITHER = (
    "",
    "x",
    "BW x 5",
    "60%x3",
    "5x2@80%",
    "70 x 72",
    "EMOM 60x1",
    "70x2 missed",
    "70x3x2 fail",
    "700",
    "70x101",
)


@pytest.mark.parametrize("text", READ)
def test_a_notation_gives_its_sets(text: str) -> None:
    use = Use(bar=15) if "70,5" not in text else PLAIN
    assert shown(text, use) == READ[text]


@pytest.mark.parametrize("text", TWO_WAYS)
def test_what_can_be_read_in_two_ways_is_told_with_both(text: str) -> None:
    got = entry(text, PLAIN)
    assert isinstance(got, Unclear)
    assert as_json(got.readings) == [*TWO_WAYS[text]]
    assert got.want != NOTHING


@pytest.mark.parametrize("text", NEITHER)
def test_what_gives_no_sets_says_what_was_expected(text: str) -> None:
    got = entry(text, PLAIN)
    assert isinstance(got, Unclear)
    assert got.want != NOTHING


def test_sources_settle_what_can_be_read_in_two_ways() -> None:
    assert shown("3x70", Use(order=("reps", "load"))) == ["70x3x1"]
    assert shown("3x70", Use(order=("sets", "load"))) == ["70x1x3"]
    assert shown("70x3x2", Use(order=("load", "sets", "reps"))) == ["70x2x3"]
    assert shown("70,5", Use(comma="decimal")) == ["70.5x1x1"]
    assert shown("70 x", Use(signs=frozenset("x"))) == ["70x1x1 made 0"]
    assert shown("(70)", Use(plain=frozenset({"()"}))) == ["70x1x1"]


def test_a_sign_means_a_miss_where_the_log_shows_it() -> None:
    top = [
        ("snatch", "60, 70, 75 x"),
        ("snatch", "60, 72, (74)"),
        ("snatch", "70, 76 x"),
        ("snatch", "50 f, 70"),
    ]
    use = learn(top, PLAIN, decimal_comma=False)
    assert use.signs == {"x"}  # brackets stand once, f at a light load
    warm = [("snatch", "(30), (40), 60, 70"), ("snatch", "(30), 60, 70")]
    assert learn(warm, PLAIN, decimal_comma=False).signs == set()


def test_a_comma_is_what_the_log_shows() -> None:
    halves = [("snatch", "62,5x2"), ("snatch", "70, 72,5")]
    assert learn(halves, PLAIN, decimal_comma=True).comma == "decimal"
    assert learn(halves, PLAIN, decimal_comma=False).comma == ""
    assert learn([("snatch", "62.5x2"), ("snatch", "70,75,80")], PLAIN, decimal_comma=True).comma == "list"


_PIECES = (
    "70|2|3|62,5|62.5|0|x|×|/|*|@|(|)|-|+|,|;| |kg|lb|%|✗|✓|miss|no misses|f|o|rpe|8|bar|sets|of|reps|٣|½|💥"
)
PIECES = st.sampled_from([*_PIECES.split("|"), "1+1", "paused", "straps", ":", "?", "x2", "\n", "9" * 30])


@settings(max_examples=300, deadline=None)
@given(st.one_of(st.lists(PIECES, max_size=14).map("".join), st.text(max_size=40)), st.booleans())
def test_no_text_raises_and_what_is_read_is_inside_the_bounds(text: str, looking: bool) -> None:
    use = Use(bar=20, looking=looking, signs=frozenset(SIGNS[:2]))
    got = entry(text, use)
    if not isinstance(got, Unclear):
        for one in got:
            assert 0 < one.load <= 1323
            assert 1 <= one.sets <= 50
            assert all(1 <= reps <= 100 for reps in one.reps)
            assert one.made is None or all(0 <= a <= b for a, b in zip(one.made, one.reps, strict=True))


@pytest.mark.parametrize(
    "text",
    [
        *("80 almost", "80 couldn't catch it", "80 fell over", "80 forward", "80 tried", "80 nope", "80 :("),
        *("80x2 1 of 2", "3x1@80 1 miss", "80 missx2 then made", "60x2, 80*", "~80~", "~~80x1~~"),
    ],
)
def test_what_may_tell_of_a_miss_without_the_word_is_never_made(text: str) -> None:
    got = entry(text, Use())
    assert isinstance(got, Unclear)
    assert got.miss
