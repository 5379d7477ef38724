"""A fixed share of the fuzzing: the same inputs every time, tests/bench/fuzz.py runs for long."""

from typing import Final

import pytest

from tests.bench import fuzz
from tests.searches import far

#: Inputs a target; the whole way costs most.
FEW: Final = {"facts": far(4, 8), "page": far(1, 3)}
USUAL: Final = far(20, 40)


@pytest.mark.parametrize("name", fuzz.TARGETS)
def test_changed_files_give_problems_or_facts_and_lose_no_row(name: str) -> None:
    inputs = FEW.get(name, USUAL)
    assert fuzz.plain(name, inputs=inputs, seed=11) == inputs


def test_the_fuzzer_finds_a_reader_that_loses_a_row(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fuzz, "lines_of", lambda _: 7)
    with pytest.raises(fuzz.Finding, match="7 rows in the file"):
        fuzz.plain("bodymass.csv", inputs=3)


def test_the_fuzzer_finds_infinity_and_counts_below_zero() -> None:
    for bad in ({"kg": float("inf")}, {"sessions": -1}, {"a": ({"current_kg": -0.5},)}):
        with pytest.raises(fuzz.Finding):
            fuzz.sound(bad)
    fuzz.sound({"gain_kg": -2.5, "change": -1, "sessions": 0, "rate": None})
