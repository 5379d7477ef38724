"""Words behind a set that name no miss: what is harmless stays made, what may tell of one is no make."""

import pytest

from reportgen.intake.shorthand import entry
from reportgen.intake.tokens import Unclear, Use

OPEN = (
    *(
        "70xmiss",
        "70ML",
        "70 (ML)",
        "70RL",
        "70redlight",
        "70 3red",
        "70PO",
        "70FFM",
        "70 (fwd)",
        "70 (soft)",
    ),
    *("70 (touched)", "70 jerk only", "70 clean x jerk x", "70 up but pressed", "70 sat on my butt"),
    *(
        "70 walked it out front",
        "70notquite",
        "70bomb",
        "70 ↓",
        "66x1 💥",
        "70 🤷",
        "70 °",
        "70 \\",
        "70 x2 tries",
        "70x1ML",
    ),
    *("70pull", "70 (pull)", "70 high pull", "70power", "70 (power)", "70 jerk", "70 powered"),
    *("70 caught but lost", "60x2, caught but lost", "60x1, 70 (felt good, no idea what it was)"),
    *(
        "70 felt good but it was only a pull",
        "70 a bit soft in the left elbow",
        "70 zu weit vorne",
        "70 hochzug",
    ),
)
HARMLESS = (
    *("70 felt good", "70 nice and fast", "70 easy", "70 easy after the break", "70x2 belt", "70 pr!!"),
    *("70x2 2nd set easy", "70x2 (80%)", "70x2 rest 90sec", "85x2easy", "70x2 (felt good)", "70x2, straps"),
    *("70x2, no belt", "70 @8 solid", "70 très bien", "70 sehr gut", "70 muy bien", "70 bardzo dobrze"),
    *("70 очень легко", "70x2 (video)", "70x2 good pull", "70kg PB", "70x2 last set", "70 (opener)", "46 🔥"),
    *("70x2 not bad", "70x3 slow pull", "70!", "46 x 3 ✓ smooth", "70x2 knee sore", "70x2 fast elbows"),
    *("70x2 the coach was there and it rained all day", "70x2 (belt on)", "70x2 feeling tired today"),
)


@pytest.mark.parametrize("text", OPEN)
def test_a_tail_that_may_tell_of_a_miss_is_never_made(text: str) -> None:
    got = entry(text, Use())
    assert isinstance(got, Unclear)
    assert got.miss


@pytest.mark.parametrize("text", HARMLESS)
def test_a_harmless_tail_leaves_its_set_made(text: str) -> None:
    got = entry(text, Use())
    assert not isinstance(got, Unclear), got
    assert all(one.made is None for one in got)
